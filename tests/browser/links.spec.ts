import { expect, type Page } from '@playwright/test';
import AxeBuilder from '@axe-core/playwright';
import { deflateRawSync } from 'node:zlib';
import { readFile } from 'node:fs/promises';
import { SettingOutPage, test } from './driver.ts';

const BEND = {
  family: 'bend',
  section: { width: 200, height: 200 },
  params: { turn: 80, heel: 'right' }
};
const makeJob = (rest: object): object => ({ format: 'gorewright-job', version: 1, ...rest });
const CELLAR = makeJob({ name: 'Cellar', fittings: [BEND, { ...BEND, tag: 'riser', quantity: 3 }] });

const pack = (document: object | string): string =>
  `#job=1${deflateRawSync(typeof document === 'string' ? document : JSON.stringify(document)).toString('base64url')}`;

/** Another fragment in the address of the page that is open, as if it had been pasted there. */
const goTo = (page: Page, fragment: string): Promise<void> =>
  page.evaluate((to) => void (location.hash = to), fragment);

test('a link says what it holds and opens only when asked; undo brings the other job back', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await page.goto(`./${pack(CELLAR)}`);
  const dialog = page.getByRole('dialog', { name: 'This link holds a job' });
  await expect(dialog).toContainText('Cellar · 2 fittings');
  await expect(dialog.getByRole('listitem')).toHaveText([
    'F1 bend · 200 × 200 mm',
    'riser bend · 200 × 200 mm · 3 off'
  ]);
  await expect(dialog).toContainText('take the place of Village library, reading room supply');
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  // It is taken from the address, and not asked for again once it was left.
  expect(new URL(page.url()).hash).toBe('');
  const [arriving] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save the open job as a file' }).click()
  ]);
  expect(JSON.parse(await readFile(await arriving.path(), 'utf8'))).toEqual(await sheet.readSaved());
  await dialog.getByRole('button', { name: 'Leave it' }).click();
  await expect(dialog).toHaveCount(0);
  await expect(sheet.field('Name of the job')).toHaveValue('Village library, reading room supply');
  await expect(sheet.button('Undo')).toBeDisabled();

  // The page is open already.
  await goTo(page, pack(CELLAR));
  await dialog.getByRole('button', { name: 'Open it' }).click();
  await expect(sheet.field('Name of the job')).toHaveValue('Cellar');
  expect(await sheet.listTags()).toEqual(['F1', 'riser']);
  expect(await sheet.readSaved()).toEqual(CELLAR);
  await sheet.button('Undo').click();
  await expect(sheet.field('Name of the job')).toHaveValue('Village library, reading room supply');
});

test('what is copied opens elsewhere as the same fitting, with its board and units', async ({
  page,
  context
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseUnits('inches, sixteenths');
  await sheet.chooseFitting('F2');
  await sheet.askJob('Copy link to this fitting');
  const dialog = page.getByRole('dialog', { name: 'Link to F2' });
  await expect(dialog.getByRole('status')).toHaveText('Copied.');
  const link = await page.evaluate(() => navigator.clipboard.readText());
  expect(link).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/#job=1[\w-]+$/);
  await expect(dialog.getByRole('textbox')).toHaveValue(link);
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  const said = (await sheet.readSaved()).fittings![1];

  const other = await context.newPage();
  const there = new SettingOutPage(other);
  await other.goto(link);
  await other.getByRole('button', { name: 'Open it' }).click();
  await expect.poll(() => there.listTags()).toEqual(['F2']);
  expect(await there.readSaved()).toMatchObject({
    show: { length: 'in/16' },
    fittings: [{ ...said, tag: 'F2' }]
  });
});

test('where the clipboard is refused the link stands selected in a field; one that is too long is a file', async ({
  page
}) => {
  await page.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'clipboard'));
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.askJob('Copy link to this job');
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByRole('status')).toContainText('copy it from the field');
  const field = dialog.getByRole('textbox');
  expect(await page.evaluate(() => getSelection()?.toString())).toBe(await field.inputValue());
  await sheet.escape();
  await expect(dialog).toHaveCount(0);

  let state = 1;
  const fittings = Array.from({ length: 800 }, () => ({
    ...BEND,
    params: { ...BEND.params, turn: 60 + (state = (state * 16807) % 2147483647) / 1e8 }
  }));
  await sheet.openFile('long.json', JSON.stringify(makeJob({ name: 'Long', fittings })));
  await sheet.askJob('Copy link to this job');
  await expect(dialog.getByRole('alert')).toContainText(/would be \d+ characters long: more than 8000/);
  const [arriving] = await Promise.all([
    page.waitForEvent('download'),
    dialog.getByRole('button', { name: 'Save as a file' }).click()
  ]);
  expect(arriving.suggestedFilename()).toBe('Long.gorewright.json');
});

