import { expect, type Page } from '@playwright/test';
import AxeBuilder from '@axe-core/playwright';
import type { Obstacle } from '../../src/lib/kernel/site/site.ts';
import { SettingOutPage, test } from './driver.ts';

const EXAMPLE = 'Village library, reading room supply past the beam';

/** Opens the example with a site and waits until its boxes can be dragged. */
async function openSite(page: Page): Promise<SettingOutPage> {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.askJob(EXAMPLE);
  await expect(sheet.handle('site.0')).toBeVisible();
  return sheet;
}

/** The only entry of the history is that the job was opened: one undo leads back to the job before. */
async function expectOnlyOpened(sheet: SettingOutPage): Promise<void> {
  await sheet.button('Undo').click();
  await expect(sheet.handle('site.0')).toHaveCount(0);
  await expect(sheet.button('Undo')).toBeDisabled();
}

interface Written {
  readonly text: string;
  readonly wrong: boolean;
}

/** What is written on the Drawing's canvas, and whether in the colour of what is wrong. */
async function readDrawing(page: Page): Promise<Written[]> {
  return page.evaluate(() => {
    const wrong = getComputedStyle(document.documentElement).getPropertyValue('--wrong').trim();
    const stages = (
      window as unknown as {
        Konva: {
          stages: {
            container(): Element;
            find(kind: string): { text(): string; fill(): string }[];
          }[];
        };
      }
    ).Konva.stages;
    const stage = stages.find((one) => one.container().closest('[data-panel=drawing]'))!;
    return stage.find('Text').map((text) => ({ text: text.text(), wrong: text.fill() === wrong }));
  });
}

const findWrong = (written: readonly Written[]): string[] =>
  written.flatMap(({ text, wrong }) => (wrong ? [text] : []));

test('a job without a site fetches nothing of it, one with a site shows boxes and clearance', async ({
  page
}) => {
  const scripts: string[] = [];
  page.on('response', (response) => {
    if (/\.js$/.test(new URL(response.url()).pathname)) scripts.push(response.url());
  });
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.view('Preview').locator('[data-miters]')).toBeVisible();
  const before = scripts.length;
  await expect(sheet.handle('site.0')).toHaveCount(0);
  await sheet.askJob(EXAMPLE);
  await expect(sheet.handle('site.0')).toHaveAccessibleName('Move roof beam');
  expect(scripts.length).toBeGreaterThan(before);

  await expect(sheet.handle('site.0')).toHaveAccessibleDescription('40 mm clear of the duct, 30 mm wanted');
  const written = await readDrawing(page);
  expect(written.map(({ text }) => text)).toEqual(
    expect.arrayContaining(['40', 'roof beam', '30 clear', 'heating pipes', 'cable tray', 'end'])
  );
  expect(findWrong(written)).toEqual([]);
  // The other fitting of the job stands elsewhere.
  await sheet.chooseFitting('A2');
  await expect(sheet.handle('site.0')).toHaveCount(0);
});

test('a beam dragged down too near is found and shown in the accent, and Escape puts it back', async ({
  page
}) => {
  const sheet = await openSite(page);
  const finding = page.getByText('to this obstacle, which wants 30 mm clear: roof beam');
  await expect(finding).toHaveCount(0);

  await sheet.pull('site.0', { x: 0, y: 6 });
  await expect(finding).toBeVisible();
  await expect(sheet.view('Drawing').locator('output')).toContainText('Move roof beam');
  const wrong = findWrong(await readDrawing(page));
  expect(wrong).toHaveLength(1);
  expect(Number(wrong[0])).toBeGreaterThan(0);
  expect(Number(wrong[0])).toBeLessThan(30);

  await sheet.escape();
  await expect(finding).toHaveCount(0);
  expect(findWrong(await readDrawing(page))).toEqual([]);
  await sheet.release();
  await expectOnlyOpened(sheet);
});

