import { measureVolume } from '../geometry/polygon.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Corner, Face } from '../straight/section.ts';
import { CORNERS, FACES, growSection, placeCorner } from '../straight/section.ts';
import { findStation, markCut, type Cut } from '../straight/cut.ts';
import type { Piece, Straight } from '../straight/straight.ts';

export type EdgeKind = 'fold' | 'seam' | 'cut' | 'male' | 'female' | 'plain';

/** An edge of a wall, from one corner of its outline to the next. */
export interface WallEdge {
  readonly kind: EdgeKind;
  /** Tilt of the edge from upright, degrees. */
  readonly bevel: number;
  /** The cut that made it, for kind `cut`. */
  readonly cut?: string;
}

/**
 * A wall of board: its outline on the facing and its outline in the plane a thickness below, corner by corner, in the
 * frame of its straight, mm. Seen from outside both run counter-clockwise: along the datum-side end in the clockwise
 * sense of the duct, then downstream, then back. Every inner corner is the meeting of three planes (inner face, corner
 * miter, cut), not an offset of the outline. `edges[i]` runs from corner i to corner i + 1.
 */
export interface Wall {
  readonly face: Face;
  readonly outer: readonly Vec3[];
  readonly inner: readonly Vec3[];
  readonly edges: readonly WallEdge[];
}

/** The four walls of a piece of a straight, in the order of FACES. */
export function buildWalls(straight: Straight, piece: Piece): Wall[] {
  const { section, thickness } = straight;
  const outside = growSection(section, thickness);
  const startMarks = piece.startCut && markCut(piece.startCut, outside, thickness);
  const endMarks = piece.endCut && markCut(piece.endCut, outside, thickness);
  const corners = CORNERS.map((corner) => ({
    outer: placeEdge(piece, placeCorner(outside, corner)),
    inner: placeEdge(piece, placeCorner(section, corner))
  }));
  const fold = (corner: Corner): WallEdge => ({
    kind: straight.makeUp.seams.includes(corner) ? 'seam' : 'fold',
    bevel: 45
  });
  return FACES.map((face, i) => {
    const next = (i + 1) % 4;
    const first = corners[i]!;
    const second = corners[next]!;
    return {
      face,
      outer: [first.outer.start, second.outer.start, second.outer.end, first.outer.end],
      inner: [first.inner.start, second.inner.start, second.inner.end, first.inner.end],
      edges: [
        describeEnd(piece.startCut, startMarks?.[i]?.bevel, straight.ends[0]),
        fold(CORNERS[next]!),
        describeEnd(piece.endCut, endMarks?.[i]?.bevel, straight.ends[1]),
        fold(CORNERS[i]!)
      ]
    };
  });
}

/** The faces of a wall's solid, each counter-clockwise seen from outside the wall. */
export function listWallFaces(wall: Pick<Wall, 'outer' | 'inner'>): Vec3[][] {
  const { outer, inner } = wall;
  const sides = outer.map((corner, i) => {
    const next = (i + 1) % outer.length;
    return [corner, inner[i]!, inner[next]!, outer[next]!];
  });
  return [[...outer], [...inner].reverse(), ...sides];
}

/** Volume of a wall's board, mm³. */
export function measureWallVolume(wall: Pick<Wall, 'outer' | 'inner'>): number {
  return measureVolume(listWallFaces(wall));
}

function placeEdge(piece: Piece, [y, z]: [number, number]): { start: Vec3; end: Vec3 } {
  const start = piece.startCut ? findStation(piece.startCut, y, z) : piece.from;
  const end = piece.endCut ? findStation(piece.endCut, y, z) : piece.from + piece.axis;
  return { start: [start, y, z], end: [end, y, z] };
}

function describeEnd(cut: Cut | null, bevel: number | undefined, end: Straight['ends'][number]): WallEdge {
  if (cut) return { kind: 'cut', bevel: bevel ?? 0, cut: cut.name };
  if (end === 'miter')
    throw new Error('the end of a straight is miter only at a division, which carries a cut');
  return { kind: end, bevel: 0 };
}
