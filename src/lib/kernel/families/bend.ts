import { cosDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import { SAME_ANGLE, SAME_LENGTH, WRITTEN_LENGTH } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { findYield } from '../straight/blank.ts';
import { FACE_CLOCK, FACES, growSection, measureFace, type Face } from '../straight/section.ts';
import { allowOneOf, allowOneRest, defineFamily, type Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_TURN, LONGEST, SHARPEST_TURN } from './limits.ts';

const DRIVERS = ['gore', 'radius', 'setback'] as const;
const LEAST_PIECES = 2;
const MOST_PIECES = 9;
const LARGEST_TURN = 180;

/** On the drawing: how far the handle of the piece count stands off the heel, and how far it moves for a piece, mm. */
const COUNT_HANDLE_GAP = 60;
const COUNT_HANDLE_STEP = 40;

interface BendValues {
  readonly turn: number;
  readonly pieces: number;
  readonly heel: string;
  readonly throatIn: number | 'rest';
  readonly throatOut: number | 'rest';
  readonly gore?: number;
  readonly radius?: number;
  readonly setback?: number;
}

/** The measures of a bend, mm; `reach` is half of what a cut takes from the axis in the plane of the bend. */
interface BendMeasures {
  readonly joints: number;
  readonly miter: number;
  readonly depth: number;
  readonly reach: number;
  readonly throatIn: number;
  readonly gore: number;
  readonly throatOut: number;
}

/** A turn in one plane by equal miters: cuts \ / \ on the straight. */
export const bend = defineFamily({
  name: 'bend',
  group: 'turn',
  params: {
    turn: { of: { kind: 'angle', above: 0, max: LARGEST_TURN }, required: true },
    pieces: { of: { kind: 'count', min: LEAST_PIECES, max: MOST_PIECES }, default: 3 },
    heel: { of: { kind: 'choice', of: FACES }, required: true },
    throatIn: { of: { kind: 'throat', min: 0, max: LONGEST }, default: { shop: 'minThroat' } },
    gore: { of: { kind: 'length', min: 0, max: LONGEST } },
    radius: { of: { kind: 'length', min: 0, max: LONGEST } },
    setback: { of: { kind: 'length', min: 0, max: LONGEST } },
    throatOut: { of: { kind: 'throat', min: 0, max: LONGEST }, default: { shop: 'minThroat' } }
  },
  drivers: { names: DRIVERS, usual: 'gore', default: { shop: 'minGore' } },
  rules: [
    allowOneOf(DRIVERS),
    allowOneRest(['throatIn', 'throatOut']),
    {
      check({ turn, pieces }) {
        return typeof turn === 'number' && turn > SHARPEST_TURN && pieces === LEAST_PIECES
          ? {
              path: ['turn'],
              expected: `at most ${SHARPEST_TURN} a joint, so with 2 pieces at most ${SHARPEST_TURN}`
            }
          : null;
      },
      json: {
        if: { required: ['pieces'], properties: { pieces: { const: LEAST_PIECES } } },
        then: { properties: { turn: { maximum: SHARPEST_TURN } } }
      }
    }
  ],
  example: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 },
  build(values, setting) {
    const measured = measureBend(values, setting);
    if ('code' in measured) return { fitting: null, findings: [measured] };
    const { joints, reach, throatIn, gore, throatOut } = measured;
    const heel = findHeel(values);
    const goreAxis = gore + 2 * reach;
    const built = buildMiteredPath(
      [
        { axis: throatIn + reach, sizedBy: referThroat('throatIn', values.throatIn) },
        ...Array.from({ length: joints - 1 }, () => ({
          axis: goreAxis,
          sizedBy: referGore(values, measured)
        })),
        { axis: throatOut + reach, sizedBy: referThroat('throatOut', values.throatOut) }
      ],
      Array.from({ length: joints }, () => ({
        turn: values.turn / joints,
        heel,
        turnedBy: referTo('params.turn', values.turn, 2 * joints)
      })),
      setting
    );
    return { fitting: built.fitting, findings: [...built.findings, ...adviseBend(values)] };
  },
  handles(values, setting) {
    const measured = measureBend(values, setting);
    if ('code' in measured) return [];
    const { joints, throatIn, gore, throatOut, depth } = measured;
    const trace = traceBend(values, measured);
    const place = placeInPlane(values);
    const aim = (direction: Point): Vec3 => place(direction);
    const handles: Handle[] = [
      {
        id: 'throatIn',
        at: place([throatIn, depth / 2]),
        along: aim([1, 0]),
        kind: 'length',
        value: throatIn
      },
      {
        id: 'throatOut',
        at: place(trace.throatEnd),
        along: aim(trace.outward),
        kind: 'length',
        value: throatOut
      },
      {
        id: 'turn',
        at: place(trace.outlet),
        along: aim([-trace.outward[1], trace.outward[0]]),
        kind: 'angle',
        value: values.turn
      },
      {
        id: 'pieces',
        at: place(placeCountHandle(values, measured, values.pieces)),
        along: aim(findHeelward(values)),
        kind: 'count',
        value: values.pieces
      }
    ];
    if (joints > 1) {
      const step = values.turn / joints;
      handles.splice(1, 0, {
        id: 'gore',
        at: place(advance([throatIn, depth / 2], step, gore)),
        along: aim(direct(step)),
        kind: 'length',
        value: gore
      });
    }
    return handles;
  },
  drag(values, handle, point, setting) {
    const measured = measureBend(values, setting);
    if ('code' in measured) return {};
    const seen = seeInPlane(values, point);
    const { joints, throatIn, depth } = measured;
    const step = values.turn / joints;
    switch (handle) {
      case 'throatIn':
        return { throatIn: clamp(seen[0], 0, LONGEST) };
      case 'gore':
        return {
          ...dropDrivers(),
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
  },
  derive(values, setting): Record<string, number> {
    const measured = measureBend(values, setting);
    if ('code' in measured) return {};
    const { joints, gore, miter, depth, throatIn, throatOut, reach } = measured;
    const derived: Record<string, number> = { throatIn, throatOut };
    if (joints > 1) {
      const radius = depth / 2 + gore / (2 * tanDegrees(miter));
      derived['gore'] = gore;
      derived['radius'] = radius;
      if (values.turn < LARGEST_TURN) {
        derived['setback'] = throatIn + reach + radius * (tanDegrees(values.turn / 2) - tanDegrees(miter));
      }
    } else {
      derived['setback'] = throatIn + reach;
    }
    return derived;
  },
  bladeValues({ pieces }, param, shop) {
    if (param !== 'turn') return [];
    const joints = pieces - 1;
    return shop.blades
      .map((blade) => 2 * joints * blade.angle)
      .filter((turn) => turn > 0 && turn <= Math.min(LARGEST_TURN, joints * SHARPEST_TURN))
      .sort((a, b) => a - b);
  }
});

/** A point in the plane of the bend: downstream at the inlet, and toward the side the duct turns to; mm. */
type Point = readonly [number, number];

function findHeel(values: BendValues): number {
  return FACE_CLOCK[values.heel as Face];
}

/**
 * From the driver to the measures. By radius: gore = 2·tan α·(R − D/2). By setback, the distance from the inlet to where
 * the two axes cross: setback = throatIn + c + R·(tan(turn/2) − tan α). A throat "rest" takes what the others leave of
 * the straight that the board yields across. All are linear in the throat that rests, so it is solved for directly.
 */
function measureBend(values: BendValues, setting: Setting): BendMeasures | Finding {
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

  if (setting.lay === 'along') return describeRestAlong();
  const whole = findYield(setting.board, 'across').yield;
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

function describeRestAlong(): Finding {
  return {
    level: 'error',
    code: 'rest-along',
    param: 'lay',
    would: 'across',
    data: {},
    source: 'shop'
  };
}

function describeSpentRest(rests: string, rest: number, whole: number, setting: Setting): Finding {
  return {
    level: 'error',
    code: 'rest-spent',
    param: `params.${rests}`,
    would: setting.shop.minThroat,
    data: { missing: Math.max(0, setting.shop.minThroat - rest), whole },
    source: 'shop'
  };
}

function adviseBend(values: BendValues): Finding[] {
  const findings: Finding[] = [];
  if (values.pieces === LEAST_PIECES && values.turn === SHARPEST_TURN) {
    findings.push({
      level: 'note',
      code: 'two-piece-bend',
      param: 'params.pieces',
      would: LEAST_PIECES + 1,
      data: { turn: values.turn },
      source: 'shop'
    });
  }
  if (values.pieces === LEAST_PIECES && values.radius !== undefined) {
    findings.push({
      level: 'note',
      code: 'radius-idle',
      param: 'params.radius',
      data: { radius: values.radius },
      source: 'geometry'
    });
  }
  return findings;
}

function referThroat(name: 'throatIn' | 'throatOut', said: number | 'rest'): ParamReference {
  return referTo(`params.${name}`, said === 'rest' ? null : said);
}

/**
 * The driver sets the gore: gore itself, or the radius or setback whose growth lengthens it. Where the throat at the
 * inlet takes the rest of the straight, it gives way to the gores, and the setback is measured from there.
 */
function referGore(values: BendValues, { joints, miter }: BendMeasures): ParamReference {
  const slope = tanDegrees(miter);
  if (values.radius !== undefined) return referTo('params.radius', values.radius, 1 / (2 * slope));
  if (values.setback !== undefined) {
    const yielding = values.throatIn === 'rest' ? joints - 1 : 0;
    const rate = (tanDegrees(values.turn / 2) - slope) / (2 * slope) - yielding;
    return referTo('params.setback', values.setback, rate);
  }
  return referTo('params.gore', values.gore ?? null);
}

function dropDrivers(): Record<string, undefined> {
  return Object.fromEntries(DRIVERS.map((name) => [name, undefined]));
}

function direct(angle: number): Point {
  return [cosDegrees(angle), sinDegrees(angle)];
}

function advance(from: Point, angle: number, length: number): Point {
  const [along, aside] = direct(angle);
  return [from[0] + along * length, from[1] + aside * length];
}

function measureAlong(from: Point, direction: Point, to: Point): number {
  return (to[0] - from[0]) * direction[0] + (to[1] - from[1]) * direction[1];
}

/** Follows the throat side of the bend from the inlet: its edges are throat, gores, throat. */
function traceBend(
  values: BendValues,
  { joints, throatIn, gore, throatOut, depth }: BendMeasures
): { corners: Point[]; lastThroat: Point; throatEnd: Point; outlet: Point; outward: Point } {
  const corners: Point[] = [[throatIn, depth / 2]];
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
function findHeelward(values: BendValues): Point {
  return direct(values.turn / 2 - 90);
}

function placeCountHandle(values: BendValues, measured: BendMeasures, pieces: number): Point {
  const { corners } = traceBend(values, measured);
  const { joints, depth, miter } = measured;
  const first = corners[Math.floor((joints - 1) / 2)]!;
  const second = corners[Math.ceil((joints - 1) / 2)]!;
  // From the throat to the heel square through a gore it is the depth, along a cut depth / cos α.
  const across = joints % 2 === 1 ? depth / cosDegrees(miter) : depth;
  const out = across + COUNT_HANDLE_GAP + (pieces - LEAST_PIECES) * COUNT_HANDLE_STEP;
  return advance([(first[0] + second[0]) / 2, (first[1] + second[1]) / 2], values.turn / 2 - 90, out);
}

/** Takes points or directions of the plane of the bend to the fitting's frame: the duct turns away from the heel. */
function placeInPlane(values: BendValues): (point: Point) => Vec3 {
  const heel = findHeel(values);
  return ([along, aside]) => [along, 0 - aside * cosDegrees(heel), 0 - aside * sinDegrees(heel)];
}

function seeInPlane(values: BendValues, point: Vec3): Point {
  const heel = findHeel(values);
  return [point[0], -(point[1] * cosDegrees(heel) + point[2] * sinDegrees(heel))];
}

/**
 * The turn whose outlet comes closest to a point: the best of a scan in steps of a degree, then the zero of the
 * derivative of the distance beside it by bisection. At the outlet itself the result is the present turn.
 */
function swingTo(values: BendValues, setting: Setting, target: Point): number {
  const largest = Math.min(LARGEST_TURN, (values.pieces - 1) * SHARPEST_TURN);
  const outletAt = (turn: number): Point | null => {
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
