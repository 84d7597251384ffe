import { defineConfig } from '@playwright/test';
import { findBrowser } from './browser.mjs';

const port = 4391;
const url = `http://127.0.0.1:${port}/`;

export default defineConfig({
  testDir: '.',
  outputDir: '../../.reports/browser',
  reporter: [['line'], ['json', { outputFile: '../../.reports/playwright.json' }]],
  workers: 2,
  fullyParallel: true,
  forbidOnly: Boolean(process.env.CI),
  // Only the stories about it have the page kept by a service worker.
  use: { baseURL: url, serviceWorkers: 'block', launchOptions: await findBrowser() },
  projects: [{ name: 'desktop', use: { viewport: { width: 1440, height: 900 } } }],
  webServer: {
    command: `npx vite preview --host 127.0.0.1 --port ${port} --strictPort`,
    cwd: '../..',
    url,
    reuseExistingServer: false
  }
});
