import { cross, dot, norm, scale, subtract, type Vec3 } from './vector.ts';

/** A convex solid: its corners, and the directions its separating planes can have. */
export interface ConvexSolid {
  readonly corners: readonly Vec3[];
  /** Unit normals of its faces, one of each parallel pair. */
  readonly normals: readonly Vec3[];
  /** Directions of its edges, one of each parallel set; any length. */
  readonly edges: readonly Vec3[];
}

/**
 * How deep two convex solids reach into each other, mm: the least overlap of their shadows over all directions in
 * which two convex solids can be separated (separating axis theorem: face normals and cross products of edges).
 * Zero or negative when they are apart or only touch.
 */
export function measurePenetration(a: ConvexSolid, b: ConvexSolid, enough = -Infinity): number {
  let least = Infinity;
  for (const axis of listSeparatingAxes(a, b)) {
    const [aLow, aHigh] = project(a.corners, axis);
    const [bLow, bHigh] = project(b.corners, axis);
    least = Math.min(least, Math.min(aHigh, bHigh) - Math.max(aLow, bLow));
    if (least <= enough) return least;
  }
  return least;
}

/** The shortest way out: the unit direction in which the first solid has to move, and how far, mm. */
export function findWayOut(a: ConvexSolid, b: ConvexSolid): { readonly depth: number; readonly way: Vec3 } {
  let depth = Infinity;
  let way: Vec3 = [0, 1, 0];
  for (const axis of listSeparatingAxes(a, b)) {
    const [aLow, aHigh] = project(a.corners, axis);
    const [bLow, bHigh] = project(b.corners, axis);
    if (bHigh - aLow < depth) [depth, way] = [bHigh - aLow, axis];
    if (aHigh - bLow < depth) [depth, way] = [aHigh - bLow, scale(axis, -1)];
  }
  return { depth, way };
}

function* listSeparatingAxes(a: ConvexSolid, b: ConvexSolid): Generator<Vec3> {
  yield* a.normals;
  yield* b.normals;
  for (const p of a.edges) {
    for (const q of b.edges) {
      const axis = cross(p, q);
      const size = norm(axis);
      // Parallel edges give no direction that the face normals did not.
      if (size > 1e-9 * norm(p) * norm(q)) yield scale(axis, 1 / size);
    }
  }
}

/** A ball round a solid. */
export interface Ball {
  readonly middle: Vec3;
  readonly radius: number;
}

/** The ball round the mean of corners that holds them all. */
export function wrapBall(corners: readonly Vec3[]): Ball {
  let [x, y, z] = [0, 0, 0];
  for (const corner of corners) {
    x += corner[0];
    y += corner[1];
    z += corner[2];
  }
  const middle: Vec3 = [x / corners.length, y / corners.length, z / corners.length];
  let square = 0;
  for (const corner of corners) {
    const [dx, dy, dz] = [corner[0] - middle[0], corner[1] - middle[1], corner[2] - middle[2]];
    square = Math.max(square, dx * dx + dy * dy + dz * dz);
  }
  return { middle, radius: Math.sqrt(square) };
}

/** Unit normal of the plane polygon through three of its corners. */
export function findNormal(a: Vec3, b: Vec3, c: Vec3): Vec3 {
  const n = cross(subtract(b, a), subtract(c, a));
  return scale(n, 1 / norm(n));
}

function project(corners: readonly Vec3[], axis: Vec3): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const corner of corners) {
    const at = dot(corner, axis);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
}
