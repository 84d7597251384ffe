import { describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, findExport, printPages } from '../../../tests/paper.ts';
import { measure, type ReadLine, type ReadPage } from '../../../tests/pdf.ts';
import { drawGauge, listGauges } from '../figures/gauge.ts';
import { findOverlaps } from '../figures/room.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { makeSpeech, speak } from '../words/words.ts';

const JOB = evaluateJob(Object.values(EXAMPLES));
const LEAST_LEG = 80;

/** By hand from the setting-out of each fitting: tan λ = tan α·sin φ, sin τ = sin α·cos φ on top, else the other way. */
const MITERS = [
  { tag: 'F1', miter: 22.5, heel: 90 },
  { tag: 'F2', miter: 22.5, heel: (Math.atan2(-140, -220) * 180) / Math.PI },
  { tag: 'F3', miter: 22.5, heel: 0 },
  { tag: 'F4', miter: 20, heel: 33 },
  { tag: 'F4', miter: 12.5, heel: 33 }
];
const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (angle: number): number => (angle * 180) / Math.PI;
const EXPECTED = MITERS.flatMap(({ miter, heel }) =>
  [heel, heel + 90].flatMap((clock) => [
    {
      kind: 'Line',
      angle: degrees(Math.atan(Math.tan(radians(miter)) * Math.abs(Math.sin(radians(clock)))))
    },
    {
      kind: 'Bevel',
      angle: degrees(Math.asin(Math.sin(radians(miter)) * Math.abs(Math.cos(radians(clock)))))
    }
  ])
).filter(({ angle }) => angle > 0.01);

interface Measured {
  readonly title: string;
  readonly angle: number;
  readonly legs: readonly number[];
  readonly vertex: readonly [number, number];
  readonly page: ReadPage;
}

/** Every gauge on the pages, measured: two wide lines that meet, one of them level. */
function measureGauges(pages: readonly ReadPage[]): Measured[] {
  return pages.flatMap((page) => {
    const wide = page.lines.filter(({ width }) => width > 0.4);
    const level = wide.filter(({ from, to }) => from[1] === to[1]);
    return level.map((base): Measured => {
      const [x, y] = base.from;
      const leg = wide.find(
        (line) => line !== base && Math.hypot(line.from[0] - x, line.from[1] - y) < 0.01
      ) as ReadLine;
      const titles = page.texts.filter(
        ({ text, x: left, y: at }) => /^(Line|Bevel) /.test(text) && Math.abs(left - x) < 3 && at > y
      );
      return {
        title: titles.sort((a, b) => a.y - b.y)[0]!.text,
        angle: degrees(Math.atan2(leg.to[0] - x, leg.to[1] - y)),
        legs: [measure(base), measure(leg)],
        vertex: [x, y],
        page
      };
    });
  });
}

