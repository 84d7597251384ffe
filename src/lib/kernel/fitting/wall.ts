import { measureVolume } from '../geometry/polygon.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Face } from '../straight/section.ts';
import { CORNERS, FACES, growSection, placeCorner } from '../straight/section.ts';
import type { End } from '../straight/blank.ts';
import { layPlane, measureBevels, type Cut } from '../straight/cut.ts';
import type { Piece, Straight } from '../straight/straight.ts';

/** What an edge of a wall is; `whole`: none, the same wall of board goes on beyond it. */
export type EdgeKind = 'fold' | 'seam' | 'cut' | 'male' | 'female' | 'plain' | 'whole';

/**
 * What closes an edge: the hinge of a fold, a stapled and taped seam, a glued and taped cut, ends that meet inside the
 * fitting (pushed together or butted and glued, and taped), what a moulded end of the fitting mates with, a seal, a nose.
 */
export type ClosureKind = 'fold' | 'seam' | 'joint' | 'socket' | 'butt' | 'mate' | 'seal' | 'nose';

/** An edge of a wall, from one corner of its outline to the next. */
export interface WallEdge {
  readonly kind: EdgeKind;
  /** Tilt of the edge from upright, degrees. */
  readonly bevel: number;
  /** The cut that made it, for kind `cut`, where it is a plane through a straight. */
  readonly cut?: string;
  /** What closes it where its kind alone does not tell: deeds that steps of the order of work do, all of them needed. */
  readonly closing?: { readonly by: ClosureKind; readonly needs: readonly string[] };
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

/**
 * Prepares a straight for building the walls of its pieces, four each, in the order of FACES: what two neighbours share,
 * the ring of corners at their cut, is worked out once. `endEdges`: the edges of its walls at its datum end and at its far
 * end where they are other than the straight's ends tell.
 */
export function startWalls(
  straight: Straight,
  endEdges: readonly [EndEdges, EndEdges] = [{}, {}]
): (piece: Piece) => Wall[] {
  const { section, thickness, length, ends } = straight;
  const outside = growSection(section, thickness);
  const outer = CORNERS.map((corner) => placeCorner(outside, corner));
  const inner = CORNERS.map((corner) => placeCorner(section, corner));
  const folds = CORNERS.map((corner): WallEdge => ({
    kind: straight.makeUp.seams.includes(corner) ? 'seam' : 'fold',
    bevel: 45
  }));
  const square = (station: number, end: End, edges: EndEdges): Ring => ({
    outer: outer.map(([y, z]): Vec3 => [station, y, z]),
    inner: inner.map(([y, z]): Vec3 => [station, y, z]),
    edges: FACES.map((face) => edges[face] ?? describeEnd(end))
  });
  const rings = new Map<Cut, Ring>();
  const ringAt = (cut: Cut): Ring => {
    const known = rings.get(cut);
    if (known) return known;
    const stationAt = layPlane(cut);
    const ring: Ring = {
      outer: outer.map(([y, z]): Vec3 => [stationAt(y, z), y, z]),
      inner: inner.map(([y, z]): Vec3 => [stationAt(y, z), y, z]),
      edges: measureBevels(cut).map((bevel) => ({ kind: 'cut', bevel, cut: cut.name }))
    };
    rings.set(cut, ring);
    return ring;
  };
  return ({ startCut, endCut }) =>
    spanRings(
      startCut ? ringAt(startCut) : square(0, ends[0], endEdges[0]),
      endCut ? ringAt(endCut) : square(length, ends[1], endEdges[1]),
      folds
    );
}

/** The four walls between two rings, in the order of FACES; `corners` are their edges along the corners, in the order of CORNERS. */
export function spanRings(start: Ring, end: Ring, corners: readonly WallEdge[]): Wall[] {
  return FACES.map((face, i): Wall => {
    const next = (i + 1) % 4;
    return {
      face,
      outer: [start.outer[i]!, start.outer[next]!, end.outer[next]!, end.outer[i]!],
      inner: [start.inner[i]!, start.inner[next]!, end.inner[next]!, end.inner[i]!],
      edges: [start.edges[i]!, corners[next]!, end.edges[i]!, corners[i]!]
    };
  });
}

/** The corners of a straight's outside and inside where walls end, in the order of CORNERS, and its walls' edges there. */
export interface Ring {
  readonly outer: readonly Vec3[];
  readonly inner: readonly Vec3[];
  readonly edges: readonly WallEdge[];
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

/** Edges at an end of a straight, by the wall, that are made otherwise than the end. */
export type EndEdges = Partial<Readonly<Record<Face, WallEdge>>>;

/** The same edge at all four walls. */
export function edgeAllRound(edge: WallEdge): EndEdges {
  return { top: edge, right: edge, bottom: edge, left: edge };
}

function describeEnd(end: End): WallEdge {
  if (end === 'miter')
    throw new Error('the end of a straight is miter only at a division, which carries a cut');
  return { kind: end, bevel: 0 };
}
