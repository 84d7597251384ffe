import { expect } from '@playwright/test';
import { readFileSync } from 'node:fs';
import type { Job } from '../../src/lib/kernel/document/job.ts';
import { SettingOutPage, test } from './driver.ts';

const FILE = 'library-loft.json';
const TEXT = readFileSync(new URL(`../../static/examples/${FILE}`, import.meta.url), 'utf8');
const JOB = JSON.parse(TEXT) as Job;

/** Pulls in several directions of the screen, px. */
const PULLS = [
  { x: 34, y: 26 },
  { x: -34, y: -26 },
  { x: 26, y: -34 },
  { x: -26, y: 34 }
];

/** Mitered paths have stories of their own. */
const PATHS = ['straight', 'bend', 'offset', 'double-offset', 'path'];

for (const { tag, family } of JOB.fittings!.filter((one) => !PATHS.includes(one.family))) {
  test(`${tag}, a ${family}, follows every one of its handles, and undo takes each back`, async ({
    page
  }) => {
    test.slow();
    const sheet = new SettingOutPage(page);
    await sheet.open();
    await sheet.openFile(FILE, TEXT);
    await sheet.chooseFitting(tag!);
    const view = sheet.view('Drawing').getByRole('combobox');
    const pulled = new Set<string>();
    for (const way of ['true', 'elevation', 'plan', 'end']) {
      await view.selectOption(way);
      const ids = await page
        .locator('[data-handle]')
        .evaluateAll((handles) => handles.map((handle) => handle.getAttribute('data-handle')!));
      for (const id of ids.filter((one) => !pulled.has(one))) {
        const value = async (): Promise<string | null> => sheet.handle(id).getAttribute('aria-valuenow');
        const before = await value();
        // A handle at its limit gives way to one side only, and one that moves square to the pull not at all.
        for (const by of PULLS) {
          await sheet.pull(id, by);
          const during = await value();
          await sheet.release();
          if (during === before) continue;
          pulled.add(id);
          await sheet.button('Undo').click();
          await expect(sheet.handle(id)).toHaveAttribute('aria-valuenow', before!);
          break;
        }
        expect([id, pulled.has(id)]).toEqual([id, true]);
      }
    }
    expect(pulled.size).toBeGreaterThan(0);
  });
}

test('a branch pulled off its wall is refused with the place that would do, and taking it mends it', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.openFile(FILE, TEXT);
  await sheet.chooseFitting('L4');
  const station = page.locator('#param-station');
  await station.fill('60');
  await page.keyboard.press('Enter');
  const column = page.getByRole('complementary');
  await expect(column).toContainText('runs off the end');
  await column
    .getByRole('button', { name: /^Use \d+ mm$/ })
    .first()
    .click();
  await expect(column).not.toContainText('runs off the end');
  expect(Number(await station.inputValue())).toBeGreaterThan(150);
  await expect(sheet.view('Marks')).toContainText('L4-B');
});

test('the panels of a reducer are beside its straights, each told by its name', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.openFile(FILE, TEXT);
  await sheet.chooseFitting('L2');
  const marks = sheet.view('Marks');
  await marks.getByRole('combobox').first().selectOption({ label: 'Panels' });
  await marks.getByRole('button', { name: 'table' }).click();
  for (const name of ['W1', 'W2', 'W3', 'W4']) await expect(marks).toContainText(name);
  // Walls that close in by 50 over 400 on three sides: 45° − ½·asin(sin²δ), tan δ = 1/8.
  await expect(marks).toContainText('44.6°');
});
