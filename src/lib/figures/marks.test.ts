import fc from 'fast-check';
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { build, buildBend, buildPath, ENDLESS } from '../../../tests/duct.ts';
import { EXAMPLES, evaluateJob } from '../../../tests/paper.ts';
import { writeSvg } from '../exports/svg.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import type { FittingModel } from '../kernel/evaluate.ts';
import { markCut } from '../kernel/straight/cut.ts';
import { FACES, growSection } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Figure, Item, Point, Stroke, Text } from './figure.ts';
import { layStraight, listLaidLines } from './laid-straight.ts';
import { findTextRoom } from './lettering.ts';
import type { Manner } from './manner.ts';
import { tabulateMarks, tabulatePieces } from './mark-table.ts';
import { drawMarks } from './marks.ts';
import { findOverlaps } from './room.ts';
import { drawStraight } from './straight.ts';
import { drawTemplate } from './template.ts';
import { tileLines } from './tiles.ts';

const words = speak('en');
const say = makeSpeech(DEFAULT_SHOW);
const at = (over: number, show = DEFAULT_SHOW): Manner => ({ scale: 1 / over, words, say: makeSpeech(show) });

const BEND = buildBend({ turn: 90, pieces: 3 }).fitting.straights[0]!;
const COMPOUND = buildPath(
  [420, 500, 460],
  [
    { turn: 40, heel: 33 },
    { turn: 25, heel: 213 }
  ],
  { width: 300, height: 300 }
).fitting.straights[0]!;
const TWELVE = buildPath(
  [400, ...Array.from({ length: 11 }, () => 330), 400],
  Array.from({ length: 12 }, (_, i) => ({ turn: 25, heel: i % 2 === 0 ? 270 : 90 })),
  { width: 300, height: 200 },
  { board: ENDLESS }
).fitting.straights[0]!;

const listItems = (figure: Figure, layer?: string): Item[] =>
  figure.layers
    .filter(({ name }) => layer === undefined || name === layer)
    .flatMap(({ items }) => [...items]);
const listTexts = (figure: Figure, layer?: string): Text[] =>
  listItems(figure, layer).filter((item) => item.kind === 'text');
const listStrokes = (figure: Figure, layer: string): Stroke[] =>
  listItems(figure, layer).filter((item) => item.kind === 'stroke');
const findCaption = (figure: Figure): string =>
  listTexts(figure, 'caption')
    .map(({ text }) => text)
    .join(' ');

