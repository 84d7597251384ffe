import type { Body, Fitting } from '../fitting/fitting.ts';
import type { ClosureKind, EdgeKind, WallEdge } from '../fitting/wall.ts';
import type { Face } from '../straight/section.ts';
import type { Step, StepSentence } from '../fitting/step.ts';

/** An edge of a wall in the assembled fitting, and what closes it; null: nothing does. */
export interface Closure {
  readonly body: string;
  readonly wall: Face;
  /** Which edge of the wall: of a piece's 0 its near end, 1 its clockwise corner, 2 its far end, 3 its other corner. */
  readonly place: number;
  readonly kind: EdgeKind;
  readonly cut?: string;
  readonly by: ClosureKind | null;
}

/**
 * Closure audit: every edge of every wall must be closed by something, and what takes a step counts only once a step of
 * the order of work does it.
 */
export function auditEdges(fitting: Fitting, steps: readonly Step[]): Closure[] {
  const done = listDone(steps);
  const deeds = new Set(steps.flatMap(({ does }) => does));
  const neighbours = listNeighbours(fitting);
  return fitting.bodies.flatMap((body) =>
    body.walls.flatMap((wall) =>
      wall.edges.flatMap((edge, place) =>
        edge.kind === 'whole'
          ? []
          : [
              {
                body: body.name,
                wall: wall.face,
                place,
                kind: edge.kind,
                ...(edge.cut === undefined ? {} : { cut: edge.cut }),
                by: edge.closing
                  ? findSaidClosure(edge.closing, deeds)
                  : findClosure(edge.kind, edge, place, body, neighbours, done)
              }
            ]
      )
    )
  );
}

/** The edges that nothing closes. */
export function findOpenEdges(fitting: Fitting, steps: readonly Step[]): Closure[] {
  return auditEdges(fitting, steps).filter(({ by }) => by === null);
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
    if (sentence === 'seal') for (const piece of pieces) done.add(nameDeed(sentence, piece));
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

function findSaidClosure(
  { by, needs }: NonNullable<WallEdge['closing']>,
  deeds: ReadonlySet<string>
): ClosureKind | null {
  return needs.every((deed) => deeds.has(deed)) ? by : null;
}

function findClosure(
  kind: Exclude<EdgeKind, 'whole'>,
  edge: WallEdge,
  place: number,
  body: Body,
  neighbours: ReadonlyMap<string, string>,
  done: ReadonlySet<string>
): ClosureKind | null {
  const isDone = (sentence: StepSentence, ...to: string[]): boolean => done.has(nameDeed(sentence, ...to));
  if (body.kind === 'panel') return null;
  const together = neighbours.get(nameDeed(body.name, String(place)));
  switch (kind) {
    case 'fold':
      return isDone('fold', body.straight) ? 'fold' : null;
    case 'seam':
      return isDone('staple', body.straight) && isDone('tape-seam', body.straight) ? 'seam' : null;
    case 'cut': {
      const cut = edge.cut!;
      return isDone('glue', body.name, cut) && isDone('tape-joint', body.name, cut) ? 'joint' : null;
    }
    case 'plain':
      if (!together) return isDone('seal', body.name) ? 'seal' : null;
      return isDone('glue-ends', together) && isDone('tape-ends', together) ? 'butt' : null;
    case 'male':
    case 'female': {
      if (!together) return 'mate';
      if (!isDone('tape-ends', together)) return null;
      return isDone('glue-ends', together) ? 'butt' : 'socket';
    }
  }
}
