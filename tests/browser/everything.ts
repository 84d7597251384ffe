import { expect, type Page } from '@playwright/test';
import { stat } from 'node:fs/promises';
import type { SettingOutPage } from './driver.ts';

const EXAMPLE = 'Village library, reading room supply past the beam';

/** Drags the inlet's throat of the demo's bend; what it measures then, mm. */
export async function dragThroat(sheet: SettingOutPage): Promise<number> {
  const read = async (): Promise<number> => Number(await sheet.field('Throat at inlet').inputValue());
  const before = await read();
  await sheet.pull('throatIn', { x: 40, y: 0 });
  await sheet.release();
  expect(await read()).not.toBe(before);
  return read();
}

/** Uses whatever the page fetches late: the preview, every export, an example, its site, and a search where there are workers. */
export async function useEverything(page: Page, sheet: SettingOutPage, hasWorker = true): Promise<void> {
  await expect(sheet.view('Preview').locator('[data-drawn]')).toBeVisible();
  await sheet.button('Step back').click();
  await saveEveryExport(page, sheet);

  await sheet.askJob(EXAMPLE);
  await expect(sheet.handle('site.0')).toBeVisible();
  await sheet.button('Site').click();
  const panel = page.getByRole('complementary', { name: 'Site' });
  await expect(panel).toBeVisible();
  if (!hasWorker) return;
  await panel.getByRole('button', { name: 'Find fittings' }).click();
  await panel
    .getByRole('button', { name: /^Take: / })
    .first()
    .click({ timeout: 60_000 });
  await sheet.expectSaved();
}

/** Taps every export that the panel offers for the fitting, which are all that apply. */
async function saveEveryExport(page: Page, sheet: SettingOutPage): Promise<void> {
  await sheet.button('Print and export').click();
  const panel = page.getByRole('complementary', { name: 'Print and export' });
  await expect(panel.getByRole('button', { name: 'Mark-out (PDF)' })).toBeVisible();
  const names = (await panel.locator('section button').allTextContents()).map((name) => name.trim());
  expect(names.length).toBeGreaterThan(4);
  for (const name of names) {
    const [arriving] = await Promise.all([page.waitForEvent('download'), sheet.button(name).click()]);
    expect(await arriving.failure()).toBeNull();
    expect((await stat(await arriving.path())).size).toBeGreaterThan(100);
  }
  await sheet.button('Print and export').click();
}
