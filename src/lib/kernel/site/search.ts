import { findStep, type Row } from '../geometry/linear.ts';
import type { RouteForm, Trace } from '../fitting/route.ts';
import { growSection, type Section } from '../straight/section.ts';
import { linearise, listMeasures, lookAt, type Aim, type View } from './conditions.ts';

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

/** How far a measure goes in a step at first, at most, and at least before the search ends: mm, and degrees. */
const STRIDE = { mm: 150, degree: 8 };
const LONGEST_STRIDE = 16;
const SHORTEST_STRIDE = 1e-9;

const MOST_STEPS = 60;

/** Where so many steps together gain less than this part, and the way is still blocked, it stays blocked. */
const STUCK = { steps: 5, gain: 2e-3, missed: 0.01 };

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
    given: at.given,
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
  return { form, aim, outside, limits, look: (values) => lookAt(form, values, aim, outside) };
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
    model ??= linearise(form, at, aim, outside, sizes, stride);
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
      const corrected = findStep(slope, correct(rows, step, next, aim), reach, penalty);
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
function correct(rows: readonly Row[], step: readonly number[], { trace, given }: View, aim: Aim): Row[] {
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
