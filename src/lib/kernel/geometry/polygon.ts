import { cross, dot, norm, subtract, type Vec3 } from './vector.ts';

/** Area of a plane polygon in space, mm²: half the length of its vector area (Stokes). */
export function measureArea(polygon: readonly Vec3[]): number {
  const origin = polygon[0];
  if (!origin) return 0;
  let area: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < polygon.length; i++) {
    const c = cross(subtract(polygon[i]!, origin), subtract(polygon[i + 1]!, origin));
    area = [area[0] + c[0], area[1] + c[1], area[2] + c[2]];
  }
  return norm(area) / 2;
}

/**
 * Volume of a closed solid, mm³, by the divergence theorem: `faces` are plane polygons, counter-clockwise seen from
 * outside. Vertices are taken relative to the first one, so a solid far from the origin loses no digits.
 */
export function measureVolume(faces: readonly (readonly Vec3[])[]): number {
  const origin = faces[0]?.[0];
  if (!origin) return 0;
  let six = 0;
  for (const face of faces) {
    const a = subtract(face[0]!, origin);
    for (let i = 1; i + 1 < face.length; i++) {
      six += dot(a, cross(subtract(face[i]!, origin), subtract(face[i + 1]!, origin)));
    }
  }
  return six / 6;
}
