import type { Body, Fitting } from '../fitting/fitting.ts';
import type { EdgeKind, WallEdge } from '../fitting/wall.ts';
import type { Step, StepSentence } from './step.ts';

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
  const done = listDone(steps);
  return fitting.bodies.flatMap((body) =>
    body.walls.flatMap((wall) =>
      wall.edges
        .filter((edge) => !isClosed(edge, body, done))
        .map(({ kind }) => ({ body: body.name, wall: wall.face, kind }))
    )
  );
}

/** The steps that close edges. */
const CLOSING: readonly StepSentence[] = ['fold', 'staple', 'tape-seam', 'glue', 'tape-joint', 'seal'];

/** What is done to what: each closing step, of its straight, of each of its pieces, and of each of its cuts there. */
function listDone(steps: readonly Step[]): ReadonlySet<string> {
  const done = new Set<string>();
  for (const { sentence, straight, cuts, pieces } of steps) {
    if (!CLOSING.includes(sentence)) continue;
    done.add(nameDeed(sentence, straight));
    for (const piece of pieces) {
      done.add(nameDeed(sentence, straight, piece));
      for (const cut of cuts) done.add(nameDeed(sentence, straight, piece, cut));
    }
  }
  return done;
}

function nameDeed(...parts: (string | null)[]): string {
  return JSON.stringify(parts);
}

function isClosed(edge: WallEdge, body: Body, done: ReadonlySet<string>): boolean {
  const isDone = (sentence: StepSentence, ...of: string[]): boolean =>
    done.has(nameDeed(sentence, body.straight, ...of));
  switch (edge.kind) {
    case 'fold':
      return isDone('fold');
    case 'seam':
      return isDone('staple') && isDone('tape-seam');
    case 'cut':
      return (
        edge.cut !== undefined &&
        isDone('glue', body.name, edge.cut) &&
        isDone('tape-joint', body.name, edge.cut)
      );
    case 'plain':
      return isDone('seal', body.name);
    case 'male':
    case 'female':
      return true;
  }
}
