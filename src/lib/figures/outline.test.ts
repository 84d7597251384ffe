import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from './figure.ts';
import { clipOutline } from './outline.ts';

const rectangle = (left: number, top: number, width: number, height: number): Point[] => [
  [left, top],
  [left + width, top],
  [left + width, top + height],
  [left, top + height]
];

/** Twice the area of a ring, positive where it runs clockwise on paper. */
const turn = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!;
    return sum + x * nextY - nextX * y;
  }, 0) / 2;

const area = (rings: readonly (readonly Point[])[]): number =>
  rings.reduce((sum, ring) => sum + turn(ring), 0);

describe('the part of a wall on one page', () => {
  it('is cut off at the edges of the page', () => {
    expect(area(clipOutline(rectangle(0, 0, 450, 300), rectangle(400, 100, 180, 277)))).toBe(50 * 200);
  });

  it('is nothing where wall and page only touch', () => {
    expect(clipOutline(rectangle(0, 0, 180, 277), rectangle(180, 0, 180, 277))).toEqual([]);
  });

  it('holds where the edge of the page almost is that of the wall, turned any way', () => {
    // Edges apart by a distance at which unsnapped booleans answer with half the area.
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.array(fc.double({ min: -1e-7, max: 1e-7, noNaN: true }), { minLength: 8, maxLength: 8 }),
        (degrees, noise) => {
          const angle = (degrees * Math.PI) / 180;
          const place = ([x, y]: Point, i: number): Point => [
            x * Math.cos(angle) - y * Math.sin(angle) + noise[i]!,
            x * Math.sin(angle) + y * Math.cos(angle) - noise[i]!
          ];
          const wall = rectangle(0, 0, 400, 300).map(place);
          const page = rectangle(150, 0, 400, 300).map((point, i) => place(point, i + 4));
          expect(Math.abs(area(clipOutline(wall, page)) - 250 * 300)).toBeLessThan(2);
        }
      ),
      { numRuns: 300 }
    );
  });

  it('refuses a corner that is nowhere, with its value', () => {
    const nowhere: Point[] = [
      [0, 0],
      [Number.NaN, 0],
      [1, 1]
    ];
    expect(() => clipOutline(nowhere, rectangle(0, 0, 1, 1))).toThrow('[NaN, 0]');
  });
});
