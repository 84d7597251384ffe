import { compose, HALF_TURN_ABOUT_X, IDENTITY, shiftAlongX, type Motion } from '../geometry/motion.ts';
import type { Body, Fitting } from '../fitting/fitting.ts';
import type { Step } from './step.ts';

/** How a body lies after a step: its motion from the straight's frame, and how far it has come. */
export interface Pose {
  readonly body: string;
  readonly placement: Motion;
  readonly separated: boolean;
  readonly joined: boolean;
}

/**
 * How the bodies lie once a step is done. Before it is joined a body lies where it was in the straight, rolled over about
 * its own length once it has been flipped; a joined body is where it belongs in the fitting. Joining goes from the inlet
 * on, so the joined part never moves. Without a step: the finished fitting.
 */
export function poseBodies(fitting: Fitting, steps: readonly Step[], upTo: number | null): Pose[] {
  const done = upTo === null ? steps : steps.slice(0, upTo + 1);
  const named = (kind: Step['kind']): Set<string> =>
    new Set(done.filter((step) => step.kind === kind).flatMap(({ pieces }) => pieces));
  const separated = named('separate');
  const flipped = named('flip');
  const joined = named('join');
  return fitting.bodies.map((body) => {
    const isJoined = joined.has(body.name) || upTo === null;
    return {
      body: body.name,
      placement: isJoined ? body.placement : lieInStraight(body, flipped.has(body.name)),
      separated: separated.has(body.name),
      joined: isJoined
    };
  });
}

function lieInStraight({ piece }: Body, flipped: boolean): Motion {
  const over = flipped && piece.flipped ? HALF_TURN_ABOUT_X : IDENTITY;
  return compose(shiftAlongX(piece.from), compose(over, shiftAlongX(-piece.from)));
}
