import { chromium, type Browser } from '@playwright/test';
import { preview } from 'vite';
import { findBrowser } from './browser.mjs';

/** Serves the built site on a free port and opens a browser while something runs with both. */
export async function withSite(run: (browser: Browser, url: string) => Promise<void>): Promise<void> {
  const server = await preview({ preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
  const url = server.resolvedUrls?.local[0];
  if (!url) throw new Error('vite preview answered no address');
  const browser = await chromium.launch(await findBrowser());
  try {
    await run(browser, url);
  } finally {
    await browser.close();
    await server.close();
  }
}
