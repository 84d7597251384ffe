import { describe, expect, it } from 'vitest';
import { build, FOLDED, SECTION } from '../../../tests/duct.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Figure, Item, Point, Stroke } from './figure.ts';
import { tabulateLineMarks, tabulateOpenings } from './flat-table.ts';
import type { Manner } from './manner.ts';
import { drawMarks } from './marks.ts';
import { findOverlaps } from './room.ts';

const words = speak('en');
const say = makeSpeech(DEFAULT_SHOW);
const at = (over: number): Manner => ({ scale: 1 / over, words, say });

const opened = (params: Readonly<Record<string, unknown>>): Straight =>
  build({ family: 'opening', section: SECTION, params: { length: 800, station: 300, ...params } }).fitting
    .straights[0]!;

const ROUND = opened({ wall: 'top', aside: 40, shape: 'round', diameter: 160 });
const branch = (wall: string, angle: number): Straight =>
  build({
    family: 'takeoff',
    section: SECTION,
    params: { length: 900, wall, station: 450, branch: { across: 100, along: 200 }, angle, fit: 'butt' }
  }).fitting.straights[0]!;

const FOLD = build(FOLDED).fitting.straights[0]!;

const listItems = (figure: Figure, layer: string): Item[] =>
  figure.layers.filter(({ name }) => name === layer).flatMap(({ items }) => [...items]);
const listStrokes = (figure: Figure, layer: string, line: Stroke['line']): Stroke[] =>
  listItems(figure, layer).filter((item): item is Stroke => item.kind === 'stroke' && item.line === line);
const listTexts = (figure: Figure): string[] =>
  listItems(figure, 'figures').flatMap((item) => (item.kind === 'text' ? [item.text] : []));

