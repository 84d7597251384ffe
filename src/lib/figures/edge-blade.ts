import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import type { Point, Stroke } from './figure.ts';
import { drawLine } from './ink.ts';

/** An edge of an outline on the facing, and how the blade stands on it. */
export interface OutlineEdge {
  readonly from: Point;
  readonly to: Point;
  readonly middle: Point;
  readonly length: number;
  /** Unit directions: along it, left to right or else upward, and out of the outline. */
  readonly along: Point;
  readonly outward: Point;
  /** Of a text that runs along it, degrees counter-clockwise. */
  readonly angle: number;
  /** Tilt of the blade from upright, degrees. */
  readonly bevel: number;
  /** How far its line on the inside lies from it, square to it, mm. */
  readonly setback: number;
  /** Whether the blade's top leans out of the outline: where its line on the inside lies further in. */
  readonly leansOut: boolean;
}

/** The edges of an outline on the facing, with the one on the inside corner by corner; those of no length are left out. */
export function describeEdges(
  outer: readonly Point[],
  inner: readonly Point[],
  bevels: readonly number[]
): OutlineEdge[] {
  const turn = measureTurn(outer);
  return outer.flatMap((from, i): OutlineEdge[] => {
    const to = outer[(i + 1) % outer.length]!;
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (length < SAME_LENGTH) return [];
    const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
    const sense = Math.abs(ux) > SAME_LENGTH ? Math.sign(ux) : -Math.sign(uy);
    const along: Point = [ux * sense, uy * sense];
    const outward: Point = [uy * turn, -ux * turn];
    const inset = (inner[i]![0] - from[0]) * outward[0] + (inner[i]![1] - from[1]) * outward[1];
    return [
      {
        from,
        to,
        middle: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
        length,
        along,
        outward,
        angle: (Math.atan2(-along[1], along[0]) * 180) / Math.PI,
        bevel: bevels[i]!,
        setback: Math.abs(inset),
        leansOut: inset < 0
      }
    ];
  });
}

/**
 * The blade at a point of an edge, in the plane square to it, laid over along the edge: a base line across it, half of
 * it `base` long, and a stroke of `reach`, tilted as the blade is held.
 */
export function drawEdgeBlade(
  { bevel, along, outward, leansOut }: OutlineEdge,
  [x, y]: Point,
  { base, reach }: { base: number; reach: number }
): Stroke[] {
  const place = (out: number, up: number): Point => [
    x + outward[0] * out + along[0] * up,
    y + outward[1] * out + along[1] * up
  ];
  const lean = leansOut ? 1 : -1;
  return [
    drawLine([place(-base, 0), place(base, 0)]),
    drawLine([place(0, 0), place(lean * reach * sinDegrees(bevel), reach * cosDegrees(bevel))], 'cut')
  ];
}

/** 1 where an outline runs clockwise on paper (y down), −1 where it runs against the clock. */
function measureTurn(points: readonly Point[]): 1 | -1 {
  const doubled = points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return doubled > 0 ? 1 : -1;
}