test('links that were tampered with are refused in words; nothing of them runs, the open job stays', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Turn').fill('60');
  await sheet.field('Turn').press('Enter');
  const alert = page.getByRole('alert');
  const script = '<script>window.ran=true</script><img src=x onerror="window.ran=true">';
  for (const [fragment, why] of [
    [pack(CELLAR).slice(0, -9), 'part of it is missing or was changed on the way'],
    [`#job=9${pack(CELLAR).slice(6)}`, 'made by a newer Gorewright'],
    [pack('x'.repeat(5_000_000)), 'holds more than any link'],
    [`#job=1${'A'.repeat(9000)}`, 'longer than any link'],
    [pack(`{"format":"gorewright-job","version":1,"__proto__":{"a":1}}`), '__proto__ is not a known field'],
    [pack(makeJob({ fittings: [{ ...BEND, family: script }] })), 'fittings[0].family is "<script>'],
    [pack(makeJob({ fittings: [{ ...BEND, section: { width: 1e300, height: 200 } }] })), 'at most 5000'],
    [pack(`{${'"k":{'.repeat(40_000)}`), 'is not JSON']
  ] as const) {
    await goTo(page, fragment);
    await expect(alert).toContainText(why);
    await expect(alert).toContainText('The link cannot be opened');
    await expect(alert).toContainText('The open job is left as it is');
    await alert.getByRole('button', { name: 'Close' }).click();
    await expect(page.getByRole('dialog')).toHaveCount(0);
    await expect(sheet.field('Turn')).toHaveValue('60');
  }
  // Names are text wherever they stand.
  await goTo(
    page,
    pack(makeJob({ name: script.repeat(50), fittings: [{ ...BEND, tag: `\u202E${script}` }] }))
  );
  await expect(page.getByRole('dialog')).toContainText('<script>window.ran=true</script>');
  await expect(page.getByRole('button', { name: 'Open it' })).toBeInViewport();
  await page.getByRole('button', { name: 'Open it' }).click();
  await expect(sheet.field('Name of the job')).toHaveValue(script.repeat(50));
  expect(await page.evaluate(() => 'ran' in window)).toBe(false);
  await sheet.button('Undo').click();
  await expect(sheet.field('Turn')).toHaveValue('60');
});

test('a file larger than any job is refused before it is read', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.openFile('large.json', ' '.repeat(2 * 1024 * 1024 + 1));
  await expect(page.getByRole('alert')).toContainText('large.json cannot be opened: it is larger than 2 MB');
});

for (const size of [
  { width: 1024, height: 768 },
  { width: 390, height: 844 }
]) {
  test.describe(`by touch, ${size.width} by ${size.height}`, () => {
    test.use({ viewport: size, hasTouch: true, isMobile: true });

    test('what a link holds is read and answered without scrolling, buttons 44 px high', async ({ page }) => {
      const fittings = Array.from({ length: 40 }, () => BEND);
      await page.goto(`./${pack(makeJob({ name: 'Long list', fittings }))}`);
      const dialog = page.getByRole('dialog');
      await expect(dialog).toContainText('and 28 more');
      for (const button of await dialog.getByRole('button').all()) {
        await expect(button).toBeInViewport({ ratio: 1 });
        expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(44);
      }
      expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
      await dialog.getByRole('button', { name: 'Open it' }).tap();
      await expect(new SettingOutPage(page).field('Name of the job')).toHaveValue('Long list');
    });
  });
}
