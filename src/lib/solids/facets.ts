import type { Body } from '../kernel/fitting/fitting.ts';
import { listWallFaces } from '../kernel/fitting/wall.ts';
import { distance, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { findMiddle } from './body-mesh.ts';
import { findVectorArea } from './polygon-area.ts';
import { findHiddenSides } from './wall-lines.ts';

/** A triangle of a shell, counter-clockwise seen from outside the board; `normal` is of unit length, outward. */
export interface Facet {
  readonly corners: readonly [Vec3, Vec3, Vec3];
  readonly normal: Vec3;
}

/** Points nearer than this are one, mm: far below what is cut, far above what reckoning with doubles does. */
const SAME = 1e-4;

/**
 * The shell of a body as triangles, in the frame of its straight or of the panel, mm. It is closed to the last digit:
 * every edge of a triangle is an edge of one other, which runs the other way between the same two points.
 */
export function listFacets(body: Pick<Body, 'kind' | 'walls'>): Facet[] {
  const hidden = findHiddenSides(body);
  const shown = body.walls.flatMap((wall, w) =>
    listWallFaces(wall).filter((_, i) => i < 2 || !hidden[w]![i - 2])
  );
  const points: Vec3[] = [];
  const faces = shown.map((face) => dropDoubles(face.map((corner) => pickSame(points, corner))));
  return faces.filter((face) => face.length > 2).flatMap((face) => part(passThrough(face, points)));
}

/** The point among those known at which a corner lies; if there is none, the corner, which is known from then on. */
function pickSame(points: Vec3[], corner: Vec3): Vec3 {
  const known = points.find((point) => distance(point, corner) < SAME);
  if (!known) points.push(corner);
  return known ?? corner;
}

function dropDoubles(polygon: readonly Vec3[]): Vec3[] {
  return polygon.filter((corner, i) => corner !== polygon[(i + 1) % polygon.length]);
}

/** A polygon with all the points that lie on its edges as corners of it: what borders on it may be parted there. */
function passThrough(polygon: readonly Vec3[], points: readonly Vec3[]): Vec3[] {
  return polygon.flatMap((from, i) => {
    const to = polygon[(i + 1) % polygon.length]!;
    const on = points.filter((point) => liesBetween(point, from, to));
    return [from, ...on.sort((a, b) => distance(from, a) - distance(from, b))];
  });
}

function liesBetween(point: Vec3, from: Vec3, to: Vec3): boolean {
  if (point === from || point === to) return false;
  const [way, reach] = [subtract(to, from), subtract(point, from)];
  const share = dot(reach, way) / dot(way, way);
  return share > 0 && share < 1 && norm(subtract(reach, scale(way, share))) < SAME;
}

/** Parts a convex polygon into triangles, none of them without an area: about its middle where it has straight corners. */
function part(polygon: readonly Vec3[]): Facet[] {
  const area = findVectorArea(polygon);
  const normal = scale(area, 1 / norm(area));
  const isStraight = polygon.some((corner, i) => {
    const count = polygon.length;
    return liesBetween(corner, polygon[(i + count - 1) % count]!, polygon[(i + 1) % count]!);
  });
  const [first, ...rest] = isStraight ? [findMiddle(polygon), ...polygon, polygon[0]!] : polygon;
  return rest.slice(1).map((to, i) => ({ corners: [first!, rest[i]!, to], normal }));
}
