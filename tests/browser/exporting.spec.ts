import { expect, type Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { measure, readPdf } from '../pdf.ts';
import { SettingOutPage, test } from './driver.ts';
import { makeLargeBend } from './large-bend.ts';

/** A bend whose templates take hundreds of pages of A4. */
const HUGE = makeLargeBend(3000, 2000, 9, 30_000);
const TEMPLATES = 'Templates 1:1 in strips (PDF)';

async function openExports(page: Page, job: object): Promise<SettingOutPage> {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.openFile('job.json', JSON.stringify(job));
  await sheet.button('Print and export').click();
  await expect(sheet.button(TEMPLATES)).toBeVisible();
  return sheet;
}

async function save(page: Page, sheet: SettingOutPage): Promise<Buffer> {
  const [arriving] = await Promise.all([page.waitForEvent('download'), sheet.button(TEMPLATES).click()]);
  return readFile(await arriving.path());
}

for (const [who, hasWorker] of [
  ['a worker', true],
  ['the page itself, where there is no worker,', false]
] as const) {
  test(`templates that ${who} writes tell how far they are, and once cancelled nothing is saved`, async ({
    page
  }) => {
    if (!hasWorker) await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
    const sheet = await openExports(page, HUGE);
    let saved = 0;
    page.on('download', () => saved++);
    await sheet.button(TEMPLATES).click();
    const status = page.getByText(/page \d+ of \d+/);
    await expect(status).toBeVisible();
    // Others wait until it is done.
    await expect(sheet.button('Mark-out (PDF)')).toBeDisabled();
    await sheet.button('Cancel').click();
    await expect(page.getByText('Cancelled, nothing was saved.')).toBeVisible();
    await expect(status).toHaveCount(0);
    await expect(sheet.button('Mark-out (PDF)')).toBeEnabled();
    // The next one is written as if nothing had been.
    const [arriving] = await Promise.all([
      page.waitForEvent('download'),
      sheet.button('Mark table (CSV)').click()
    ]);
    expect(arriving.suggestedFilename()).toMatch(/mark-table\.csv$/);
    expect(saved).toBe(1);
  });
}

test('a worker and the page itself write the same bytes', async ({ page, browser }) => {
  const small = makeLargeBend(400, 250, 9, 30_000);
  const byWorker = await save(page, await openExports(page, small));
  const other = await browser.newPage();
  await other.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
  const byPage = await save(other, await openExports(other, small));
  expect(byWorker.equals(byPage)).toBe(true);
  expect(byWorker.length).toBeGreaterThan(10_000);
  await other.close();
});

test('a set says what changed since the one that was written under another revision', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.button('Print and export').click();
  await page.getByText('Title block').click();
  const write = async (revision: string): Promise<string> => {
    await sheet.field('Revision').fill(revision);
    await page.keyboard.press('Enter');
    const [arriving] = await Promise.all([
      page.waitForEvent('download'),
      sheet.button('Set of all fittings (PDF)').click()
    ]);
    const pages = await readPdf(new Uint8Array(await readFile(await arriving.path())));
    return pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
  };
  expect(await write('A')).not.toContain('revision A:');
  await sheet.field('Throat at inlet').fill('260');
  await page.keyboard.press('Enter');
  const told = await write('B');
  expect(told).toMatch(/Throat at inlet.{0,40}200.{0,20}260/);
  // Written once more it still says what changed since the other revision.
  expect(await write('B')).toBe(told);
});

test('what the check bar measures scales the templates, is kept, and beyond 3 % is refused', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.button('Print and export').click();
  await page.getByText('Printer check').click();
  const bar = sheet.field('The bar of 100 mm measures');
  await bar.fill('96.5');
  await page.keyboard.press('Enter');
  await expect(page.getByText('That is off by -3.5 %')).toBeVisible();
  await bar.fill('98');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Templates are scaled to 102.0 %.')).toBeVisible();
  const [arriving] = await Promise.all([page.waitForEvent('download'), sheet.button(TEMPLATES).click()]);
  const [first] = await readPdf(new Uint8Array(await readFile(await arriving.path())));
  expect(first!.lines.some((line) => Math.abs(measure(line) - (100 * 100) / 98) < 0.1)).toBe(true);
  await sheet.reload();
  await sheet.button('Print and export').click();
  await expect(page.getByText('Templates are scaled to 102.0 %.')).toBeVisible();
});

for (const [width, height] of [
  [1440, 900],
  [390, 844]
] as const) {
  test(`the panel fits its column on a screen of ${width} × ${height}`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    const sheet = new SettingOutPage(page);
    await sheet.open();
    await page.getByRole('button', { name: /^Print/ }).click();
    const panel = page.getByRole('complementary', { name: 'Print and export' });
    for (const folded of ['Printer check', 'Title block']) await panel.getByText(folded).click();
    await expect(panel.getByRole('textbox', { name: 'Owner' })).toBeVisible();
    expect(await panel.evaluate((aside) => aside.scrollWidth - aside.clientWidth)).toBe(0);
    expect(await sheet.measureOverflow()).toBe(0);
  });
}
