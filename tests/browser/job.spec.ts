import { expect, type Page } from '@playwright/test';
import AxeBuilder from '@axe-core/playwright';
import { readFile } from 'node:fs/promises';
import { SettingOutPage, test } from './driver.ts';

async function expectAxeContent(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
}

test('in sixteenths of an inch a length can be typed as it is read off a tape', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.chooseUnits('inches, sixteenths');
  const throat = sheet.field('Throat at inlet');
  await expect(throat).toHaveValue('7 7/8');
  for (const text of ['3 5/8', '3-5/8', '3.625"', '92.075 mm']) {
    await throat.fill('20');
    await throat.press('Enter');
    await expect(throat).toHaveValue('20');
    await throat.fill(text);
    await throat.press('Enter');
    await expect(throat).toHaveValue('3 5/8');
    expect((await sheet.readSaved()).fittings![0]!.params['throatIn']).toBeCloseTo(92.075, 9);
  }
  await expect(page.locator('[data-param=throatIn]')).toContainText('the shop wants 7 7/8 in');
  // On the grid of quarters, then by quarters.
  await throat.press('ArrowUp');
  await expect(throat).toHaveValue('3 3/4');
  await throat.press('ArrowUp');
  await expect(throat).toHaveValue('4');
  await throat.press('Shift+ArrowDown');
  await expect(throat).toHaveValue('1 1/2');
  await sheet.field('Width').fill('300');
  await sheet.field('Width').press('Enter');
  await expect(page.getByRole('alert')).toContainText('Wanted: at most 196 7/8 in.');
});

test('a drag snaps to quarters of an inch where inches are shown, to 5 mm where millimetres are', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const pull = async (): Promise<number> => {
    await sheet.pull('throatIn', { x: 47, y: 0 });
    await sheet.release();
    return (await sheet.readSaved()).fittings![0]!.params['throatIn'] as number;
  };
  expect((await pull()) % 5).toBe(0);
  await sheet.button('Undo').click();
  await sheet.chooseUnits('inches, decimal');
  const quarters = (await pull()) / 6.35;
  expect(quarters).toBeCloseTo(Math.round(quarters), 9);
  await expect(sheet.field('Throat at inlet')).toHaveValue(/^\d+\.(00|25|50|75)$/);
});

test('in inches nothing on the page says millimetres, whatever is chosen; undo brings them back', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.view('Preview').locator('[data-miters]')).toBeVisible();
  await sheet.field('Gore').fill('120');
  await sheet.field('Gore').press('Enter');
  await sheet.chooseUnits('inches, decimal');
  for (const table of [false, true]) {
    if (table) await sheet.view('Marks').getByRole('button', { name: 'table' }).click();
    for (const tag of await sheet.listTags()) {
      await sheet.chooseFitting(tag);
      const text = await page.locator('body').innerText();
      expect(text).toMatch(/straight [\d.]+ in of [\d.]+ in/);
      expect(text).not.toMatch(/\bmm\b/);
      expect(
        await page.locator('[data-handle]').evaluateAll((all) => all.map((one) => one.ariaValueText))
      ).not.toContainEqual(expect.stringMatching(/\bmm\b/));
    }
  }
  await sheet.chooseFitting('F1');
  await sheet.button('Print and export').click();
  expect(await page.locator('body').innerText()).not.toMatch(/\bmm\b/);
  await sheet.button('Undo').click();
  await expect(page.getByText('straight 893 mm of 1180 mm')).toBeVisible();
});

test('figures are whole millimetres unless tenths are asked for', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.field('Radius')).toHaveValue('406');
  await sheet.chooseUnits('0.1 mm');
  await expect(sheet.field('Radius')).toHaveValue('406.1');
  await expect(page.getByText('straight 922.8 mm of 1180.0 mm')).toBeVisible();
  await sheet.expectSaved();
  await sheet.reload();
  await expect(sheet.field('Radius')).toHaveValue('406.1');
});

