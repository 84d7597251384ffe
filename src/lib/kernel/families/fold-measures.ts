import { atanDegrees, cosDegrees, tanDegrees } from '../geometry/angle.ts';
import type { Setting } from '../fitting/fitting.ts';
import { FACES, type Face, type Section } from '../straight/section.ts';
import { mirrorFace } from './hand.ts';
import type { ReducerMeasures, ReducerValues } from './reducer-measures.ts';

/** What the steps that fold and tape the sloping wall do. */
export const FOLDED = 'fold the sloping wall';
export const TAPED = 'tape the sloping wall';

/** The folded reducer in the frame of its straight, whose datum is the larger end. Lengths mm, angles degrees. */
export interface Fold {
  /** The wall that slopes. */
  readonly face: Face;
  readonly larger: Section;
  readonly drop: number;
  readonly slope: number;
  /** From the larger end: where the slope begins, where it ends, and the whole. */
  readonly begins: number;
  readonly ends: number;
  readonly whole: number;
  /** How far the planes that halve its two bends lie from square, on the inside: t·tan(δ/2). */
  readonly lead: number;
  /** How much the wall comes up short: L(1/cos δ − 1) + 2t·tan(δ/2). */
  readonly short: number;
  /** Where on the facing of the flat wall the slope ends: x0 + L/cos δ. */
  readonly cutAt: number;
}

/** Measures a reducer of which one wall slopes; `reversed` where the outlet is the larger end. */
export function measureFold(
  values: ReducerValues,
  { drops, length }: ReducerMeasures,
  face: Face,
  reversed: boolean,
  { section, board }: Setting
): Fold {
  const drop = Math.abs(drops[FACES.indexOf(face)]!);
  const slope = atanDegrees(drop / length);
  const lead = board.thickness * tanDegrees(slope / 2);
  const begins = reversed ? values.collarOut : values.collarIn;
  const ends = begins + length;
  return {
    face: reversed ? mirrorFace(face) : face,
    larger: reversed ? values.outlet : section,
    drop,
    slope,
    begins,
    ends,
    whole: ends + (reversed ? values.collarIn : values.collarOut),
    lead,
    short: length * (1 / cosDegrees(slope) - 1) + 2 * lead,
    cutAt: begins + length / cosDegrees(slope)
  };
}
