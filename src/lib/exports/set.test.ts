import { beforeAll, describe, expect, it } from 'vitest';
import {
  EXAMPLES,
  evaluateJob,
  findExport,
  loadFont,
  PARTED_EXAMPLES,
  printPages
} from '../../../tests/paper.ts';
import { readPdf, type ReadPage } from '../../../tests/pdf.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import { layMarkOut } from '../figures/paper-mark-out.ts';
import { composeSet } from '../figures/paper-set.ts';
import type { Page } from '../figures/paper.ts';
import { checkJob } from '../kernel/document/read.ts';
import type { Job } from '../kernel/document/job.ts';
import type { Model } from '../kernel/evaluate.ts';
import { digestJob } from './digest.ts';

const IMPOSSIBLE = {
  family: 'path',
  section: { width: 400, height: 250 },
  params: { lengths: [50, 50], joints: [{ turn: 90, heel: 0 }] }
};
const FITTINGS = [
  { ...EXAMPLES.bend, tag: 'F1' },
  { ...EXAMPLES.path, tag: 'F2', quantity: 3 },
  { ...IMPOSSIBLE, tag: 'F3' },
  { ...PARTED_EXAMPLES['a take-off'], tag: 'F4' }
];
const JOB = 'Reading room supply';

/** The lines of a page from its top, left to right, the texts of a line put together. */
function readLines({ texts }: ReadPage): string[] {
  const rows = new Map<number, { x: number; text: string }[]>();
  for (const { text, x, y } of texts) {
    const row = Math.round(y * 2);
    rows.set(row, [...(rows.get(row) ?? []), { x, text }]);
  }
  return [...rows]
    .sort(([a], [b]) => b - a)
    .map(([, cells]) =>
      cells
        .sort((a, b) => a.x - b.x)
        .map(({ text }) => text)
        .join(' ')
    );
}

/** Where the pages of each fitting begin, by their title. */
function findBeginnings(pages: readonly (readonly string[])[], model: Model): number[] {
  return model.fittings.map(
    ({ resolved }) =>
      pages.findIndex((texts) =>
        texts.some((text) => text.startsWith(`${resolved.tag} `) && text.endsWith(JOB))
      ) + 1
  );
}

const said = (fittings: readonly object[]): Job => {
  const read = checkJob({ format: 'gorewright-job', version: 1, name: JOB, fittings });
  if ('fault' in read) throw new Error(read.fault.wrong);
  return read.job;
};