test('fittings are added, doubled, moved, named, counted and taken away, each undone by one step', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const first = ['F1', 'F2', 'F3', 'F4', 'F5'];
  expect(await sheet.listTags()).toEqual(first);

  await sheet.chooseFitting('F3');
  await sheet.addFitting('bend');
  await expect.poll(() => sheet.listTags()).toEqual([...first, 'F6']);
  await expect(sheet.field('Tag')).toHaveValue('F6');
  // A new fitting goes on from the section of the one that was chosen.
  await expect(sheet.field('Width')).toHaveValue('300');
  await expect(sheet.view('Drawing')).toContainText('miter 22.5°');

  await sheet.field('Tag').fill('attic');
  await sheet.field('Tag').press('Enter');
  await sheet.field('Quantity').fill('12');
  await sheet.field('Quantity').press('Enter');
  await expect(page.getByRole('navigation', { name: 'Fittings' })).toContainText('12 off');
  await sheet.button('Duplicate').click();
  await expect(sheet.field('Tag')).toHaveValue('F6');
  await sheet.button('Move up').click();
  await sheet.button('Move up').click();
  await expect.poll(() => sheet.listTags()).toEqual(['F1', 'F2', 'F3', 'F4', 'F6', 'F5', 'attic']);
  await expect(sheet.field('Tag')).toHaveValue('F6');
  await sheet.button('Remove').click();
  await expect(sheet.field('Tag')).toHaveValue('F5');
  await sheet.chooseFitting('attic');
  await sheet.button('Remove').click();
  expect(await sheet.listTags()).toEqual(first);

  for (let step = 0; step < 8; step++) await sheet.button('Undo').click();
  expect(await sheet.listTags()).toEqual(first);
  await expect(sheet.button('Undo')).toBeDisabled();
});

test('a tag that another fitting has is refused with the reason, and nothing changes', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Tag').fill('F4');
  await sheet.field('Tag').press('Enter');
  await expect(page.getByRole('alert')).toContainText('a tag of its own');
  expect(await sheet.listTags()).toEqual(['F1', 'F2', 'F3', 'F4', 'F5']);
  await page.keyboard.press('Escape');
  await expect(sheet.field('Tag')).toHaveValue('F1');
});

test('a job is renamed, saved under its name and opened again as it was', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Name of the job').fill('Attic, 2nd floor');
  await sheet.field('Name of the job').press('Enter');
  await sheet.field('Turn').fill('72.5');
  await sheet.field('Turn').press('Enter');
  const save = async (): Promise<{ file: string; text: string }> => {
    const [arriving] = await Promise.all([page.waitForEvent('download'), sheet.askJob('Save as a file')]);
    return { file: arriving.suggestedFilename(), text: await readFile(await arriving.path(), 'utf8') };
  };
  const saved = await save();
  expect(saved.file).toBe('Attic-2nd-floor.gorewright.json');
  expect(saved.text).toContain('\n  "name": "Attic, 2nd floor",\n');
  expect(JSON.parse(saved.text)).toEqual(await sheet.readSaved());

  await sheet.askJob('Village library, store room extract');
  await expect(sheet.field('Name of the job')).toHaveValue('Village library, store room extract');
  await sheet.openFile(saved.file, saved.text);
  await expect(sheet.field('Name of the job')).toHaveValue('Attic, 2nd floor');
  await expect(sheet.field('Turn')).toHaveValue('72.5');
  expect(await save()).toEqual(saved);
  // Opening is a step of the history like any other.
  await sheet.button('Undo').click();
  await expect(sheet.field('Name of the job')).toHaveValue('Village library, store room extract');
});

test('every example opens with all its fittings in shape', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  for (const name of [
    'Village library, entrance hall return',
    'Village library, store room extract',
    'Village library, reading room supply'
  ]) {
    await sheet.askJob(name);
    await expect(sheet.field('Name of the job')).toHaveValue(name);
    const tags = await sheet.listTags();
    expect(tags.length).toBeGreaterThan(3);
    for (const tag of tags) {
      await sheet.chooseFitting(tag);
      await expect(sheet.view('Drawing').locator('[data-handle]').first()).toBeVisible();
    }
    await expect(page.getByText('Cannot be built')).toHaveCount(0);
  }
});

