// npm run screenshots: builds the page and takes its picture at three sizes into .reports/screenshots/,
// and the one README shows into static/pictures/.
import { chromium } from '@playwright/test';
import { copyFileSync, mkdirSync } from 'node:fs';
import { build, preview } from 'vite';
import { findBrowser } from './browser.mjs';

const sizes = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 }
];

await build({ logLevel: 'warn' });
const server = await preview({ preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
const url = server.resolvedUrls?.local[0];
if (!url) throw new Error('vite preview answered no address');
const browser = await chromium.launch(await findBrowser());

for (const viewport of sizes) {
  const page = await browser.newPage({ viewport, colorScheme: 'light', reducedMotion: 'reduce' });
  await page.goto(url, { waitUntil: 'networkidle' });
  // Where the preview is in sight it is drawn last.
  if (viewport.width >= 1200) await page.locator('[data-miters]').waitFor();
  await page.evaluate(() => document.fonts.ready);
  const path = `.reports/screenshots/setting-out-${viewport.width}x${viewport.height}.png`;
  await page.screenshot({ path });
  await page.close();
  console.log(path);
}

const picture = 'static/pictures/setting-out.png';
mkdirSync('static/pictures', { recursive: true });
copyFileSync('.reports/screenshots/setting-out-1440x900.png', picture);
console.log(picture);

await browser.close();
await server.close();
