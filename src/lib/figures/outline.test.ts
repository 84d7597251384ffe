import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from './figure.ts';
import { clipOutline, uniteOutlines } from './outline.ts';

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

describe('the outline of a fitting seen from one side', () => {
  it('is one ring round two pieces that share a miter', () => {
    const rings = uniteOutlines([
      [
        [0, 0],
        [400, 0],
        [200, 300],
        [0, 300]
      ],
      [
        [400, 0],
        [700, 200],
        [500, 500],
        [200, 300]
      ]
    ]);
    expect(rings).toHaveLength(1);
    expect(area(rings)).toBeCloseTo(90_000 + 130_000, 0);
  });

  it('keeps the hole in the middle of four walls, the other way round', () => {
    const rings = uniteOutlines([
      rectangle(0, 0, 100, 20),
      rectangle(80, 0, 20, 100),
      rectangle(0, 80, 100, 20),
      rectangle(0, 0, 20, 100)
    ]);
    expect(rings.map((ring) => Math.sign(turn(ring))).sort()).toEqual([-1, 1]);
    expect(area(rings)).toBe(100 * 100 - 60 * 60);
  });

  it('takes no notice of a wall seen edge on', () => {
    expect(uniteOutlines([rectangle(0, 0, 100, 0), rectangle(0, 0, 100, 50)])).toEqual([
      expect.arrayContaining(rectangle(0, 0, 100, 50))
    ]);
    expect(uniteOutlines([])).toEqual([]);
  });

  it('holds where walls almost coincide, turned any way', () => {
    // Two walls that share an edge but for a distance that unsnapped booleans answer with half the area.
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
          const near = rectangle(0, 0, 400, 300).map(place);
          const far = rectangle(400, 0, 250, 300).map((point, i) => place(point, i + 4));
          expect(Math.abs(area(uniteOutlines([near, far])) - 650 * 300)).toBeLessThan(2);
        }
      ),
      { numRuns: 300 }
    );
  });

  it('refuses a corner that is nowhere, with its value', () => {
    expect(() =>
      uniteOutlines([
        [
          [0, 0],
          [Number.NaN, 0],
          [1, 1]
        ]
      ])
    ).toThrow('[NaN, 0]');
  });
});

describe('the part of a wall on one page', () => {
  it('is cut off at the edges of the page', () => {
    expect(area(clipOutline(rectangle(0, 0, 450, 300), rectangle(400, 100, 180, 277)))).toBe(50 * 200);
  });

  it('is nothing where wall and page only touch', () => {
    expect(clipOutline(rectangle(0, 0, 180, 277), rectangle(180, 0, 180, 277))).toEqual([]);
  });
});
