import { describe, expect, it } from 'vitest';
import type { Figure, Point, Text } from './figure.ts';
import { findTextRoom } from './lettering.ts';
import { avoidLine, findOverlaps, placeText, startRoom } from './room.ts';

const text = (said: string, at: Point, rest: Partial<Text> = {}): Text => ({
  kind: 'text',
  text: said,
  at,
  height: 2.5,
  anchor: 'start',
  ...rest
});
const draw = (...items: Text[]): Figure => ({ layers: [{ name: 'figures', items }] });

describe('texts on a figure of a duct', () => {
  it('are found where they lie over each other, level or turned', () => {
    expect(findOverlaps(draw(text('386', [0, 0]), text('536', [30, 5])), 0.1)).toEqual([['386', '536']]);
    expect(findOverlaps(draw(text('386', [0, 0]), text('536', [30, 5])), 1)).toEqual([]);
    expect(findOverlaps(draw(text('450 mm', [0, 0]), text('300 mm', [4, 10], { angle: 90 })), 1)).toEqual([
      ['450 mm', '300 mm']
    ]);
    expect(findOverlaps(draw(text('450 mm', [0, 0]), text('300 mm', [4, 25], { angle: 90 })), 1)).toEqual([]);
  });

  it('take the first free place and keep off the marks', () => {
    const room = startRoom();
    room.keep([
      [0, -20],
      [0, 20]
    ]);
    const places = [-2, 1, 1, 30].map((x) => ({ at: [x, 0] as Point, anchor: 'start' as const }));
    const place = () => placeText(room, 1, { text: '386', height: 2.5 }, places)?.at[0] ?? null;
    expect([place(), place(), place()]).toEqual([1, 30, null]);
  });

  it('keep off an edge where they can, and lie over it where they cannot', () => {
    const room = startRoom();
    avoidLine(
      room,
      [
        [2, -20],
        [2, 20]
      ],
      1
    );
    const places = [0, 1, 30].map((x) => ({ at: [x, 0] as Point, anchor: 'start' as const }));
    const place = () => placeText(room, 1, { text: '386', height: 2.5 }, places)?.at[0] ?? null;
    expect([place(), place(), place()]).toEqual([30, 0, null]);
  });

  it('lie over as few edges as they can, or over none where only that is wanted', () => {
    const edges = [2, 3, 32].map((x): Point[] => [
      [x, -20],
      [x, 20]
    ]);
    const spots = [0, 30].map((x) => text('386', [x, 0]));
    const places = spots.map((spot) => () => [findTextRoom(spot, 1)]);
    const room = startRoom();
    for (const edge of edges) avoidLine(room, edge, 1);
    expect(room.take(places, true)).toBe(-1);
    expect([room.take(places), room.take(places), room.take(places)]).toEqual([1, 0, -1]);
  });

  it('are not tried where a place turns out to be none', () => {
    const places = [() => null, () => [findTextRoom(text('386', [0, 0]), 1)]];
    expect(startRoom().take(places)).toBe(1);
  });

  it('stay on the page', () => {
    const room = startRoom([
      [0, 0],
      [20, 0],
      [20, 10],
      [0, 10]
    ]);
    const place = (x: number) =>
      placeText(room, 1, { text: '386', height: 2.5 }, [{ at: [x, 5], anchor: 'start' }]);
    expect(place(15)).toBeNull();
    expect(place(5)).not.toBeNull();
  });

  it('taken in a trial are free again', () => {
    const room = startRoom();
    const place = [
      () => [
        [
          [0, 0],
          [5, 0],
          [5, 5],
          [0, 5]
        ] as Point[]
      ]
    ];
    expect(room.fork().take(place)).toBe(0);
    expect(room.take(place)).toBe(0);
    expect(room.take(place)).toBe(-1);
  });
});
