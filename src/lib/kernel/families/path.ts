import { atan2Degrees, cosDegrees, normalizeDegrees, sinDegrees } from '../geometry/angle.ts';
import { invertMotion, movePoint, turnDirection } from '../geometry/motion.ts';
import { add, scale, norm, subtract, type Vec3 } from '../geometry/vector.ts';
import { referTo, type Setting } from '../fitting/fitting.ts';
import { buildMiteredPath, carryFrames, type Leg, type Turn } from '../fitting/mitered-path.ts';
import { growSection } from '../straight/section.ts';
import { defineFamily } from './family.ts';
import { listPathRoutes } from './path-routes.ts';
import { mirrorClock } from './hand.ts';
import { clamp, LEAST_DRAGGED_TURN, LONGEST, SHARPEST_TURN } from './limits.ts';

const MOST_JOINTS = 200;

/** How far the handle of a heel stands off the duct, mm. */
const HEEL_HANDLE_GAP = 60;

interface PathValues {
  readonly lengths: readonly number[];
  readonly joints: readonly { readonly turn: number; readonly heel: number }[];
}

/** A free path: legs by their length on the axis, joints by turn and heel in the carried frame. */
export const path = defineFamily({
  name: 'path',
  group: 'shift',
  params: {
    lengths: {
      of: {
        kind: 'list',
        item: { kind: 'length', min: 0, max: LONGEST },
        minItems: 1,
        maxItems: MOST_JOINTS + 1
      },
      required: true
    },
    joints: {
      of: {
        kind: 'list',
        item: {
          kind: 'group',
          fields: {
            turn: { of: { kind: 'angle', above: 0, max: SHARPEST_TURN }, required: true },
            heel: { of: { kind: 'angle' }, required: true }
          }
        },
        minItems: 0,
        maxItems: MOST_JOINTS
      },
      required: true
    }
  },
  rules: [
    {
      check({ lengths, joints }) {
        if (!Array.isArray(lengths) || !Array.isArray(joints) || joints.length === lengths.length - 1)
          return null;
        return { path: ['joints'], expected: `one joint fewer than lengths (${lengths.length - 1})` };
      }
    }
  ],
  example: {
    lengths: [420, 500, 460],
    joints: [
      { turn: 40, heel: 33 },
      { turn: 25, heel: 213 }
    ]
  },
  build: (values, setting) => buildMiteredPath(listLegs(values), listTurns(values), setting),
  handles: (values, setting) => {
    const frames = carryFrames(listLegs(values), values.joints);
    const ends = values.lengths.map((length, k) => movePoint(frames[k]!, [length, 0, 0]));
    const lengthHandles = values.lengths.map((length, k) => ({
      id: `lengths[${k}]`,
      // At a joint, off the middle of the leg that it ends, so that it never lies on the handle of the turn.
      at: k < values.joints.length ? movePoint(frames[k]!, [length / 2, 0, 0]) : ends[k]!,
      along: frames[k]!.x,
      kind: 'length' as const,
      value: length
    }));
    const turnHandles = values.joints.map(({ turn, heel }, i) => ({
      id: `joints[${i}].turn`,
      at: placeTurnHandle(values, i),
      // Away from the heel, square to the leg after the joint: where its middle goes when the turn grows.
      along: turnDirection(frames[i]!, [
        -sinDegrees(turn),
        -cosDegrees(turn) * cosDegrees(heel),
        -cosDegrees(turn) * sinDegrees(heel)
      ]),
      kind: 'angle' as const,
      value: turn
    }));
    const radius = measureHeelRadius(setting);
    const heelHandles = values.joints.map(({ heel }, i) => ({
      id: `joints[${i}].heel`,
      at: add(frames[i + 1]!.t, scale(turnDirection(frames[i]!, pointClock(heel)), radius)),
      along: turnDirection(frames[i]!, pointClock(heel + 90)),
      kind: 'angle' as const,
      value: heel
    }));
    return [...lengthHandles, ...turnHandles, ...heelHandles];
  },
  drag: (values, handle, point) => {
    const frames = carryFrames(listLegs(values), values.joints);
    const leg = /^lengths\[(\d+)\]$/.exec(handle);
    if (leg) {
      const k = Number(leg[1]);
      const along = movePoint(invertMotion(frames[k]!), point)[0];
      const length = k < values.joints.length ? 2 * along : along;
      return { lengths: replaceAt(values.lengths, k, clamp(length, 0, LONGEST)) };
    }
    const joint = /^joints\[(\d+)\]\.(turn|heel)$/.exec(handle);
    if (!joint) throw new Error(`a path has no handle ${handle}`);
    const i = Number(joint[1]);
    const { turn: before, heel } = values.joints[i]!;
    const seen = turnDirection(invertMotion(frames[i]!), subtract(point, frames[i + 1]!.t));
    if (joint[2] === 'heel') {
      // The nearest of the angles that name the same side, so that a drag never jumps by a whole turn.
      const by = normalizeDegrees(atan2Degrees(seen[2], seen[1]) - heel + 180) - 180;
      return { joints: replaceAt(values.joints, i, { turn: before, heel: heel + by }) };
    }
    const away = -(seen[1] * cosDegrees(heel) + seen[2] * sinDegrees(heel));
    const turn = atan2Degrees(away, seen[0]);
    // A turn that is already smaller than a drag gives stays as it is until it is dragged larger.
    const least = Math.min(LEAST_DRAGGED_TURN, before);
    return { joints: replaceAt(values.joints, i, { turn: clamp(turn, least, SHARPEST_TURN), heel }) };
  },
  derive: (values) => {
    const frames = carryFrames(listLegs(values), values.joints);
    const last = values.lengths.length - 1;
    const outlet: Vec3 = movePoint(frames[last]!, [values.lengths[last]!, 0, 0]);
    return { run: outlet[0], offset: norm([0, outlet[1], outlet[2]]), bend: turnBetween(frames[last]!.x) };
  },
  bladeValues: (values, param, shop) => {
    const joint = /^joints\[(\d+)\]\.turn$/.exec(param);
    const heel = joint && values.joints[Number(joint[1])]?.heel;
    // Only a plain turn has one bevel; a compound cut has two, which no pair of blades meets at once.
    if (typeof heel !== 'number' || (sinDegrees(heel) !== 0 && cosDegrees(heel) !== 0)) return [];
    return shop.blades
      .map((blade) => 2 * blade.angle)
      .filter((turn) => turn > 0 && turn <= SHARPEST_TURN)
      .sort((a, b) => a - b);
  },
  listRoutes: listPathRoutes,
  mirror: ({ joints }) => ({ joints: joints.map(mirrorJoint) }),
  // A heel keeps its clock angle through its joint, so from the other end only right and left change places.
  reverse: ({ lengths, joints }) => ({
    lengths: [...lengths].reverse(),
    joints: joints.map(mirrorJoint).reverse()
  })
});

