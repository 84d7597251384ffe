import { findWayOut, wrapBall, type Ball, type ConvexSolid } from '../geometry/convex.ts';
import { blend, measureGap } from '../geometry/gap.ts';
import { findStep, type Row } from '../geometry/linear.ts';
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
import { growSection, type Section } from '../straight/section.ts';

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

/** A route that was found. */
export interface Found {
  readonly form: RouteForm;
  readonly measures: readonly number[];
  readonly trace: Trace;
  /** By how much the limit gave way, mm; 0 where none may. */
  readonly given: number;
  /** How far the worst condition is missed, mm. */
  readonly missed: number;
  /** Whether all conditions are kept, as exactly as they are compared elsewhere. */
  readonly kept: boolean;
  /** Its cost, and what it misses at its price; less is better. */
  readonly merit: number;
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

/** Boxes further away than this, beyond what they want, are not looked at in a step, mm. */
const NEAR = 400;

/** How far a measure goes in a step at first, at most, and at least before the search ends: mm, and degrees. */
const STRIDE = { mm: 150, degree: 8 };
const LONGEST_STRIDE = 16;
const SHORTEST_STRIDE = 1e-9;

const MOST_STEPS = 60;

/** Where so many steps together gain less than this part, and the way is still blocked, it stays blocked. */
const STUCK = { steps: 5, gain: 2e-3, missed: 0.01 };

/** What a degree of turn and a mm of straight cost; where the turns are fixed only the straight counts. */
const COST = { turn: 1, straight: 1e-5 };
const COST_FIXED = { turn: 0, straight: 0.05 };
/** What a mm of a limit that gives way costs; beside it the shape costs next to nothing. */
const COST_GIVEN = 1;
const COST_BESIDE = 1e-7;
/**
 * What a mm of a missed condition costs: mostly more than any mm of it can save. Where that is not enough, as between two
 * conditions that hardly differ, and little is missed, it is made dearer, so many times in all.
 */
const PENALTY = 20;
const HARDER = 30;
const PENALTIES = 3;
const WORTH_MORE = 20;

/**
 * Sets out from one start and goes, step by step, to a place from which no step leads further: sequential linear
 * programming with the worst missed condition as an exact penalty, steps held in a trust region (Fletcher and Sainz de
 * la Maza, 1989). Distances are linearised at their nearest points, so the way it ends is exact.
 */
export function followStart(
  form: RouteForm,
  start: readonly number[],
  aim: Aim,
  { steps = MOST_STEPS, stride = 1 }: Pace = {}
): Found {
  const search = prepare(form, aim);
  const from = [...start, ...(aim.giving ? [0] : [])];
  let at = search.look(from.map((value, i) => clamp(value, search.limits[i]!)));
  let penalty = PENALTY;
  for (let round = 0; round < PENALTIES; round++, penalty *= HARDER) {
    at = walk(search, at, penalty, steps, stride);
    if (at.kept || at.missed > WORTH_MORE) break;
  }
  return {
    form,
    measures: at.values.slice(0, form.variables.length),
    trace: at.trace,
    given: aim.giving ? at.values[form.variables.length]! : 0,
    missed: at.missed,
    kept: at.kept,
    merit: at.cost + PENALTY * at.missed
  };
}

/** How many steps are made at most, and how far the first of them goes; small ones find what large ones pass by. */
export interface Pace {
  readonly steps?: number;
  readonly stride?: number;
}

interface Limit {
  readonly low: number;
  readonly high: number;
  /** What counts as a stride of 1. */
  readonly size: number;
}

interface Search {
  readonly form: RouteForm;
  readonly aim: Aim;
  readonly outside: Section;
  readonly limits: readonly Limit[];
  look(values: readonly number[]): View;
}

function prepare(form: RouteForm, aim: Aim): Search {
  const outside = growSection(aim.task.setting.section, aim.task.setting.board.thickness);
  const limits: Limit[] = form.variables.map(({ low, high, unit }) => ({ low, high, size: STRIDE[unit] }));
  if (aim.giving) limits.push({ low: 0, high: findMost(aim), size: STRIDE.mm });
  return { form, aim, outside, limits, look: (values) => view(form, values, aim, outside) };
}

const clamp = (value: number, { low, high }: Limit): number => Math.min(high, Math.max(low, value));

/** As far as steps lead from a view under one penalty. */
function walk(search: Search, start: View, penalty: number, steps: number, first: number): View {
  const { form, aim, outside, limits, look } = search;
  const sizes = limits.map(({ size }) => size);
  const weigh = ({ cost, missed }: View): number => cost + penalty * missed;
  const merits: number[] = [];
  let at = start;
  let stride = first;
  let model: readonly [number[], Row[]] | null = null;
  for (let round = 0; round < steps && stride > SHORTEST_STRIDE; round++) {
    merits.push(weigh(at));
    const before = merits[round - STUCK.steps] ?? Infinity;
    if (!aim.giving && at.missed > STUCK.missed && before - weigh(at) < STUCK.gain * before) break;
    model ??= linearise(form, at, aim, outside, sizes);
    const [slope, rows] = model;
    const reach = limits.map((limit, i): [number, number] => [
      Math.max(-stride, Math.min(0, (limit.low - at.values[i]!) / limit.size)),
      Math.min(stride, Math.max(0, (limit.high - at.values[i]!) / limit.size))
    ]);
    const step = findStep(slope, rows, reach, penalty);
    if (!step) {
      stride /= 4;
      continue;
    }
    const go = (by: readonly number[]): View =>
      look(at.values.map((value, i) => clamp(value + by[i]! * sizes[i]!, limits[i]!)));
    const hoped = weigh(at) - at.cost - predict(slope, rows, step, penalty);
    let next = go(step);
    if (weigh(at) - weigh(next) <= 0.1 * hoped) {
      const corrected = findStep(slope, correct(rows, step, next, search), reach, penalty);
      const other = corrected && go(corrected);
      if (other && weigh(other) < weigh(next)) next = other;
    }
    const gain = weigh(at) - weigh(next);
    if (gain > 0 && gain > 0.1 * hoped) {
      at = next;
      model = null;
      if (gain < 1e-10) break;
      if (gain > 0.7 * hoped) stride = Math.min(LONGEST_STRIDE, stride * 2);
    } else {
      if (hoped < 1e-11) break;
      stride /= 4;
    }
  }
  return at;
}

/**
 * The rows with what they leave out of how lengths and the end bend along a step, so that the next one lands where that
 * one missed (second-order correction; Fletcher, 1982).
 */
function correct(
  rows: readonly Row[],
  step: readonly number[],
  { trace, values }: View,
  { form, aim }: Search
): Row[] {
  const given = aim.giving ? values[form.variables.length]! : 0;
  const there = listMeasures(trace, aim, given);
  return rows.map((row, i) =>
    i < there.length ? { ...row, value: there[i]! - sumAlong(row.gradient, step) } : row
  );
}

function sumAlong(gradient: readonly number[], step: readonly number[]): number {
  return gradient.reduce((sum, part, i) => sum + part * step[i]!, 0);
}

/** What a linear model promises of a step: the change of the cost, and the worst missed row at its penalty. */
function predict(
  slope: readonly number[],
  rows: readonly Row[],
  step: readonly number[],
  penalty: number
): number {
  let missed = 0;
  for (const { value, gradient } of rows) missed = Math.max(missed, -(value + sumAlong(gradient, step)));
  return sumAlong(slope, step) + penalty * missed;
}

/** More than this no limit gives way that has no limit of its own, mm. */
const MOST_GIVEN = 100_000;

function findMost({ giving, task }: Aim): number {
  if (giving === 'clearance') return Math.max(0, ...task.boxes.map(({ wanted }) => wanted));
  if (giving === 'straight' || giving === 'obstacle') return MOST_GIVEN;
  return giving === null ? 0 : task.setting.shop[giving];
}

interface View {
  readonly values: readonly number[];
  readonly trace: Trace;
  readonly cost: number;
  readonly missed: number;
  readonly kept: boolean;
}

/** Cost and worst missed condition of one set of measures. */
function view(form: RouteForm, values: readonly number[], aim: Aim, outside: Section): View {
  const trace = traceRoute(form.layOut(values), outside);
  const given = aim.giving ? values[form.variables.length]! : 0;
  const cost = findCost(form, trace, given, aim);
  let [missed, kept] = [0, true];
  const miss = (by: number, within: number): void => {
    missed = Math.max(missed, by);
    kept &&= by <= within;
  };
  for (const value of listLengths(trace, aim, given)) miss(-value, ALLOWANCE);
  for (const { off, within } of listMisses(trace, aim)) miss(Math.abs(off), within);
  const balls = trace.pieces.map(({ corners }) => wrapBall(corners));
  for (const box of aim.task.boxes) {
    const least = findLeast(box.wanted, aim, given);
    trace.pieces.forEach((piece, k) => {
      if (isBeyond(balls[k]!, box, least)) return;
      miss(least - measureSigned(piece, box.solid).value, ALLOWANCE);
    });
  }
  return { values, trace, cost, missed, kept };
}

function findCost(form: RouteForm, trace: Trace, given: number, { giving }: Aim): number {
  const { turn, straight } = form.fixed ? COST_FIXED : COST;
  const shape = turn * trace.turn + straight * trace.straight;
  return giving ? COST_GIVEN * given + COST_BESIDE * shape : shape;
}

/** By how much every corner edge exceeds its minimum, and the straight falls short of the longest, mm. */
function listLengths(trace: Trace, { task, giving }: Aim, given: number): number[] {
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

interface Miss {
  readonly off: number;
  readonly within: number;
}

/** How far the outlet misses the end: in place, mm, and in its directions, as mm over the lever. */
function listMisses({ outlet }: Trace, { task: { end } }: Aim): Miss[] {
  const side = cross(end.flow, end.up);
  const place = end.at.flatMap((coordinate, i) =>
    coordinate === null ? [] : [{ off: outlet.t[i]! - coordinate, within: MET.place }]
  );
  const directions = [
    dot(outlet.x, end.up),
    dot(outlet.x, side),
    // Against the flow lies in the same line and is as far off as can be.
    dot(outlet.x, end.flow) > 0 ? 0 : 1,
    dot(outlet.y, side)
  ];
  return [...place, ...directions.map((off) => ({ off: LEVER * off, within: MET.direction }))];
}

/** All conditions but the clearances: the lengths, and how far the end is missed to either side. */
function listMeasures(trace: Trace, aim: Aim, given: number): number[] {
  return [...listLengths(trace, aim, given), ...listMisses(trace, aim).flatMap(({ off }) => [off, -off])];
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

function measureSigned({ corners, frame }: TracedPiece, box: ConvexSolid): Signed {
  const gap = measureGap(corners, box.corners);
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

/** Slopes of the cost, and a row for every condition, at one set of measures, by strides; slopes of the trace by small nudges. */
function linearise(
  form: RouteForm,
  at: View,
  aim: Aim,
  outside: Section,
  sizes: readonly number[]
): readonly [number[], Row[]] {
  const count = form.variables.length;
  const givenAt = (values: readonly number[]): number => (aim.giving ? values[count]! : 0);
  const given = givenAt(at.values);
  const nudged = at.values.map((_, i) => {
    const values = at.values.map((value, j) => (i === j ? value + NUDGE : value));
    return { trace: i < count ? traceRoute(form.layOut(values), outside) : at.trace, given: givenAt(values) };
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
      if (isBeyond(balls[k]!, box, least + NEAR)) return;
      const near = measureSigned(piece, box.solid);
      if (near.value > least + NEAR) return;
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
