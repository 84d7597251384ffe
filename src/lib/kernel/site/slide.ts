import { findFreeDirections } from '../geometry/free-directions.ts';
import { norm, subtract } from '../geometry/vector.ts';
import { traceRoute, type RouteForm, type Trace } from '../fitting/route.ts';
import { growSection } from '../straight/section.ts';
import { listLengths, listMisses, type Aim } from './conditions.ts';
import { followStart, type Found } from './search.ts';

/** By how much measures are moved to see what they change, mm. All is linear, so it may be much. */
const MOVED = 100;

/** Slopes below this part are rounding. */
const ROUNDING = 1e-9;

/** Gaps narrower than this part of the whole way may be passed by. */
const FINEST = 1 / 400;

/**
 * Where the turns are fixed and the end leaves one measure free, or none, the pieces slide along a line from the shortest
 * straight to the longest; so the first place where all is kept is the best there is. Each step is as long as the worst
 * shortfall allows with no corner passing it by (conservative advancement; Mirtich, 1996). Alone what is best, or where it
 * misses least between its neighbours; null where more is free. `met`: where the end is met, obstacles left out.
 */
export function slide(form: RouteForm, met: Found, aim: Aim): Found[] | null {
  const ends = findEnds(form, met.measures, aim);
  if (!ends) return null;
  const look = (measures: readonly number[]): Found => followStart(form, measures, aim, { steps: 0 });
  const [near, far] = ends.map(look).sort((a, b) => a.trace.straight - b.trace.straight) as [Found, Found];
  const speed = measureMove(near.trace, far.trace);
  const passed: Found[] = [];
  for (let share = 0; share <= 1;) {
    const at = look(near.measures.map((one, i) => one + share * (far.measures[i]! - one)));
    // What a step went too far is made good.
    if (at.kept) return [followStart(form, at.measures, aim)];
    passed.push(at);
    share = share < 1 ? Math.min(1, share + Math.max(at.missed / speed, FINEST)) : Infinity;
  }
  const missedAt = (i: number): number => passed[i]?.missed ?? Infinity;
  return passed.filter(({ missed }, i) => missed <= missedAt(i - 1) && missed <= missedAt(i + 1));
}

/** The two ends of the line of measures that meet the end and keep all lengths; null where it is no line. */
function findEnds(form: RouteForm, met: readonly number[], aim: Aim): [number[], number[]] | null {
  const outside = growSection(aim.task.setting.section, aim.task.setting.board.thickness);
  const trace = (measures: readonly number[]): Trace => traceRoute(form.layOut(measures), outside);
  const move = (direction: readonly number[], by: number): number[] =>
    met.map((one, i) => one + by * direction[i]!);
  const here = trace(met);
  const there = met.map((_, k) => trace(met.map((one, i) => (i === k ? one + MOVED : one))));
  const moved = there.map((one) => listMisses(one, aim));
  const rows = listMisses(here, aim).map((off, row) => moved.map((misses) => (misses[row]! - off) / MOVED));
  const directions = findFreeDirections(rows, met.length);
  if (directions.length === 0) return [[...met], [...met]];
  const [direction, another] = directions;
  if (another) return null;
  const lengths = listLengths(here, aim, 0);
  const along = listLengths(trace(move(direction!, MOVED)), aim, 0);
  let [low, high] = [-Infinity, Infinity];
  lengths.forEach((length, i) => {
    const slope = (along[i]! - length) / MOVED;
    if (slope < -ROUNDING) high = Math.min(high, Math.max(0, length) / -slope);
    if (slope > ROUNDING) low = Math.max(low, Math.max(0, length) / -slope);
  });
  return Number.isFinite(high - low) ? [move(direction!, low), move(direction!, high)] : null;
}

/** How far the corner moves that moves most between two places of the same route, mm. */
function measureMove(a: Trace, b: Trace): number {
  const moves = a.pieces.flatMap(({ corners }, k) =>
    corners.map((corner, i) => norm(subtract(b.pieces[k]!.corners[i]!, corner)))
  );
  return Math.max(...moves);
}
