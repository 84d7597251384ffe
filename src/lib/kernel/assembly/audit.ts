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
 * Closure audit: every edge of every wall must be closed by something. A fold by its hinge, a seam once it is stapled and
 * taped, a cut once it is glued and taped; an end of the fitting that is moulded by what it mates with, a plain one once it
 * is sealed; ends that meet inside the fitting once they are taped, plain ones glued as well. All these count as open
 * until a step of the order of work does it.
 */
export function findOpenEdges(fitting: Fitting, steps: readonly Step[]): OpenEdge[] {
  const done = listDone(steps);
  const neighbours = listNeighbours(fitting);
  return fitting.bodies.flatMap((body) =>
    body.walls.flatMap((wall) =>
      wall.edges
        .filter((edge, i) => !isClosed(edge, i, body, neighbours, done))
        .map(({ kind }) => ({ body: body.name, wall: wall.face, kind }))
    )
  );
}

/** The steps that close edges. */
const CLOSING: readonly StepSentence[] = [
  'fold',
  'staple',
  'tape-seam',
  'glue',
  'tape-joint',
  'glue-ends',
  'tape-ends',
  'seal'
];

/** What is done to what: each closing step, to its straight, and to its pieces together, at each of its cuts. */
function listDone(steps: readonly Step[]): ReadonlySet<string> {
  const done = new Set<string>();
  for (const { sentence, straight, cuts, pieces } of steps) {
    if (!CLOSING.includes(sentence)) continue;
    if (straight !== null) done.add(nameDeed(sentence, straight));
    done.add(nameDeed(sentence, pieces.join()));
    for (const piece of pieces) for (const cut of cuts) done.add(nameDeed(sentence, piece, cut));
  }
  return done;
}

/** Which bodies meet end to end inside the fitting: by the body and by which of its ends, 0 near and 2 far. */
function listNeighbours(fitting: Fitting): ReadonlyMap<string, string> {
  const neighbours = new Map<string, string>();
  for (const { bodies, closing } of fitting.joints) {
    if (closing.kind !== 'ends') continue;
    neighbours.set(nameDeed(bodies[0], '2'), bodies.join());
    neighbours.set(nameDeed(bodies[1], '0'), bodies.join());
  }
  return neighbours;
}

function nameDeed(...parts: string[]): string {
  return JSON.stringify(parts);
}

function isClosed(
  edge: WallEdge,
  place: number,
  body: Body,
  neighbours: ReadonlyMap<string, string>,
  done: ReadonlySet<string>
): boolean {
  const isDone = (sentence: StepSentence, ...to: string[]): boolean => done.has(nameDeed(sentence, ...to));
  const together = neighbours.get(nameDeed(body.name, String(place)));
  switch (edge.kind) {
    case 'fold':
      return isDone('fold', body.straight);
    case 'seam':
      return isDone('staple', body.straight) && isDone('tape-seam', body.straight);
    case 'cut':
      return (
        edge.cut !== undefined &&
        isDone('glue', body.name, edge.cut) &&
        isDone('tape-joint', body.name, edge.cut)
      );
    case 'plain':
      return together
        ? isDone('glue-ends', together) && isDone('tape-ends', together)
        : isDone('seal', body.name);
    case 'male':
    case 'female':
      return together ? isDone('tape-ends', together) : true;
  }
}