describe('the set of a job', () => {
  const model = evaluateJob(FITTINGS);
  const title = { owner: 'Parish council', number: 'VL-0042', date: '2026-11-25', revision: 'B' };
  let set: ReadPage[];
  beforeAll(async () => {
    set = await printPages('set', model, { title });
  });

  it('has a cover, the list with the page of every fitting, and pages numbered through', async () => {
    const cover = readLines(set[0]!);
    const count = set.length;
    for (const wanted of [
      JOB,
      'Owner Parish council',
      'Document number VL-0042',
      'Date of issue 2026-11-25',
      'Revision B',
      `Digest of the job ${await digestJob(model)}`,
      'Fittings 4, 6 to make in all',
      `Pages ${count}`,
      'Paper A4',
      'There is no earlier issue to compare with.'
    ]) {
      expect(cover).toContain(wanted);
    }
    const [bend, path, impossible, takeoff] = findBeginnings(
      set.map(({ texts }) => texts.map(({ text }) => text)),
      model
    );
    expect(bend).toBe(2);
    const findings = model.fittings.map((fitting) => fitting.findings.length);
    for (const row of [
      `F1 bend 400 × 250 1 1 0 ${findings[0]} ${bend}`,
      `F2 free path 300 × 300 3 1 0 ${findings[1]} ${path}`,
      `F3 free path 400 × 250 1 – – ${findings[2]} ${impossible}`,
      `F4 take-off 400 × 250 1 2 0 ${findings[3]} ${takeoff}`
    ]) {
      expect(cover).toContain(row);
    }
    expect(cover.join(' ')).toContain('Fittings that cannot be built – F3: P1 has nothing left at its');
    set.forEach(({ texts }, i) => {
      expect(texts.map(({ text }) => text)).toContain(`${i + 1} of ${count}`);
      expect(texts.map(({ text }) => text)).toContain('Set of mark-outs');
    });
  });

  it('has every page of every mark-out', async () => {
    let at = 1;
    for (const index of FITTINGS.keys()) {
      for (const page of await printPages('mark-out', model, { title }, index)) {
        // Number, document type and how they are said are another matter.
        const body = ({ lines, texts }: ReadPage) => [
          lines.length,
          texts
            .map(({ text }) => text)
            .filter((text) => !/^\d+ of \d+$|^Mark-out$|^Set of mark-outs$/.test(text))
        ];
        expect(body(set[at++]!)).toEqual(body(page));
      }
    }
    expect(at).toBe(set.length);
  });

  it('says what changed since the revision before, and nothing where nothing did', async () => {
    const [bend, path, impossible] = FITTINGS as [(typeof FITTINGS)[0], ...object[]];
    const earlier = [
      { ...bend, params: { ...bend.params, gore: 187.4 } },
      { ...path, quantity: 2 },
      impossible!,
      { ...EXAMPLES.straight, tag: 'S9' }
    ];
    const [cover] = await printPages('set', model, { since: { job: said(earlier), revision: 'A' } });
    expect(readLines(cover!).join(' ')).toContain(
      [
        'What changed since revision A',
        'S9 straight: removed.',
        'F4 added: take-off, 400 × 250 mm inside, 1 off.',
        'F1 bend, Gore: 187 mm → 150 mm.',
        'F2 free path, quantity: 2 → 3. '
      ].join(' – ')
    );
    for (const [revision, heading] of [
      ['A', 'What changed since revision A'],
      ['', 'What changed since the last issue']
    ] as const) {
      const since = { job: said(FITTINGS), revision };
      const texts = composeSet(model, [], 'a4', { digest: null }, since).flatMap(listTexts);
      expect(texts[texts.indexOf(heading) + 1]).toBe('Nothing.');
    }
  });

  it('tells how many pages it will have before the first is drawn, and lets itself be ended', async () => {
    const told: [number, number][] = [];
    const tell = (done: number, of: number): void => void told.push([done, of]);
    const bytes = await findExport('set').write(model, 0, { paper: 'a4', loadFont, tell });
    const pages = (await readPdf(bytes as Uint8Array)).length;
    expect(told.slice(0, 4).map(([done]) => done)).toEqual([0, 0, 0, 0]);
    expect(told.slice(4)).toEqual(Array.from({ length: pages }, (_, i) => [i + 1, pages]));
    let asked = 0;
    const end = (): void => {
      if (++asked === 2) throw new Error('enough');
    };
    await expect(findExport('set').write(model, 0, { paper: 'a4', loadFont, tell: end })).rejects.toThrow(
      'enough'
    );
    expect(asked).toBe(2);
  });

  it('keeps what is said of a fitting with an endless name on its page', async () => {
    const long = 'WM'.repeat(150);
    const before = said([{ ...EXAMPLES.bend, tag: long }]);
    const model = evaluateJob([
      { ...EXAMPLES.bend, tag: long, quantity: 2 },
      { ...IMPOSSIBLE, tag: `x${long}` }
    ]);
    const pages = composeSet(model, [], 'a4', { digest: null }, { job: before, revision: 'A' });
    for (const { width, parts } of pages) {
      for (const { figure, scale, at } of parts) {
        const box = measureOnPaper(figure, scale);
        if (box) expect(at[0] + box.right).toBeLessThanOrEqual(width - 10);
      }
    }
    // Once where it cannot be built, and once where it changed.
    expect(pages.flatMap(listTexts).join('').split(long)).toHaveLength(4);
  });

  it('is none of a job without a fitting', () => {
    expect(findExport('set').applies(evaluateJob([]), 0)).toBe(false);
  });
});

const listTexts = ({ parts }: Page): string[] =>
  parts.flatMap(({ figure }) =>
    figure.layers.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])))
  );

/** A set as it is composed, and the last cell of every row of its list, which names a page. */
function compose(
  model: Model,
  paper: 'a4' | 'letter'
): { texts: string[][]; listed: number[]; cover: number } {
  const markOuts = model.fittings.map((_, i) => layMarkOut(model, i, paper));
  const pages = composeSet(model, markOuts, paper, { digest: null }, undefined);
  const texts = pages.map(listTexts);
  const cover = pages.length - markOuts.flat().length;
  const front = texts.slice(0, cover).flat();
  let from = front.indexOf('Page');
  const listed = model.fittings.map(({ resolved }) => {
    from = front.indexOf(resolved.tag, from);
    return Number(front[from + 7]);
  });
  return { texts, listed, cover };
}

describe('the list of a set', () => {
  it.each([
    ['mm', 'a4'],
    ['in/16', 'letter']
  ] as const)('names the right page of every family with lengths in %s', (length, paper) => {
    const all = Object.values({ ...EXAMPLES, ...PARTED_EXAMPLES });
    const model = evaluateJob(
      all.map((fitting, i) => ({ ...fitting, tag: `T${i}` })),
      { show: { length } }
    );
    const { texts, listed } = compose(model, paper);
    expect(listed).toEqual(findBeginnings(texts, model));
    expect(new Set(listed).size).toBe(all.length);
  });

  it('names the right pages where it takes several itself', () => {
    const model = evaluateJob(
      Array.from({ length: 130 }, (_, i) => ({ ...IMPOSSIBLE, tag: `Tag ${i} on floor ${i % 3}` }))
    );
    const { texts, listed, cover } = compose(model, 'a4');
    expect(cover).toBeGreaterThan(6);
    expect(listed).toEqual(findBeginnings(texts, model));
    expect(texts[0]!.slice(0, 40)).toContain(String(texts.length));
  });
});
