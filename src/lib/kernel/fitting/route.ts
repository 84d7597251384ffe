import { atan2Degrees, cosDegrees, normalizeDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import type { ConvexSolid } from '../geometry/convex.ts';
import { compose, IDENTITY, movePoint, rotateAbout, shiftAlongX, type Motion } from '../geometry/motion.ts';
import { add, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { CORNERS, placeCorner, type Section } from '../straight/section.ts';
import type { Setting } from './fitting.ts';

/** The axis of a mitered path: its legs, mm, and one joint fewer; turn and clock angle of the heel in degrees. */
export interface Route {
  readonly legs: readonly number[];
  readonly turns: readonly { readonly turn: number; readonly heel: number }[];
}

/** Where a route has to end: as the end of a site, its directions of unit length and square to each other. */
export interface RouteEnd {
  readonly at: readonly [number | null, number | null, number | null];
  readonly flow: Vec3;
  readonly up: Vec3;
}

/** A box to keep clear of, by how much, mm, and the ball round it. */
export interface RouteBox {
  readonly solid: ConvexSolid;
  readonly wanted: number;
  readonly ball: Ball;
}

/** A ball round a solid. */
export interface Ball {
  readonly middle: Vec3;
  readonly radius: number;
}

/** The ball round the mean of corners that holds them all. */
export function wrapBall(corners: readonly Vec3[]): Ball {
  let [x, y, z] = [0, 0, 0];
  for (const corner of corners) {
    x += corner[0];
    y += corner[1];
    z += corner[2];
  }
  const middle: Vec3 = [x / corners.length, y / corners.length, z / corners.length];
  let square = 0;
  for (const corner of corners) {
    const [dx, dy, dz] = [corner[0] - middle[0], corner[1] - middle[1], corner[2] - middle[2]];
    square = Math.max(square, dx * dx + dy * dy + dz * dz);
  }
  return { middle, radius: Math.sqrt(square) };
}

/** What a family is asked for: a way from the origin, flowing along x, to an end, past boxes. */
export interface RouteTask {
  readonly setting: Setting;
  readonly end: RouteEnd;
  /** The boxes to keep clear of. */
  readonly boxes: readonly RouteBox[];
  /** The longest straight, mm. */
  readonly longest: number;
}

/** A measure that may be chosen freely, mm or degrees. */
export interface Variable {
  readonly low: number;
  readonly high: number;
  readonly unit: 'mm' | 'degree';
}

/** One kind of route that a family can make, with the measures left free. */
export interface RouteForm {
  readonly joints: number;
  /** Whether every bevel is one of the shop's blades, whatever the measures. */
  readonly bladed: boolean;
  /** Whether the turns do not depend on the measures. */
  readonly fixed: boolean;
  /** It is not looked for where a fitting with no more joints than this was found already. */
  readonly needlessAfter?: number;
  readonly variables: readonly Variable[];
  /** Measures from which it is worth to set out, the likeliest first. */
  readonly starts: readonly (readonly number[])[];
  layOut(measures: readonly number[]): Route;
  /** Every parameter of the family. */
  writeParams(measures: readonly number[]): Readonly<Record<string, unknown>>;
  /** The measures of parameters that are of this kind; null where they are not. */
  readParams(params: Readonly<Record<string, unknown>>): readonly number[] | null;
}

/** A route in space. */
export interface Trace {
  /** The outside of each piece: its eight corners, those of its start and of its end in turn, corner by corner. */
  readonly pieces: readonly (readonly Vec3[])[];
  /** The outside corner edges of each piece, mm, in the order of CORNERS. */
  readonly edges: readonly (readonly number[])[];
  readonly outlet: Motion;
  readonly straight: number;
  /** What each joint turns, and all of them, degrees. */
  readonly turns: readonly number[];
  readonly turn: number;
}

/** Places the pieces of a route. `outside` is the outside of the duct. */
export function traceRoute({ legs, turns }: Route, outside: Section): Trace {
  const corners = CORNERS.map((corner) => placeCorner(outside, corner));
  const pieces: Vec3[][] = [];
  const edges: number[][] = [];
  let frame: Motion = IDENTITY;
  let before = [0, 0, 0, 0];
  let [straight, whole] = [0, 0];
  legs.forEach((leg, k) => {
    const joint = turns[k];
    const after = joint ? measureShifts(joint, corners) : [0, 0, 0, 0];
    const piece: Vec3[] = [];
    corners.forEach(([y, z], i) => {
      piece.push(movePoint(frame, [0 - before[i]!, y, z]), movePoint(frame, [leg + after[i]!, y, z]));
    });
    pieces.push(piece);
    edges.push(after.map((shift, i) => leg + shift + before[i]!));
    straight += leg;
    frame = compose(frame, shiftAlongX(leg));
    if (joint) {
      whole += joint.turn;
      frame = compose(frame, turnAtJoint(joint));
      before = after;
    }
  });
  return { pieces, edges, outlet: frame, straight, turns: turns.map(({ turn }) => turn), turn: whole };
}

/** How far the cut of a joint lies beyond the axis at each corner, mm: tan(turn/2)·(y·cos heel + z·sin heel). */
function measureShifts(
  { turn, heel }: Route['turns'][number],
  corners: readonly (readonly [number, number])[]
): number[] {
  const [slope, up, right] = [tanDegrees(turn / 2), cosDegrees(heel), sinDegrees(heel)];
  return corners.map(([y, z]) => slope * (y * up + z * right));
}

function turnAtJoint({ turn, heel }: Route['turns'][number]): Motion {
  return rotateAbout([0, -sinDegrees(heel), cosDegrees(heel)], cosDegrees(turn), -sinDegrees(turn));
}

/** The route along the points of a broken line that begins at the origin along x; a leg shorter than 0 goes backward. */
export function followPoints(points: readonly Vec3[], first: number, last: number, flow: Vec3): Route {
  const turns: { turn: number; heel: number }[] = [];
  const legs = [first];
  let frame: Motion = IDENTITY;
  for (let i = 1; i <= points.length; i++) {
    const way = i < points.length ? subtract(points[i]!, points[i - 1]!) : flow;
    const length = norm(way);
    const direction = length > 0 ? scale(way, 1 / length) : frame.x;
    const seen: Vec3 = [
      direction[0] * frame.x[0] + direction[1] * frame.x[1] + direction[2] * frame.x[2],
      direction[0] * frame.y[0] + direction[1] * frame.y[1] + direction[2] * frame.y[2],
      direction[0] * frame.z[0] + direction[1] * frame.z[1] + direction[2] * frame.z[2]
    ];
    const joint = {
      turn: atan2Degrees(Math.hypot(seen[1], seen[2]), seen[0]),
      heel: normalizeDegrees(atan2Degrees(0 - seen[2], 0 - seen[1]))
    };
    turns.push(joint);
    legs.push(i < points.length ? length : last);
    frame = compose(frame, turnAtJoint(joint));
  }
  return { legs, turns };
}

/** A point so far before the end, against its flow; where a coordinate of the end is free, that of `free`. */
export function placeBeforeEnd({ at, flow }: RouteEnd, free: readonly number[], back: number): Vec3 {
  let next = 0;
  const [x, y, z] = at.map((coordinate) => coordinate ?? free[next++]!) as [number, number, number];
  return add([x, y, z], scale(flow, -back));
}
