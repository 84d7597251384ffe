import { asinDegrees, atan2Degrees, cosDegrees, normalizeDegrees, sinDegrees } from '../geometry/angle.ts';
import { solveDecreasing } from '../geometry/bisect.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import type { Leg, Turn } from '../fitting/mitered-path.ts';
import { measureReach } from '../straight/cut.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { growSection } from '../straight/section.ts';
import type { Shop } from '../straight/board.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Handle, Params } from './family.ts';
import { clamp, LEAST_DRAGGED_TURN, LONGEST, SHARPEST_TURN } from './limits.ts';
import { placeInPlane, seeInPlane } from './plane.ts';

/** The least turn that is tried when a turn is sought, degrees: 100 m of duct rise less than 2 mm over it. */
const LEAST_TURN = 0.001;

/** How far the handle of the piece count stands off the heel, and how far it moves for a piece, mm. */
const COUNT_GAP = 50;
const COUNT_STEP = 40;

/** The longest slope that is laid out, mm: a kilometre. */
const MOST_TRAVEL = 1_000_000;

/** What a slope is asked for: how far it shifts the duct, and one of turn, advance or travel that drives it. */
export interface SlopeValues {
  readonly rise: number;
  readonly roll: number;
  readonly turn?: number;
  readonly advance?: number;
  readonly travel?: number;
  readonly piecesPerTurn: number;
}

/** A slope between two equal turns the other way round; lengths mm, angles degrees. */
export interface Slope {
  /** Clock angle of the heel of the first turn; the second has it opposite. */
  readonly heel: number;
  /** How far each of the two turns turns. */
  readonly turn: number;
  /** Cuts in each turn. */
  readonly cuts: number;
  readonly miter: number;
  /** What a cut adds to the axis of the piece on either side of it. */
  readonly reach: number;
  /** Axis of a gore inside a turn. */
  readonly gore: number;
  readonly offset: number;
  /** Axis of the piece between the two turns. */
  readonly travel: number;
  /** Along the duct from the first joint to the last. */
  readonly advance: number;
  /** Outside depth in the plane of the slope. */
  readonly depth: number;
  /** The same slope at another turn. */
  at(turn: number): Slope;
}

/** The parameters that every shift has; `roll` is completed by the family. */
export const SHIFT_PARAMS = {
  rise: { of: { kind: 'length', min: -LONGEST, max: LONGEST }, required: true },
  roll: { of: { kind: 'length', min: -LONGEST, max: LONGEST } },
  piecesPerTurn: { of: { kind: 'count', min: 2, max: 4 }, default: 2 }
} as const satisfies Params;

/**
 * The slope of an offset. True offset = hypot(rise, roll); heels atan2(−roll, −rise) and opposite. With k cuts a turn and
 * gore axis g: travel = (true − 2g·Σ sin(jθ/k)) / sin θ, advance = travel·cos θ + 2g·Σ cos(jθ/k), j = 1 … k − 1. An
 * advance or a travel that drives is solved for the turn, for one cut a turn in closed form.
 */
export function measureSlope(values: SlopeValues, setting: Setting): Slope | Finding {
  const offset = Math.hypot(values.rise, values.roll);
  if (offset < SAME_LENGTH) {
    return { level: 'error', code: 'offset-nothing', param: 'params.rise', data: {}, source: 'geometry' };
  }
  const at = (turn: number): Slope => slopeAt(values, offset, turn, setting);
  const [driver, wanted] =
    values.turn !== undefined
      ? (['turn', values.turn] as const)
      : values.advance !== undefined
        ? (['advance', values.advance] as const)
        : (['travel', values.travel!] as const);
  const turn = driver === 'turn' ? wanted : findTurn(driver, wanted, offset, values.piecesPerTurn - 1, at);
  const least = at(SHARPEST_TURN)[driver];
  if (turn === null && wanted < least) {
    return {
      level: 'error',
      code: driver === 'advance' ? 'advance-short' : 'travel-short',
      param: `params.${driver}`,
      would: suggestValue(wanted, least),
      data: { wanted, least, offset },
      source: 'geometry'
    };
  }
  const slope = at(turn ?? 0);
  // A turn so small that there is hardly any, or none in double numbers.
  if (!(slope.travel <= MOST_TRAVEL)) {
    const would = driver === 'turn' ? findTurn('travel', MOST_TRAVEL, offset, slope.cuts, at) : MOST_TRAVEL;
    return {
      level: 'error',
      code: 'slope-endless',
      param: `params.${driver}`,
      ...(would === null ? {} : { would: driver === 'turn' ? suggestValue(0, would) : would }),
      data: { most: MOST_TRAVEL },
      source: 'geometry'
    };
  }
  return slope;
}

