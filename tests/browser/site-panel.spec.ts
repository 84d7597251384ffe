import AxeBuilder from '@axe-core/playwright';
import { expect, type Locator, type Page } from '@playwright/test';
import { SettingOutPage, test } from './driver.ts';

/** What a tape gives of a beam that hangs 190 mm into the way, with a ceiling 400 mm under the duct. */
const BEAM = {
  'To the obstacle': '1150',
  'Width of the obstacle': '250',
  'To the other end': '2600',
  'Underside of the obstacle': '-190',
  'Free below': '400',
  'Height of the other end': '0',
  'Other end to the right': '0'
};

/** The site panel as a person uses it. */
class SitePanel {
  readonly region: Locator;

  constructor(page: Page) {
    this.region = page.getByRole('complementary', { name: 'Site' });
  }

  field(label: string): Locator {
    return this.region.getByRole('textbox', { name: label, exact: true });
  }

  async type(label: string, text: string): Promise<void> {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  async measureBeam(): Promise<void> {
    await this.type('Name of the obstacle', 'Beam over the reading room');
    for (const [label, text] of Object.entries(BEAM)) await this.type(label, text);
    await this.region.getByRole('button', { name: 'Place on the drawing' }).click();
  }

  async find(): Promise<void> {
    await this.region.getByRole('button', { name: 'Find fittings' }).click();
    await expect(this.region.getByRole('button', { name: /^Take: / }).first()).toBeVisible({
      timeout: 30_000
    });
  }

  async take(name: string | RegExp): Promise<void> {
    await this.region.getByRole('button', { name }).first().click();
  }

  obstacle(name: string): Locator {
    return this.region.locator('details.obstacle', { hasText: name });
  }
}

async function openSite(page: Page): Promise<[SettingOutPage, SitePanel]> {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.button('Site').click();
  const panel = new SitePanel(page);
  await expect(panel.region).toContainText('No site yet');
  return [sheet, panel];
}

test('a beam is measured, a straight runs into it, the first proposal clears it and follows it when it is dragged', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await panel.measureBeam();
  const site = (await sheet.readSaved()).site!;
  expect(site.end.at).toEqual([2600, 0, 0]);
  // Outside top 150 up; the underside is taken 190 + 5 lower.
  expect(site.obstacles[0]!.min).toEqual([1145, -45, -2225]);
  expect(site.tape!.measures.underside).toEqual({ value: -190 });

  await panel.region.getByRole('combobox', { name: 'Fitting that stands here' }).selectOption('F5');
  // The straight ends 1180 on, 35 behind the near side of the beam, which hangs deeper than that.
  await expect(panel.region).toContainText('35 mm deep into this obstacle');
  await panel.region
    .getByRole('combobox', { name: 'Fitting that stands here' })
    .selectOption({ label: 'none yet' });

  await panel.find();
  await expect(panel.region).toContainText('Why the others do not');
  await panel.take(/^Take: /);
  const taken = (await sheet.listTags()).at(-1)!;
  await expect(panel.region.getByRole('checkbox', { name: `${taken} follows the site` })).toBeChecked();
  const beam = panel.obstacle('Beam over the reading room');
  await expect(beam).toContainText('clear by 25 mm, wanted 25 mm');
  await expect(panel.region).not.toContainText('Warning');
  const before = await sheet.readSaved();

  const numbers = await page.locator('footer').innerText();
  await sheet.pull('site.0', { x: 0, y: 12 });
  // While the pointer is still down.
  await expect(page.locator('footer')).not.toContainText(numbers.split('\n')[0]!, { timeout: 15_000 });
  await expect(beam).toContainText('clear by 25 mm, wanted 25 mm', { timeout: 15_000 });
  await sheet.release();
  await expect(beam).toContainText('clear by 25 mm, wanted 25 mm', { timeout: 15_000 });
  const after = await sheet.readSaved();
  expect(after.site!.obstacles[0]!.min[1]).toBeLessThan(-45);
  expect(after.fittings!.at(-1)!.params).not.toEqual(before.fittings!.at(-1)!.params);

  await sheet.button('Undo').click();
  expect(await sheet.readSaved()).toEqual(before);
});

