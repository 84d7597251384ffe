import { expect, type Page } from '@playwright/test';
import AxeBuilder from '@axe-core/playwright';
import { SettingOutPage, test } from './driver.ts';

test('dragging the turn of a bend changes the miter in all four views at once', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.view('Preview').locator('[data-miters="22.5,22.5"]')).toBeVisible();
  expect(await sheet.readMiters()).toEqual({
    Drawing: '22.5°',
    Marks: '22.5°',
    Assembly: '22.5°',
    Preview: '22.5°'
  });

  await sheet.pull('turn', { x: 90, y: 40 });
  const turn = Number(await sheet.field('Turn').inputValue());
  expect(turn).toBeLessThan(85);
  expect(turn).toBeGreaterThan(30);
  const miter = `${Number((turn / 4).toFixed(1))}°`;
  expect(await sheet.readMiters()).toEqual({ Drawing: miter, Marks: miter, Assembly: miter, Preview: miter });
  await expect(sheet.view('Drawing').locator('output')).toContainText(`Turn ${turn}°`);

  await sheet.release();
  await expect(sheet.view('Preview').locator(`[data-miters="${turn / 4},${turn / 4}"]`)).toBeVisible();
  await expect(sheet.view('Assembly').locator('li', { hasText: 'Cut C1 on the top face' })).toContainText(
    `line ${miter}`
  );
  await sheet.view('Marks').getByRole('button', { name: 'table' }).click();
  await expect(sheet.view('Marks').getByRole('row').nth(1)).toContainText(miter);
});

test('a drag is one entry of the history, Escape in mid-drag leaves none', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.button('Undo')).toBeDisabled();

  await sheet.pull('turn', { x: 90, y: 40 });
  await expect(sheet.field('Turn')).not.toHaveValue('90');
  await sheet.escape();
  await expect(sheet.field('Turn')).toHaveValue('90');
  await sheet.release();
  await expect(sheet.button('Undo')).toBeDisabled();

  await sheet.pull('throatIn', { x: 60, y: 0 });
  await sheet.release();
  const throat = await sheet.field('Throat at inlet').inputValue();
  expect(Number(throat)).toBeGreaterThan(200);
  await sheet.button('Undo').click();
  await expect(sheet.field('Throat at inlet')).toHaveValue('200');
  await expect(sheet.button('Undo')).toBeDisabled();
  await page.keyboard.press('Control+y');
  await expect(sheet.field('Throat at inlet')).toHaveValue(throat);
});

test('pieces, throats and the gore follow their handles, and the fields follow the handles', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.pull('pieces', { x: 40, y: 40 });
  await sheet.release();
  const pieces = Number(await sheet.field('Pieces').inputValue());
  expect(pieces).toBeGreaterThan(3);
  await expect(sheet.view('Preview').locator(`[data-pieces="${pieces}"]`)).toBeVisible();

  await sheet.pull('gore', { x: 30, y: -10 });
  await sheet.release();
  expect(Number(await sheet.field('Gore').inputValue())).toBeGreaterThan(150);
  await sheet.pull('throatOut', { x: 0, y: -25 });
  await sheet.release();
  expect(Number(await sheet.field('Throat at outlet').inputValue())).toBeGreaterThan(200);
});

test('a gore more and undo, by the keyboard alone', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Pieces').focus();
  await page.keyboard.press('ArrowUp');
  await expect(sheet.field('Pieces')).toHaveValue('4');
  await expect(sheet.view('Drawing')).toContainText('miter 15°');
  await sheet.handle('turn').focus();
  await page.keyboard.press('Shift+ArrowDown');
  await expect(sheet.field('Turn')).toHaveValue('85');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(sheet.field('Pieces')).toHaveValue('3');
  await expect(sheet.field('Turn')).toHaveValue('90');
});

test('a finding stands under the field that caused it and its button mends it', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Gore').fill('120');
  await page.keyboard.press('Enter');
  const row = page.locator('[data-param=gore]');
  await expect(row).toContainText('the shop wants 150 mm between two cuts');
  await row.getByText('Rule').click();
  await expect(row).toContainText('common practice, no source');
  await row.getByRole('button', { name: 'Use 150 mm' }).click();
  await expect(sheet.field('Gore')).toHaveValue('150');
  await expect(row).not.toContainText('shop wants');
});