/** From the axis to the handle of a heel: outside the duct, whichever side it is on, mm. */
function measureHeelRadius({ section, board }: Setting): number {
  const { width, height } = growSection(section, board.thickness);
  return Math.max(width, height) / 2 + HEEL_HANDLE_GAP;
}

/** The direction of a clock angle in the cross-section. */
function pointClock(angle: number): Vec3 {
  return [0, cosDegrees(angle), sinDegrees(angle)];
}

function mirrorJoint({ turn, heel }: PathValues['joints'][number]): PathValues['joints'][number] {
  return { turn, heel: mirrorClock(heel) };
}

function listLegs(values: PathValues): Leg[] {
  return values.lengths.map((axis, k) => ({
    axis,
    sizedBy: referTo(`params.lengths[${k}]`, axis)
  }));
}

function listTurns(values: PathValues): Turn[] {
  return values.joints.map(({ turn, heel }, i) => ({
    turn,
    heel,
    turnedBy: referTo(`params.joints[${i}].turn`, turn, 2)
  }));
}

/** The quarter point of the leg after a joint: clear of the leg's own handle in its middle. */
function placeTurnHandle(values: PathValues, joint: number): Vec3 {
  const frame = carryFrames(listLegs(values), values.joints)[joint + 1]!;
  return movePoint(frame, [values.lengths[joint + 1]! / 4, 0, 0]);
}

function replaceAt<T>(list: readonly T[], at: number, value: T): T[] {
  return list.map((item, i) => (i === at ? value : item));
}

/** Angle between a direction and the inlet's flow, degrees. */
function turnBetween(direction: Vec3): number {
  return atan2Degrees(Math.hypot(direction[1], direction[2]), direction[0]);
}
