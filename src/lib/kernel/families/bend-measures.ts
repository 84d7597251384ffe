import { tanDegrees } from '../geometry/angle.ts';
import { SAME_ANGLE, SAME_LENGTH, WRITTEN_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { growSection, measureFace, type Face } from '../straight/section.ts';
import { describeSpentRest, findWhole, type Throats } from './rest.ts';

/** The parameters by one of which the gores of a bend are driven. */
export const BEND_DRIVERS = ['gore', 'radius', 'setback'] as const;

export const LARGEST_TURN = 180;

export interface BendValues extends Throats {
  readonly turn: number;
  readonly pieces: number;
  readonly heel: string;
  readonly gore?: number;
  readonly radius?: number;
  readonly setback?: number;
}

/** The measures of a bend, mm; `reach` is half of what a cut takes from the axis in the plane of the bend. */
export interface BendMeasures {
  readonly joints: number;
  readonly miter: number;
  readonly depth: number;
  readonly reach: number;
  readonly throatIn: number;
  readonly gore: number;
  readonly throatOut: number;
}

/**
 * From the driver to the measures. By radius: gore = 2·tan α·(R − D/2). By setback, the distance from the inlet to where
 * the two axes cross: setback = throatIn + c + R·(tan(turn/2) − tan α). A throat "rest" takes what the others leave of
 * the straight that the board yields across. All are linear in the throat that rests, so it is solved for directly.
 */
export function measureBend(values: BendValues, setting: Setting): BendMeasures | Finding {
  const joints = values.pieces - 1;
  const miter = values.turn / (2 * joints);
  const side: Face = values.heel === 'top' || values.heel === 'bottom' ? 'left' : 'top';
  const depth = measureFace(growSection(setting.section, setting.board.thickness), side);
  const slope = tanDegrees(miter);
  const reach = (depth / 2) * slope;
  const goreOf = (throatIn: number): number | Finding =>
    joints === 1 ? 0 : measureGore(values, { slope, depth, reach, throatIn });

  const finish = (throatIn: number, throatOut: number): BendMeasures | Finding => {
    const fixed = throatIn + reach;
    if (joints === 1 && values.setback !== undefined && Math.abs(values.setback - fixed) >= WRITTEN_LENGTH)
      return describeFixedSetback(values.setback, fixed);
    const gore = goreOf(throatIn);
    if (typeof gore !== 'number') return gore;
    return { joints, miter, depth, reach, throatIn, gore, throatOut };
  };
  if (values.throatIn !== 'rest' && values.throatOut !== 'rest')
    return finish(values.throatIn, values.throatOut);

  const whole = findWhole(setting);
  if (typeof whole !== 'number') return whole;
  const rests = values.throatIn === 'rest' ? 'throatIn' : 'throatOut';
  if (values.throatIn !== 'rest') {
    const gore = goreOf(values.throatIn);
    if (typeof gore !== 'number') return gore;
    const rest = whole - values.throatIn - (joints - 1) * gore - 2 * joints * reach;
    return rest < SAME_LENGTH
      ? describeSpentRest(rests, rest, whole, setting)
      : finish(values.throatIn, rest);
  }
  const throatOut = values.throatOut as number;
  // The straight's length is linear in the throat at the inlet (only a setback makes the gore depend on it).
  const lengthAt = (throatIn: number): number | Finding => {
    const gore = goreOf(throatIn);
    return typeof gore === 'number' ? throatIn + throatOut + (joints - 1) * gore + 2 * joints * reach : gore;
  };
  const atZero = lengthAt(0);
  const atOne = lengthAt(1);
  if (typeof atZero !== 'number') return atZero;
  if (typeof atOne !== 'number') return atOne;
  const growth = atOne - atZero;
  // Where the gores take back what the throat gains, as at 120 degrees in 3 pieces, no throat uses up the straight.
  const rest = Math.abs(growth) < SAME_ANGLE ? 0 : (whole - atZero) / growth;
  return rest < SAME_LENGTH ? describeSpentRest(rests, rest, whole, setting) : finish(rest, throatOut);
}

function measureGore(
  values: BendValues,
  known: { slope: number; depth: number; reach: number; throatIn: number }
): number | Finding {
  const { slope, depth, reach, throatIn } = known;
  if (values.gore !== undefined) return values.gore;
  if (values.radius !== undefined) return 2 * slope * (values.radius - depth / 2);
  const setback = values.setback ?? 0;
  // The axes are parallel at half a turn, and where there is hardly any.
  if (values.turn >= LARGEST_TURN || values.turn < SAME_ANGLE) {
    return {
      level: 'error',
      code: 'setback-endless',
      param: 'params.setback',
      data: { turn: values.turn },
      source: 'geometry'
    };
  }
  const radius = (setback - throatIn - reach) / (tanDegrees(values.turn / 2) - slope);
  return 2 * slope * (radius - depth / 2);
}

function describeFixedSetback(setback: number, fixed: number): Finding {
  return {
    level: 'error',
    code: 'setback-fixed',
    param: 'params.setback',
    would: fixed,
    data: { setback, fixed },
    source: 'geometry'
  };
}

/**
 * The driver sets the gore: gore itself, or the radius or setback whose growth lengthens it. Where the throat at the
 * inlet takes the rest of the straight, it gives way to the gores, and the setback is measured from there.
 */
export function referGore(values: BendValues, { joints, miter }: BendMeasures): ParamReference {
  const slope = tanDegrees(miter);
  if (values.radius !== undefined) return referTo('params.radius', values.radius, 1 / (2 * slope));
  if (values.setback !== undefined) {
    const yielding = values.throatIn === 'rest' ? joints - 1 : 0;
    const rate = (tanDegrees(values.turn / 2) - slope) / (2 * slope) - yielding;
    return referTo('params.setback', values.setback, rate);
  }
  return referTo('params.gore', values.gore ?? null);
}
