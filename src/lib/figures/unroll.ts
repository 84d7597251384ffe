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
import type { Side } from './manner.ts';
import type { Line } from './tiles.ts';

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
export function unrollInside(straight: Straight, cut: Cut): Line[] {
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

/** A piece or an off-cut on one face: where it starts and where it ends, each from the face's first edge to its second. */
export interface FaceSpan {
  readonly face: Face;
  readonly start: Line;
  readonly end: Line;
}

/** A piece on every face, in the order of FACES; that on the inside is dropped square onto the facing. */
export function unrollPiece(straight: Straight, piece: Piece, on: Side = 'outside'): FaceSpan[] {
  const starts = piece.startCut && unrollOn(straight, piece.startCut, on);
  const ends = piece.endCut && unrollOn(straight, piece.endCut, on);
  const inset = on === 'inside' ? straight.thickness : 0;
  return unrollFaces(straight).faces.map(({ face, from, to }, i) => {
    const square = (station: number): Line => [
      [station, from + inset],
      [station, to - inset]
    ];
    return {
      face,
      start: starts?.[i] ?? square(piece.from),
      end: ends?.[i] ?? square(findEnd(straight, piece, face))
    };
  });
}

/** What of the straight is no piece, as far as there is any on a face. */
export function listOffcuts(straight: Straight): FaceSpan[] {
  const pieces = straight.pieces.map((piece) => unrollPiece(straight, piece));
  return unrollFaces(straight).faces.flatMap(({ face, from, to }, i) => {
    const square = (station: number): Line => [
      [station, from],
      [station, to]
    ];
    const starts = [square(0), ...pieces.map((spans) => spans[i]!.end)];
    const ends = [...pieces.map((spans) => spans[i]!.start), square(straight.length)];
    return starts
      .map((start, k) => ({ face, start, end: ends[k]! }))
      .filter(({ start, end }) => start.some(([x], k) => end[k]![0] - x > SAME_LENGTH));
  });
}

/** The outline of what a span covers. */
export function outlineSpan({ start, end }: FaceSpan): Point[] {
  return [start[0], ...end, start[1]];
}

/** The outline of a piece over all faces, with a step at a fold where the walls beside it end at different stations. */
export function outlinePiece(straight: Straight, piece: Piece, on: Side = 'outside'): Point[] {
  const spans = unrollPiece(straight, piece, on);
  const { edges } = unrollFaces(straight);
  const run = (lines: readonly Line[]): Point[] =>
    lines.flatMap(([from, to], i) => {
      const before = i > 0 ? lines[i - 1]![1][0] : from[0];
      const step: Point[] =
        before === from[0]
          ? []
          : [
              [before, edges[i]!],
              [from[0], edges[i]!]
            ];
      return [...step, from, to];
    });
  const points = [...run(spans.map(({ start }) => start)), ...run(spans.map(({ end }) => end)).reverse()];
  return points.filter(([x, y], i) => i === 0 || x !== points[i - 1]![0] || y !== points[i - 1]![1]);
}

/** A cut on every face, on the facing or on the inside. */
function unrollOn(straight: Straight, cut: Cut, on: Side): readonly Line[] {
  if (on === 'inside') return unrollInside(straight, cut);
  const points = unrollCut(straight, cut);
  return FACES.map((_, i) => [points[i]!, points[i + 1]!]);
}

/** The station at which a piece ends on a face: where others are trimmed, one that is not goes on to the end of the straight. */
function findEnd({ length, marks }: Straight, { from, axis }: Piece, face: Face): number {
  const trimmed = marks.filter(({ kind }) => kind === 'trim').map((mark) => mark.face);
  return trimmed.length > 0 && !trimmed.includes(face) ? length : from + axis;
}
