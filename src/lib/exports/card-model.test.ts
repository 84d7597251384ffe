import { describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, findExport, printPages } from '../../../tests/paper.ts';
import { measure, type ReadPage } from '../../../tests/pdf.ts';
import { drawCard } from '../figures/card.ts';
import type { Manner } from '../figures/manner.ts';
import { findOverlaps } from '../figures/room.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import type { Model } from '../kernel/evaluate.ts';
import { makeSpeech, speak } from '../words/words.ts';

const SMALL = {
  family: 'bend',
  section: { width: 200, height: 150 },
  params: { turn: 90, pieces: 3, heel: 'top', throatIn: 120, gore: 90, throatOut: 120 }
};

const say = (page: ReadPage): string => page.texts.map(({ text }) => text).join(' ');
const manner = (over: number): Manner => ({
  scale: 1 / over,
  words: speak('en'),
  say: makeSpeech(DEFAULT_SHOW)
});

/** The card on a page: its scale as the page says it, and its top left corner, where the wide outline begins. */
function findCard({ lines, texts }: ReadPage): { over: number; left: number; top: number } {
  const over = Number(/^Scale 1:(\d+)$/.exec(texts.find(({ text }) => text.startsWith('Scale'))!.text)![1]);
  const points = lines.filter(({ width }) => width > 0.4).flatMap(({ from, to }) => [from, to]);
  return { over, left: Math.min(...points.map(([x]) => x)), top: Math.max(...points.map(([, y]) => y)) };
}

/** Where the cuts meet the corner lines in turn, mm of the duct: [along, round], measured off the page. */
function measureCorners(page: ReadPage): [number, number][] {
  const { over, left, top } = findCard(page);
  return page.lines
    .filter(({ width }) => width > 0.4)
    .flatMap(({ from, to }) => [from, to])
    .map(([x, y]): [number, number] => [(x - left) * over, (top - y) * over]);
}

/**
 * By hand: the outside corner edges of each example in turn from the top left, and the stations of its cuts there,
 * s + tan α·(y·cos φ + z·sin φ).
 */
const CARDS = [
  {
    what: 'bend',
    over: 10,
    fitting: EXAMPLES.bend,
    edges: [0, 450, 750, 1200, 1500],
    cuts: [
      [200, 386.396, 386.396, 200, 200],
      [722.792, 536.396, 536.396, 722.792, 722.792]
    ],
    length: 922.792
  },
  {
    what: 'small bend',
    over: 5,
    fitting: SMALL,
    edges: [0, 250, 450, 700, 900],
    cuts: [
      [202.843, 202.843, 120, 120, 202.843],
      [292.843, 292.843, 375.685, 375.685, 292.843]
    ],
    length: 495.685
  },
  {
    what: 'path',
    over: 10,
    fitting: EXAMPLES.path,
    edges: [0, 350, 700, 1050, 1400],
    cuts: [
      [438.728, 508.11, 401.272, 331.89, 438.728],
      [931.407, 973.668, 908.593, 866.332, 931.407]
    ],
    length: 1380
  }
] as const;

