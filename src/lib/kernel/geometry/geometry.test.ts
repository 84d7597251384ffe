import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asinDegrees, cosDegrees, normalizeDegrees, sinDegrees, tanDegrees } from './angle.ts';
import { measurePenetration, type ConvexSolid } from './convex.ts';
import {
  compose,
  HALF_TURN_ABOUT_X,
  IDENTITY,
  invertMotion,
  moveBetween,
  movePoint,
  rotateAbout,
  shiftAlongX,
  type Motion
} from './motion.ts';
import { measureArea, measureVolume } from './polygon.ts';
import { distance, type Vec3 } from './vector.ts';

const angle = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('angles in degrees', () => {
  it('have exact sines and cosines at every quarter', () => {
    expect([0, 90, 180, 270, 360, -90].map((turn) => sinDegrees(turn) + 0)).toEqual([0, 1, 0, -1, 0, -1]);
    expect([0, 90, 180, 270, 360, -90].map((turn) => cosDegrees(turn) + 0)).toEqual([1, 0, -1, 0, 1, 0]);
    expect([0, 45, 135, 180, 225].map((turn) => tanDegrees(turn) + 0)).toEqual([0, 1, -1, 0, 1]);
  });

  it('agree with the library of the language, and lie in one turn', () => {
    fc.assert(
      fc.property(fc.double({ min: -720, max: 720, noNaN: true }), (degrees) => {
        const radians = (degrees * Math.PI) / 180;
        expect(Math.abs(sinDegrees(degrees) - Math.sin(radians))).toBeLessThan(1e-14);
        expect(Math.abs(cosDegrees(degrees) - Math.cos(radians))).toBeLessThan(1e-14);
      })
    );
    fc.assert(
      fc.property(angle, (degrees) => {
        const normal = normalizeDegrees(degrees);
        expect(normal >= 0 && normal < 360).toBe(true);
        expect(Object.is(normal, -0)).toBe(false);
      })
    );
  });

  it('mirrored have mirrored sines to the last bit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 360 * 1024 }), (steps) => {
        const degrees = steps / 1024;
        expect(sinDegrees(360 - degrees) + 0).toBe(0 - sinDegrees(degrees));
        expect(cosDegrees(360 - degrees)).toBe(cosDegrees(degrees));
        expect(cosDegrees(180 - degrees) + 0).toBe(0 - cosDegrees(degrees));
      })
    );
  });

  it('of a sine a little past one are a right angle', () => {
    expect(asinDegrees(1 + 1e-15)).toBe(90);
    expect(asinDegrees(-1 - 1e-15)).toBe(-90);
  });
});

describe('rigid motions', () => {
  const drawMotion = fc
    .tuple(
      fc.double({ min: 0, max: 6, noNaN: true }),
      fc.double({ min: 0, max: 3, noNaN: true }),
      fc.double({ min: 0, max: 6, noNaN: true })
    )
    .map<Motion>(([turn, tilt, round]) => {
      const axis: Vec3 = [Math.cos(tilt), Math.sin(tilt) * Math.cos(round), Math.sin(tilt) * Math.sin(round)];
      return compose(rotateAbout(axis, Math.cos(turn), Math.sin(turn)), shiftAlongX(100 * turn));
    });
  const drawPoint = fc.tuple(
    ...[0, 1, 2].map(() => fc.double({ min: -1000, max: 1000, noNaN: true }))
  ) as fc.Arbitrary<[number, number, number]>;

  it('keep distances, and undo one another', () => {
    fc.assert(
      fc.property(drawMotion, drawPoint, drawPoint, (motion, p, q) => {
        expect(Math.abs(distance(movePoint(motion, p), movePoint(motion, q)) - distance(p, q))).toBeLessThan(
          1e-9
        );
        expect(distance(movePoint(invertMotion(motion), movePoint(motion, p)), p)).toBeLessThan(1e-9);
        expect(distance(movePoint(compose(motion, IDENTITY), p), movePoint(motion, p))).toBe(0);
      })
    );
  });

  it('lead from one to another without a jump, half turns too', () => {
    const drawHalfTurn = drawMotion.map((motion) => compose(motion, HALF_TURN_ABOUT_X));
    const drawShare = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        drawMotion,
        fc.oneof(drawMotion, drawHalfTurn),
        drawPoint,
        drawShare,
        (from, to, p, share) => {
          const at = (part: number): Vec3 => movePoint(moveBetween(from, to, part, [50, 0, 0]), p);
          expect(distance(at(0), movePoint(from, p))).toBeLessThan(1e-6);
          expect(distance(at(1), movePoint(to, p))).toBeLessThan(1e-6);
          // All the way is half a turn and the shift of the middle at most.
          const most =
            Math.PI * distance(p, [50, 0, 0]) +
            distance(movePoint(from, [50, 0, 0]), movePoint(to, [50, 0, 0]));
          expect(distance(at(share), at(share + 1e-4))).toBeLessThan(1e-4 * most + 1e-6);
          const apart = distance(movePoint(moveBetween(from, to, share, [50, 0, 0]), [0, 0, 0]), at(share));
          expect(Math.abs(apart - distance([0, 0, 0], p))).toBeLessThan(1e-6);
        }
      )
    );
    const onItsBack = moveBetween(IDENTITY, HALF_TURN_ABOUT_X, 0.5, [0, 0, 0]);
    expect(Math.abs(movePoint(onItsBack, [0, 1, 0])[2])).toBeCloseTo(1, 12);
    expect(moveBetween(IDENTITY, IDENTITY, 0.5, [7, 8, 9])).toEqual(IDENTITY);
  });

  it('turn right-handed: a quarter about z takes x to y', () => {
    const [x, y, z] = movePoint(rotateAbout([0, 0, 1], 0, 1), [1, 0, 0]);
    expect([x, y, z]).toEqual([0, 1, 0]);
  });
});

