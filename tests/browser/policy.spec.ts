import { expect, type Page } from '@playwright/test';
import { SettingOutPage, test } from './driver.ts';
import { dragThroat, useEverything } from './everything.ts';

/** Watches what a page asks for elsewhere, and what its policy refuses. */
async function watch(page: Page, origin: string): Promise<{ outside: string[]; refused: string[] }> {
  const seen = { outside: [] as string[], refused: [] as string[] };
  page.context().on('request', (request) => {
    const url = request.url();
    if (!/^(data|blob):/.test(url) && new URL(url).origin !== origin) seen.outside.push(url);
  });
  await page.exposeFunction('tellRefused', (what: string) => seen.refused.push(what));
  await page.addInitScript(() =>
    addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI, sourceFile }) =>
      (globalThis as unknown as { tellRefused(what: string): void }).tellRefused(
        `${effectiveDirective} ${blockedURI} ${sourceFile}`
      )
    )
  );
  return seen;
}

for (const [who, hasWorker] of [
  ['workers write and search', true],
  ['the page writes itself', false]
] as const) {
  test(`nothing that the page can do asks another place or breaks its policy, where ${who}`, async ({
    page,
    baseURL
  }) => {
    test.setTimeout(120_000);
    const seen = await watch(page, new URL(baseURL!).origin);
    if (!hasWorker) await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'Worker'));
    const sheet = new SettingOutPage(page);
    await sheet.open();
    await dragThroat(sheet);
    await useEverything(page, sheet, hasWorker);
    expect(seen).toEqual({ outside: [], refused: [] });
  });
}

test('the policy refuses another place, a script of text and a style of text', async ({ page, errors }) => {
  const seen = await watch(page, '');
  await page.goto('./');
  const tried = await page.evaluate(async () => {
    const attempt = async (act: () => unknown): Promise<string> => {
      try {
        await act();
        return 'done';
      } catch (error) {
        return (error as Error).name;
      }
    };
    const later = (act: () => unknown): Promise<unknown> =>
      new Promise((done, fail) => setTimeout(() => Promise.resolve().then(act).then(done, fail)));
    const element = document.createElement('p');
    return [
      await attempt(() => fetch('https://elsewhere.invalid/')),
      // Later: what a debugger asks for itself may always become a script.
      await attempt(() => later(() => new Function('return 1')())),
      await attempt(() => (element.innerHTML = '<b>text</b>')),
      await attempt(() => new Worker('https://elsewhere.invalid/worker.js')),
      await attempt(() => element.setAttribute('style', 'color: red'))
    ];
  });
  expect(tried).toEqual(['TypeError', 'EvalError', 'TypeError', 'TypeError', 'done']);
  await expect.poll(() => seen.refused.map((one) => one.split(' ')[0])).toContain('style-src-attr');
  expect(seen.refused.map((one) => one.split(' ')[0])).toContain('connect-src');
  // They are what was wanted.
  expect(errors.length).toBeGreaterThan(0);
  errors.length = 0;
});