describe.each(CARDS)('the card model of a $what', ({ over, fitting, edges, cuts, length }) => {
  it.each(['a4', 'letter'] as const)('has outline, folds and cuts within 0.2 mm on %s', async (paper) => {
    const [page] = await printPages('card-model', evaluateJob([fitting]), { paper });
    const card = findCard(page!);
    expect(card.over).toBe(over);
    const near = (a: number, b: number): boolean => Math.abs(a - b) / over < 0.2;
    const corners = measureCorners(page!);
    for (const stations of cuts) {
      for (const [i, station] of stations.entries()) {
        expect(
          corners.some(([x, y]) => near(x, station) && near(y, edges[i]!)),
          `${station} at ${edges[i]}`
        ).toBe(true);
      }
    }
    const folds = page!.lines
      .filter((line) => line.width < 0.4 && Math.abs(measure(line) - length / over) < 0.2)
      .map(({ from }) => (card.top - from[1]) * over);
    for (const edge of edges.slice(1)) expect(folds.some((fold) => near(fold, edge))).toBe(true);
    expect(corners.some(([x, y]) => near(x, length) && near(y, 0))).toBe(true);
    expect(Math.max(...corners.map(([x]) => x)) / over).toBeCloseTo(length / over, 1);
  });

  it('has on the flap the cuts as they run on the face it is glued under', async () => {
    const [page] = await printPages('card-model', evaluateJob([fitting]));
    const { top } = findCard(page!);
    const bottom = top - edges[4] / over;
    const wide = page!.lines.filter(({ width, from, to }) => width > 0.4 && from[1] !== to[1]);
    const onFlap = wide.filter(({ from, to }) => Math.abs(from[1] - bottom) < 0.01 && to[1] < bottom - 1);
    const onTop = wide.filter(({ from, to }) => Math.abs(from[1] - top) < 0.01 && to[1] < top - 1);
    const slopes = ({ from, to }: (typeof wide)[number]): number => (to[0] - from[0]) / (from[1] - to[1]);
    for (const [i, stations] of cuts.entries()) {
      expect(Math.abs(slopes(onFlap[i]!) - (stations[1] - stations[0]) / edges[1])).toBeLessThan(0.001);
      expect(onTop.some((line) => Math.abs(slopes(line) - slopes(onFlap[i]!)) < 0.001)).toBe(true);
    }
  });

  it('has TOP and the arrow on the top of pieces that stay and on the bottom of those rolled over', async () => {
    const model = evaluateJob([fitting]);
    const [page] = await printPages('card-model', model);
    const { over: scale, top } = findCard(page!);
    const faceOf = (y: number): number => edges.filter((edge) => edge <= (top - y) * scale).length - 1;
    const { pieces } = model.fittings[0]!.built!.fitting.straights[0]!;
    const tops = page!.texts.filter(({ text }) => text === 'TOP');
    expect(tops.map(({ y }) => faceOf(y))).toEqual(pieces.map(({ flipped }) => (flipped ? 2 : 0)));
    for (const { x, y } of tops) {
      const arrows = page!.lines.filter(
        (line) =>
          Math.abs(measure(line) - 9) < 0.01 &&
          Math.abs(line.from[0] - x) < 6 &&
          y - line.from[1] > 0 &&
          y - line.from[1] < 5
      );
      // Stations run to the right and so does the air.
      expect(arrows.map(({ from, to }) => to[0] > from[0])).toEqual([true]);
    }
    for (const { name } of pieces) {
      expect(page!.texts.filter(({ text }) => text === name)).toHaveLength(4);
    }
  });
});

describe('the card model', () => {
  const tell = async (model: Model): Promise<string> =>
    (await printPages('card-model', model)).map(say).join(' ');

  it('is 1:5 where it fits; where it does not it says so', async () => {
    expect(await tell(evaluateJob([SMALL]))).not.toContain('does not fit');
    expect(await tell(evaluateJob([EXAMPLES.bend]))).toContain(
      'At 1:5 this model does not fit the paper, so it is 1:10.'
    );
  });

  it('tells how to fold, cut and roll over, and which pieces', async () => {
    const told = await tell(evaluateJob([EXAMPLES['double-offset']]));
    for (const wanted of [
      'glue flap',
      'Cut right round',
      'C1, C2, C3, C4',
      'Roll P2, P4 over',
      'Do not turn it end for end',
      'Join P1, P2, P3, P4, P5'
    ]) {
      expect(told).toContain(wanted);
    }
  });

  it('of straights that one board does not yield has a page for each, at one scale', async () => {
    const long = { family: 'straight', section: { width: 400, height: 250 }, params: { length: 3000 } };
    const divided = evaluateJob([
      {
        ...EXAMPLES.path,
        params: { lengths: [2000, 2500, 2000], joints: EXAMPLES.path.params.joints }
      }
    ]);
    const { straights } = divided.fittings[0]!.built!.fitting;
    expect(straights.length).toBeGreaterThan(1);
    const pages = await printPages('card-model', divided);
    const scales = pages.flatMap(({ texts }) => texts.flatMap(({ text }) => /^Scale .*/.exec(text) ?? []));
    expect(scales).toHaveLength(straights.length);
    expect(new Set(scales).size).toBe(1);
    expect(findExport('card-model').applies(evaluateJob([long]), 0)).toBe(false);
  });

  it('never has a name over another, and counts what finds no room', () => {
    let leftOut = 0;
    for (const fitting of [...Object.values(EXAMPLES), SMALL]) {
      const [straight] = evaluateJob([fitting]).fittings[0]!.built!.fitting.straights;
      for (const over of [2, 5, 10, 20, 50, 100]) {
        const card = drawCard(straight!, manner(over));
        expect(findOverlaps(card.figure, 1 / over), `${straight!.name} 1:${over}`).toEqual([]);
        if (over === 5) expect(card.leftOut).toBe(0);
        leftOut += card.leftOut;
      }
    }
    expect(leftOut).toBeGreaterThan(0);
  });
});
