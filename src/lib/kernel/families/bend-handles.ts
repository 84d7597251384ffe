import { cosDegrees } from '../geometry/angle.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import { FACE_CLOCK, type Face } from '../straight/section.ts';
import {
  BEND_DRIVERS,
  LARGEST_TURN,
  measureBend,
  type BendMeasures,
  type BendValues
} from './bend-measures.ts';
import type { Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_TURN, LEAST_PIECES, LONGEST, MOST_PIECES, SHARPEST_TURN } from './limits.ts';
import { advance, direct, measureAlong, placeInPlane, seeInPlane, type PlanePoint } from './plane.ts';

/** How far the handle of the piece count stands off the heel, and how far it moves for a piece, mm. */
const COUNT_HANDLE_GAP = 60;
const COUNT_HANDLE_STEP = 40;

/** Clock angle of the heel, degrees. */
export function findHeel(values: BendValues): number {
  return FACE_CLOCK[values.heel as Face];
}

/** The handles of a bend; none where it has no measures. */
export function placeBendHandles(values: BendValues, setting: Setting): Handle[] {
  const measured = measureBend(values, setting);
  if ('code' in measured) return [];
  const { joints, throatIn, gore, throatOut, depth } = measured;
  const trace = traceBend(values, measured);
  const place = (point: PlanePoint): Vec3 => placeInPlane(point, findHeel(values));
  const handles: Handle[] = [
    {
      id: 'throatIn',
      at: place([throatIn, depth / 2]),
      along: place([1, 0]),
      kind: 'length',
      value: throatIn
    },
    {
      id: 'throatOut',
      at: place(trace.throatEnd),
      along: place(trace.outward),
      kind: 'length',
      value: throatOut
    },
    {
      id: 'turn',
      at: place(trace.outlet),
      along: place([-trace.outward[1], trace.outward[0]]),
      kind: 'angle',
      value: values.turn
    },
    {
      id: 'pieces',
      at: place(placeCountHandle(values, measured, values.pieces)),
      along: place(findHeelward(values)),
      kind: 'count',
      value: values.pieces
    }
  ];
  if (joints > 1) {
    const step = values.turn / joints;
    handles.splice(1, 0, {
      id: 'gore',
      at: place(advance([throatIn, depth / 2], step, gore)),
      along: place(direct(step)),
      kind: 'length',
      value: gore
    });
  }
  return handles;
}

/** The changes, unsnapped but inside limits, that bring a handle of a bend closest to a point. */
export function dragBend(
  values: BendValues,
  handle: string,
  point: Vec3,
  setting: Setting
): Readonly<Record<string, unknown>> {
  const measured = measureBend(values, setting);
  if ('code' in measured) return {};
  const seen = seeInPlane(point, findHeel(values));
  const { joints, throatIn, depth } = measured;
  const step = values.turn / joints;
  switch (handle) {
    case 'throatIn':
      return { throatIn: clamp(seen[0], 0, LONGEST) };
    case 'gore':
      return {
        ...Object.fromEntries(BEND_DRIVERS.map((name) => [name, undefined])),
        gore: clamp(measureAlong([throatIn, depth / 2], direct(step), seen), 0, LONGEST)
      };
    case 'throatOut': {
      const { lastThroat, outward } = traceBend(values, measured);
      return { throatOut: clamp(measureAlong(lastThroat, outward, seen), 0, LONGEST) };
    }
    case 'turn':
      return { turn: swingTo(values, setting, seen) };
    case 'pieces': {
      const base = placeCountHandle(values, measured, LEAST_PIECES);
      const count = LEAST_PIECES + measureAlong(base, findHeelward(values), seen) / COUNT_HANDLE_STEP;
      const least = values.turn > SHARPEST_TURN ? LEAST_PIECES + 1 : LEAST_PIECES;
      return { pieces: clamp(Math.round(count), least, MOST_PIECES) };
    }
    default:
      throw new Error(`a bend has no handle ${handle}`);
  }
}

/** Follows the throat side of the bend from the inlet: its edges are throat, gores, throat. */
function traceBend(
  values: BendValues,
  { joints, throatIn, gore, throatOut, depth }: BendMeasures
): {
  corners: PlanePoint[];
  lastThroat: PlanePoint;
  throatEnd: PlanePoint;
  outlet: PlanePoint;
  outward: PlanePoint;
} {
  const corners: PlanePoint[] = [[throatIn, depth / 2]];
  for (let i = 1; i < joints; i++) corners.push(advance(corners[i - 1]!, (i * values.turn) / joints, gore));
  const lastThroat = corners[joints - 1]!;
  const throatEnd = advance(lastThroat, values.turn, throatOut);
  return {
    corners,
    lastThroat,
    throatEnd,
    outlet: advance(throatEnd, values.turn - 90, depth / 2),
    outward: direct(values.turn)
  };
}

/** The direction, in the plane, in which the heel of the middle of the bend faces. */
function findHeelward(values: BendValues): PlanePoint {
  return direct(values.turn / 2 - 90);
}

function placeCountHandle(values: BendValues, measured: BendMeasures, pieces: number): PlanePoint {
  const { corners } = traceBend(values, measured);
  const { joints, depth, miter } = measured;
  const first = corners[Math.floor((joints - 1) / 2)]!;
  const second = corners[Math.ceil((joints - 1) / 2)]!;
  // From the throat to the heel square through a gore it is the depth, along a cut depth / cos α.
  const across = joints % 2 === 1 ? depth / cosDegrees(miter) : depth;
  const out = across + COUNT_HANDLE_GAP + (pieces - LEAST_PIECES) * COUNT_HANDLE_STEP;
  return advance([(first[0] + second[0]) / 2, (first[1] + second[1]) / 2], values.turn / 2 - 90, out);
}

/**
 * The turn whose outlet comes closest to a point: the best of a scan in steps of a degree, then the zero of the
 * derivative of the distance beside it by bisection. At the outlet itself the result is the present turn.
 */
function swingTo(values: BendValues, setting: Setting, target: PlanePoint): number {
  const largest = Math.min(LARGEST_TURN, (values.pieces - 1) * SHARPEST_TURN);
  const outletAt = (turn: number): PlanePoint | null => {
    const measured = measureBend({ ...values, turn }, setting);
    return 'code' in measured ? null : traceBend({ ...values, turn }, measured).outlet;
  };
  const distanceAt = (turn: number): number => {
    const outlet = outletAt(turn);
    return outlet ? Math.hypot(outlet[0] - target[0], outlet[1] - target[1]) : Infinity;
  };
  let best = values.turn;
  let least = distanceAt(best);
  for (let turn = LEAST_DRAGGED_TURN; turn <= largest; turn++) {
    const distance = distanceAt(turn);
    if (distance < least) [best, least] = [turn, distance];
  }
  if (least < SAME_LENGTH) return best;
  const slopeAt = (turn: number): number => {
    const nudge = 1e-4;
    const [at, before, after] = [outletAt(turn), outletAt(turn - nudge), outletAt(turn + nudge)];
    if (!at || !before || !after) return 0;
    return (at[0] - target[0]) * (after[0] - before[0]) + (at[1] - target[1]) * (after[1] - before[1]);
  };
  let low = Math.max(LEAST_DRAGGED_TURN, best - 1);
  let high = Math.min(largest, best + 1);
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (slopeAt(middle) > 0) high = middle;
    else low = middle;
  }
  return clamp((low + high) / 2, LEAST_DRAGGED_TURN, largest);
}
