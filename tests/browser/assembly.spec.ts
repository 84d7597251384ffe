import { expect, type Page } from '@playwright/test';
import AxeBuilder from '@axe-core/playwright';
import { SettingOutPage, test } from './driver.ts';

async function open(page: Page) {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const assembly = sheet.view('Assembly');
  await expect(sheet.view('Preview').locator('[data-miters]')).toBeVisible();
  await expect(assembly.getByRole('checkbox').first()).toBeEnabled();
  return { sheet, assembly };
}

/** How often the preview has been drawn so far. */
async function countDraws(page: Page): Promise<number> {
  return Number(await page.locator('[data-view=preview]').getAttribute('data-drawn'));
}

/** Draws while the straight is turned: from the step of turning to the one after it. */
async function countTurning(page: Page): Promise<number> {
  const assembly = new SettingOutPage(page).view('Assembly');
  const turn = assembly.locator('li[data-kind=turn]').first();
  await assembly.locator('li[data-kind=cut]').nth(1).getByRole('button').click();
  await page.waitForTimeout(1000);
  await assembly.getByRole('button', { name: 'Play' }).click();
  await expect(turn).toHaveClass(/chosen/);
  const before = await countDraws(page);
  await expect(turn).not.toHaveClass(/chosen/);
  return (await countDraws(page)) - before;
}

test('the work is played step by step to its end, and the pieces are seen on their way', async ({ page }) => {
  const { assembly } = await open(page);
  expect(await countTurning(page)).toBeGreaterThan(3);
  await assembly.locator('li[data-kind=support]').getByRole('button').click();
  const first = Number(/step (\d+)/.exec((await assembly.textContent())!)![1]);
  await assembly.getByRole('button', { name: 'Play' }).click();
  for (const further of [1, 2, 3]) {
    await expect(assembly).toContainText(`step ${first + further} of`);
    await expect(assembly.locator('li.chosen .number')).toHaveText(String(first + further));
  }
  await expect(assembly.locator('li.chosen')).toBeInViewport();

  await assembly.getByRole('button', { name: 'Pause' }).click();
  await assembly.locator('li[data-kind=seal]').last().getByRole('button').click();
  await assembly.getByRole('button', { name: 'Play' }).click();
  await expect(assembly.locator('li.chosen')).toContainText('Inspect');
  await expect(assembly).toContainText('Finished fitting');
  await expect(assembly.getByRole('button', { name: 'Play' })).toBeVisible();
});

test('whatever else the user does stops the playing', async ({ page }) => {
  const { sheet, assembly } = await open(page);
  const pause = assembly.getByRole('button', { name: 'Pause' });
  for (const act of [
    () => sheet.view('Drawing').click({ position: { x: 20, y: 80 } }),
    () => page.keyboard.press('Tab'),
    () => page.mouse.wheel(0, 40)
  ]) {
    await assembly.getByRole('button', { name: 'Play' }).click();
    await expect(pause).toBeVisible();
    await act();
    await expect(pause).toHaveCount(0);
  }
});

test('who wants no motion sees the steps change at once', async ({ page }) => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const { assembly } = await open(page);
  // Once for the step itself, once for what is pointed at, and once more for what had not been drawn yet.
  expect(await countTurning(page)).toBeLessThanOrEqual(3);
  await expect(assembly.locator('li[data-kind=cut].chosen')).toContainText('right face');
});

test('Space plays and pauses, arrows step, from the keyboard alone', async ({ page }) => {
  const { assembly } = await open(page);
  const second = assembly.locator('li').nth(1).getByRole('button');
  await second.focus();
  await page.keyboard.press('Enter');
  await expect(assembly).toContainText('step 2 of');
  await page.keyboard.press('ArrowDown');
  await expect(assembly).toContainText('step 3 of');
  await expect(assembly.locator('li').nth(2).getByRole('button')).toBeFocused();
  await page.keyboard.press('ArrowLeft');
  await expect(assembly).toContainText('step 2 of');
  await page.keyboard.press('Space');
  await expect(assembly.getByRole('button', { name: 'Pause' })).toBeVisible();
  await expect(assembly).toContainText('step 3 of');
  await page.keyboard.press('Space');
  await expect(assembly.getByRole('button', { name: 'Play' })).toBeVisible();
  // On a tick Space ticks.
  await assembly.getByRole('checkbox').first().focus();
  await page.keyboard.press('Space');
  await expect(assembly.getByRole('checkbox').first()).toBeChecked();
  await expect(assembly.getByRole('button', { name: 'Play' })).toBeVisible();
});