describe.each(['a4', 'letter'] as const)('the gauges of a job on %s', (paper) => {
  it('show every different line angle and bevel of all its fittings, true to 0.05°, on legs of 80 mm and more', async () => {
    const measured = measureGauges(await printPages('gauges', JOB, { paper }));
    for (const { kind, angle } of EXPECTED) {
      const found = measured.filter(({ title }) => title.startsWith(kind));
      expect(Math.min(...found.map((one) => Math.abs(one.angle - angle)))).toBeLessThan(0.05);
    }
    for (const { title, angle, legs } of measured) {
      const [kind, said] = /^(Line|Bevel) ([\d.]+)°/.exec(title)!.slice(1) as [string, string];
      expect(Math.abs(Number(said) - angle)).toBeLessThan(0.1);
      expect(
        Math.min(...EXPECTED.filter((one) => one.kind === kind).map((one) => Math.abs(one.angle - angle)))
      ).toBeLessThan(0.05);
      for (const leg of legs) expect(leg).toBeGreaterThanOrEqual(LEAST_LEG);
    }
    // Seven each: 22.5° of bend and double offset, two of the rolling offset, four of the path's two cuts.
    expect(measured.map(({ title }) => title)).toHaveLength(14);
  });

  it('have the set-back of a bevel and its depth at true size', async () => {
    const measured = measureGauges(await printPages('gauges', JOB, { paper }));
    const bevels = measured.filter(({ title }) => title.startsWith('Bevel'));
    expect(bevels.length).toBeGreaterThan(4);
    for (const { angle, vertex, page } of bevels) {
      const narrow = page.lines.filter(({ width }) => width < 0.4);
      const setback = 25 * Math.tan(radians(angle));
      const drawn = narrow.filter(
        ({ from, to }) =>
          from[1] === to[1] &&
          Math.abs(from[0] - vertex[0]) < 0.01 &&
          Math.abs(from[1] - vertex[1] + 4.5) < 0.01
      );
      expect(drawn).toHaveLength(1);
      expect(Math.abs(measure(drawn[0]!) - setback)).toBeLessThan(0.2);
      const ticks = narrow
        .filter((line) => Math.abs(measure(line) - 3) < 0.01)
        .map(({ from, to }) =>
          Math.hypot((from[0] + to[0]) / 2 - vertex[0], (from[1] + to[1]) / 2 - vertex[1])
        );
      const depth = 25 / Math.cos(radians(angle));
      expect(ticks.filter((at) => Math.abs(at - depth) < 0.2).length).toBeGreaterThan(0);
    }
  });

  it('carry the check bars, say how they are used, and keep clear of each other', async () => {
    const pages = await printPages('gauges', JOB, { paper });
    for (const { lines, texts } of pages) {
      for (const length of [100, 101.6]) {
        const bars = lines.filter((line) => Math.abs(measure(line) - length) < 0.05);
        expect(bars.map(({ from, to }) => from[1] === to[1]).sort()).toEqual([false, true]);
      }
      expect(texts.map(({ text }) => text).join(' ')).toContain('sliding bevel');
    }
    const gauges = measureGauges(pages);
    for (const [i, { vertex, page }] of gauges.entries()) {
      const beside = gauges.filter((other, k) => k !== i && other.page === page);
      for (const { vertex: other } of beside) {
        const apart = [Math.abs(vertex[0] - other[0]), Math.abs(vertex[1] - other[1])];
        expect(Math.max(...apart)).toBeGreaterThan(85);
      }
      expect(vertex[0] + 82).toBeLessThan(page.width - 10);
    }
  });
});

describe('a gauge', () => {
  it('says where it is used: every fitting, cut and face of its angle', async () => {
    const gauge = listGauges(JOB).find(
      ({ kind, angle }) => kind === 'bevel' && Math.abs(angle - 22.5) < 0.01
    )!;
    expect(gauge.uses).toEqual([
      { tag: 'F1', cuts: ['C1', 'C2'], faces: ['right', 'left'] },
      { tag: 'F3', cuts: ['C1', 'C2', 'C3', 'C4'], faces: ['top', 'bottom'] }
    ]);
    const texts = (await printPages('gauges', JOB)).flatMap((page) => page.texts.map(({ text }) => text));
    expect(texts.join(' ')).toContain('F1 C1, C2: right, left F3 C1–C4: top, bottom');
    expect(texts).toContain('Set-back 10 mm, depth 27 mm');
  });

  it('of a large job counts the places that find no room', async () => {
    const many = evaluateJob(Array.from({ length: 60 }, () => EXAMPLES.bend));
    const pages = await printPages('gauges', many);
    expect(pages).toHaveLength(1);
    const texts = pages[0]!.texts.map(({ text }) => text);
    expect(texts.filter((text) => /^and \d\d more$/.test(text))).toHaveLength(2);
  });

  it('never has a text over another, from a hair to 45° and from thin board to thick', () => {
    const manner = { words: speak('en'), say: makeSpeech({ ...DEFAULT_SHOW, length: 'in/16' }) };
    for (const angle of [0.1, 1, 3, 7.5, 11.25, 15, 22.5, 30, 37.9, 45]) {
      for (const thickness of [10, 13, 19, 25, 38, 50, 150]) {
        const [setback, depth] = [thickness * Math.tan(radians(angle)), thickness / Math.cos(radians(angle))];
        for (const kind of ['line', 'bevel'] as const) {
          const figure = drawGauge({ kind, angle, setback, depth, uses: [] }, manner);
          expect(findOverlaps(figure, 1), `${kind} ${angle}° in ${thickness} mm`).toEqual([]);
        }
      }
    }
  });

  it('is offered for a job with an odd angle anywhere, whatever fitting is looked at', () => {
    const { applies } = findExport('gauges');
    expect(applies(JOB, 4)).toBe(true);
    expect(applies(evaluateJob([EXAMPLES.straight]), 0)).toBe(false);
  });
});
