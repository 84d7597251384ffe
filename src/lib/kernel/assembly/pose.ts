import { cosDegrees, sinDegrees } from '../geometry/angle.ts';
import {
  compose,
  HALF_TURN_ABOUT_X,
  IDENTITY,
  moveBetween,
  rotateAbout,
  shiftAlongX,
  type Motion
} from '../geometry/motion.ts';
import { findMiddle, type Fitting } from '../fitting/fitting.ts';
import { FACE_CLOCK, growSection, type Face } from '../straight/section.ts';
import type { Step } from '../fitting/step.ts';

/** How a body lies: its motion from the straight's frame, and how far it has come. */
export interface Pose {
  readonly body: string;
  readonly placement: Motion;
  readonly separated: boolean;
  readonly joined: boolean;
}

/**
 * How the bodies lie when a step is done, or while it is done: `progress` 0 … 1, of a step not yet done the bodies are
 * still as separated and joined as before it. Until it comes free a body lies in its straight, which lies behind the
 * straights before it and is turned as the steps turn it; then by itself as it lay at first, rolled over about its own
 * length once it has been flipped; a joined body is where it belongs in the fitting. Joining goes from the inlet on, so
 * the joined part never moves. A panel lies flat, facing up, until it is joined. Without a step: the finished fitting.
 */
export function poseBodies(
  fitting: Fitting,
  steps: readonly Step[],
  step: number | null,
  progress = 1
): Pose[] {
  if (step === null) return layBodies(fitting, steps, true);
  const after = layBodies(fitting, steps.slice(0, step + 1));
  if (progress >= 1) return after;
  const before = layBodies(fitting, steps.slice(0, step));
  return before.map((pose, k) => {
    if (pose.joined) return pose;
    const middle = findMiddle(fitting.bodies[k]!);
    return { ...pose, placement: moveBetween(pose.placement, after[k]!.placement, progress, middle) };
  });
}

function layBodies(fitting: Fitting, done: readonly Step[], finished = false): Pose[] {
  const named = (kind: Step['kind']): Set<string> =>
    new Set(done.filter((step) => step.kind === kind).flatMap(({ pieces }) => pieces));
  const separated = named('separate');
  const cut = named('cut');
  const flipped = named('flip');
  const joined = named('join');
  const rows = layStraights(fitting, done);
  return fitting.bodies.map((body) => {
    const isSeparated = (body.kind === 'panel' ? cut : separated).has(body.name);
    const isJoined = joined.has(body.name) || finished;
    if (body.kind === 'panel') {
      const placement = isJoined ? body.placement : IDENTITY;
      return { body: body.name, placement, separated: isSeparated, joined: isJoined };
    }
    const { row, up } = rows.get(body.straight)!;
    const roll = flipped.has(body.name) ? HALF_TURN_ABOUT_X : isSeparated ? IDENTITY : turnUp(up);
    return {
      body: body.name,
      placement: isJoined ? body.placement : compose(row, roll),
      separated: isSeparated,
      joined: isJoined
    };
  });
}

/** Where each straight lies, one behind another with room between them, and which of its faces is up. */
function layStraights({ straights }: Fitting, done: readonly Step[]): Map<string, { row: Motion; up: Face }> {
  let datum = 0;
  return new Map(
    straights.map(({ name, length, section, thickness }) => {
      const { width, height } = growSection(section, thickness);
      const row = shiftAlongX(datum);
      datum += length + Math.max(width, height);
      const turns = done.filter(({ kind, straight }) => kind === 'turn' && straight === name);
      return [name, { row, up: turns[turns.length - 1]?.face ?? 'top' }];
    })
  );
}

/** Turns a straight about its length until a face is up. */
function turnUp(face: Face): Motion {
  if (face === 'top') return IDENTITY;
  const clock = FACE_CLOCK[face];
  return rotateAbout([1, 0, 0], cosDegrees(clock), -sinDegrees(clock));
}