test('a fitting that follows is found anew when the beam is typed lower, and no more once it is changed by hand', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await panel.measureBeam();
  await panel.find();
  await panel.take(/^Take: .*comes back/);
  // Underside at −45, outside half 150, clear by 25: 220 down.
  await expect(sheet.field('Rise')).toHaveValue('-220');
  await panel.obstacle('Beam over the reading room').locator('summary').click();
  await panel.type('Height, from', '-100');
  await expect(sheet.field('Rise')).toHaveValue('-275', { timeout: 15_000 });
  await sheet.button('Undo').click();
  await expect(sheet.field('Rise')).toHaveValue('-220');
  await expect(panel.field('Height, from')).toHaveValue('-45');
  await sheet.button('Redo').click();
  await expect(sheet.field('Rise')).toHaveValue('-275');

  await sheet.field('Rise').fill('-280');
  await sheet.field('Rise').press('Enter');
  await expect(panel.region.getByRole('checkbox', { name: /follows the site/ })).not.toBeChecked();
  await panel.type('Height, from', '-120');
  await expect(panel.region).toContainText('comes as near as 10 mm');
  await expect(sheet.field('Rise')).toHaveValue('-280');
});

test('the measuring card says what is missing, what contradicts, and keeps what was said', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  const place = panel.region.getByRole('button', { name: 'Place on the drawing' });
  await expect(place).toBeDisabled();
  await panel.type('To the obstacle', '1150');
  await expect(panel.region).toContainText('Still to be measured: Width of the obstacle');
  await panel.type('Width of the obstacle', '0');
  await expect(panel.region).toContainText('Wanted: more than 0 mm.');
  for (const [label, text] of Object.entries(BEAM)) await panel.type(label, text);
  await panel.type('Obstacle to the other end', '1300');
  await expect(panel.region).toContainText('they differ by 100 mm');
  await panel.type('Obstacle to the other end', '1210');
  await expect(panel.region).toContainText('they differ by 10 mm, and may by 20 mm');
  await expect(panel.region).toContainText('decides: be sure of it');
  await place.click();
  await expect(place).toBeHidden();
  const { site } = await sheet.readSaved();
  expect(site!.tape!.measures.farSideToEnd).toEqual({ value: 1210 });
  await sheet.reload();
  await sheet.button('Site').click();
  await panel.region.getByText('Measuring card').click();
  await expect(panel.field('Obstacle to the other end')).toHaveValue('1210');
  // A measure that is emptied was not taken.
  await panel.type('Free below', '');
  await place.click();
  expect((await sheet.readSaved()).site!.obstacles).toHaveLength(1);
});

test('a card that is not placed is there again after a reload, makes no history, and is none of another job', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await panel.type('Width', '300');
  await panel.type('Name of the obstacle', 'Beam over the reading room');
  await panel.type('To the obstacle', '1150');
  await expect(sheet.button('Undo')).toBeDisabled();
  await expect
    .poll(() => sheet.readKept('gorewright-site-draft'))
    .toMatchObject({ site: { tape: { measures: { toObstacle: { value: 1150 } } } } });
  await sheet.reload();
  await sheet.button('Site').click();
  await expect(panel.field('To the obstacle')).toHaveValue('1150');
  await expect(panel.field('Name of the obstacle')).toHaveValue('Beam over the reading room');
  await expect(panel.field('Width')).toHaveValue('300');
  await expect(panel.region).toContainText('No site yet');
  await expect(sheet.button('Undo')).toBeDisabled();

  await panel.measureBeam();
  const { site } = await sheet.readSaved();
  expect(site!.section.width).toBe(300);
  await expect.poll(() => sheet.readKept('gorewright-site-draft')).toBeNull();
  // Of a card that is placed what is changed is a draft again.
  await panel.region.getByText('Measuring card').click();
  await panel.type('To the obstacle', '1200');
  await expect
    .poll(() => sheet.readKept('gorewright-site-draft'))
    .toMatchObject({ site: { tape: { measures: { toObstacle: { value: 1200 } } } } });
  await sheet.reload();
  await sheet.button('Site').click();
  await panel.region.getByText('Measuring card').click();
  await expect(panel.field('To the obstacle')).toHaveValue('1200');
  expect((await sheet.readSaved()).site).toEqual(site);
  await sheet.askJob('New job');
  await expect(panel.field('To the obstacle')).toHaveValue('');
});

