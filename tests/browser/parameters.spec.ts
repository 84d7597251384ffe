import { expect, test } from '@playwright/test';
import { SettingOutPage } from './driver.ts';

test('an outlet is lined up by a word or by a number, which starts where the word had it', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.addFitting('reducer');
  const row = page.locator('[data-param=alignY]');
  await expect(row.getByRole('textbox')).toHaveCount(0);
  await row.getByRole('combobox').selectOption('by number');
  // Bottoms level: half of what the height loses, down.
  await expect(row.getByRole('textbox')).toHaveValue('-25');
  await row.getByRole('textbox').fill('-10');
  await page.keyboard.press('Enter');
  await expect(sheet.handle('alignY')).toHaveAttribute('aria-valuenow', '-10');
  await row.getByRole('combobox').selectOption('tops level');
  await expect(row.getByRole('textbox')).toHaveCount(0);
  const { fittings } = await sheet.readSaved();
  expect(fittings!.find(({ family }) => family === 'reducer')!.params['alignY']).toBe('top');
});

test('the share of a part follows from the others until it is said, and again once it is let', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.addFitting('one side turns');
  const group = page.getByRole('group', { name: 'Part straight on' });
  const inside = group.locator('[data-param="straight.inside"]');
  const follows = inside.getByRole('checkbox', { name: 'follows' });
  await expect(follows).toBeChecked();
  await expect(inside.getByRole('textbox')).toHaveValue('170');
  await inside.getByRole('textbox').fill('150');
  await page.keyboard.press('Enter');
  await expect(follows).not.toBeChecked();
  await expect(inside).toContainText('add up to');
  await follows.check();
  await expect(inside.getByRole('textbox')).toHaveValue('170');
  await expect(inside).not.toContainText('add up to');
});

test('an opening that becomes rectangular keeps its size, and shows the sizes of its shape only', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.addFitting('opening');
  await expect(sheet.field('Diameter')).toHaveValue('160');
  await page.locator('[data-param=shape]').getByRole('combobox').selectOption('rectangular');
  await expect(sheet.field('Diameter')).toHaveCount(0);
  for (const name of ['Along', 'Across']) await expect(sheet.field(name)).toHaveValue('160');
  await sheet.button('Undo').click();
  await expect(sheet.field('Diameter')).toHaveValue('160');
  await expect(sheet.field('Along')).toHaveCount(0);
});
