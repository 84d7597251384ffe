import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { findStation, type Cut } from '../kernel/straight/cut.ts';
import {
  CORNERS,
  FACES,
  growSection,
  measureFace,
  placeCorner,
  type Face
} from '../kernel/straight/section.ts';
import type { Piece, Straight } from '../kernel/straight/straight.ts';
import type { Point } from './figure.ts';

/**
 * The outside of a straight unrolled, outside up: x is the station, y runs clockwise round the duct, mm, from 0 at the
 * top-left corner through top, right, bottom and left and back to it.
 */
export interface Unrolled {
  readonly faces: readonly { readonly face: Face; readonly from: number; readonly to: number }[];
  /** The corners, y; the first and the last are the same corner of the duct. */
  readonly edges: readonly number[];
}

/** Unrolls the faces of a straight, in the order of FACES. */
export function unrollFaces({ section, thickness }: Straight): Unrolled {
  const outside = growSection(section, thickness);
  const edges = [0];
  for (const face of FACES) edges.push(edges[edges.length - 1]! + measureFace(outside, face));
  return { faces: FACES.map((face, i) => ({ face, from: edges[i]!, to: edges[i + 1]! })), edges };
}

/** Where a cut meets the five edges of the unrolled faces, in their order: one broken line, straight on every face. */
export function unrollCut(straight: Straight, cut: Cut): Point[] {
  const outside = growSection(straight.section, straight.thickness);
  return unrollFaces(straight).edges.map((y, i) => {
    const corner = CORNERS[i % CORNERS.length]!;
    return [findStation(cut, ...placeCorner(outside, corner)), y];
  });
}

/** Where a cut comes through on the inside of each face, dropped square onto the facing: two points a face. */
export function unrollInside(straight: Straight, cut: Cut): (readonly [Point, Point])[] {
  const { section, thickness } = straight;
  return unrollFaces(straight).faces.map(({ from, to }, i) => {
    const stations = [i, (i + 1) % CORNERS.length].map((k) =>
      findStation(cut, ...placeCorner(section, CORNERS[k]!))
    );
    return [
      [stations[0]!, from + thickness],
      [stations[1]!, to - thickness]
    ];
  });
}

/** Where the start and the end of a piece run over the unrolled faces: five points each. */
export function unrollPiece(straight: Straight, piece: Piece): { start: Point[]; end: Point[] } {
  const square = (station: number): Point[] => unrollFaces(straight).edges.map((y) => [station, y]);
  return {
    start: piece.startCut ? unrollCut(straight, piece.startCut) : square(piece.from),
    end: piece.endCut ? unrollCut(straight, piece.endCut) : square(piece.from + piece.axis)
  };
}

/** What of the straight is no piece: where it starts and where it ends over the unrolled faces, five points each. */
export function listOffcuts(straight: Straight): { start: Point[]; end: Point[] }[] {
  const square = (station: number): Point[] => unrollFaces(straight).edges.map((y) => [station, y]);
  const pieces = straight.pieces.map((piece) => unrollPiece(straight, piece));
  const starts = [square(0), ...pieces.map(({ end }) => end)];
  const ends = [...pieces.map(({ start }) => start), square(straight.length)];
  return starts
    .map((start, i) => ({ start, end: ends[i]! }))
    .filter(({ start, end }) => start.some(([x], i) => end[i]![0] - x > SAME_LENGTH));
}
