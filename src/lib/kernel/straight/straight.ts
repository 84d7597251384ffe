import type { End, MakeUp } from './blank.ts';
import type { Cut, Lean } from './cut.ts';
import { CORNERS, growSection, placeCorner, type Corner, type Face, type Section } from './section.ts';
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
  /** Marks that are no whole plane. */
  readonly marks: readonly LineMark[];
  readonly openings: readonly Opening[];
}

/** A point of a face: the station, and how far from the face's first edge (see MARK_CORNERS), mm on the facing. */
export type FacePoint = readonly [station: number, across: number];

/** A mark on one face from point to point. */
export interface LineMark {
  readonly name: string;
  readonly kind: 'cut' | 'slit' | 'groove' | 'trim';
  readonly face: Face;
  readonly from: FacePoint;
  readonly to: FacePoint;
  /** Tilt of the blade from upright, degrees, and where its top leans; null for an upright blade or one along the duct. */
  readonly bevel: number;
  readonly lean: Lean | null;
}

/** A hole in a wall: its outline on the facing, and that on the inside dropped square onto the facing. */
export interface Opening {
  readonly name: string;
  readonly face: Face;
  readonly outer: readonly FacePoint[];
  readonly inner: readonly FacePoint[];
  /** Of the edge from point i to i + 1: the tilt of the blade from upright, degrees. */
  readonly edges: readonly { readonly bevel: number }[];
  /** Where it is round: its middle, and its radius on the facing and on the inside. */
  readonly circle?: { readonly at: FacePoint; readonly outer: number; readonly inner: number };
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
