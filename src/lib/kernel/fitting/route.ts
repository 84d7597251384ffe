import { atan2Degrees, normalizeDegrees } from '../geometry/angle.ts';
import type { Ball, ConvexSolid } from '../geometry/convex.ts';
import { compose, IDENTITY, movePoint, shiftAlongX, type Motion } from '../geometry/motion.ts';
import { add, dot, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { layPlane } from '../straight/cut.ts';
import { CORNERS, placeCorner, type Section } from '../straight/section.ts';
import type { Setting } from './fitting.ts';
import { carryFrames, turnAtJoint, type JointTurn } from './mitered-path.ts';

/** The axis of a mitered path: its legs, mm, and one joint fewer; turn and clock angle of the heel in degrees. */
export interface Route {
  readonly legs: readonly number[];
  readonly turns: readonly JointTurn[];
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
  /** The outside of each piece. */
  readonly pieces: readonly TracedPiece[];
  readonly outlet: Motion;
  readonly straight: number;
  /** What each joint turns, and all of them, degrees. */
  readonly turns: readonly number[];
  readonly turn: number;
}

/** A piece of a route, in space. */
export interface TracedPiece {
  /** Its eight outside corners, those of its start and of its end in turn, in the order of CORNERS. */
  readonly corners: readonly Vec3[];
  /** Its outside corner edges, mm, in the order of CORNERS. */
  readonly edges: readonly number[];
  /** The frame at its start: x along it, y the carried up. */
  readonly frame: Motion;
}

/** The frames at the starts of the legs: x along each, y the carried up. */
export function frameLegs({ legs, turns }: Route): Motion[] {
  return carryFrames(
    legs.map((axis) => ({ axis })),
    turns
  );
}

/** How far the cut of a joint lies beyond the axis at each outside corner, mm, in the order of CORNERS; 0 without a joint. */
export function measureShifts(joint: JointTurn | undefined, outside: Section): number[] {
  const stationAt = joint
    ? layPlane({ station: 0, miter: joint.turn / 2, heel: joint.heel })
    : (): number => 0;
  return placeCorners(outside).map(([y, z]) => stationAt(y, z));
}

function placeCorners(outside: Section): [y: number, z: number][] {
  return CORNERS.map((corner) => placeCorner(outside, corner));
}

/** Places the pieces of a route. `outside` is the outside of the duct. The solver does little else: it makes few lists. */
export function traceRoute(route: Route, outside: Section): Trace {
  const { legs, turns } = route;
  const corners = placeCorners(outside);
  const frames = frameLegs(route);
  const pieces: TracedPiece[] = [];
  let straight = 0;
  let before = measureShifts(undefined, outside);
  for (let k = 0; k < legs.length; k++) {
    const [leg, frame] = [legs[k]!, frames[k]!];
    const after = measureShifts(turns[k], outside);
    const piece = { frame, edges: [] as number[], corners: [] as Vec3[] };
    for (let i = 0; i < corners.length; i++) {
      const [[y, z], start, end] = [corners[i]!, 0 - before[i]!, leg + after[i]!];
      piece.edges.push(end - start);
      piece.corners.push(movePoint(frame, [start, y, z]), movePoint(frame, [end, y, z]));
    }
    pieces.push(piece);
    straight += leg;
    before = after;
  }
  const last = legs.length - 1;
  return {
    pieces,
    outlet: compose(frames[last]!, shiftAlongX(legs[last]!)),
    straight,
    turns: turns.map(({ turn }) => turn),
    turn: turns.reduce((sum, { turn }) => sum + turn, 0)
  };
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
    const seen: Vec3 = [dot(direction, frame.x), dot(direction, frame.y), dot(direction, frame.z)];
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
