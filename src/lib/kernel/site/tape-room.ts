import { FACES, findOppositeFace, type Face } from '../straight/section.ts';
import { measureOutside, placeEnd, type MeasuringCard } from './tape-places.ts';
import { readAfter, readMeasure, SIDES, type Measure, type Reading } from './tape.ts';

/** The measure to be sure of, and what it decides. */
export interface Deciding {
  readonly measure: Measure;
  /** What the tightest room leaves beyond the duct and its clearance, mm, minus where it is short; null where none is bounded. */
  readonly room: number | null;
  /** The measures that enter it. */
  readonly among: readonly Measure[];
}

/** A way past the obstacle, on one side of the duct; what it leaves beyond the duct's outside and its clearance. */
export interface Passage {
  /** The side of the duct on which the obstacle is. */
  readonly face: Face;
  /** Null where nothing bounds it on the other side. */
  readonly room: Reading | null;
}

/**
 * The way past the obstacle with most room: between its face and the next thing on the other side of the duct, less the
 * duct's outside and the clearance on both sides. Null without an obstacle.
 */
export function findPassage({ tape, clearance }: MeasuringCard): Passage | null {
  const passages = FACES.flatMap((face): Passage[] => {
    const edge = readMeasure(tape, SIDES[face].edge);
    if (!edge) return [];
    const free = readMeasure(tape, SIDES[findOppositeFace(face)].free);
    return [{ face, room: free && addReadings(edge, free, -2 * clearance) }];
  });
  const width = ({ room }: Passage): number => room?.value ?? Infinity;
  return passages.reduce<Passage | null>(
    (best, one) => (best === null || width(one) > width(best) ? one : best),
    null
  );
}

/**
 * Which measure decides: of the tightest room the one that may be off most. Rooms are, each less the clearance: between
 * the duct, or the other end beside it, and a next thing; the passage by the obstacle; and where the obstacle is in the
 * way, the length before and after it less the duct's outside depth, which is what a square way out of the line takes.
 * Where nothing bounds the duct it is the measure of the other end that may be off most.
 */
export function findDeciding(card: MeasuringCard): Deciding {
  const rooms = listRooms(card);
  const tightest = rooms.reduce<Reading | null>(
    (least, one) => (least === null || one.value < least.value ? one : least),
    null
  );
  const among = tightest?.from ?? [...new Set(placeEnd(card).at.flatMap((reading) => reading?.from ?? []))];
  const doubt = (measure: Measure): number => readMeasure(card.tape, measure)!.uncertainty;
  const measure = among.reduce((worst, one) => (doubt(one) > doubt(worst) ? one : worst));
  return { measure, room: tightest?.value ?? null, among };
}

function listRooms(card: MeasuringCard): Reading[] {
  const { tape, clearance } = card;
  const besides = FACES.flatMap((face) => measureBeside(card, face) ?? []);
  const passage = findPassage(card);
  if (!passage) return besides;
  const { edge, axis } = SIDES[passage.face];
  const past = passage.room ? [...besides, passage.room] : besides;
  // A duct that goes straight by does not have to leave its line.
  if (readMeasure(tape, edge)!.value >= clearance) return past;
  const depth = 2 * measureOutside(card)[axis];
  const runs = [readMeasure(tape, 'toObstacle'), tape.goesOn === 'straight' ? readAfter(tape) : null];
  return [...past, ...runs.flatMap((run) => (run ? [{ ...run, value: run.value - depth - clearance }] : []))];
}

/** The room between the next thing on one side and the duct, or the other end where that comes nearer; null: none measured. */
export function measureBeside(card: MeasuringCard, face: Face): Reading | null {
  const { tape, clearance } = card;
  const { axis, sign, free: measure } = SIDES[face];
  const free = readMeasure(tape, measure);
  if (!free) return null;
  const { at, half } = placeEnd(card);
  const end = at[axis];
  const nearer = end ? sign * end.value + half[axis] - measureOutside(card)[axis] : 0;
  return end && nearer > 0
    ? addReadings(free, { ...end, value: -nearer }, -clearance)
    : { ...free, value: free.value - clearance };
}

function addReadings(a: Reading, b: Reading, by: number): Reading {
  return {
    value: a.value + b.value + by,
    uncertainty: a.uncertainty + b.uncertainty,
    from: [...a.from, ...b.from]
  };
}
