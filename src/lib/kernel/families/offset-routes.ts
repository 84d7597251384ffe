import { atan2Degrees, normalizeDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import type { RouteForm, RouteTask } from '../fitting/route.ts';
import { measureReach } from '../straight/cut.ts';
import { growSection } from '../straight/section.ts';
import {
  combine,
  endsStraightOn,
  LENGTH,
  readNumbers,
  listOwnedTurns,
  SHIFT,
  spanSite,
  spread,
  TURN
} from './routes.ts';

/** How far an offset shifts the duct; a coordinate of the end that is free is a measure to be chosen. */
type Shift = number | 'free';

/** Turns from which offsets set out, degrees. */
const TRIED_TURNS = [10, 15, 21, 28, 37, 47, 58, 72];

/** Offsets to an end that goes on in the same direction: with every owned blade where they are plain, and by any turn. */
export function listOffsetRoutes(task: RouteTask): RouteForm[] {
  const { end, setting } = task;
  if (!endsStraightOn(end)) return [];
  const [rise, roll] = [end.at[1] ?? 'free', end.at[2] ?? 'free'] as const;
  const plain: readonly (readonly [Shift, Shift])[] = [
    ...(roll === 0 || roll === 'free' ? [[rise, 0] as const] : []),
    ...(rise === 0 || rise === 'free' ? [[0, roll] as const] : [])
  ].filter(([up, right]) => up !== 0 || right !== 0);
  const bladed = plain.flatMap(([up, right]) =>
    listOwnedTurns(setting.shop).map((turn) => describeOffset(task, up, right, turn))
  );
  return rise === 0 && roll === 0 ? [] : [...bladed, describeOffset(task, rise, roll, 'free')];
}

function describeOffset(task: RouteTask, up: Shift, right: Shift, turned: Shift): RouteForm {
  const { setting, longest } = task;
  const outside = growSection(setting.section, setting.board.thickness);
  const read = (measures: readonly number[]) => {
    const [throatIn, throatOut, ...rest] = measures as [number, number, ...number[]];
    const take = (said: Shift): number => (said === 'free' ? rest.shift()! : said);
    return { throatIn, throatOut, rise: take(up), roll: take(right), turn: take(turned) };
  };
  const { minThroat } = setting.shop;
  const reachOf = (turn: number, heel: number): number => measureReach(outside, turn / 2, heel);
  const shifts = (said: Shift, axis: 1 | 2): number[] =>
    said === 'free' ? spread(...spanSite(task, axis), 6) : [said];
  const starts = combine(turned === 'free' ? TRIED_TURNS : [turned], shifts(up, 1), shifts(right, 2)).flatMap(
    ([turn, rise, roll]) => {
      const heel = atan2Degrees(0 - roll!, 0 - rise!);
      const slope = Math.hypot(rise!, roll!) / tanDegrees(turn!) + 2 * reachOf(turn!, heel);
      // What the end leaves for the two throats together.
      const throats = (task.end.at[0] ?? longest / 2) - slope;
      return spread(minThroat, Math.max(minThroat, throats - minThroat), 3).map((throatIn) => [
        throatIn,
        Math.max(minThroat, throats - throatIn),
        ...(up === 'free' ? [rise!] : []),
        ...(right === 'free' ? [roll!] : []),
        ...(turned === 'free' ? [turn!] : [])
      ]);
    }
  );
  return {
    joints: 2,
    // Where a coordinate of the end is free a straight may do.
    needlessAfter: 0,
    fixed: turned !== 'free',
    variables: [
      LENGTH,
      LENGTH,
      ...(up === 'free' ? [SHIFT] : []),
      ...(right === 'free' ? [SHIFT] : []),
      ...(turned === 'free' ? [TURN] : [])
    ],
    starts,
    layOut: (measures) => {
      const { throatIn, throatOut, rise, roll, turn } = read(measures);
      const heel = normalizeDegrees(atan2Degrees(0 - roll, 0 - rise));
      const reach = reachOf(turn, heel);
      return {
        legs: [throatIn + reach, Math.hypot(rise, roll) / sinDegrees(turn), throatOut + reach],
        turns: [
          { turn, heel },
          { turn, heel: normalizeDegrees(heel + 180) }
        ]
      };
    },
    writeParams: (measures) => {
      const { throatIn, throatOut, rise, roll, turn } = read(measures);
      return { rise, roll, turn, piecesPerTurn: 2, throatIn, throatOut };
    },
    readParams: (params) => {
      const isOther = turned !== 'free' && params['turn'] !== turned;
      if (isOther || params['piecesPerTurn'] !== 2) return null;
      return readNumbers(params, [
        'throatIn',
        'throatOut',
        ...(up === 'free' ? ['rise'] : []),
        ...(right === 'free' ? ['roll'] : []),
        ...(turned === 'free' ? ['turn'] : [])
      ]);
    }
  };
}
