import { expect, test, type Page } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import { findCorners, measure, readPdf, type ReadPage } from '../pdf.ts';
import { SettingOutPage } from './driver.ts';

/** Taps an export and reads the PDF that comes down. */
async function download(page: Page, name: string): Promise<{ file: string; pages: ReadPage[] }> {
  const [arriving] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).click()
  ]);
  const path = await arriving.path();
  return { file: arriving.suggestedFilename(), pages: await readPdf(new Uint8Array(await readFile(path))) };
}

function listWords(pages: readonly ReadPage[]): string {
  return pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
}

function expectCheckBars({ lines }: ReadPage): void {
  for (const length of [100, 101.6]) {
    const bars = lines.filter((line) => Math.abs(measure(line) - length) < 0.2);
    expect(bars.some(({ from, to }) => from[1] === to[1])).toBe(true);
    expect(bars.some(({ from, to }) => from[0] === to[0])).toBe(true);
  }
}

for (const [paper, sides] of [
  ['A4', [210, 297]],
  ['Letter', [215.9, 279.4]]
] as const) {
  test(`the mark-out and the templates of a dragged bend come out on ${paper} at the right size`, async ({
    page
  }) => {
    const sheet = new SettingOutPage(page);
    await sheet.open();
    await sheet.pull('throatIn', { x: 40, y: 0 });
    await sheet.release();
    const throat = Number(await sheet.field('Throat at inlet').inputValue());
    expect(throat).toBeGreaterThan(200);

    await sheet.button('Print and export').click();
    await page.getByRole('combobox', { name: 'Paper' }).selectOption(paper.toLowerCase());
    await page.getByText('Title block').click();
    for (const [label, text] of [
      ['Owner', 'Parish council'],
      ['Date of issue', '2026-03-14'],
      ['Revision', 'B']
    ] as const) {
      await sheet.field(label).fill(text);
      await page.keyboard.press('Enter');
    }
    const markOut = await download(page, 'Mark-out');
    expect(markOut.file).toBe('Village-library-reading-room-supply-F1-mark-out.pdf');
    for (const one of markOut.pages) {
      expect([one.width, one.height].sort((a, b) => a - b).map((side) => side.toFixed(1))).toEqual(
        sides.map((side) => side.toFixed(1))
      );
      expectCheckBars(one);
    }
    const words = listWords(markOut.pages);
    for (const wanted of [
      'C1',
      'C2',
      '22.5°',
      String(throat),
      'Parish council',
      '2026-03-14',
      'Knives',
      'licensed practitioner'
    ]) {
      expect(words).toContain(wanted);
    }

    const templates = await download(page, 'Templates 1:1 in strips');
    templates.pages.forEach(expectCheckBars);
    const stations = templates.pages
      .filter(({ texts }) => texts.some(({ text }) => text.startsWith('C1 ')))
      .flatMap((one) => findCorners(one).map(({ station }) => station));
    // C1 starts at the throat on the left edge and lies 450 mm × tan 22.5° = 186.396 mm further down at the heel.
    for (const wanted of [throat, throat + 186.396]) {
      const nearest = stations.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a));
      expect(Math.abs(nearest - wanted)).toBeLessThan(0.2);
    }
  });
}

test('of a fitting that cannot be built only the mark-out with its findings can be printed', async ({
  page
}) => {
  const sheet = new SettingOutPage(page);
  await sheet.open();
  await sheet.field('Gore').fill('0');
  await page.keyboard.press('Enter');
  await sheet.button('Print and export').click();
  await expect(page.getByText('no marks to print')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Templates' })).toHaveCount(0);
  const { pages } = await download(page, 'Mark-out');
  expect(listWords(pages)).toContain('Cannot be built');
});