function measureBox(points: readonly Point[]): number[] {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

describe('an opening among the marks', () => {
  // Unrolled the faces of 450 × 300 outside begin at 0, 450, 750 and 1200. The opening is 100 across in the middle.
  it.each([
    ['top', [350, 550, 175, 275]],
    ['right', [350, 550, 550, 650]],
    ['bottom', [350, 550, 925, 1025]],
    ['left', [350, 550, 1300, 1400]]
  ])('of a branch on the %s lies on that face', (wall, box) => {
    const figure = drawMarks(branch(wall, 90), at(10));
    const [outline] = listStrokes(figure, 'openings', 'cut');
    measureBox(outline!.points).forEach((value, i) => expect(value).toBeCloseTo(box[i]!, 9));
    // Its edges are upright: nothing lies elsewhere on the inside.
    expect(listStrokes(figure, 'openings', 'hidden')).toEqual([]);
  });

  it.each([
    ['top', 225 + 20],
    ['right', 600 - 20],
    ['bottom', 975 - 20],
    ['left', 1350 + 20]
  ])('20 aside on the %s is moved up on a side wall, to the right on top and bottom', (wall, middle) => {
    const shape = { wall, aside: 20, shape: 'rectangle', along: 120, across: 60 };
    const [outline] = listStrokes(drawMarks(opened(shape), at(10)), 'openings', 'cut');
    const [, , top, bottom] = measureBox(outline!.points);
    expect((top! + bottom!) / 2).toBeCloseTo(middle, 9);
  });

  it('of a slanting branch is dashed where it comes through, further upstream, with blade, bevel and set-back', () => {
    // t/tan 60° = 14.43; at 60° the opening is 200/sin 60° long.
    const figure = drawMarks(branch('right', 60), at(5));
    const [outer] = listStrokes(figure, 'openings', 'cut').map(({ points }) => measureBox(points));
    const [inner] = listStrokes(figure, 'openings', 'hidden').map(({ points }) => measureBox(points));
    expect(outer![1]! - outer![0]!).toBeCloseTo(230.94, 2);
    expect(outer![0]! - inner![0]!).toBeCloseTo(14.434, 3);
    expect(outer![1]! - inner![1]!).toBeCloseTo(14.434, 3);
    expect(listTexts(figure).filter((text) => text === 'bevel 30°')).toHaveLength(2);
    expect(listTexts(figure).filter((text) => text === 'set-back 14')).toHaveLength(2);
  });

  it('is dimensioned from the datum end and from the first edge of its face', () => {
    const figure = drawMarks(branch('left', 90), at(5));
    // From the edge to the top face, which is the last one of the left face clockwise: 300 less 200, and less 100.
    for (const text of ['350', '550', '100', '200', 'O1', '200 × 100'])
      expect(listTexts(figure)).toContain(text);
  });

  it('that is round is dimensioned to its middle, with centre lines and its diameter', () => {
    const figure = drawMarks(ROUND, at(5));
    for (const text of ['300', '265', 'O1', '⌀160']) expect(listTexts(figure)).toContain(text);
    const axes = listStrokes(figure, 'openings', 'axis').map(({ points }) => measureBox(points));
    expect(axes.map(([left, right]) => (left! + right!) / 2)).toEqual([300, 300]);
    expect(axes.map(([, , top, bottom]) => (top! + bottom!) / 2)).toEqual([265, 265]);
  });

  it('never has texts over each other or in the hole of another, small or large', () => {
    const straights = [ROUND, branch('right', 45), branch('top', 60), FOLD];
    for (const straight of straights) {
      for (const over of [2, 5, 10, 20, 50]) {
        expect(findOverlaps(drawMarks(straight, at(over)), 1 / over)).toEqual([]);
      }
    }
  });
});

describe('the table of openings', () => {
  it('has both outlines where they differ, a round one by its diameter', () => {
    expect(tabulateOpenings(ROUND, words, say).rows.map(({ cells }) => cells.join(' '))).toEqual([
      'O1 top on the facing 220 380 185 345 ⌀160 0°'
    ]);
    expect(
      tabulateOpenings(branch('right', 60), words, say).rows.map(({ cells }) => cells.slice(2, 5))
    ).toEqual([
      ['on the facing', '335', '565'],
      ['on the inside', '320', '551']
    ]);
  });
});

describe('the marks of a duct folded to a slope', () => {
  const figure = drawMarks(FOLD, at(4));

  it('run along the slope on both cheeks, and along the corners of the sloping wall', () => {
    const cuts = listStrokes(figure, 'line-marks', 'cut');
    const ends = (face: string) =>
      cuts.filter(({ about }) => about?.face === face).map(({ points }) => points);
    // Down by 100 over 400 from 150 on; the left face has its first edge last.
    expect(ends('right')).toEqual([
      [
        [150, 450],
        [550, 550]
      ],
      [
        [550, 550],
        [700, 550]
      ]
    ]);
    expect(ends('left')[0]).toEqual([
      [150, 1500],
      [550, 1400]
    ]);
    expect(listStrokes(figure, 'line-marks', 'fold').map(({ points }) => points)).toEqual([
      [
        [150, 0],
        [150, 450]
      ]
    ]);
  });

  it('are named with their kind, and have their stations and distances from the edge', () => {
    for (const text of ['M1', 'slit', 'M3', 'groove', 'M6', 'cut', '150', '550', '100', 'bevel 45°']) {
      expect(listTexts(figure)).toContain(text);
    }
  });

  it('are all in the table, with the angle of the slope from square and the wedges of the sloping wall', () => {
    // atan(400/100) = 75.96°; atan(100/400) halved is 7.02°, t·tan of it 3.08.
    const rows = tabulateLineMarks(FOLD, words, say).rows.map(({ cells }) => cells.join(' '));
    expect(rows).toHaveLength(9);
    expect(rows).toContain('M6 cut right 150 0 550 100 76° 45° – 25');
    expect(rows).toContain('M3 groove top 150 0 150 450 0° 7° – 3');
    expect(rows).toContain('M4 cut top 562 0 562 450 0° 7° upstream 3');
  });
});
