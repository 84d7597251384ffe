// npm run icons: the pictures by which an installed page is shown, from static/favicon.svg into static/icons/.
import { chromium } from '@playwright/test';
import { mkdirSync, readFileSync } from 'node:fs';
import { findBrowser } from './browser.mjs';

const svg = readFileSync('static/favicon.svg', 'utf8');
/** The ground of the picture, to its very edge: systems cut their own shape out of it. */
const ground = /fill="(#\w+)"/.exec(svg)?.[1] ?? '';
const icons = [
  { name: 'any-192', size: 192, part: 1 },
  { name: 'any-512', size: 512, part: 1 },
  // What is to be seen stays within four fifths of such an icon's width, whatever shape is cut.
  { name: 'maskable-512', size: 512, part: 0.75 },
  { name: 'touch-180', size: 180, part: 0.85 }
];

const browser = await chromium.launch(await findBrowser());
mkdirSync('static/icons', { recursive: true });
for (const { name, size, part } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const side = Math.round(size * part);
  const picture = svg.replace('<svg ', `<svg width="${side}" height="${side}" `);
  const under = part === 1 ? 'transparent' : ground;
  await page.setContent(
    `<body style="margin: 0; height: 100vh; display: grid; place-items: center; background: ${under}">${picture}`
  );
  const path = `static/icons/${name}.png`;
  await page.screenshot({ path, omitBackground: true });
  await page.close();
  console.log(path);
}
await browser.close();
