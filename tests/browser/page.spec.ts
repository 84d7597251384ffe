import { expect } from '@playwright/test';
import { test } from './driver.ts';

test('the page opens, shows its name and reports no error', async ({ page, errors }) => {
  await page.goto('./');
  await expect(page).toHaveTitle(/Gorewright/);
  await expect(page.getByText('Gorewright').first()).toBeVisible();
  expect(errors).toEqual([]);
});