test('what cannot be built keeps the last shape, greyed, and says what would do', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Gore').fill('0');
  await page.keyboard.press('Enter');
  await expect(page.locator('[data-param=gore]')).toContainText('Cannot be built');
  await expect(sheet.view('Drawing')).toContainText('last shape that can be built');
  await expect(sheet.view('Drawing').locator('.stale')).toBeVisible();
  await page.locator('[data-param=gore]').getByRole('button', { name: 'Use 150 mm' }).click();
  await expect(sheet.view('Drawing').locator('.stale')).toHaveCount(0);
});

test('a field refuses what no document may say, and says what it wants', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Turn').fill('200');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert')).toContainText('at most 180');
  await sheet.field('Turn').fill('ninety');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert')).toContainText('not an angle');
  await page.keyboard.press('Escape');
  await expect(sheet.field('Turn')).toHaveValue('90');
});

test('the job is found again after a reload', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Turn').fill('72.5');
  await page.keyboard.press('Enter');
  await sheet.expectSaved();
  await sheet.reload();
  await expect(sheet.field('Turn')).toHaveValue('72.5');
});

test('a job in the browser that cannot be read is told and kept until the user starts over', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.expectSaved();
  await writeStored(page, '{ "format": "gorewright-job", "version": 1, "fittings": 7 }');
  await sheet.reload();
  await expect(page.getByRole('alert')).toContainText('fittings is 7, expected a list');
  await sheet.field('Turn').fill('70');
  await page.keyboard.press('Enter');
  await page.waitForTimeout(600);
  expect(await readStored(page)).toContain('"fittings": 7');
  await sheet.button('Start over with the example job').click();
  await sheet.expectSaved();
  await expect.poll(() => readStored(page)).toContain('"turn":70');
});

test('pointing at a cut in one view shows it in the others; a step moves them', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.view('Marks').getByRole('button', { name: 'table' }).click();
  await sheet.view('Marks').getByRole('row').nth(5).hover();
  await expect(sheet.view('Assembly').locator('li.pointed').first()).toContainText('C2');

  const flip = sheet.view('Assembly').locator('li[data-kind=flip]');
  await flip.getByRole('button').click();
  await expect(flip).toHaveClass(/chosen/);
  await expect(sheet.view('Assembly')).toContainText(/step \d+ of \d+/);
  await sheet.button('Next step').click();
  await expect(sheet.view('Assembly').locator('li.chosen')).toContainText('Fit dry');
});

for (const size of [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 }
]) {
  test(`at ${size.width} by ${size.height} every view can be reached and nothing scrolls sideways`, async ({
    page
  }) => {
    await page.setViewportSize(size);
    const sheet = new SettingOutPage(page);
    await sheet.open();
    for (const view of ['Drawing', 'Marks', 'Assembly', 'Preview'] as const) {
      if (size.width < 1200) await sheet.turnTo(view);
      await expect(sheet.view(view)).toBeInViewport({ ratio: 0.9 });
      expect(await sheet.measureOverflow()).toBe(0);
    }
    await expect(page.getByText('straight 923 mm of 1180 mm')).toBeInViewport();
    if (size.width < 700) await sheet.button('Parameters').click();
    await sheet.field('Turn').fill('60');
    await page.keyboard.press('Enter');
    await expect(page.getByText('miter 15°').first()).toBeVisible();
    expect(await sheet.measureOverflow()).toBe(0);
    for (const tag of ['F2', 'F3', 'F4']) {
      await sheet.chooseFitting(tag);
      expect(await sheet.measureOverflow()).toBe(0);
    }
  });
}

test('a reader of the screen finds nothing to complain of, in light and in dark', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await sheet.open();
    await expect(sheet.view('Preview').locator('[data-miters]')).toBeVisible();
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual(
      []
    );
  }
});

/** The browser's own store of the job, as idb-keyval keeps it. */
async function writeStored(page: Page, text: string): Promise<void> {
  await page.evaluate(
    (value) =>
      new Promise<void>((done, fail) => {
        const open = indexedDB.open('keyval-store');
        open.onerror = () => fail(open.error);
        open.onsuccess = () => {
          const write = open.result.transaction('keyval', 'readwrite');
          write.objectStore('keyval').put(value, 'gorewright-job');
          write.oncomplete = () => done();
        };
      }),
    text
  );
}

async function readStored(page: Page): Promise<string> {
  return page.evaluate(
    () =>
      new Promise<string>((done, fail) => {
        const open = indexedDB.open('keyval-store');
        open.onerror = () => fail(open.error);
        open.onsuccess = () => {
          const read = open.result.transaction('keyval').objectStore('keyval').get('gorewright-job');
          read.onsuccess = () => done(String(read.result));
        };
      })
  );
}