test('ticks are found again after a reload and are no entry of the history', async ({ page }) => {
  const { sheet, assembly } = await open(page);
  await expect(assembly).toContainText('35 steps · 0 ticked');
  for (const step of [1, 2, 3])
    await assembly.getByRole('checkbox', { name: `Step ${step} is done` }).check();
  await assembly.getByRole('checkbox', { name: 'Step 2 is done' }).uncheck();
  await expect(assembly).toContainText('35 steps · 2 ticked');
  await expect(sheet.button('Undo')).toBeDisabled();

  await sheet.reload();
  await expect(assembly).toContainText('35 steps · 2 ticked');
  await expect(assembly.getByRole('checkbox', { name: 'Step 3 is done' })).toBeChecked();
  await sheet.chooseFitting('F2');
  await expect(assembly).toContainText('· 0 ticked');
  await sheet.chooseFitting('F1');
  await expect(assembly).toContainText('35 steps · 2 ticked');
});

test('a change of the fitting takes back the ticks of the steps that changed, and only those', async ({
  page
}) => {
  const { sheet, assembly } = await open(page);
  const cuts = assembly.locator('li[data-kind=cut]');
  for (const i of [0, 1, 2, 3]) await cuts.nth(i).getByRole('checkbox').check();
  await expect(assembly).toContainText('· 4 ticked');
  // The second cut lies further on, the first where it was.
  await sheet.field('Gore').fill('180');
  await page.keyboard.press('Enter');
  await expect(assembly).toContainText('· 2 ticked');
  for (const cut of await assembly.locator('li.ticked').all()) await expect(cut).toContainText('Cut C1');
  await sheet.button('Undo').click();
  await expect(assembly).toContainText('· 4 ticked');
});

test('the cuts are ordered as the user likes, and what it costs is shown', async ({ page }) => {
  const { sheet, assembly } = await open(page);
  await expect(assembly).toContainText('4 quarter turns, 2 blade changes; usual order 4 and 2');
  await assembly.locator('li[data-kind=flip]').getByRole('button').click();
  await assembly.getByLabel('Cutting').selectOption('cut by cut');
  await expect(assembly).toContainText('8 quarter turns, 4 blade changes; usual order 4 and 2');
  await expect(assembly).toContainText('39 steps');
  // The same step is still chosen.
  await expect(assembly.locator('li.chosen')).toContainText('Roll P2 over');

  await assembly.getByLabel('Sequence of the cuts').selectOption('from the datum end');
  await expect(assembly.locator('li[data-kind=cut]').first()).toContainText('Cut C1');
  await expect(assembly.locator('li[data-kind=separate]').first()).toContainText('P1 comes free');
  await expect(sheet.button('Undo')).toBeDisabled();

  await sheet.reload();
  await expect(assembly).toContainText('8 quarter turns, 4 blade changes');
  await expect(assembly.getByLabel('Sequence of the cuts')).toHaveValue('datum');

  await assembly.getByLabel('Sequence of the cuts').selectOption('as written');
  await assembly.getByLabel('The cuts in the order they are made').fill('C1');
  await page.keyboard.press('Enter');
  await expect(assembly).toContainText('C2 of F1-A has to be named once');
  await expect(assembly.locator('li[data-kind=cut]').first()).toContainText('Cut C2');
});

test('a step is seen in the marks and in the drawing, with a picture of its own', async ({ page }) => {
  const { sheet, assembly } = await open(page);
  const cut = assembly.locator('li[data-kind=cut]').first();
  await cut.getByRole('button').click();
  // What draws the pictures is loaded once one is in sight.
  await expect(cut.locator('svg')).toContainText('C2');
  expect(await cut.locator('svg path').count()).toBeGreaterThan(2);
  await sheet.view('Marks').getByRole('button', { name: 'table' }).click();
  await expect(sheet.view('Marks').locator('tr.pointed')).toHaveCount(1);
  await expect(sheet.view('Marks').locator('tr.pointed')).toContainText('C2');
  // Pointing at something else shows that, and then the step again.
  await sheet.view('Marks').getByRole('row').nth(1).hover();
  await expect(sheet.view('Marks').locator('tr.pointed').first()).toContainText('C1');
  await page.mouse.move(5, 5);
  await expect(sheet.view('Marks').locator('tr.pointed')).toContainText('C2');
});

test.describe('on a tablet', () => {
  test.use({ viewport: { width: 820, height: 1180 }, hasTouch: true });

  test('a tick is as large as a finger, and nothing is left for a reader of the screen to complain of', async ({
    page
  }) => {
    const sheet = new SettingOutPage(page);
    await sheet.open();
    await sheet.turnTo('Assembly');
    const assembly = sheet.view('Assembly');
    const step = assembly.locator('li').first();
    const box = (await step.locator('label').boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(44);
    await page.touchscreen.tap(box.x + box.width - 3, box.y + 3);
    await expect(step.getByRole('checkbox')).toBeChecked();
    await step.getByRole('button').tap();
    await expect(step).toHaveClass(/chosen/);
    const { violations } = await new AxeBuilder({ page }).include('[data-panel=assembly]').analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual(
      []
    );
  });
});
