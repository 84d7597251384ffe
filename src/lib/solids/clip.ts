import { add, dot, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';

/** A plane and the half space behind it, which is kept: normal · p ≤ at. `normal` is of unit length, `at` in mm. */
export interface Plane {
  readonly normal: Vec3;
  readonly at: number;
}

/** What a plane leaves of a convex solid. */
export interface ClippedSolid {
  /** In the order of the solid's faces; empty where nothing of a face is left. */
  readonly faces: readonly (readonly Vec3[])[];
  /** The face that the plane makes, counter-clockwise seen from the side that was taken away; empty if it makes none. */
  readonly cap: readonly Vec3[];
  /** The face of the solid along every edge of the cap, from corner i to corner i + 1. */
  readonly capFaces: readonly number[];
}

/** A corner nearer to a plane than this lies on it, mm: far below what is seen, far above what rounding does. */
const ON_PLANE = 1e-6;

/** Clips a convex solid, given by its faces, counter-clockwise seen from outside. */
export function clipSolid(faces: readonly (readonly Vec3[])[], plane: Plane): ClippedSolid {
  const heights = faces.flat().map((corner) => measureHeight(corner, plane));
  if (!heights.some((height) => height > 0)) return { faces, cap: [], capFaces: [] };
  if (!heights.some((height) => height < 0)) return { faces: faces.map(() => []), cap: [], capFaces: [] };
  const clipped = faces.map((face) => clipPolygon(face, plane));
  return { faces: clipped.map((face) => face.map(({ point }) => point)), ...closeCap(clipped) };
}

/** The part of a segment that is kept; null if that is nothing or a single point. */
export function clipSegment(from: Vec3, to: Vec3, plane: Plane): [Vec3, Vec3] | null {
  const [a, b] = [measureHeight(from, plane), measureHeight(to, plane)];
  if (a <= 0 && b <= 0) return [from, to];
  if (a >= 0 && b >= 0) return null;
  const met = meetPlane(from, to, a, b);
  return a < 0 ? [from, met] : [met, to];
}

/** Whether a polygon lies in a plane. */
export function liesOnPlane(polygon: readonly Vec3[], plane: Plane): boolean {
  return polygon.every((corner) => measureHeight(corner, plane) === 0);
}

interface Corner {
  readonly point: Vec3;
  readonly onPlane: boolean;
}

/** Clips a convex polygon; of one that only touches the plane nothing is left. */
function clipPolygon(polygon: readonly Vec3[], plane: Plane): Corner[] {
  const heights = polygon.map((corner) => measureHeight(corner, plane));
  if (!heights.some((height) => height < 0)) return [];
  return polygon.flatMap((to, i) => {
    const before = (i + polygon.length - 1) % polygon.length;
    const [a, b] = [heights[before]!, heights[i]!];
    const met = a * b < 0 ? [{ point: meetPlane(polygon[before]!, to, a, b), onPlane: true }] : [];
    return b <= 0 ? [...met, { point: to, onPlane: b === 0 }] : met;
  });
}

/** Puts the cap's edges in a ring: each runs against the edge of a face that lies on the plane. */
function closeCap(faces: readonly (readonly Corner[])[]): Pick<ClippedSolid, 'cap' | 'capFaces'> {
  const edges = new Map<string, { from: Vec3; to: Vec3; face: number }>();
  faces.forEach((face, f) =>
    face.forEach((corner, i) => {
      const next = face[(i + 1) % face.length]!;
      if (!corner.onPlane || !next.onPlane || String(corner.point) === String(next.point)) return;
      edges.set(String(next.point), { from: next.point, to: corner.point, face: f });
    })
  );
  const ring = [...edges.values()].slice(0, 1);
  while (ring.length > 0 && ring.length < edges.size) {
    const next = edges.get(String(ring[ring.length - 1]!.to));
    if (!next || next === ring[0]) break;
    ring.push(next);
  }
  return { cap: ring.map(({ from }) => from), capFaces: ring.map(({ face }) => face) };
}

/** How far a point lies in front of a plane, mm. */
function measureHeight(point: Vec3, { normal, at }: Plane): number {
  const height = dot(normal, point) - at;
  return Math.abs(height) < ON_PLANE ? 0 : height;
}

/** Reckoned from the side that is kept, so that it is the same point to the last digit whichever way the edge runs. */
function meetPlane(from: Vec3, to: Vec3, a: number, b: number): Vec3 {
  return a < 0
    ? add(from, scale(subtract(to, from), a / (a - b)))
    : add(to, scale(subtract(from, to), b / (b - a)));
}