test('a fitting goes on following its site after a reload, though nobody opens the panel', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await panel.measureBeam();
  await panel.find();
  await panel.take(/^Take: .*comes back/);
  const taken = (await sheet.listTags()).at(-1)!;
  const before = await sheet.readSaved();
  await expect
    .poll(() => sheet.readKept('gorewright-followed'))
    .toMatchObject({ said: expect.stringContaining('"rise":-220') as unknown });

  await sheet.reload();
  await sheet.chooseFitting(taken);
  await expect(sheet.field('Rise')).toHaveValue('-220');
  await sheet.handle('site.0').focus();
  await page.keyboard.press('Shift+ArrowDown');
  // Ten steps of 5 down: by as much the duct goes lower.
  await expect(sheet.field('Rise')).toHaveValue('-270', { timeout: 15_000 });
  await sheet.button('Undo').click();
  await expect(sheet.field('Rise')).toHaveValue('-220');
  expect(await sheet.readSaved()).toEqual(before);

  await sheet.button('Site').click();
  const follows = panel.region.getByRole('checkbox', { name: `${taken} follows the site` });
  await expect(follows).toBeChecked();
  await follows.uncheck();
  await expect.poll(() => sheet.readKept('gorewright-followed')).toBeNull();
  await sheet.reload();
  await sheet.button('Site').click();
  await expect(follows).not.toBeChecked();
});

test('a search is cancelled, ranked another way and asked of one straight', async ({ page }) => {
  const [, panel] = await openSite(page);
  await panel.measureBeam();
  await panel.region.getByRole('button', { name: 'Find fittings' }).click();
  await panel.region.getByRole('button', { name: 'Cancel' }).click();
  await expect(panel.region.getByRole('progressbar')).toHaveCount(0);
  await expect(panel.region.getByRole('button', { name: /^Take: / })).toHaveCount(0);

  await panel.find();
  const cards = panel.region.getByRole('list', { name: 'Fittings that lead there' }).getByRole('listitem');
  await expect(cards.first()).toContainText('3 joints');
  await panel.region.getByText('What counts, most first').click();
  await panel.region.getByRole('button', { name: 'Move up: blades of the shop' }).click();
  await expect(cards.first()).toContainText('drops 220 mm and comes back, 45°', { timeout: 30_000 });
  // The shortest way takes 2652.7 mm of straight.
  await panel.type('Longest straight', '2650');
  await expect(panel.region).toContainText('No fitting of one straight leads there.', { timeout: 30_000 });
  await expect(panel.region).toContainText('too long for the board, or for the straight there is');
});

test('obstacles and the other end are typed where nobody measured', async ({ page }) => {
  const [sheet, panel] = await openSite(page);
  await panel.region.getByRole('button', { name: 'Begin without measuring' }).click();
  await panel.region.getByText('Where the duct goes on').click();
  await panel.type('Along', '1800');
  await panel.type('Up', '900');
  await panel.region.getByRole('combobox', { name: 'It goes on' }).selectOption('upward');
  await panel.region.getByRole('checkbox', { name: 'To the right: free' }).check();
  expect((await sheet.readSaved()).site!.end).toEqual({
    at: [1800, 900, null],
    flow: [0, 1, 0],
    up: [-1, 0, 0]
  });
  await panel.region.getByRole('combobox', { name: 'It goes on' }).selectOption('another way');
  await panel.type('part along', '1');
  const { end } = (await sheet.readSaved()).site!;
  expect(end.flow).toEqual([1, 1, 0]);
  expect(end.up.map((part) => Number(part.toFixed(6)))).toEqual([-0.707107, 0.707107, 0]);

  await panel.region.getByRole('button', { name: 'Add an obstacle' }).click();
  await panel.obstacle('Obstacle 1').locator('summary').click();
  await panel.type('Name', 'Cable tray');
  const tray = panel.obstacle('Cable tray');
  await panel.type('Along, from', '5000');
  await expect(tray).toContainText('At most 1000 mm, where it ends.');
  await panel.type('Turned', '30');
  await panel.type('Its own clearance', '60');
  expect((await sheet.readSaved()).site!.obstacles[0]).toMatchObject({
    name: 'Cable tray',
    min: [800, 175, -500],
    clearance: 60,
    turn: 30
  });
  await tray.getByRole('button', { name: 'Remove Cable tray' }).click();
  await expect(panel.region).toContainText('Nothing is in the way.');
});

