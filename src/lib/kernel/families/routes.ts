import { normalizeDegrees } from '../geometry/angle.ts';
import type { RouteEnd, RouteTask, Variable } from '../fitting/route.ts';
import type { Shop } from '../straight/board.ts';
import { LONGEST, SHARPEST_TURN } from './limits.ts';

/** A length that may be chosen. */
export const LENGTH: Variable = { low: 0, high: LONGEST, unit: 'mm' };

/** A shift to either side that may be chosen. */
export const SHIFT: Variable = { low: -LONGEST, high: LONGEST, unit: 'mm' };

/** A turn of one joint that may be chosen; a duct that turns less is straight. */
export const TURN: Variable = { low: 1, high: SHARPEST_TURN, unit: 'degree' };

/** Parameters by their names, all of them numbers; null where one is not. */
export function readNumbers(
  params: Readonly<Record<string, unknown>>,
  names: readonly string[]
): number[] | null {
  const values = names.map((name) => params[name]);
  return values.every((value) => typeof value === 'number') ? values : null;
}

/** The turns of one joint for which the shop has a blade, ascending. */
export function listOwnedTurns({ blades }: Shop): number[] {
  const turns = blades.map(({ angle }) => 2 * angle).filter((turn) => turn > 0 && turn <= SHARPEST_TURN);
  return [...new Set(turns)].sort((a, b) => a - b);
}

/** A direction with a smaller part aside counts as straight on: 0.0005 degrees. */
const STRAIGHT_ON = 1e-5;

/** Whether the duct ends in the direction in which it begins. */
export function endsStraightOn({ flow }: RouteEnd): boolean {
  return flow[0] > 0 && Math.hypot(flow[1], flow[2]) < STRAIGHT_ON;
}

/** Every combination of one of each list. */
export function combine<T>(...lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>((all, list) => all.flatMap((one) => list.map((next) => [...one, next])), [[]]);
}

/** Lengths between a least and a most, both ends included, in equal steps. */
export function spread(low: number, high: number, count: number): number[] {
  if (high <= low || count === 1) return [low];
  return Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1));
}

/** Numbers of [0, 1) spread evenly in so many dimensions (Halton's sequence), the first of them skipped. */
export function scatter(count: number, dimensions: number): number[][] {
  const bases = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29].slice(0, dimensions);
  return Array.from({ length: count }, (_, k) => bases.map((base) => reverseDigits(k + 20, base)));
}

function reverseDigits(whole: number, base: number): number {
  let [value, share] = [0, 1 / base];
  for (let rest = whole; rest > 0; rest = Math.floor(rest / base)) {
    value += (rest % base) * share;
    share /= base;
  }
  return value;
}

/** The extent of what matters on the site: the inlet, the end and the boxes between them, in one coordinate, mm. */
export function spanSite({ boxes, end, setting }: RouteTask, axis: 0 | 1 | 2): [low: number, high: number] {
  const room = 2 * (setting.section.width + setting.section.height) + 200;
  const far = end.at[axis] ?? 0;
  const along = boxes.flatMap(({ solid }) => solid.corners.map((corner) => corner[axis]));
  const inReach = along.filter((one) => Math.abs(one) < Math.abs(far) + 2 * room);
  return [Math.min(0, far, ...inReach) - room / 2, Math.max(0, far, ...inReach) + room / 2];
}

/** A clock angle that is plain but for rounding is plain, degrees: over 3 m it moves nothing by more than 5e-5 mm. */
const PLAIN = 1e-6;

/** A clock angle as it is written, without the rounding of one that is plain. */
export function straightenClock(clock: number): number {
  const plain = 90 * Math.round(clock / 90);
  return Math.abs(clock - plain) < PLAIN ? normalizeDegrees(plain) : clock;
}