/** Its legs from the first joint to the last, and its joints. `sizedBy` is what sets the length between the two turns. */
export function layOutSlope(
  { heel, turn, cuts, gore, travel }: Slope,
  turnedBy: ParamReference,
  sizedBy: ParamReference
): { legs: Leg[]; turns: Turn[] } {
  const joints = (clock: number): Turn[] =>
    Array.from({ length: cuts }, () => ({ turn: turn / cuts, heel: normalizeDegrees(clock), turnedBy }));
  // Gores inside a turn are the shop's least; only fewer pieces would change them.
  const goreBy = referTo('params.piecesPerTurn', null);
  const gores = Array.from({ length: cuts - 1 }, (): Leg => ({ axis: gore, sizedBy: goreBy }));
  return {
    legs: [...gores, { axis: travel, sizedBy }, ...gores],
    turns: [...joints(heel), ...joints(heel + 180)]
  };
}

/** The turns at which every bevel is one of the shop's blades, ascending; a slope up and aside at once has two bevels. */
export function listBladeTurns({ rise, roll, piecesPerTurn }: SlopeValues, shop: Shop): number[] {
  if (rise !== 0 && roll !== 0) return [];
  return shop.blades
    .map(({ angle }) => 2 * (piecesPerTurn - 1) * angle)
    .filter((turn) => turn > 0 && turn <= SHARPEST_TURN)
    .sort((a, b) => a - b);
}

/** A point of the slope's plane in the fitting's frame: so far downstream, so far toward where the first turn leads. */
export function placeAt(along: number, aside: number, heel: number): Vec3 {
  return placeInPlane([along, aside], heel);
}

/**
 * The handles that drive the slope: the turn in the middle of it, the pieces of a turn beside the first heel, rise and
 * roll at the part that is shifted, `shiftedAt` mm downstream.
 */
export function handleSlope(
  values: SlopeValues,
  slope: Slope,
  throatIn: number,
  shiftedAt: number,
  { section, board }: Setting
): Handle[] {
  const { heel, turn, reach, advance, offset } = slope;
  const { width, height } = growSection(section, board.thickness);
  const middle = throatIn + reach + advance / 2;
  const heelward = placeAt(0, -1, heel);
  return [
    { id: 'turn', at: placeAt(middle, offset / 2, heel), along: [-1, 0, 0], kind: 'angle', value: turn },
    {
      id: 'rise',
      at: [shiftedAt, values.rise + height / 2, values.roll],
      along: [0, 1, 0],
      kind: 'length',
      value: values.rise
    },
    {
      id: 'roll',
      at: [shiftedAt, values.rise, values.roll + width / 2],
      along: [0, 0, 1],
      kind: 'length',
      value: values.roll
    },
    {
      id: 'piecesPerTurn',
      at: placeAt(throatIn + reach, placeCount(slope, values.piecesPerTurn), heel),
      along: heelward,
      kind: 'count',
      value: values.piecesPerTurn
    }
  ];
}

/** The changes that bring one of the handles of a slope closest to a point. */
export function dragSlope(
  values: SlopeValues,
  slope: Slope,
  throatIn: number,
  handle: string,
  point: Vec3,
  { section, board }: Setting
): Readonly<Record<string, unknown>> {
  const outside = growSection(section, board.thickness);
  const [along, aside] = seeInPlane(point, slope.heel);
  switch (handle) {
    case 'turn': {
      const advance = 2 * (along - throatIn - slope.reach);
      return { advance: undefined, travel: undefined, turn: followAdvance(slope, advance) };
    }
    case 'rise':
      return { rise: clamp(point[1] - outside.height / 2, -LONGEST, LONGEST) };
    case 'roll':
      return { roll: clamp(point[2] - outside.width / 2, -LONGEST, LONGEST) };
    case 'piecesPerTurn': {
      const { min, max } = SHIFT_PARAMS.piecesPerTurn.of;
      return {
        piecesPerTurn: clamp(Math.round(min + (placeCount(slope, min) - aside) / COUNT_STEP), min, max)
      };
    }
    default:
      throw new Error(`a slope has no handle ${handle}`);
  }
}