test('a piece that was cut too short changes the closing piece, as one entry of the history', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await sheet.chooseFitting('F2');
  await panel.region.getByText('As made · F2').click();
  await panel.region.getByRole('checkbox', { name: /^P1 · Made/ }).check();
  await panel.type('I measured instead', '196');
  // The ends of an offset are parallel: what the first piece lacks the last makes up for.
  await expect(panel.region).toContainText('P1, shortest: 196 mm instead of 200 mm');
  await expect(panel.region).toContainText(/P3, shortest: \d+\smm instead of/);
  await panel.region.getByRole('button', { name: 'Change one of them' }).click();
  const { fittings } = await sheet.readSaved();
  expect(fittings!.map(({ tag, family, quantity }) => [tag, family, quantity ?? 1])).toEqual([
    ['F1', 'bend', 1],
    ['F2', 'offset', 1],
    ['F6', 'path', 1],
    ['F3', 'double-offset', 1],
    ['F4', 'path', 1],
    ['F5', 'straight', 2]
  ]);
  await sheet.button('Undo').click();
  await expect.poll(() => sheet.listTags()).toEqual(['F1', 'F2', 'F3', 'F4', 'F5']);
});

test('a cut that turns the duct too far makes the other cut turn as far, and one entry takes it back', async ({
  page
}) => {
  const [sheet, panel] = await openSite(page);
  await sheet.chooseFitting('F2');
  await panel.region.getByText('As made · F2').click();
  await panel.region.getByRole('checkbox', { name: /^C1 · Made/ }).check();
  await panel.type('It turns instead', '95');
  await expect(panel.region).toContainText('at most 90');
  await panel.type('It turns instead', '46');
  // The ends of an offset are parallel, so the second joint has to turn back what the first one turns.
  await expect(panel.region).toContainText('C2 turns by 46° instead of 45°');
  await panel.region.getByRole('button', { name: 'Change one of them' }).click();
  const { fittings } = await sheet.readSaved();
  const { joints } = fittings!.find(({ tag }) => tag === 'F6')!.params as {
    joints: readonly { turn: number }[];
  };
  expect(joints[0]!.turn).toBe(46);
  expect(joints[1]!.turn).toBeCloseTo(46, 6);
  await sheet.button('Undo').click();
  await expect.poll(() => sheet.listTags()).toEqual(['F1', 'F2', 'F3', 'F4', 'F5']);
});

test('a panel that cannot be fetched says so, and is fetched when there is a connection again', async ({
  page,
  context,
  errors
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const panel = new SitePanel(page);
  await context.setOffline(true);
  await sheet.button('Site').click();
  await expect(panel.region.getByRole('alert')).toContainText('could not be fetched');
  const again = panel.region.getByRole('button', { name: 'Try again' });
  await again.click();
  await expect(panel.region.getByRole('alert')).toContainText('still no connection');
  expect((await new AxeBuilder({ page }).include('aside[aria-label=Site]').analyze()).violations).toEqual([]);
  await sheet.field('Tag').fill('hall');
  await sheet.field('Tag').press('Enter');
  await sheet.expectSaved();

  await context.setOffline(false);
  await again.click();
  await expect(panel.region).toContainText('No site yet');
  await expect.poll(() => sheet.listTags()).toContain('hall');
  // The panel was wished for once.
  await sheet.reload();
  await expect(panel.region).toHaveCount(0);
  expect(errors.length).toBeGreaterThan(0);
  errors.length = 0;
});

for (const [width, height, scheme] of [
  [1440, 900, 'light'],
  [1024, 768, 'light'],
  [390, 844, 'dark']
] as const) {
  test(`the open panel at ${width} × ${height}, ${scheme}, keeps inside the screen and axe finds nothing`, async ({
    page
  }) => {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: scheme });
    const [sheet, panel] = await openSite(page);
    await panel.type('To the obstacle', '1150');
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await panel.measureBeam();
    await panel.find();
    await panel.obstacle('Beam over the reading room').locator('summary').click();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    expect(await sheet.measureOverflow()).toBe(0);
  });
}
