// The longest task of the page while templates of many pages are written, by the worker and by the page itself.
import type { Browser, Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { readPdf } from '../pdf.ts';
import { SettingOutPage } from './driver.ts';
import { withSite } from './built-site.ts';
import { makeLargeBend } from './large-bend.ts';

/** A bend whose templates take more than twenty pages of A4. */
const LARGE = makeLargeBend(1200, 800, 4, 6000);

/** Prints the figures with their goal. The site has to be built. */
export async function benchExport(): Promise<void> {
  await withSite(async (browser, url) => {
    const beside = await watchExport(browser, url, true);
    const onPage = await watchExport(browser, url, false);
    console.log(
      `Templates of ${beside.pages} pages: longest task of the page ${beside.longest.toFixed(0)} ms while a worker writes them in ${beside.time.toFixed(0)} ms (goal: at most 100), ${onPage.longest.toFixed(0)} ms while the page does in ${onPage.time.toFixed(0)} ms`
    );
  });
}

interface Watched {
  readonly pages: number;
  /** ms; tasks under 50 ms are not seen and count as 0. */
  readonly longest: number;
  readonly time: number;
}

async function watchExport(browser: Browser, url: string, hasWorker: boolean): Promise<Watched> {
  const page = await browser.newPage({ baseURL: url, viewport: { width: 1440, height: 900 } });
  if (!hasWorker) await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.openFile('large.json', JSON.stringify(LARGE));
  await sheet.button('Print and export').click();
  const templates = sheet.button('Templates 1:1 in strips (PDF)');
  await templates.waitFor();
  // What is fetched at the first time is there at the second.
  await save(page, templates);
  await page.evaluate(() => {
    const tasks: number[] = [];
    Object.assign(globalThis, { tasks });
    new PerformanceObserver((list) =>
      tasks.push(...list.getEntries().map(({ duration }) => duration))
    ).observe({ type: 'longtask' });
  });
  const from = performance.now();
  const file = await save(page, templates);
  const time = performance.now() - from;
  const longest = await page.evaluate(() =>
    Math.max(0, ...(globalThis as unknown as { tasks: number[] }).tasks)
  );
  await page.close();
  return { pages: (await readPdf(file)).length, longest, time };
}

async function save(page: Page, button: ReturnType<SettingOutPage['button']>): Promise<Uint8Array> {
  const [arriving] = await Promise.all([page.waitForEvent('download'), button.click()]);
  return new Uint8Array(await readFile(await arriving.path()));
}