describe('the marks of a straight, unrolled', () => {
  it('lie one face under another in clockwise order, outside widths, the datum end on the left', () => {
    const fills = listItems(drawMarks(BEND, at(10)), 'pieces').filter((item) => item.kind === 'fill');
    const spans = FACES.map((face) => {
      const ys = fills
        .filter(({ about }) => about?.face === face)
        .flatMap(({ points }) => points.map(([, y]) => y));
      return [Math.min(...ys), Math.max(...ys)];
    });
    expect(spans).toEqual([
      [0, 450],
      [450, 750],
      [750, 1200],
      [1200, 1500]
    ]);
  });

  it.each([
    ['a bend', BEND],
    ['compound cuts', COMPOUND],
    ['twelve cuts', TWELVE]
  ])('of %s have every line at its true angle and every cut closed round the corners', (_, straight) => {
    const figure = drawMarks(straight, at(10));
    const outside = growSection(straight.section, straight.thickness);
    for (const cut of straight.cuts) {
      const strokes = listStrokes(figure, 'cuts').filter(({ about }) => about?.cut === cut.name);
      expect(strokes.map(({ about }) => about?.face)).toEqual(FACES);
      markCut(cut, outside, straight.thickness).forEach((mark, i) => {
        const [from, to] = strokes[i]!.points as [Point, Point];
        const slope = Math.atan(Math.abs((to[0] - from[0]) / (to[1] - from[1])));
        expect((slope * 180) / Math.PI).toBeCloseTo(mark.line, 9);
        // Bottom and left are met from their far edge: clockwise the right face comes before the bottom one.
        const ends = i < 2 ? [mark.start, mark.end] : [mark.end, mark.start];
        expect(from[0]).toBeCloseTo(ends[0]!, 9);
        expect(to[0]).toBeCloseTo(ends[1]!, 9);
        expect(to).toEqual(
          strokes[(i + 1) % 4]!.points[0]!.map((value, k) => (k === 1 && i === 3 ? to[1] : value))
        );
      });
    }
  });

  it('say the station at every corner, in the unit shown', () => {
    const stations = (show: typeof DEFAULT_SHOW) =>
      new Set(listTexts(drawMarks(BEND, at(10, show)), 'figures').map(({ text }) => text));
    for (const figure of ['200', '386', '536', '723']) expect(stations(DEFAULT_SHOW)).toContain(figure);
    for (const figure of ['7 7/8', '15 3/16', '21 1/8']) {
      expect(stations({ ...DEFAULT_SHOW, length: 'in/16' })).toContain(figure);
    }
  });

  it('tilt the blade as it is held: a blade that leans downstream leans to the right', () => {
    const figure = drawMarks(BEND, at(5));
    const [c1] = BEND.cuts;
    const marks = markCut(c1!, growSection(BEND.section, 25), 25);
    expect(marks.map(({ lean }) => lean)).toEqual([null, 'downstream', null, 'upstream']);
    FACES.forEach((face, i) => {
      const blades = listStrokes(figure, 'figures').filter(
        ({ about, line }) => line === 'cut' && about?.cut === 'C1' && about.face === face
      );
      expect(blades).toHaveLength(1);
      const [[x0, y0], [x1, y1]] = blades[0]!.points as [Point, Point];
      const tilt = (Math.atan2(x1 - x0, y0 - y1) * 180) / Math.PI;
      expect(tilt).toBeCloseTo(marks[i]!.bevel * (marks[i]!.lean === 'upstream' ? -1 : 1), 9);
    });
  });

  it('never have texts over each other or over a mark, from a crowded small figure to a large one', () => {
    let looked = 0;
    for (const straight of [BEND, COMPOUND, TWELVE, ...listBends()]) {
      for (const over of [2, 5, 10, 20, 50, 100]) {
        const figure = drawMarks(straight, at(over));
        expect(findOverlaps(figure, 1 / over), `${straight.name} 1:${over}`).toEqual([]);
        const barred = listStrokes(figure, 'cuts').flatMap((stroke) =>
          listTexts(figure)
            .filter((text) => crosses(stroke, text, over))
            .map(({ text }) => text)
        );
        expect(barred, `${straight.length} 1:${over}`).toEqual([]);
        looked += listTexts(figure).length;
      }
    }
    expect(looked).toBeGreaterThan(2000);
  });

  it('of generated paths never have texts over each other', () => {
    const joint = fc.record({
      turn: fc.integer({ min: 5, max: 40 }),
      heel: fc.integer({ min: 0, max: 359 })
    });
    let drawn = 0;
    fc.assert(
      fc.property(
        fc.array(joint, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 600, max: 1200 }),
        fc.constantFrom(5, 10, 20, 50),
        (joints, leg, over) => {
          const straight = tryPath([...joints.map(() => leg), leg], joints);
          if (!straight) return;
          drawn++;
          expect(findOverlaps(drawMarks(straight, at(over)), 1 / over)).toEqual([]);
        }
      ),
      { numRuns: 60 }
    );
    expect(drawn).toBeGreaterThan(30);
  });

  it('say so when figures are left out, and only then', () => {
    expect(findCaption(drawMarks(BEND, at(5)))).not.toContain('left out');
    const crowded = drawMarks(TWELVE, at(50));
    expect(findCaption(crowded)).toContain('left out');
    expect(listStrokes(crowded, 'cuts')).toHaveLength(12 * 4);
    // However crowded, the table has every mark.
    expect(tabulateMarks(TWELVE, words, say).rows).toHaveLength(12 * 4);
  });

  it.each([
    ['top-left', 1540, true],
    ['top-right', 490, false],
    ['bottom-right', 790, false],
    ['bottom-left', 1240, false]
  ] as const)('show the flap of a seam at the %s corner as far as it reaches', (seam, reach, below) => {
    const family = {
      family: 'bend',
      section: { width: 400, height: 250 },
      params: { turn: 90, heel: 'right' }
    };
    const straight = build({ ...family, seam }).fitting.straights[0]!;
    const figure = drawMarks(straight, at(10));
    const flaps = listStrokes(figure, 'flap');
    expect(flaps.map(({ line, points }) => [line, Math.max(...points.map(([, y]) => y))])).toEqual([
      ['hidden', reach]
    ]);
    const seams = listTexts(figure, 'names').filter(({ text }) => text === 'seam');
    expect(seams).toHaveLength(below ? 2 : 1);
  });

  it.each([
    ['bend', 10],
    ['offset', 15],
    ['double-offset', 15],
    ['path', 10],
    ['straight', 20]
  ] as const)('of the example of each family look as they were approved: %s', (family, over) => {
    const [{ built }] = evaluateJob([EXAMPLES[family]]).fittings as [FittingModel];
    const straight = built!.fitting.straights[0]!;
    const file = new URL(`../../../tests/golden/marks-of-${family}.svg`, import.meta.url);
    const svg = writeSvg(drawMarks(straight, at(over)), 1 / over, `${straight.name}, 1:${over}`);
    if (process.env['GOLDEN'] === 'write') writeFileSync(file, svg);
    expect(svg).toBe(readFileSync(file, 'utf8'));
  });
});