test('a drag of the beam is one entry of the history, and far down it overlaps', async ({ page }) => {
  const sheet = await openSite(page);
  await sheet.pull('site.0', { x: 0, y: 30 });
  await sheet.release();
  expect(findWrong(await readDrawing(page))).toEqual([expect.stringMatching(/^overlap \d+$/)]);
  await expect(page.getByText('deep into this obstacle')).toBeVisible();
  const { site } = await sheet.readSaved();
  expect(site!.obstacles[0]!.min[1]).toBeLessThan(-150);
  expect(site!.obstacles[0]!.max[1] - site!.obstacles[0]!.min[1]).toBe(530);
  await sheet.button('Undo').click();
  expect(findWrong(await readDrawing(page))).toEqual([]);
  await expectOnlyOpened(sheet);
});

test('where the handles of a box and of the duct overlap, the pointer takes the one it is nearest to', async ({
  page
}) => {
  const sheet = await openSite(page);
  // The cable tray's grip lies over the middle of the beam's.
  const beam = (await sheet.handle('site.0').boundingBox())!;
  await page.mouse.move(beam.x + 22, beam.y + 24, { steps: 3 });
  await expect(sheet.handle('site.0.under')).toBeVisible();
  await expect(sheet.handle('site.2.under')).toBeHidden();
  const [underside, rise] = [
    (await sheet.handle('site.0.under').boundingBox())!,
    (await sheet.handle('rise').boundingBox())!
  ];
  // Both are 44 px wide and high.
  expect(Math.abs(underside.x - rise.x)).toBeLessThan(44);
  expect(Math.abs(underside.y - rise.y)).toBeLessThan(44);
  const said = sheet.view('Drawing').locator('output');
  await sheet.pull('site.0.under', { x: 0, y: 20 });
  await expect(said).toContainText('Underside of roof beam');
  await sheet.escape();
  await sheet.release();
  await sheet.pull('rise', { x: 0, y: 20 });
  await expect(said).toContainText('Rise');
  await sheet.escape();
  await sheet.release();
  await expectOnlyOpened(sheet);
});

test('on a small screen what a drag says stays inside the view', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  const sheet = await openSite(page);
  for (const id of ['site.0', 'site.end', 'rise']) {
    await sheet.pull(id, { x: 0, y: 30 });
    const [view, said] = [
      (await sheet.view('Drawing').boundingBox())!,
      (await sheet.view('Drawing').locator('output').boundingBox())!
    ];
    expect(said.x).toBeGreaterThanOrEqual(view.x);
    expect(said.x + said.width).toBeLessThanOrEqual(view.x + view.width);
    await sheet.escape();
    await sheet.release();
  }
});

test('the keyboard moves a beam by a step, and its sides alone', async ({ page }) => {
  const sheet = await openSite(page);
  await sheet.handle('site.0').focus();
  await page.keyboard.press('ArrowDown');
  await expect(sheet.handle('site.0')).toHaveAccessibleDescription(/^35 mm clear/);
  await page.keyboard.press('Shift+ArrowUp');
  // 85 up from the level piece, and 78 from the corner of the beam square to the slope: (85 + 900 − 874.26)/√2.
  await expect(sheet.handle('site.0')).toHaveAccessibleDescription(/^78 mm clear/);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');

  const underside = sheet.handle('site.0.under');
  await expect(underside).toHaveAccessibleName('Underside of roof beam');
  await underside.focus();
  await page.keyboard.press('Shift+ArrowDown');
  await expect(underside).toHaveAttribute('aria-valuenow', '-160');
  await expect(sheet.handle('site.0.top')).toHaveAttribute('aria-valuenow', '420');
  expect(findWrong(await readDrawing(page))).toEqual([expect.stringMatching(/^overlap/)]);
});

test('the clearance follows a drag of the duct as well', async ({ page }) => {
  const sheet = await openSite(page);
  await sheet.field('Rise').fill('-275');
  await page.keyboard.press('Enter');
  expect(findWrong(await readDrawing(page))).toEqual(['15']);
  await expect(page.getByText('as near as 15 mm to this obstacle')).toBeVisible();
});

test('the end is dragged away from the fitting, and snaps back to where it ends', async ({ page }) => {
  const sheet = await openSite(page);
  const missed = page.getByText('The outlet does not meet the end');
  await expect(missed).toHaveCount(0);
  await sheet.pull('site.end', { x: 0, y: 40 });
  await expect(missed).toBeVisible();
  await sheet.release();
  await sheet.pull('site.end', { x: 0, y: -40 });
  await expect(sheet.view('Drawing').locator('output')).toContainText('where the fitting ends');
  await sheet.release();
  await expect(missed).toHaveCount(0);
});

