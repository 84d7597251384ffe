import AxeBuilder from '@axe-core/playwright';
import { chromium, expect, test, type Page } from '@playwright/test';
import { createHash } from 'node:crypto';
import { cp, mkdir, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findBrowser } from './browser.mjs';
import { SettingOutPage } from './driver.ts';
import { dragThroat, useEverything } from './everything.ts';
import { hostStatically, type StaticHost } from './static-host.ts';

const READY = 'Ready without network';
const NEW_VERSION = 'A new version is there.';
const LOAD = 'Save and load it';

test.use({ serviceWorkers: 'allow' });

/** Serves the built site, until it is stopped or given another version. */
let host: StaticHost;
test.beforeEach(async () => {
  host = await hostStatically('build');
});
test.afterEach(() => host.stop());

async function open(page: Page): Promise<SettingOutPage> {
  await page.goto(host.url);
  await expect(page.locator('[data-handle]').first()).toBeVisible();
  return new SettingOutPage(page);
}

async function carry(page: Page, sheet: SettingOutPage): Promise<void> {
  await sheet.button('Job').click();
  await sheet.button('Carry this job').click();
  await expect(page.getByText(READY)).toBeVisible({ timeout: 30_000 });
  // What was tapped is gone, and the menu can still be left by a key.
  await sheet.escape();
  await expect(page.getByText(READY)).toHaveCount(0);
}

/** What the page has used and a visit without the server would lack; runs in the page. */
async function findUnkept(): Promise<string[]> {
  const used = performance.getEntriesByType('resource').filter(({ name }) => name.includes('/_app/'));
  const kept = await Promise.all(used.map(({ name }) => caches.match(name)));
  return used.map(({ name }) => name).filter((_, index) => !kept[index]);
}

/** Whether what the page runs is the version that was built, or the one after it. */
async function readVersion(page: Page): Promise<'built' | 'next'> {
  const script = await page.locator('link[rel=modulepreload]').first().getAttribute('href');
  return script!.includes('/next/') ? 'next' : 'built';
}

/** A copy of the built site as a later build is: no script has the address that it had. */
async function buildNext(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'gorewright-next-'));
  await cp('build', folder, { recursive: true });
  const parts = join(folder, '_app/immutable');
  await rename(parts, join(folder, 'next'));
  await mkdir(parts);
  await rename(join(folder, 'next'), join(parts, 'next'));
  for (const name of await readdir(folder, { recursive: true })) {
    if (!/\.(js|css|html)$/.test(name)) continue;
    const path = join(folder, name);
    let text = (await readFile(path, 'utf8')).replace(/_app\/immutable\/(?=\w)/g, '$&next/');
    if (name === 'service-worker.js') {
      const { version } = JSON.parse(await readFile('build/_app/version.json', 'utf8')) as {
        version: string;
      };
      expect(text.split(version).length).toBe(2);
      text = text.replace(version, String(Number(version) + 1));
    }
    if (name === 'index.html') {
      const script = /<script>([^]*?)<\/script>/.exec(text)![1]!;
      const hash = createHash('sha256').update(script).digest('base64');
      text = text.replace(/'sha256-[^']+'/, `'sha256-${hash}'`);
    }
    await writeFile(path, text);
  }
  return folder;
}

test('a job is carried with one tap, and worked on while nothing answers: handle, preview, exports, site, example', async ({
  page
}) => {
  test.setTimeout(180_000);
  const sheet = await open(page);
  await sheet.button('Job').click();
  await sheet.button('Carry this job').click();
  await expect(page.getByText(READY)).toBeVisible({ timeout: 30_000 });
  await expect(sheet.button('Carry this job')).toHaveCount(0);
  await host.stop();
  await expect(fetch(host.url)).rejects.toThrow();

  await sheet.reload();
  await sheet.button('Job').click();
  await expect(page.getByText(READY)).toBeVisible();
  await sheet.escape();
  const throat = await dragThroat(sheet);
  await sheet.expectSaved();
  await page.goto(`${host.url}index.html?from=afar#x`);
  await expect(sheet.field('Throat at inlet')).toHaveValue(String(throat));
  await useEverything(page, sheet);
  expect(host.missing).toEqual([]);
});

