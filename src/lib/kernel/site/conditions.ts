import { findWayOut, wrapBall, type Ball, type ConvexSolid } from '../geometry/convex.ts';
import { blend, measureGap } from '../geometry/gap.ts';
import type { Row } from '../geometry/linear.ts';
import { cross, dot, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { wrapPiece } from '../fitting/envelope.ts';
import {
  traceRoute,
  type RouteBox,
  type RouteForm,
  type RouteTask,
  type Trace,
  type TracedPiece
} from '../fitting/route.ts';
import { SHARPEST_TURN } from '../straight/cut.ts';
import type { Section } from '../straight/section.ts';

/**
 * A limit that may give way; it then counts as one more measure, mm, as little as possible. A clearance gives way down to
 * nothing, an obstacle further, by as much as it reaches into the duct.
 */
export type Giving = 'minThroat' | 'minGore' | 'straight' | 'clearance' | 'obstacle';

/** What a search is after. */
export interface Aim {
  readonly task: RouteTask;
  /** Added to every clearance that is wanted, mm. */
  readonly margin: number;
  /** The limit that gives way; null for none. */
  readonly giving: Giving | null;
}

/** Minima are compared with an allowance of 1e-6 mm elsewhere; half of it is used here. */
const ALLOWANCE = 5e-7;

/** An angle between directions counts as the shift it makes over this length, mm. */
const LEVER = 1000;

/**
 * How exactly the end is met, mm: in place, and in its directions over the lever. A document may give directions with six
 * decimals, which no plane turn meets more exactly.
 */
const MET = { place: 1e-5, direction: 1e-3 };

/** A turn beyond what one joint may make counts as so many mm a degree. */
const MM_A_DEGREE = 10;

/** Steps of measures by which slopes are found: mm and degrees. */
const NUDGE = 1e-4;

/** Boxes further away than this, beyond what they want, are not looked at in a step of a stride of 1 or more, mm. */
const NEAR = 400;

/** What a degree of turn and a mm of straight cost; where the turns are fixed only the straight counts. */
const COST = { turn: 1, straight: 1e-5 };
const COST_FIXED = { turn: 0, straight: 0.05 };
/** What a mm of a limit that gives way costs; beside it the shape costs next to nothing. */
const COST_GIVEN = 1;
const COST_BESIDE = 1e-7;
/** What one set of measures amounts to. */
export interface View {
  /** The measures of the form, and last what a limit gives way where one may, mm. */
  readonly values: readonly number[];
  readonly trace: Trace;
  /** By how much the limit gives way, mm; 0 where none may. */
  readonly given: number;
  readonly cost: number;
  /** How far the worst condition is missed, mm. */
  readonly missed: number;
  /** Whether all conditions are kept, as exactly as they are compared elsewhere. */
  readonly kept: boolean;
}

/** Cost and worst missed condition of one set of measures. `outside` is the outside of the duct. */
export function lookAt(form: RouteForm, values: readonly number[], aim: Aim, outside: Section): View {
  const trace = traceRoute(form.layOut(values), outside);
  const given = findGiven(form, values, aim);
  const cost = findCost(form, trace, given, aim);
  let [missed, kept] = [0, true];
  const miss = (by: number, within: number): void => {
    missed = Math.max(missed, by);
    kept &&= by <= within;
  };
  for (const value of listLengths(trace, aim, given)) miss(-value, ALLOWANCE);
  const misses = listMisses(trace, aim);
  const places = misses.length - DIRECTIONS;
  misses.forEach((off, i) => miss(Math.abs(off), i < places ? MET.place : MET.direction));
  const balls = trace.pieces.map(({ corners }) => wrapBall(corners));
  for (const box of aim.task.boxes) {
    const least = findLeast(box.wanted, aim, given);
    trace.pieces.forEach((piece, k) => {
      if (isBeyond(balls[k]!, box, least)) return;
      miss(least - measureSigned(piece, box.solid, least).value, ALLOWANCE);
    });
  }
  return { values, trace, given, cost, missed, kept };
}

function findGiven(form: RouteForm, values: readonly number[], { giving }: Aim): number {
  return giving ? values[form.variables.length]! : 0;
}

function findCost(form: RouteForm, trace: Trace, given: number, { giving }: Aim): number {
  const { turn, straight } = form.fixed ? COST_FIXED : COST;
  const shape = turn * trace.turn + straight * trace.straight;
  return giving ? COST_GIVEN * given + COST_BESIDE * shape : shape;
}

/** By how much every corner edge exceeds its minimum, and the straight falls short of the longest, mm. */
export function listLengths(trace: Trace, { task, giving }: Aim, given: number): number[] {
  const { minThroat, minGore } = task.setting.shop;
  const last = trace.pieces.length - 1;
  const lengths: number[] = [];
  for (let k = 0; k <= last; k++) {
    const isEnd = k === 0 || k === last;
    const gives = giving === (isEnd ? 'minThroat' : 'minGore') ? given : 0;
    // A straight without a cut has no throat; and a piece of no length is none.
    const least = last === 0 ? LEAST_PIECE : Math.max(LEAST_PIECE, (isEnd ? minThroat : minGore) - gives);
    for (const edge of trace.pieces[k]!.edges) lengths.push(edge - least);
  }
  for (const turn of trace.turns) {
    lengths.push(MM_A_DEGREE * (turn - LEAST_TURN), MM_A_DEGREE * (SHARPEST_TURN - turn));
  }
  lengths.push(task.longest + (giving === 'straight' ? given : 0) - trace.straight);
  return lengths;
}

/** No piece is shorter, even where the shop has no minimum, mm. */
const LEAST_PIECE = 1;

/** A joint that turns by less is none, degrees. */
const LEAST_TURN = 0.01;

/** How many of the misses are of the end's directions; they are the last. */
const DIRECTIONS = 4;

/** How far the outlet misses the end, mm: in every place that is wanted, then in its directions, over the lever. */
export function listMisses({ outlet }: Trace, { task: { end } }: Aim): number[] {
  const side = cross(end.flow, end.up);
  const misses: number[] = [];
  end.at.forEach((wanted, i) => {
    if (wanted !== null) misses.push(outlet.t[i]! - wanted);
  });
  misses.push(
    LEVER * dot(outlet.x, end.up),
    LEVER * dot(outlet.x, side),
    // Against the flow lies in the same line and is as far off as can be.
    dot(outlet.x, end.flow) > 0 ? 0 : LEVER,
    LEVER * dot(outlet.y, side)
  );
  return misses;
}

/** All conditions but the clearances: the lengths, and how far the end is missed to either side. */
export function listMeasures(trace: Trace, aim: Aim, given: number): number[] {
  const measures = listLengths(trace, aim, given);
  for (const off of listMisses(trace, aim)) measures.push(off, -off);
  return measures;
}

function findLeast(wanted: number, { giving, margin }: Aim, given: number): number {
  if (giving === 'obstacle') return wanted - given + margin;
  return (giving === 'clearance' ? Math.max(0, wanted - given) : wanted) + margin;
}

/** Whether a ball is further from a box than so much. */
function isBeyond(ball: Ball, box: RouteBox, least: number): boolean {
  const [dx, dy, dz] = subtract(ball.middle, box.ball.middle);
  const reach = ball.radius + box.ball.radius + least;
  return reach < 0 || dx * dx + dy * dy + dz * dz > reach * reach;
}

interface Signed {
  /** mm; below 0 how deep they overlap. */
  readonly value: number;
  /** Unit direction in which the piece moves away, and the point of it that is nearest, as shares of its corners. */
  readonly away: Vec3;
  readonly corners: readonly number[];
  readonly shares: readonly number[];
}

/** Where they are further apart than `enough`, mm, only that is sure. */
function measureSigned({ corners, frame }: TracedPiece, box: ConvexSolid, enough: number): Signed {
  const gap = measureGap(corners, box.corners, enough);
  if (gap.distance > 0) {
    const away = scale(subtract(gap.from, gap.to), 1 / gap.distance);
    return { value: gap.distance, away, corners: gap.corners, shares: gap.shares };
  }
  const { depth, way } = findWayOut(wrapPiece(corners, frame), box);
  const deepest = corners.reduce(
    (best, corner, i) => (dot(corner, way) < dot(corners[best]!, way) ? i : best),
    0
  );
  return { value: -depth, away: way, corners: [deepest], shares: [1] };
}

/**
 * Slopes of the cost, and a row for every condition, at one set of measures, by strides; slopes of the trace by small
 * nudges. Boxes are looked at as far as a step of the `stride` may reach.
 */
export function linearise(
  form: RouteForm,
  at: View,
  aim: Aim,
  outside: Section,
  sizes: readonly number[],
  stride: number
): readonly [number[], Row[]] {
  const { given } = at;
  const reach = NEAR * Math.min(1, stride);
  const nudged = at.values.map((_, i) => {
    const values = at.values.map((value, j) => (i === j ? value + NUDGE : value));
    const isShape = i < form.variables.length;
    return {
      trace: isShape ? traceRoute(form.layOut(values), outside) : at.trace,
      given: findGiven(form, values, aim)
    };
  });
  const differ = (from: number, to: (nudge: { trace: Trace; given: number }) => number): number[] =>
    nudged.map((nudge) => (to(nudge) - from) / NUDGE);
  const slope = differ(findCost(form, at.trace, given, aim), (to) => findCost(form, to.trace, to.given, aim));
  const measures = nudged.map((to) => listMeasures(to.trace, aim, to.given));
  const rows = listMeasures(at.trace, aim, given).map((value, row): Row => ({
    value,
    gradient: measures.map((list) => (list[row]! - value) / NUDGE)
  }));
  const balls = at.trace.pieces.map(({ corners }) => wrapBall(corners));
  for (const box of aim.task.boxes) {
    const { wanted } = box;
    const least = findLeast(wanted, aim, given);
    at.trace.pieces.forEach((piece, k) => {
      if (isBeyond(balls[k]!, box, least + reach)) return;
      const near = measureSigned(piece, box.solid, least + reach);
      if (near.value > least + reach) return;
      const here = mix(piece, near);
      const gradient = nudged.map(
        (to) =>
          (dot(near.away, subtract(mix(to.trace.pieces[k]!, near), here)) -
            findLeast(wanted, aim, to.given) +
            least) /
          NUDGE
      );
      rows.push({ value: near.value - least, gradient });
    });
  }
  const scaleBySize = (gradient: readonly number[]): number[] => gradient.map((part, i) => part * sizes[i]!);
  return [
    scaleBySize(slope),
    rows.map(({ value, gradient }) => ({ value, gradient: scaleBySize(gradient) }))
  ];
}

/** The point of a piece that is so much of its corners. */
function mix(piece: TracedPiece, { corners, shares }: Signed): Vec3 {
  return blend(
    corners.map((corner) => piece.corners[corner]!),
    shares
  );
}