test('a broken file says what is wrong, where, and what was expected; the open job stays', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Turn').fill('60');
  await sheet.field('Turn').press('Enter');
  const bend = {
    family: 'bend',
    section: { width: 200, height: 200 },
    params: { turn: 200, heel: 'right' }
  };
  const job = { format: 'gorewright-job', version: 1, name: 'Cellar', fittings: [bend] };
  const alert = page.getByRole('alert');
  await sheet.openFile('cellar.json', JSON.stringify(job));
  await expect(alert).toContainText('cellar.json cannot be opened');
  await expect(alert).toContainText('fittings[0].params.turn is 200, expected at most 180');
  await expect(alert).toContainText('The open job is left as it is');
  await expect(sheet.field('Turn')).toHaveValue('60');

  await sheet.dropFile('notes.txt', 'order tape');
  await expect(alert).toContainText('notes.txt cannot be opened');
  await expect(alert).toContainText('is not JSON');
  await expect(sheet.field('Turn')).toHaveValue('60');
  await expectAxeContent(page);

  bend.params.turn = 80;
  await sheet.dropFile('cellar.json', JSON.stringify(job));
  await expect(alert).toHaveCount(0);
  await expect(sheet.field('Name of the job')).toHaveValue('Cellar');
  await expect(sheet.field('Turn')).toHaveValue('80');
});

test('a new job is empty, says so and offers the families by what the site asks', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.askJob('New job');
  await expect(sheet.view('Drawing')).toContainText('no fitting in this job yet');
  const offered = page.locator('dl');
  await expect(offered).toContainText('Straight on');
  await expect(offered).toContainText('Turn');
  await expect(offered).toContainText('Shift');
  await expectAxeContent(page);
  await sheet.readSaved();
  await page.reload();
  await expect(sheet.view('Drawing')).toContainText('no fitting in this job yet');
  await sheet.button('double offset').click();
  expect(await sheet.listTags()).toEqual(['F1']);
  await expect(sheet.handle('level')).toBeVisible();
  await sheet.button('Undo').click();
  expect(await sheet.listTags()).toEqual([]);
});

test('the other hand and the other end are one tap each', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const direction = page.locator('[data-param=heel] select');
  await expect(direction).toHaveValue('right');
  await sheet.button('Mirror').click();
  await expect(direction).toHaveValue('left');
  await sheet.button('Undo').click();
  await expect(direction).toHaveValue('right');

  await sheet.field('Throat at inlet').fill('320');
  await sheet.field('Throat at inlet').press('Enter');
  await sheet.button('Reverse').click();
  await expect(sheet.field('Throat at inlet')).toHaveValue('200');
  await expect(sheet.field('Throat at outlet')).toHaveValue('320');
  await expect(direction).toHaveValue('left');
  await sheet.button('Reverse').click();
  await expect(sheet.field('Throat at inlet')).toHaveValue('320');

  await sheet.chooseFitting('F2');
  await sheet.button('Mirror').click();
  await expect(sheet.field('Roll')).toHaveValue('-140');
  await sheet.button('Reverse').click();
  await expect(sheet.field('Rise')).toHaveValue('-220');
  await expect(sheet.field('Roll')).toHaveValue('-140');
  await expect(page.locator('[data-param=throatIn]').getByRole('checkbox')).toBeChecked();

  // A straight is its own mirror image.
  await sheet.chooseFitting('F5');
  await expect(sheet.button('Mirror')).toBeDisabled();
  await expect(sheet.button('Reverse')).toBeDisabled();
});

