import { expect, test } from '@playwright/test';

test('the page opens, shows its name and reports no error', async ({ page }) => {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto('./');
  await expect(page).toHaveTitle(/Gorewright/);
  await expect(page.getByText('Gorewright').first()).toBeVisible();
  expect(errors).toEqual([]);
});
