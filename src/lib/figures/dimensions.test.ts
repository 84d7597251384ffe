import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { baselineMeasures, chainMeasures, drawMeasures, drawSweep } from './dimensions.ts';
import type { Figure, Item, Point, Text } from './figure.ts';
import { measureText } from './lettering.ts';
import { findOverlaps, startRoom } from './room.ts';

const say = (mm: number): string => String(Math.round(mm));
const listTexts = (items: readonly Item[]): Text[] => items.filter((item) => item.kind === 'text');
const wrap = (items: readonly Item[]): Figure => ({ layers: [{ name: 'dimensions', items }] });
const edge = (...stations: number[]): Point[] => stations.map((station) => [station, 0]);

describe('dimensions of a duct', () => {
  it('stand above their line, in the middle, and say the distance', () => {
    const { items } = drawMeasures(chainMeasures(edge(0, 200), 8, say), { scale: 0.2, room: startRoom() });
    const [text, ...more] = listTexts(items);
    expect(more).toEqual([]);
    expect(text).toMatchObject({ text: '200', anchor: 'middle' });
    expect(text!.at[0]).toBe(100);
    // The line lies 8 mm of paper above the edge, the figure above the line.
    expect(text!.at[1] * 0.2).toBeLessThan(-8 - 1.25);
  });

  it.each<[string, Point, number | undefined]>([
    ['to the right', [300, 0], undefined],
    ['to the left', [-300, 0], undefined],
    ['down', [0, 300], 90],
    ['up', [0, -300], 90],
    ['down to the right', [300, 300], -45],
    ['up to the left', [-300, -300], -45]
  ])('are read from below or from the right when the edge runs %s', (_, to, angle) => {
    const { items } = drawMeasures([{ from: [0, 0], to, away: 8, text: '300' }], {
      scale: 0.2,
      room: startRoom()
    });
    expect(listTexts(items)[0]!.angle).toEqual(angle);
  });

  it('measure along the duct when told so, whatever the height of the corners', () => {
    const { items } = drawMeasures([{ from: [0, 0], to: [300, 120], along: [1, 0], away: 8, text: '300' }], {
      scale: 0.2,
      room: startRoom()
    });
    const level = items.filter((item) => item.kind === 'stroke')[2]!;
    expect(level.points).toEqual([
      [0, -40],
      [300, -40]
    ]);
  });

  it('of short pieces in a row go to further rows, with a leader, and nothing meets', () => {
    const points = edge(0, 10, 20, 30, 40, 50);
    const { items, leftOut } = drawMeasures(
      chainMeasures(points, 8, () => '1234'),
      {
        scale: 0.5,
        room: startRoom()
      }
    );
    expect(leftOut).toBe(0);
    expect(new Set(listTexts(items).map(({ at }) => at[1])).size).toBeGreaterThan(1);
    expect(findOverlaps(wrap(items), 0.5)).toEqual([]);
  });

  it('never meet, whatever the pieces, and none is lost without being counted', () => {
    const gaps = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 14 });
    fc.assert(
      fc.property(gaps, fc.constantFrom(0.02, 0.05, 0.1, 0.5, 1), (lengths, scale) => {
        const stations = lengths.reduce((all, gap) => [...all, all[all.length - 1]! + gap], [0]);
        const room = startRoom();
        const chain = drawMeasures(chainMeasures(edge(...stations), 8, say), { scale, room });
        const baseline = drawMeasures(baselineMeasures(edge(...stations), 40, say), { scale, room });
        const items = [...chain.items, ...baseline.items];
        expect(findOverlaps(wrap(items), scale)).toEqual([]);
        const parts = lengths.filter((gap) => gap > 0).length;
        const running = stations.slice(1).filter((station) => station > 0).length;
        expect(listTexts(items).length + chain.leftOut + baseline.leftOut).toBe(parts + running);
      })
    );
  });

  it('of an angle stand outside its arc and move out of the way', () => {
    const room = startRoom();
    const sweep = { at: [0, 0] as Point, start: 0, end: 45, radius: 10, text: '45°' };
    const [first, second] = [drawSweep(sweep, { scale: 1, room }), drawSweep(sweep, { scale: 1, room })];
    const [a, b] = [first, second].map(({ items }) => Math.hypot(...listTexts(items)[0]!.at));
    expect(a).toBeGreaterThan(10);
    expect(b).toBeGreaterThan(a!);
  });
});

describe('the room a text takes', () => {
  it('grows with its letters and is wider in bold', () => {
    expect(measureText('1286', 2.5)).toBeCloseTo((4 * 0.6 * 2.5) / 0.7, 9);
    expect(measureText('1286', 5)).toBe(2 * measureText('1286', 2.5));
    expect(measureText('P1', 2.5, true)).toBeGreaterThan(measureText('P1', 2.5));
  });
});