test('elevation and plan stand under each other, and a box is moved across in the plan', async ({ page }) => {
  const sheet = await openSite(page);
  await page.getByRole('combobox', { name: 'Drawing' }).selectOption('elevation and plan');
  const inPlan = sheet.handle('site.1.plan');
  await expect(inPlan).toHaveAccessibleName('Move heating pipes, in plan');
  await inPlan.focus();
  await page.keyboard.press('Shift+ArrowDown');
  const { site } = await sheet.readSaved();
  // Down in plan is to the right, looking downstream.
  expect([site!.obstacles[1]!.min, site!.obstacles[1]!.max]).toEqual([
    [300, -620, -10],
    [1800, -510, 210]
  ]);
  const { violations } = await new AxeBuilder({ page }).include('[data-panel=drawing]').analyze();
  expect(violations).toEqual([]);
});

test('what is far away is named at the edge with its distance, and a tap shows it with its grip', async ({
  page
}) => {
  const sheet = await openSite(page);
  const job = await sheet.readSaved();
  const floor: Obstacle = {
    name: 'floor',
    kind: 'floor',
    min: [-2000, -2700, -2000],
    max: [5000, -2500, 2000]
  };
  const site = { ...job.site!, obstacles: [...job.site!.obstacles, floor] };
  await sheet.openFile('floor.json', JSON.stringify({ ...job, site }));
  // The lowest of the duct is 450 under its axis.
  const tag = sheet.button('floor, 2050 mm away');
  await expect(tag).toHaveAttribute('aria-pressed', 'false');
  await expect(sheet.handle('site.3')).toBeHidden();
  const near = (await sheet.handle('site.0').boundingBox())!;

  await tag.click();
  await expect(tag).toHaveAttribute('aria-pressed', 'true');
  await expect(sheet.handle('site.3')).toBeFocused();
  expect((await readDrawing(page)).map(({ text }) => text)).toContain('floor');
  const [view, grip] = [
    (await sheet.view('Drawing').boundingBox())!,
    (await sheet.handle('site.3').boundingBox())!
  ];
  expect(grip.y).toBeGreaterThan(near.y);
  expect(grip.y + grip.height).toBeLessThanOrEqual(view.y + view.height);
  await page.keyboard.press('Shift+ArrowUp');
  await expect(sheet.button('floor, 2000 mm away')).toHaveAttribute('aria-pressed', 'true');
  const { violations } = await new AxeBuilder({ page }).include('[data-panel=drawing]').analyze();
  expect(violations).toEqual([]);

  await sheet.button('floor, 2000 mm away').click();
  await expect(sheet.handle('site.3')).toBeHidden();
  await expect.poll(async () => (await sheet.handle('site.0').boundingBox())!.y).toBeCloseTo(near.y, 0);
});

test('a box is drawn on empty paper, and one drag is one entry of the history', async ({ page }) => {
  const sheet = await openSite(page);
  await page.getByRole('combobox', { name: 'Drawing' }).selectOption('elevation');
  const toggle = sheet.button('Draw a box');
  await toggle.click();
  await expect(toggle).toHaveAttribute('aria-pressed', 'true');
  await sheet.escape();
  const paper = await sheet.handle('site.paper').boundingBox();
  await page.mouse.move(paper!.x + 100, paper!.y + paper!.height - 70);
  await page.mouse.down();
  await page.mouse.move(paper!.x + 150, paper!.y + paper!.height - 30, { steps: 6 });
  await page.mouse.up();
  await expect(sheet.handle('site.3')).toHaveAccessibleName('Move box 4');
  await expect(toggle).toHaveAttribute('aria-pressed', 'false');
  const { site } = await sheet.readSaved();
  const { min, max } = site!.obstacles[3]!;
  expect([min[2], max[2]]).toEqual([-1000, 1000]);
  expect(max[0]).toBeGreaterThan(min[0]);
  await sheet.button('Undo').click();
  await expect(sheet.handle('site.3')).toHaveCount(0);
  await expectOnlyOpened(sheet);
});
