import { expect, test, type Locator, type Page } from '@playwright/test';
import { SettingOutPage } from './driver.ts';

test.use({ contextOptions: { reducedMotion: 'reduce' } });

/** Opens the page and waits until the first fitting is drawn in three dimensions. */
async function open(page: Page): Promise<{ sheet: SettingOutPage; preview: Locator; host: Locator }> {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const preview = sheet.view('Preview');
  const host = preview.locator('[data-view="preview"]');
  await expect(host).toHaveAttribute('data-miters', '22.5,22.5');
  return { sheet, preview, host };
}

/** The picture once nothing in it moves. */
async function look(host: Locator): Promise<string> {
  let before = '';
  await expect(async () => {
    const drawn = await host.getAttribute('data-drawn');
    await host.page().waitForTimeout(60);
    expect(await host.getAttribute('data-drawn')).toBe(drawn);
    before = (await host.screenshot()).toString('base64');
  }).toPass();
  return before;
}

async function findLabel(preview: Locator, name: string): Promise<{ x: number; y: number }> {
  const box = await preview.locator('.labels span', { hasText: name }).boundingBox();
  if (!box) throw new Error(`${name} has no label in sight`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

test('a section plane opens the bend along its length and across, and closes again', async ({ page }) => {
  const { preview, host } = await open(page);
  const section = preview.getByLabel('Section plane');
  const where = preview.getByRole('slider', { name: 'Where along the duct' });
  await expect(host).toHaveAttribute('data-section', 'none');
  await expect(host).toHaveAttribute('data-capped', '0');
  await expect(where).toHaveCount(0);
  const whole = await look(host);

  // Level: the two sides of each of the three pieces.
  await section.selectOption('section, level');
  await expect(host).toHaveAttribute('data-section', 'level');
  await expect(host).toHaveAttribute('data-capped', '6');
  const level = await look(host);
  expect(level).not.toBe(whole);

  await section.selectOption('section, across');
  await expect(host).toHaveAttribute('data-section', 'across');
  await where.focus();
  await page.keyboard.press('Home');
  // Near the inlet: the four walls of the first piece, and of no other.
  await expect(host).toHaveAttribute('data-capped', '4');
  const atInlet = await look(host);
  for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
  expect(await look(host)).not.toBe(atInlet);

  await section.selectOption('whole');
  await expect(host).toHaveAttribute('data-capped', '0');
  expect(await look(host)).toBe(whole);
});

test('a piece and a cut that the pointer finds in the preview are shown in the other views', async ({
  page
}) => {
  const { sheet, preview } = await open(page);
  const marks = sheet.view('Marks');
  await marks.getByRole('button', { name: 'table' }).click();
  const pointedSteps = sheet.view('Assembly').locator('li.pointed');
  const pointedMarks = marks.locator('tr.pointed');
  await expect(pointedSteps).toHaveCount(0);

  const [first, second] = [await findLabel(preview, 'P1'), await findLabel(preview, 'P2')];
  await page.mouse.click(first.x, first.y);
  await expect(pointedSteps.first()).toContainText('P1');
  await expect(preview.locator('.labels span[data-state="lit"]')).toHaveText('P1');

  // From the middle of one piece to that of the next the pointer crosses the cut between them.
  const share = await findShare(40, async (along) => {
    await page.mouse.move(first.x + (second.x - first.x) * along, first.y + (second.y - first.y) * along);
    await page.waitForTimeout(50);
    // Of a cut the marks on all four faces are shown, of a face those of both cuts.
    const shown = await pointedMarks.allTextContents();
    return shown.length === 4 && shown.every((row) => row.includes('C1'));
  });
  expect(share).toBeGreaterThan(0);
  expect(share).toBeLessThan(1);
  const cuts = sheet.view('Assembly').locator('li.pointed[data-kind="cut"]');
  await expect(cuts).toHaveCount(4);
  for (const step of await cuts.all()) await expect(step).toContainText('C1');
});

/** The first share of the way at which something holds; 1 if it never does. */
async function findShare(parts: number, holds: (share: number) => Promise<boolean>): Promise<number> {
  for (let i = 0; i < parts; i++) if (await holds(i / parts)) return i / parts;
  return 1;
}

test('a cut pointed at in the table of marks is lit in the preview', async ({ page }) => {
  const { sheet, host } = await open(page);
  const marks = sheet.view('Marks');
  await marks.getByRole('button', { name: 'table' }).click();
  const dark = await look(host);
  await marks.getByRole('row').filter({ hasText: 'C2' }).first().hover();
  await expect(async () => expect(await look(host)).not.toBe(dark)).toPass();
});

test('keys turn the fitting and bring it nearer, and the view can be reset', async ({ page }) => {
  const { sheet, preview, host } = await open(page);
  const first = await look(host);
  await preview.getByRole('application').focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowLeft');
  const turned = await look(host);
  expect(turned).not.toBe(first);
  await page.keyboard.press('+');
  expect(await look(host)).not.toBe(turned);
  await sheet.button('Reset view').click();
  expect(await look(host)).toBe(first);
});

test('a straight that is not cut yet stays whole however far it is exploded', async ({ page }) => {
  const { sheet, preview, host } = await open(page);
  const explode = preview.getByRole('slider', { name: 'Explode' });
  await sheet
    .view('Assembly')
    .locator('li', { hasText: 'Label' })
    .first()
    .getByRole('button')
    .first()
    .click();
  await page.mouse.move(5, 5);
  const uncut = await look(host);
  await explode.fill('1');
  expect(await look(host)).toBe(uncut);
  await sheet.view('Assembly').locator('li[data-kind="inspect"]').getByRole('button').first().click();
  await page.mouse.move(5, 5);
  const opened = await look(host);
  await explode.fill('0');
  expect(await look(host)).not.toBe(opened);
});

test('a reducer shows its panels flat until they are joined, and opened outward when it is exploded', async ({
  page
}) => {
  const { sheet, preview, host } = await open(page);
  await sheet.addFitting('reducer');
  await expect(host).toHaveAttribute('data-pieces', '6');
  const finished = await look(host);
  await preview.getByRole('slider', { name: 'Explode' }).fill('1');
  expect(await look(host)).not.toBe(finished);
  for (const name of ['W1', 'W2', 'W3', 'W4']) await findLabel(preview, name);
  await preview.getByRole('slider', { name: 'Explode' }).fill('0');
  await sheet.view('Assembly').locator('li', { hasText: 'Cut W4' }).getByRole('button').first().click();
  await page.mouse.move(5, 5);
  await look(host);
  const labels = await Promise.all(['W1', 'W2', 'W3', 'W4'].map((name) => findLabel(preview, name)));
  // One behind another, downstream to the right.
  labels.slice(1).forEach(({ x }, i) => expect(x).toBeGreaterThan(labels[i]!.x));

  // A panel that is tapped is pointed at in the other views.
  await page.mouse.click(labels[1]!.x, labels[1]!.y);
  await expect(sheet.view('Assembly').locator('li.pointed').first()).toContainText('W2');
});

test.describe('under a finger', () => {
  test.use({ hasTouch: true, isMobile: true, viewport: { width: 1280, height: 800 } });

  test('the controls of the preview are large enough', async ({ page }) => {
    const { preview } = await open(page);
    await preview.getByLabel('Section plane').selectOption('section, across');
    const controls = preview.locator('.bar').locator('select, input, button');
    await expect(controls).toHaveCount(4);
    for (const control of await controls.all()) {
      expect((await control.boundingBox())!.height).toBeGreaterThanOrEqual(44);
    }
  });
});