describe('areas and volumes', () => {
  const box = (a: number, b: number, c: number, at: Vec3 = [0, 0, 0]): Vec3[][] => {
    const corner = (i: number): Vec3 => [
      at[0] + (i & 1 ? a : 0),
      at[1] + (i & 2 ? b : 0),
      at[2] + (i & 4 ? c : 0)
    ];
    return [
      [0, 4, 6, 2],
      [1, 3, 7, 5],
      [0, 1, 5, 4],
      [2, 6, 7, 3],
      [0, 2, 3, 1],
      [4, 5, 7, 6]
    ].map((face) => face.map(corner));
  };

  it('of a box are those of a box, wherever it stands', () => {
    expect(measureVolume(box(2, 3, 5))).toBe(30);
    expect(measureVolume(box(2, 3, 5, [1e6, -2e6, 3e6]))).toBeCloseTo(30, 6);
    expect(measureVolume(box(2, 3, 5).map((face) => [...face].reverse()))).toBe(-30);
    expect(measureArea(box(2, 3, 5)[0]!)).toBe(15);
    expect(measureArea([])).toBe(0);
    expect(measureVolume([])).toBe(0);
  });
});

describe('how deep two boxes reach into each other', () => {
  const cube = (at: Vec3, size = 2): ConvexSolid => ({
    corners: [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [
      at[0] + (i & 1 ? size : 0),
      at[1] + (i & 2 ? size : 0),
      at[2] + (i & 4 ? size : 0)
    ]),
    normals: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1]
    ],
    edges: [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1]
    ]
  });

  it('is the least way out', () => {
    expect(measurePenetration(cube([0, 0, 0]), cube([1.5, 0.2, 0.1]))).toBe(0.5);
  });

  it('is nothing where they touch, and less than nothing where they are apart', () => {
    expect(measurePenetration(cube([0, 0, 0]), cube([2, 0, 0]))).toBe(0);
    expect(measurePenetration(cube([0, 0, 0]), cube([5, 0, 0]))).toBeLessThan(0);
  });

  it('sees two bars crossing edge to edge that no face could part', () => {
    const turned = (motion: Motion, solid: ConvexSolid): ConvexSolid => ({
      corners: solid.corners.map((corner) => movePoint(motion, corner)),
      normals: solid.normals.map((normal) => movePoint({ ...motion, t: [0, 0, 0] }, normal)),
      edges: solid.edges.map((edge) => movePoint({ ...motion, t: [0, 0, 0] }, edge))
    });
    const s = Math.SQRT1_2;
    // One cube on its edge along y, one on its edge along x, the second above the first by what lies between.
    const lower = turned(rotateAbout([0, 1, 0], s, s), cube([-1, -1, -1]));
    const upper = turned(rotateAbout([1, 0, 0], s, s), cube([-1, -1, -1]));
    const raise = (solid: ConvexSolid, by: number): ConvexSolid => ({
      ...solid,
      corners: solid.corners.map(([x, y, z]) => [x, y, z + by])
    });
    expect(measurePenetration(lower, raise(upper, 2 * Math.SQRT2 + 0.01))).toBeLessThan(0);
    expect(measurePenetration(lower, raise(upper, 2 * Math.SQRT2 - 0.01))).toBeCloseTo(0.01, 9);
  });
});