test('the page opens again as it was used; what is not carried is said: no network, no room', async ({
  page
}) => {
  const sheet = await open(page);
  await expect(sheet.view('Preview').locator('[data-drawn]')).toBeVisible();
  await expect.poll(() => page.evaluate(findUnkept)).toEqual([]);
  await host.stop();
  await sheet.reload();
  await expect(sheet.view('Preview').locator('[data-drawn]')).toBeVisible();
  await dragThroat(sheet);
  await sheet.button('Site').click();
  await expect(page.getByRole('alert')).toContainText('could not be fetched');
  await sheet.button('Site').click();
  await sheet.button('Job').click();
  await sheet.button('Carry this job').click();
  await expect(page.getByRole('alert')).toContainText('There is no connection.');
  await expect(page.getByText(READY)).toHaveCount(0);

  await host.start();
  const browser = await page.context().newCDPSession(page);
  const origin = new URL(host.url).origin;
  await browser.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_500_000 });
  await sheet.button('Carry this job').click();
  await expect(page.getByRole('alert')).toContainText('no room left');

  await browser.send('Storage.overrideQuotaForOrigin', { origin });
  await sheet.button('Carry this job').click();
  await expect(page.getByText(READY)).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('alert')).toHaveCount(0);
});

test('where the browser keeps no page, the menu says so in the place of the button', async () => {
  const options = await findBrowser();
  // By a name that is not the machine's own, http is no safe place.
  const args = [...options.args, '--host-resolver-rules=MAP duct.test 127.0.0.1'];
  const browser = await chromium.launch({ ...options, args });
  const page = await browser.newPage();
  await page.goto(host.url.replace('127.0.0.1', 'duct.test'));
  await page.getByRole('button', { name: 'Job', exact: true }).click();
  await expect(page.getByText('Only with a network here')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Carry this job' })).toHaveCount(0);
  await browser.close();
});

test('a new version leaves open drawings their code; once it is asked for, the job is there as it was left', async ({
  page,
  context
}) => {
  const sheet = await open(page);
  await carry(page, sheet);
  const other = await context.newPage();
  const otherSheet = await open(other);
  const next = await buildNext();
  host.folder = next;

  // Coming back to a page is when it looks.
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  await expect(page.getByText(NEW_VERSION)).toBeVisible();
  expect(await readVersion(page)).toBe('built');
  await sheet.reload();
  await expect(page.getByText(NEW_VERSION)).toBeVisible();
  expect(await readVersion(page)).toBe('built');
  await sheet.button('Job').click();
  await expect(page.getByText(READY)).toBeVisible();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  await sheet.escape();
  await sheet.button('Print and export').click();
  await expect(sheet.button('Mark-out (PDF)')).toBeVisible();
  await sheet.button('Print and export').click();

  const throat = await dragThroat(sheet);
  // Before the page has saved it by itself.
  await Promise.all([page.waitForEvent('load'), sheet.button(LOAD).click()]);
  await expect(sheet.field('Throat at inlet')).toHaveValue(String(throat));
  expect(await readVersion(page)).toBe('next');
  await expect(page.getByText(NEW_VERSION)).toHaveCount(0);

  // The other page goes on with its own parts, which the server no longer has.
  expect(await readVersion(other)).toBe('built');
  await expect(other.getByText(NEW_VERSION)).toBeVisible();
  await otherSheet.button('Site').click();
  await expect(other.getByRole('complementary', { name: 'Site' })).toContainText('No site yet');
  await other.close();

  // What was carried is carried in the new version too.
  await host.stop();
  await sheet.reload();
  expect(await readVersion(page)).toBe('next');
  await sheet.button('Job').click();
  await expect(page.getByText(READY)).toBeVisible();
  await rm(next, { recursive: true });
});

test('a new version that is not asked for takes over once every page is closed, with the job', async ({
  page,
  context
}) => {
  const sheet = await open(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  const throat = await dragThroat(sheet);
  await sheet.expectSaved();
  const next = await buildNext();
  host.folder = next;
  await sheet.reload();
  await expect(page.getByText(NEW_VERSION)).toBeVisible();
  expect(await readVersion(page)).toBe('built');
  await page.close();

  const later = await context.newPage();
  const laterSheet = await open(later);
  expect(await readVersion(later)).toBe('next');
  await expect(laterSheet.field('Throat at inlet')).toHaveValue(String(throat));
  await expect(later.getByText(NEW_VERSION)).toHaveCount(0);
  await rm(next, { recursive: true });
});

test('a new version is not loaded where the job that is open would be lost', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(globalThis, 'indexedDB', { value: undefined });
  });
  const sheet = await open(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  const next = await buildNext();
  host.folder = next;
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  const throat = await dragThroat(sheet);
  await sheet.button(LOAD).click();
  await expect(page.getByText('the browser does not keep the job')).toBeVisible();
  await expect(sheet.field('Throat at inlet')).toHaveValue(String(throat));
  expect(await readVersion(page)).toBe('built');
  await rm(next, { recursive: true });
});
