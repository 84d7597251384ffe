import { cosDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import { compose, rotateAbout, shiftAlongX, type Motion } from '../geometry/motion.ts';
import { add, scale, type Vec3 } from '../geometry/vector.ts';
import { referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { cutRectangle, placeAcross, placeOnFace } from '../fitting/opening.ts';
import { FACE_CLOCK, findOppositeFace, type Face, type Section } from '../straight/section.ts';
import type { Opening } from '../straight/straight.ts';
import { wallAxes } from './wall-axes.ts';

export interface TakeoffValues {
  readonly length: number;
  readonly wall: Face;
  readonly station: number;
  readonly aside: number;
  readonly branch: { readonly across: number; readonly along: number };
  readonly angle: number;
  readonly neck: number;
  readonly entry: 'plain' | 'shoe';
  readonly shoe?: number;
  readonly fit: 'butt' | 'enter';
  readonly play: number;
}

/** What the values come to, mm and degrees. */
export interface TakeoffMeasures {
  /** Inside of the branch: on side walls width along, height across; on top and bottom the other way round. */
  readonly section: Section;
  /** Station of the cut on the stub, 0 where it is square: (along/2 + t)/tan g. */
  readonly reach: number;
  /** How much longer the stub is where it goes through the wall: t/sin g, else 0. */
  readonly through: number;
  /** Heel of the cut, and of the turn into the branch: the clock angle opposite the wall. */
  readonly heel: number;
  /** Where the branch's axis meets the outside facing, and the frame of the branch there. */
  readonly at: Vec3;
  readonly frame: Motion;
  readonly opening: Opening;
  readonly shoe: number;
}

/** The flattest and the squarest branch, degrees. */
export const [FLATTEST, SQUARE] = [30, 90] as const;

/** A shoe is usually a quarter of the branch long, but not less than this, mm: from memory. */
export const LEAST_SHOE = 100;

export function measureTakeoff(values: TakeoffValues, { section, board }: Setting): TakeoffMeasures {
  const { wall, station, aside, branch, angle, fit, entry } = values;
  const { thickness } = board;
  const isSide = wall === 'left' || wall === 'right';
  const heel = FACE_CLOCK[findOppositeFace(wall)];
  const size = { section, thickness };
  const at = placeOnFace(wall, [station, placeAcross(wall, aside, size)], 0, size);
  const turn = rotateAbout([0, -sinDegrees(heel), cosDegrees(heel)], cosDegrees(angle), -sinDegrees(angle));
  const shoe = entry === 'shoe' ? (values.shoe ?? Math.max(LEAST_SHOE, branch.along / 4)) : 0;
  return {
    section: isSide
      ? { width: branch.along, height: branch.across }
      : { width: branch.across, height: branch.along },
    reach: angle === 90 ? 0 : (branch.along / 2 + thickness) / tanDegrees(angle),
    through: fit === 'enter' ? thickness / sinDegrees(angle) : 0,
    heel,
    at,
    frame: { ...turn, t: at },
    opening: cutBranchOpening(values, shoe, size),
    shoe
  };
}

/**
 * The opening of a branch: butted along/sin g by across; entered (along + 2t)/sin g by across + 2t and the play all round.
 * Its ends are cut at 90 − g, the inside outline upstream by t/tan g; a shoe lengthens it upstream at 45°.
 */
function cutBranchOpening(
  { wall, station, aside, branch, angle, fit, play }: TakeoffValues,
  shoe: number,
  size: Parameters<typeof cutRectangle>[1]
): Opening {
  const beside = fit === 'enter' ? 2 * size.thickness : 0;
  const spare = fit === 'enter' ? 2 * play : 0;
  const tilt = 90 - angle;
  return cutRectangle(
    {
      name: 'O1',
      face: wall,
      station: station - shoe / 2,
      aside,
      along: (branch.along + beside) / sinDegrees(angle) + spare + shoe,
      across: branch.across + beside + spare,
      bevels: { upstream: shoe > 0 ? -45 : -tilt, downstream: tilt, sides: 0 }
    },
    size
  );
}

/** The stub's frame, so that its station `reach` on the axis lies on the facing, or where it goes through, on the inside. */
export function placeStub({ frame, reach, through }: TakeoffMeasures): Motion {
  return compose(frame, shiftAlongX(0 - reach - through));
}

/** A point on the branch's axis, so far from the facing, mm. */
export function placeOnBranch({ at, frame }: TakeoffMeasures, along: number): Vec3 {
  return add(at, scale(frame.x, along));
}

/** What sets how wide the opening is across the wall. */
export function referBranch({ branch }: TakeoffValues): ParamReference {
  return referTo('params.branch.across', branch.across);
}

/** A point of the wall's plane from where the axis meets it, mm: along the duct, and aside. */
export function placeBeside({ at }: TakeoffMeasures, wall: Face, along: number, aside: number): Vec3 {
  const axes = wallAxes(wall);
  return add(at, [along, axes.aside[1] * aside, axes.aside[2] * aside]);
}