describe('what is cut off a straight', () => {
  const [, middle] = BEND.pieces;
  const offcut: Straight = { ...BEND, pieces: [middle!] };

  it('is filled as an off-cut, hatched, and with the pieces covers the whole straight', () => {
    const items = listItems(drawMarks(offcut, at(10), 4), 'pieces');
    const fills = items.filter((item) => item.kind === 'fill');
    expect(fills.filter(({ fill }) => fill === 'offcut')).toHaveLength(2 * 4);
    expect(fills.filter(({ fill }) => typeof fill === 'object' && fill.piece === 4)).toHaveLength(4);
    const covered = fills.reduce((sum, { points }) => sum + measureArea(points), 0);
    expect(covered).toBeCloseTo(BEND.length * 1500, 3);
    const hatching = items.filter((item) => item.kind === 'stroke');
    expect(hatching.length).toBeGreaterThan(50);
    for (const { points } of hatching) {
      const [[x0, y0], [x1, y1]] = points as [Point, Point];
      expect(Math.abs(x1 - x0 + (y1 - y0))).toBeLessThan(1e-9);
    }
    const figures = listTexts(drawMarks(offcut, at(10)), 'figures');
    expect(figures.filter((text) => hatching.some((stroke) => crosses(stroke, text, 10)))).toEqual([]);
  });

  it('is named on the template instead of a piece', () => {
    const laid = layStraight(offcut, offcut.cuts[0]!);
    const [tile] = tileLines(listLaidLines(laid), { width: 900, height: 1600 });
    const texts = listTexts(drawTemplate(laid, at(1), tile!)).map(({ text }) => text);
    expect(texts).toContain('← off-cut, upstream, datum end');
    expect(texts).toContain('P2, downstream →');
  });

  it('leaves nothing over where all of the straight is pieces', () => {
    const fills = listItems(drawMarks(BEND, at(10)), 'pieces').filter((item) => item.kind === 'fill');
    expect(fills.filter(({ fill }) => fill === 'offcut')).toEqual([]);
  });
});

describe('the straight before it is cut', () => {
  it('is seen on the face where the cuts are cheeks', () => {
    const figure = drawStraight(BEND, at(10));
    expect(listStrokes(figure, 'cuts').map(({ points }) => points.map(([x]) => Math.round(x)))).toEqual([
      [200, 386],
      [723, 536]
    ]);
    expect(listTexts(figure).map(({ text }) => text)).toEqual(['top', 'P1', 'P2', 'P3']);
  });
});

describe('the mark table', () => {
  it('says for every face where the mark starts and ends, its line, bevel, lean, set-back and depth', () => {
    const { columns, rows } = tabulateMarks(BEND, words, say);
    expect(columns.map(({ heading }) => heading)).toContain('Set-back, mm');
    expect(rows.map(({ cells }) => cells.join(' '))).toEqual([
      'C1 top 200 386 22.5° 0° upright 0 25',
      'C1 right 386 386 0° 22.5° downstream 10 27',
      'C1 bottom 200 386 22.5° 0° upright 0 25',
      'C1 left 200 200 0° 22.5° upstream 10 27',
      'C2 top 723 536 22.5° 0° upright 0 25',
      'C2 right 536 536 0° 22.5° upstream 10 27',
      'C2 bottom 723 536 22.5° 0° upright 0 25',
      'C2 left 723 723 0° 22.5° downstream 10 27'
    ]);
    expect(rows[1]!.about).toEqual({ cut: 'C1', face: 'right' });
  });

  it('names the one corner at which a piece between compound cuts is shortest', () => {
    const where = tabulatePieces(COMPOUND, words, say).rows.map(({ cells }) => cells[3]);
    expect(where).toEqual(['bottom left', 'top right', 'top right']);
  });
});

/** Bends from two pieces on, small to large. */
function listBends(): Straight[] {
  return [
    [2, 90, 400, 250],
    [9, 180, 400, 250],
    [3, 90, 1200, 600],
    [3, 90, 60, 60],
    [5, 30, 300, 150]
  ].map(
    ([pieces, turn, width, height]) =>
      buildBend({ pieces, turn }, { width: width!, height: height! }, { board: ENDLESS }).fitting
        .straights[0]!
  );
}

function tryPath(lengths: number[], joints: { turn: number; heel: number }[]): Straight | null {
  try {
    return buildPath(lengths, joints, { width: 300, height: 200 }, { board: ENDLESS }).fitting.straights[0]!;
  } catch {
    return null;
  }
}

/** Whether a stroke runs through the room of a text: any of its lines meets an edge of it. */
function crosses({ points }: Stroke, text: Text, over: number): boolean {
  const room = findTextRoom(text, 1 / over);
  const line = points.map(([x, y]): Point => [x / over, y / over]);
  return line
    .slice(1)
    .some((to, i) => room.some((corner, k) => meet(line[i]!, to, corner, room[(k + 1) % 4]!)));
}

function meet(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  return side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b);
}

/** Area of a simple polygon, mm² (shoelace). */
function measureArea(points: readonly Point[]): number {
  const twice = points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}