test('how the straight is laid, seamed and ended is said and taken back', async ({ page }) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const choose = (field: string, option: string): Promise<string[]> =>
    page.getByRole('combobox', { name: field }).selectOption(option);
  await choose('Laid', 'along');
  await expect(sheet.view('Marks')).toContainText('Laid along the board');
  await choose('Seam', 'bottom right');
  await choose('End at inlet', 'male');
  expect((await sheet.readSaved()).fittings![0]).toMatchObject({
    lay: 'along',
    seam: 'bottom-right',
    ends: { inlet: 'male' }
  });
  await choose('Laid', 'as the board yields');
  await expect(sheet.view('Marks')).toContainText('Laid across the board');
  await choose('End at inlet', 'as it comes');
  const said = (await sheet.readSaved()).fittings![0]!;
  expect(said.lay).toBeUndefined();
  expect(said.ends).toBeUndefined();

  await choose('End at outlet', 'male');
  const row = page.locator('[data-param="ends.outlet"]');
  await expect(row).toContainText('plain end');
  await row.getByRole('button', { name: 'Use plain' }).click();
  await expect(row.getByRole('combobox')).toHaveValue('plain');
});

test('the job survives a renderer that is killed one second after the last change', async ({
  page,
  context
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.expectSaved();
  await sheet.pull('throatIn', { x: 60, y: 0 });
  await sheet.release();
  const throat = await sheet.field('Throat at inlet').inputValue();
  expect(Number(throat)).toBeGreaterThan(200);
  await page.waitForTimeout(1000);
  const crashed = page.waitForEvent('crash');
  const session = await context.newCDPSession(page);
  session.send('Page.crash').catch(() => {
    // Nothing is left to answer.
  });
  await crashed;

  const reopened = new SettingOutPage(await context.newPage());
  await reopened.open();
  await expect(reopened.field('Throat at inlet')).toHaveValue(throat);
});

for (const size of [
  { width: 1440, height: 900 },
  { width: 390, height: 844 }
]) {
  test.describe(`by touch, ${size.width} by ${size.height}`, () => {
    test.use({ viewport: size, hasTouch: true, isMobile: true });

    test('a job is opened, changed and shown in inches without scrolling sideways', async ({ page }) => {
      const sheet = new SettingOutPage(page);
      await sheet.open();
      await sheet.askJob('Village library, entrance hall return');
      await expect(sheet.field('Name of the job')).toHaveValue('Village library, entrance hall return');
      expect(await sheet.measureOverflow()).toBe(0);
      await page.getByRole('button', { name: 'Units' }).click();
      await expect(page.getByRole('radio', { name: 'inches, sixteenths' })).toBeInViewport();
      await page.getByRole('radio', { name: 'inches, sixteenths' }).check();
      expect(await sheet.measureOverflow()).toBe(0);
      await sheet.escape();
      if (size.width < 700) await sheet.button('Parameters').click();
      await sheet.addFitting('offset');
      await expect(sheet.field('Rise')).toHaveValue('8 11/16');
      await sheet.button('Mirror').click();
      await expect(sheet.field('Roll')).toHaveValue('-5 1/2');
      expect(await sheet.measureOverflow()).toBe(0);
      await expectAxeContent(page);
    });

    test('what a finger taps in the header and in the list is 44 px high and wide', async ({ page }) => {
      const sheet = new SettingOutPage(page);
      await sheet.open();
      if (size.width < 700) await sheet.button('Parameters').click();
      await sheet.button('Add a fitting').click();
      await sheet.button('Job').click();
      const small = await page
        .locator('header, aside, nav')
        .locator('button, select, input:not([hidden]), summary')
        .evaluateAll((all) =>
          all.flatMap((one) => {
            // A box to tick is tapped by its label.
            const tick = one instanceof HTMLInputElement && one.type !== 'text';
            const { width, height } = ((tick && one.closest('label')) || one).getBoundingClientRect();
            return width >= 44 && height >= 44 ? [] : [`${one.outerHTML}: ${width} × ${height}`];
          })
        );
      expect(small).toEqual([]);
    });
  });
}
