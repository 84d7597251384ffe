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
  use: { baseURL: url, launchOptions: await findBrowser() },
  projects: [{ name: 'desktop', use: { viewport: { width: 1440, height: 900 } } }],
  webServer: {
    command: `npx vite preview --host 127.0.0.1 --port ${port} --strictPort`,
    cwd: '../..',
    url,
    reuseExistingServer: false
  }
});
