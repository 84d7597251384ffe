import type { Body, Fitting } from '../fitting/fitting.ts';
import type { EdgeKind, WallEdge } from '../fitting/wall.ts';
import type { Step } from './step.ts';

/** An edge of board in the assembled fitting that nothing closes. */
export interface OpenEdge {
  readonly body: string;
  readonly wall: string;
  readonly kind: EdgeKind;
}

/**
 * Closure audit: every edge of every wall must be closed by something. A fold by its hinge, a moulded end by the one it
 * mates with; a seam once it is stapled and taped, a cut once it is glued and taped, a plain end once it is sealed: these
 * count as open until a step of the order of work does it.
 */
export function findOpenEdges(fitting: Fitting, steps: readonly Step[]): OpenEdge[] {
  return fitting.bodies.flatMap((body) =>
    body.walls.flatMap((wall) =>
      wall.edges
        .filter((edge) => !isClosed(edge, body, steps))
        .map(({ kind }) => ({ body: body.name, wall: wall.face, kind }))
    )
  );
}

function isClosed(edge: WallEdge, body: Body, steps: readonly Step[]): boolean {
  const done = (kind: Step['kind'], concerns: (step: Step) => boolean): boolean =>
    steps.some((step) => step.kind === kind && step.straight === body.straight && concerns(step));
  switch (edge.kind) {
    case 'fold':
      return done('fold', () => true);
    case 'seam':
      return done('staple', () => true) && done('tape', ({ sentence }) => sentence === 'tape-seam');
    case 'cut': {
      const atJoint = ({ cuts, pieces }: Step): boolean =>
        edge.cut !== undefined && cuts.includes(edge.cut) && pieces.includes(body.name);
      return done('glue', atJoint) && done('tape', atJoint);
    }
    case 'plain':
      return done('seal', ({ pieces }) => pieces.includes(body.name));
    case 'male':
    case 'female':
      return true;
  }
}