/** Where the handle of the piece count stands for so many pieces: outside the heel, further out for more. */
function placeCount({ depth }: Slope, pieces: number): number {
  return -(depth / 2 + COUNT_GAP + (pieces - SHIFT_PARAMS.piecesPerTurn.of.min) * COUNT_STEP);
}

/**
 * The turn nearest to the present one at which the slope has an advance, or the limit in that direction: with several cuts
 * a turn the advance may fall and rise again. A turn that is already smaller than a drag gives is left alone.
 */
function followAdvance(slope: Slope, wanted: number): number {
  const least = Math.min(LEAST_DRAGGED_TURN, slope.turn);
  if (Math.abs(wanted - slope.advance) < SAME_LENGTH) return slope.turn;
  const isSharper = wanted < slope.advance;
  const advanceAt = (turn: number): number => slope.at(turn).advance;
  for (let from = slope.turn; ;) {
    const to = clamp(from + (isSharper ? 1 : -1), least, SHARPEST_TURN);
    if (to === from) return to;
    const isPassed = isSharper ? advanceAt(to) <= wanted : advanceAt(to) >= wanted;
    if (isPassed) return solveDecreasing(advanceAt, wanted, Math.min(from, to), Math.max(from, to)) ?? to;
    from = to;
  }
}

/** The turn at which the piece between the two turns has this travel; null where no turn gives as much. */
export function findTurnForTravel(values: SlopeValues, travel: number, setting: Setting): number | null {
  const offset = Math.hypot(values.rise, values.roll);
  return findTurn('travel', travel, offset, values.piecesPerTurn - 1, (turn) =>
    slopeAt(values, offset, turn, setting)
  );
}

function findTurn(
  driver: 'advance' | 'travel',
  wanted: number,
  offset: number,
  cuts: number,
  at: (turn: number) => Slope
): number | null {
  if (cuts === 1 && driver === 'advance') return atan2Degrees(offset, wanted);
  // What a right angle just gives is not refused for the rounding of its own figure.
  const least = at(SHARPEST_TURN)[driver];
  if (wanted < least && wanted > least - SAME_LENGTH) return SHARPEST_TURN;
  if (cuts === 1) return wanted >= offset ? asinDegrees(offset / wanted) : null;
  return solveDecreasing((turn) => at(turn)[driver], wanted, LEAST_TURN, SHARPEST_TURN);
}

function slopeAt(
  { rise, roll, piecesPerTurn }: SlopeValues,
  offset: number,
  turn: number,
  setting: Setting
): Slope {
  const cuts = piecesPerTurn - 1;
  const heel = normalizeDegrees(atan2Degrees(-roll, -rise));
  const miter = turn / (2 * cuts);
  const outside = growSection(setting.section, setting.board.thickness);
  const reach = measureReach(outside, miter, heel);
  const gore = setting.shop.minGore + 2 * reach;
  let [aside, along] = [0, 0];
  for (let j = 1; j < cuts; j++) {
    aside += 2 * gore * sinDegrees((j * turn) / cuts);
    along += 2 * gore * cosDegrees((j * turn) / cuts);
  }
  const travel = (offset - aside) / sinDegrees(turn);
  return {
    heel,
    turn,
    cuts,
    miter,
    reach,
    gore,
    offset,
    travel,
    advance: travel * cosDegrees(turn) + along,
    depth: outside.height * Math.abs(cosDegrees(heel)) + outside.width * Math.abs(sinDegrees(heel)),
    at: (other) => slopeAt({ rise, roll, piecesPerTurn }, offset, other, setting)
  };
}
