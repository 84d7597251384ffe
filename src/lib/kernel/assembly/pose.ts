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

/** How a body lies: its motion from its own frame, and how far it has come. */
export interface Pose {
  readonly body: string;
  readonly placement: Motion;
  /** Where the row begins in which it lies, mm along x; 0 in the first row and once it is joined. */
  readonly row: number;
  readonly separated: boolean;
  readonly joined: boolean;
}

/**
 * How the bodies lie when a step is done, or while it is done: `progress` 0 … 1, of a step not yet done the bodies are
 * still as separated and joined as before it. Until it comes free a piece lies in its straight and is turned with it as the
 * steps turn it; then by itself as it lay at first, rolled over about its own length once it has been flipped; a joined
 * body is where it belongs in the fitting. The first straight lies where it belongs from the start, the others in rows
 * behind it. Panels lie flat until they are joined, facing up, one behind another in the last row. What is joined never
 * moves. Without a step: the finished fitting.
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
  const rows = layRows(fitting);
  return fitting.bodies.map((body): Pose => {
    const isSeparated = (body.kind === 'panel' ? cut : separated).has(body.name);
    const pose = { body: body.name, separated: isSeparated };
    if (joined.has(body.name) || finished)
      return { ...pose, placement: body.placement, row: 0, joined: true };
    const { frame, start } = rows.get(body.kind === 'panel' ? body.name : body.straight)!;
    const roll =
      body.kind === 'panel'
        ? IDENTITY
        : flipped.has(body.name)
          ? HALF_TURN_ABOUT_X
          : isSeparated
            ? IDENTITY
            : turnUp(findFaceUp(body.straight, done));
    return { ...pose, placement: compose(frame, roll), row: start, joined: false };
  });
}

/** How a straight, or a panel by itself, lies until it is joined: its frame, and where its row begins along x, mm. */
interface Row {
  readonly frame: Motion;
  readonly start: number;
}

/** Room between panels of a row, mm. */
const BETWEEN_PANELS = 50;

/** The rows one behind another with room between them, by the names of the straights and panels that lie in them. */
function layRows({ straights, bodies }: Fitting): Map<string, Row> {
  const rows = new Map<string, Row>();
  let end = 0;
  straights.forEach(({ name, length, section, thickness }, i) => {
    const first = bodies.find((body) => body.kind === 'piece' && body.straight === name)!;
    rows.set(name, { frame: i === 0 ? first.placement : shiftAlongX(end), start: i === 0 ? 0 : end });
    const { width, height } = growSection(section, thickness);
    end += length + Math.max(width, height);
  });
  const start = end;
  for (const { kind, name, walls } of bodies) {
    if (kind !== 'panel') continue;
    const corners = walls.flatMap(({ outer, inner }) => [...outer, ...inner]);
    const [along, across] = ([0, 2] as const).map((axis) => corners.map((corner) => corner[axis]));
    const middle = (Math.min(...across!) + Math.max(...across!)) / 2;
    rows.set(name, { frame: { ...IDENTITY, t: [end - Math.min(...along!), 0, -middle] }, start });
    end += Math.max(...along!) - Math.min(...along!) + BETWEEN_PANELS;
  }
  return rows;
}

/** The face of a straight that is up after steps. */
function findFaceUp(straight: string, done: readonly Step[]): Face {
  const turns = done.filter((step) => step.kind === 'turn' && step.straight === straight);
  return turns[turns.length - 1]?.face ?? 'top';
}

/** Turns a straight about its length until a face is up. */
function turnUp(face: Face): Motion {
  if (face === 'top') return IDENTITY;
  const clock = FACE_CLOCK[face];
  return rotateAbout([1, 0, 0], cosDegrees(clock), -sinDegrees(clock));
}
