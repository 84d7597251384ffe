import { atan2Degrees, cosDegrees, normalizeDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import { measureReach } from '../straight/cut.ts';
import { growSection } from '../straight/section.ts';
import type { RouteForm, RouteTask, Variable } from '../fitting/route.ts';
import { LONGEST } from './limits.ts';
import {
  endsStraightOn,
  LENGTH,
  readNumbers,
  listOwnedTurns,
  spanSite,
  spread,
  straightenClock,
  TURN
} from './routes.ts';

/** Ends further aside than this are not in line, mm. */
const IN_LINE = 1e-5;

/** With three joints or fewer nothing goes round by a detour that could not go without it. */
const FEWEST = 3;

/** How many directions a detour is tried in, all round. */
const DIRECTIONS = 8;

/** Turns from which detours of any turn set out, degrees. */
const TRIED_TURNS = [45, 30];

/** A plain detour goes up, right, down or left. */
const QUARTERS = [0, 90, 180, 270];

/** How far a detour leads away, and in which direction. */
const AWAY: Variable = { low: 1, high: LONGEST, unit: 'mm' };
const CLOCK: Variable = { low: -360, high: 720, unit: 'degree' };

/** What sets a detour out: the direction and size of its shift, its turn, and its three lengths along the duct. */
interface Detour {
  readonly clock: number;
  readonly shift: number;
  readonly turn: number;
  readonly throatIn: number;
  readonly level: number;
  readonly throatOut: number;
}

/**
 * Detours over, under, beside or any way round, to an end in line: up or down and to either side with every owned blade,
 * and in any direction by any turn.
 */
export function listDetourRoutes(task: RouteTask): RouteForm[] {
  const { end, setting } = task;
  const isInLine = [end.at[1], end.at[2]].every((aside) => Math.abs(aside ?? 0) < IN_LINE);
  if (!endsStraightOn(end) || !isInLine) return [];
  const bladed = listOwnedTurns(setting.shop).flatMap((turn) =>
    QUARTERS.map((clock) =>
      describeDetour(task, {
        fixed: true,
        variables: [AWAY, LENGTH, LENGTH, LENGTH],
        set: ([shift, throatIn, level, throatOut]) =>
          ({ clock, shift, turn, throatIn, level, throatOut }) as Detour,
        measure: ({ shift, throatIn, level, throatOut }) => [shift, throatIn, level, throatOut],
        isOne: (detour) => detour.clock === clock && detour.turn === turn,
        tried: listStarts(task, clock, [turn])
      })
    )
  );
  const any = describeDetour(task, {
    fixed: false,
    variables: [CLOCK, AWAY, TURN, LENGTH, LENGTH, LENGTH],
    set: ([clock, shift, turn, throatIn, level, throatOut]) =>
      ({ clock, shift, turn, throatIn, level, throatOut }) as Detour,
    measure: ({ clock, shift, turn, throatIn, level, throatOut }) => [
      clock,
      shift,
      turn,
      throatIn,
      level,
      throatOut
    ],
    isOne: () => true,
    tried: Array.from({ length: DIRECTIONS }, (_, i) => (360 * i) / DIRECTIONS).flatMap((clock) =>
      listStarts(task, clock, TRIED_TURNS)
    )
  });
  return [...bladed, any];
}

/** A kind of detour: which of what sets one out may be chosen. */
interface DetourKind {
  readonly fixed: boolean;
  readonly variables: RouteForm['variables'];
  set(measures: readonly number[]): Detour;
  measure(detour: Detour): number[];
  isOne(detour: Detour): boolean;
  /** Detours from which it is worth to set out. */
  readonly tried: readonly Detour[];
}

function describeDetour(
  task: RouteTask,
  { fixed, variables, set, measure, isOne, tried }: DetourKind
): RouteForm {
  return {
    joints: 4,
    fixed,
    needlessAfter: FEWEST,
    variables,
    starts: tried.map(measure),
    layOut: (measures) => layOutDetour(task, set(measures)),
    writeParams: (measures) => {
      const { clock: side, shift, turn, level, throatIn, throatOut } = set(measures);
      const clock = straightenClock(side);
      // Nothing has no sign.
      const [rise, roll] = [shift * cosDegrees(clock) + 0, shift * sinDegrees(clock) + 0];
      return { rise, roll, turn, level, piecesPerTurn: 2, throatIn, throatOut };
    },
    readParams: (params) => {
      const numbers = readNumbers(params, ['rise', 'roll', 'turn', 'level', 'throatIn', 'throatOut']);
      if (!numbers || params['piecesPerTurn'] !== 2) return null;
      const [rise, roll, turn, level, throatIn, throatOut] = numbers as [
        number,
        number,
        number,
        number,
        number,
        number
      ];
      const clock = normalizeDegrees(atan2Degrees(roll, rise));
      const detour = { clock, shift: Math.hypot(rise, roll), turn, level, throatIn, throatOut };
      return isOne(detour) ? measure(detour) : null;
    }
  };
}

function layOutDetour(
  { setting }: RouteTask,
  { clock, shift, turn, throatIn, level, throatOut }: Detour
): ReturnType<RouteForm['layOut']> {
  const heel = normalizeDegrees(clock + 180);
  const back = normalizeDegrees(clock);
  const outside = growSection(setting.section, setting.board.thickness);
  const reach = measureReach(outside, turn / 2, heel);
  const travel = shift / sinDegrees(turn);
  return {
    legs: [throatIn + reach, travel, level + 2 * reach, travel, throatOut + reach],
    turns: [heel, back, back, heel].map((side) => ({ turn, heel: side }))
  };
}

/**
 * Detours in one direction from which it is worth to set out: just past each box that stands in the way, further than
 * those before it; the level piece in the middle of the boxes.
 */
function listStarts(task: RouteTask, clock: number, turns: readonly number[]): Detour[] {
  const { setting, end, longest } = task;
  const { minThroat, minGore } = setting.shop;
  const outside = growSection(setting.section, setting.board.thickness);
  const [up, right] = [cosDegrees(clock), sinDegrees(clock)];
  const depth = outside.height * Math.abs(up) + outside.width * Math.abs(right);
  const length = end.at[0] ?? longest;
  const shifts = task.boxes.flatMap(({ solid, wanted }) => {
    const along = solid.corners.map((corner) => corner[0]);
    const aside = solid.corners.map((corner) => corner[1] * up + corner[2] * right);
    const shift = Math.max(...aside) + depth / 2 + wanted;
    if (shift <= 0 || Math.min(...along) > length || Math.max(...along) < 0) return [];
    return [{ shift, middle: (Math.max(0, Math.min(...along)) + Math.min(length, Math.max(...along))) / 2 }];
  });
  const nearest = [...shifts].sort((a, b) => a.shift - b.shift).slice(0, 3);
  const [low, high] = spanSite(task, 0);
  const tried = nearest.length > 0 ? nearest : [{ shift: depth, middle: (low + high) / 2 }];
  return turns.flatMap((turn) =>
    tried.flatMap(({ shift, middle }) => {
      const advance = shift / tanDegrees(turn);
      const reach = (depth / 2) * tanDegrees(turn / 2);
      const levels = spread(minGore, Math.max(minGore, length - 2 * (minThroat + advance + 2 * reach)), 2);
      return levels.map((level): Detour => {
        const throatIn = Math.max(minThroat, middle - level / 2 - advance - 2 * reach);
        const throatOut = Math.max(minThroat, length - throatIn - level - 2 * advance - 4 * reach);
        return { clock, shift, turn, throatIn, level, throatOut };
      });
    })
  );
}
