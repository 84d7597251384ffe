import type { End, MakeUp } from './blank.ts';
import type { Cut } from './cut.ts';
import { CORNERS, growSection, placeCorner, type Corner, type Section } from './section.ts';
import { layPlane } from './cut.ts';

/** A straight length of duct folded from board: what is marked and cut. Lengths mm. */
export interface Straight {
  readonly name: string;
  readonly section: Section;
  readonly thickness: number;
  readonly length: number;
  readonly makeUp: MakeUp;
  /** Its datum end and its far end. */
  readonly ends: readonly [End, End];
  readonly cuts: readonly Cut[];
  readonly pieces: readonly Piece[];
}

/** A part of a straight between two neighbouring cuts, or between a cut and an end. */
export interface Piece {
  readonly name: string;
  /** Station of its start on the axis, mm. */
  readonly from: number;
  /** Length on the axis, mm. */
  readonly axis: number;
  /** The cut at its start and at its end; null at an end of the straight. */
  readonly startCut: Cut | null;
  readonly endCut: Cut | null;
  /** Whether it is rolled over by half a turn about its own length in the fitting. */
  readonly flipped: boolean;
}

/** The lengths of a piece's four outside corner edges, mm, in the order of CORNERS (in the straight). */
export function measureEdges(
  piece: Piece,
  section: Section,
  thickness: number
): { corner: Corner; length: number }[] {
  const outside = growSection(section, thickness);
  const startAt = piece.startCut && layPlane(piece.startCut);
  const endAt = piece.endCut && layPlane(piece.endCut);
  return CORNERS.map((corner) => {
    const [y, z] = placeCorner(outside, corner);
    const start = startAt ? startAt(y, z) : piece.from;
    const end = endAt ? endAt(y, z) : piece.from + piece.axis;
    return { corner, length: end - start };
  });
}
