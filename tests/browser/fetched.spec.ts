// A part of the page that is fetched late does not arrive: the browser reports that, so errors are no fault here.
import { expect, test } from '@playwright/test';
import { SettingOutPage } from './driver.ts';

test('where what draws the preview does not arrive, it says so and has it once it is asked again', async ({
  page
}) => {
  // The script of the picture is the one that is asked for once the first handle is there.
  let isCut = true;
  await page.route(/\.js$/, async (route) => {
    const answer = await route.fetch();
    if (isCut && (await answer.text()).includes('dataset.miters')) await route.abort();
    else await route.fulfill({ response: answer });
  });
  const sheet = new SettingOutPage(page);
  await sheet.open();
  const preview = sheet.view('Preview');
  await expect(preview.getByRole('alert')).toContainText('could not be fetched');
  await expect(preview.getByLabel('Section plane')).toHaveCount(0);
  isCut = false;
  await preview.getByRole('button', { name: 'Try again' }).click();
  await expect(preview.locator('[data-drawn]')).toBeVisible();
});

test('where what draws the site does not arrive, the drawing says so and has it once it is asked again', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await expect(sheet.view('Preview').locator('[data-drawn]')).toBeVisible();
  await page.route(/\.js$/, (route) => route.abort());
  await sheet.askJob('Village library, reading room supply past the beam');
  const drawing = sheet.view('Drawing');
  await expect(drawing.getByRole('alert')).toContainText('could not be fetched');
  await expect(sheet.handle('site.0')).toHaveCount(0);
  await page.unroute(/\.js$/);
  await drawing.getByRole('button', { name: 'Try again' }).click();
  await expect(sheet.handle('site.0')).toBeVisible();
  await expect(drawing.getByRole('alert')).toHaveCount(0);
});
