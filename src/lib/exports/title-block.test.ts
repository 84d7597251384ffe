import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, printPages } from '../../../tests/paper.ts';
import { measure, type ReadPage } from '../../../tests/pdf.ts';
import { checkJob } from '../kernel/document/read.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { digestJob, writeCanonicalJob } from './digest.ts';

const listTexts = ({ texts }: ReadPage): string[] => texts.map(({ text }) => text);
const FIELDS = { owner: 'Parish council', number: 'VL-0042', date: '2026-11-25', revision: 'B' };

describe('the title block of a mark-out', () => {
  it('says on every page what the user gives, the fitting, its document type, the page and the digest of the job', async () => {
    const model = evaluateJob([EXAMPLES.bend]);
    const pages = await printPages('mark-out', model, { title: FIELDS });
    expect(pages.length).toBeGreaterThan(1);
    const digest = await digestJob(model);
    for (const [i, page] of pages.entries()) {
      for (const wanted of [...Object.values(FIELDS), digest, 'Mark-out', 'F1 bend · Reading room supply']) {
        expect(listTexts(page)).toContain(wanted);
      }
      expect(listTexts(page)).toContain(`${i + 1} of ${pages.length}`);
    }
  });

  it('leaves empty what the user does not give, the date too', async () => {
    const [page] = await printPages('mark-out', evaluateJob([EXAMPLES.bend]));
    expect(listTexts(page!)).toContain('Date of issue');
    expect(listTexts(page!).filter((text) => /\d{4}-\d\d-\d\d|20\d\d/.test(text))).toEqual([]);
  });

  it.each(['a4', 'letter'] as const)(
    'is 180 mm wide at the bottom right of %s, upright and across',
    async (paper) => {
      const many = {
        family: 'path',
        section: { width: 300, height: 200 },
        params: {
          lengths: Array.from({ length: 6 }, () => 480),
          joints: Array.from({ length: 5 }, (_, i) => ({ turn: 25, heel: i % 2 === 0 ? 270 : 90 }))
        }
      };
      const pages = [
        ...(await printPages('mark-out', evaluateJob([EXAMPLES.bend]), { paper })),
        ...(await printPages('mark-out', evaluateJob([many]), { paper }))
      ];
      expect(pages.some(({ width, height }) => width > height)).toBe(true);
      for (const page of pages) {
        const blocks = page.lines.filter(
          (line) =>
            line.width > 0.4 &&
            Math.abs(measure(line) - 180) < 0.2 &&
            [line.from, line.to].every(([, y]) => Math.abs(y - 10) < 0.2) &&
            Math.abs(Math.max(line.from[0], line.to[0]) - (page.width - 10)) < 0.2
        );
        expect(blocks.length).toBeGreaterThan(0);
      }
    }
  );

  it('brings long entries into their cells', async () => {
    const long = 'The parish council of a village with a long name and a library to match it';
    const [page] = await printPages('mark-out', evaluateJob([EXAMPLES.bend], { name: long }), {
      title: { owner: long }
    });
    const shortened = listTexts(page!).filter((text) => text.endsWith('…'));
    expect(shortened).toHaveLength(2);
  });
});

describe('the mark-out of up to four cuts', () => {
  it.each(
    (['a4', 'letter'] as const).flatMap((paper) =>
      (['bend', 'offset', 'double-offset', 'path'] as const).map((family) => [family, paper] as const)
    )
  )('has figure and mark table of a %s on one page of %s', async (family, paper) => {
    const model = evaluateJob([EXAMPLES[family]]);
    const [first] = await printPages('mark-out', model, { paper });
    const texts = listTexts(first!);
    const { cuts } = model.fittings[0]!.built!.fitting.straights[0]!;
    expect(cuts.length).toBeLessThanOrEqual(4);
    expect(texts).toContain('flow');
    expect(texts).toContain('Mark table');
    // Four rows a cut, and the sentence that closes the table.
    expect(texts.filter((text) => ['upright', 'upstream', 'downstream'].includes(text))).toHaveLength(
      4 * cuts.length
    );
    expect(texts.some((text) => text.startsWith('From start to end'))).toBe(true);
  });
});

describe('the digest of a job', () => {
  const said = {
    format: 'gorewright-job',
    version: 1,
    name: 'Reading room supply',
    fittings: [EXAMPLES.bend]
  };
  const digest = async (job: unknown): Promise<string | null> => {
    const read = checkJob(job);
    if ('fault' in read) throw new Error(read.fault.wrong);
    return digestJob(evaluate(read.job));
  };

  it('is the first twelve digits of the SHA-256 of the job in one line', async () => {
    const line = writeCanonicalJob(evaluateJob([EXAMPLES.bend]));
    expect(line).not.toMatch(/\s(?!room|supply)/);
    expect(await digest(said)).toBe(createHash('sha256').update(line).digest('hex').slice(0, 12));
  });

  it('is that of a readable job which says every default, and that one has the same digest', async () => {
    const line = writeCanonicalJob(evaluateJob(Object.values(EXAMPLES)));
    expect(await digest(JSON.parse(line))).toBe(await digest({ ...said, fittings: Object.values(EXAMPLES) }));
  });

  it('does not depend on the order of keys nor on defaults being said, but on every figure', async () => {
    const same = {
      fittings: [
        { params: EXAMPLES.bend.params, quantity: 1, section: { height: 250, width: 400 }, family: 'bend' }
      ],
      board: { thickness: 25 },
      name: 'Reading room supply',
      version: 1,
      format: 'gorewright-job'
    };
    expect(await digest(same)).toBe(await digest(said));
    for (const other of [
      { ...said, name: 'Reading room' },
      { ...said, board: { thickness: 26 } },
      { ...said, fittings: [{ ...EXAMPLES.bend, quantity: 2 }] },
      { ...said, fittings: [{ ...EXAMPLES.bend, params: { ...EXAMPLES.bend.params, throatIn: 200.001 } }] },
      { ...said, fittings: [{ ...EXAMPLES.bend, seam: 'top-right' }] }
    ]) {
      expect(await digest(other)).not.toBe(await digest(said));
    }
  });

  it('is another for another site, and the same for one that says what it would want anyway', async () => {
    const beam = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] };
    const end = { at: [2600, null, 0], flow: [1, 0, 0], up: [0, 1, 0] };
    const site = { section: EXAMPLES.bend.section, end, clearance: 25, obstacles: [beam] };
    const there = { ...said, site };
    const everything = { handRoom: 100, ...site, obstacles: [{ turn: 0, clearance: 25, ...beam }] };
    expect(await digest({ ...said, site: everything })).toBe(await digest(there));
    for (const other of [said, { ...said, site: { ...site, clearance: 30 } }]) {
      expect(await digest(other)).not.toBe(await digest(there));
    }
  });
});
