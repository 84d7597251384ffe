import { expect, test } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { measure, readPdf, type ReadPage } from '../pdf.ts';
import { SettingOutPage } from './driver.ts';

test('an offset follows its handles of rise, roll and turn, each where the view shows it', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseFitting('F2');
  const view = sheet.view('Drawing').getByRole('combobox');
  // By their ids: 'Turn' is in the names of other fields as well.
  const read = async (param: string): Promise<number> =>
    Number(await page.locator(`#param-${param}`).inputValue());

  await view.selectOption('elevation');
  await expect(sheet.handle('roll')).toHaveCount(0);
  await sheet.pull('rise', { x: 0, y: -30 });
  await sheet.release();
  expect(await read('rise')).toBeGreaterThan(220);
  expect(await read('roll')).toBe(140);

  await view.selectOption('plan');
  await expect(sheet.handle('rise')).toHaveCount(0);
  await sheet.pull('roll', { x: 0, y: 30 });
  await sheet.release();
  expect(await read('roll')).toBeGreaterThan(140);

  await view.selectOption('true');
  await sheet.pull('turn', { x: 25, y: 0 });
  await sheet.release();
  expect(await read('turn')).toBeLessThan(45);

  for (let i = 0; i < 3; i++) await sheet.button('Undo').click();
  expect([await read('rise'), await read('roll'), await read('turn')]).toEqual([220, 140, 45]);
});

test('a detour follows the handle of its level piece and of its drop', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseFitting('F3');
  await sheet.pull('level', { x: 40, y: 0 });
  await sheet.release();
  expect(Number(await sheet.field('Level').inputValue())).toBeGreaterThan(150);
  await sheet.pull('rise', { x: 0, y: 30 });
  await sheet.release();
  expect(Number(await sheet.field('Rise').inputValue())).toBeLessThan(-300);
});

test('a joint of a free path is turned round the duct in the end view', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseFitting('F4');
  await sheet.view('Drawing').getByRole('combobox').selectOption('end');
  const before = Number(await sheet.field('Heel 1').inputValue());
  await sheet.pull('joints[0].heel', { x: 40, y: 20 });
  await sheet.release();
  expect(Number(await sheet.field('Heel 1').inputValue())).toBeGreaterThan(before);
});

test('a long duct is divided over straights, each with marks of its own', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseFitting('F4');
  await sheet.field('Leg 2').fill('3500');
  await page.keyboard.press('Enter');
  const marks = sheet.view('Marks');
  await expect(marks).toContainText('F4-A');
  const straights = marks.getByRole('combobox', { name: 'straight' });
  await straights.selectOption({ label: 'F4-B' });
  await marks.getByRole('button', { name: 'table' }).click();
  await expect(marks).toContainText('P2b');
  await expect(page.getByRole('complementary')).toContainText('do not go into each other');
});

test('the gauges and the card model of a detour come out at the size they say', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseFitting('F3');
  await sheet.button('Print and export').click();
  const download = async (name: string): Promise<ReadPage[]> => {
    const [arriving] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name }).click()
    ]);
    return readPdf(new Uint8Array(await readFile(await arriving.path())));
  };

  const gauges = await download('Gauges');
  const angles = gauges.flatMap(({ lines }) =>
    lines
      .filter((line) => line.width > 0.4 && measure(line) >= 80)
      .map(
        ({ from, to }) => (Math.atan2(Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])) * 180) / Math.PI
      )
  );
  expect(angles.some((angle) => Math.abs(angle - 22.5) < 0.05)).toBe(true);

  // The detour is 1574.214 mm of straight and 1100 mm round, too long for A4 at 1:5, so 1:10.
  const [card] = await download('Card model');
  expect(card!.texts.map(({ text }) => text)).toContain('Scale 1:10');
  const wide = card!.lines.filter(({ width }) => width > 0.4);
  const across = wide.flatMap(({ from, to }) => [from[0], to[0]]);
  expect(Math.abs(Math.max(...across) - Math.min(...across) - 157.4214)).toBeLessThan(0.2);
  // C1 on the top face: square at 287.843 mm from the datum end, so 28.784 mm from the left edge.
  const left = Math.min(...across);
  expect(across.some((x) => Math.abs(x - left - 28.7843) < 0.2)).toBe(true);
});
