import { atan2Degrees, cosDegrees, sinDegrees } from '../geometry/angle.ts';
import { movePoint, turnDirection, type Motion } from '../geometry/motion.ts';
import { SAME_ANGLE, SAME_LENGTH } from '../geometry/tolerance.ts';
import { add, cross, dot, norm, scale, type Vec3 } from '../geometry/vector.ts';
import type { JointTurn } from '../fitting/mitered-path.ts';
import { frameLegs, measureShifts } from '../fitting/route.ts';
import { SHARPEST_TURN } from '../straight/cut.ts';
import type { Section } from '../straight/section.ts';
import { changeLengths, solveLeast, type FreePiece } from './least-change.ts';
import type { SiteEnd } from './site.ts';

/** A mitered path as it is: its legs on the axis, mm, and its joints; what is made stays. */
export interface MadePath {
  readonly lengths: readonly number[];
  readonly joints: readonly JointTurn[];
}

/** What may be changed, and how far. */
export interface Leeway {
  /** Of each leg: the least that its shortest outside edge may become, mm; null where it is made. */
  readonly least: readonly (number | null)[];
  /** Of each joint: whether its cut is still to be made. */
  readonly open: readonly boolean[];
  /** The outside of the duct. */
  readonly outside: Section;
}

/** How far an end is missed. */
export interface Miss {
  /** mm, in the coordinates that are wanted. */
  readonly place: number;
  /** Degrees, all turns in one: of the flow and about it. */
  readonly turn: number;
}

export interface Mended extends MadePath {
  /** Legs whose least keeps the end from being met. */
  readonly held: readonly number[];
}

/** The smallest turn that is left to a joint, degrees: the least a drag gives. */
const SMALLEST_TURN = 1;

/** Newton's steps: an end that can be met is met to the last bit after a few. */
const MOST_STEPS = 40;

/**
 * The path with what is not made changed so that its end is met, or as nearly as it can be. Directions first: the joints
 * still to be cut turn more or less, their heels go round only where that is not enough. Then lengths: the last piece, or
 * the least changes of all that are still to be cut, none below the least of the shop or of what it already was.
 */
export function mendPath(path: MadePath, leeway: Leeway, end: SiteEnd): Mended {
  const joints = mendTurns(path, leeway, end);
  const frames = frameLegs({ legs: path.lengths, turns: joints });
  const wanted = findPlaceMiss(movePoint(frames[frames.length - 1]!, [path.lengths.at(-1)!, 0, 0]), end);
  const free = leeway.least.flatMap((least, leg) => (least === null ? [] : [{ leg, least }]));
  const pieces = free.map(({ leg, least }): FreePiece => {
    const low = least - measureShortest({ ...path, joints }, leg, leeway.outside);
    return { way: keepWanted(frames[leg]!.x, end), low: Math.abs(low) < SAME_LENGTH ? 0 : low };
  });
  const { changes, held } = changeLengths(pieces, wanted);
  const lengths = [...path.lengths];
  free.forEach(({ leg }, i) => {
    lengths[leg] = path.lengths[leg]! + changes[i]!;
  });
  return { lengths, joints, held: held.map((i) => free[i]!.leg) };
}

/** How far an end of a duct is from where it should be. `up` matches when parallel or opposite: the duct is the same. */
export function measureMiss(at: Vec3, { x, y, z }: Pick<Motion, 'x' | 'y' | 'z'>, end: SiteEnd): Miss {
  return { place: norm(findPlaceMiss(at, end)), turn: norm(findTurnMiss({ x, y, z }, end)) };
}

/** The shortest outside corner edge of a leg, mm; the heel's side is the longer at both its ends. */
export function measureShortest(path: MadePath, leg: number, outside: Section): number {
  return path.lengths[leg]! + measureReachOf(path.joints[leg - 1], path.joints[leg], outside);
}

/** By how much the shortest edge between two joints is longer than the axis, mm: mostly less than 0. */
export function measureReachOf(
  before: JointTurn | undefined,
  after: JointTurn | undefined,
  outside: Section
): number {
  const [from, to] = [measureShifts(before, outside), measureShifts(after, outside)];
  return Math.min(...from.map((shift, corner) => shift + to[corner]!));
}

function mendTurns(path: MadePath, { open }: Leeway, end: SiteEnd): readonly JointTurn[] {
  const miss = (joints: readonly JointTurn[]): number =>
    norm(findTurnMiss(frameLegs({ legs: path.lengths, turns: joints }).at(-1)!, end));
  let best = path.joints;
  for (const withHeels of [false, true]) {
    if (miss(best) < SAME_ANGLE) return best;
    const turned = followTurns(path, open, withHeels, end);
    if (miss(turned) < miss(best)) best = turned;
  }
  return best;
}

/** Newton's steps on the turns of the open joints, and on their heels; the least steps that would do. */
function followTurns(
  path: MadePath,
  open: readonly boolean[],
  withHeels: boolean,
  end: SiteEnd
): readonly JointTurn[] {
  const joints = [...path.joints];
  const free = joints.flatMap((_, i) => (open[i] ? [i] : []));
  for (let step = 0; step < MOST_STEPS; step++) {
    const frames = frameLegs({ legs: path.lengths, turns: joints });
    const miss = findTurnMiss(frames.at(-1)!, end);
    if (norm(miss) < SAME_ANGLE) break;
    // A joint turns what follows about its own axis; a heel that goes round turns it about the flow before, and back after.
    const turns = free.map((i): Vec3 => {
      const { heel } = joints[i]!;
      return turnDirection(frames[i]!, [0, sinDegrees(heel), -cosDegrees(heel)]);
    });
    const heels = withHeels ? free.map((i): Vec3 => add(frames[i]!.x, scale(frames[i + 1]!.x, -1))) : [];
    const changes = solveLeast([...turns, ...heels], miss);
    free.forEach((i, k) => {
      const { turn, heel } = joints[i]!;
      const low = Math.min(SMALLEST_TURN, path.joints[i]!.turn);
      joints[i] = {
        turn: Math.min(SHARPEST_TURN, Math.max(low, turn + changes[k]!)),
        heel: heel + (changes[free.length + k] ?? 0)
      };
    });
  }
  return joints;
}

/** From a place to the wanted one, mm; a coordinate that is free is never missed. */
function findPlaceMiss(at: Vec3, end: SiteEnd): Vec3 {
  const apart = (i: 0 | 1 | 2): number => (end.at[i] ?? at[i]) - at[i];
  return [apart(0), apart(1), apart(2)];
}

function keepWanted(way: Vec3, { at }: SiteEnd): Vec3 {
  const keep = (i: 0 | 1 | 2): number => (at[i] === null ? 0 : way[i]);
  return [keep(0), keep(1), keep(2)];
}

/** The turn from a frame to the wanted one: its axis, as long as its angle in degrees. */
function findTurnMiss({ x, y, z }: Pick<Motion, 'x' | 'y' | 'z'>, { flow, up }: SiteEnd): Vec3 {
  const upright = dot(up, y) < 0 ? scale(up, -1) : up;
  const right = cross(flow, upright);
  const axis = scale(add(add(cross(x, flow), cross(y, upright)), cross(z, right)), 1 / 2);
  const cosine = (dot(x, flow) + dot(y, upright) + dot(z, right) - 1) / 2;
  const sine = norm(axis);
  return sine === 0 ? [cosine < 0 ? 180 : 0, 0, 0] : scale(axis, atan2Degrees(sine, cosine) / sine);
}
