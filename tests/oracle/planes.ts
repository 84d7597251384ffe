import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';

/** A plane in space: every point p of it has normal·p = offset; the normal is a unit direction. */
export interface Flatness {
  readonly normal: Vec3;
  readonly offset: number;
}

/** The plane through three points, its normal on the side of `toward`. */
export function layPlane(a: Vec3, b: Vec3, c: Vec3, toward: Vec3): Flatness {
  const across = cross(minus(b, a), minus(c, a));
  const size = Math.sign(dot(across, toward)) * Math.hypot(...across);
  const normal: Vec3 = [across[0] / size, across[1] / size, across[2] / size];
  return { normal, offset: dot(normal, a) };
}

/** The plane so much further along its normal. */
export function shiftPlane({ normal, offset }: Flatness, by: number): Flatness {
  return { normal, offset: offset + by };
}

/** The point of three planes (Cramer's rule). */
export function meetPlanes(a: Flatness, b: Flatness, c: Flatness): Vec3 {
  const [bc, ca, ab] = [cross(b.normal, c.normal), cross(c.normal, a.normal), cross(a.normal, b.normal)];
  const space = dot(a.normal, bc);
  const at = (i: 0 | 1 | 2): number => (a.offset * bc[i] + b.offset * ca[i] + c.offset * ab[i]) / space;
  return [at(0), at(1), at(2)];
}

export function minus(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function distance(a: Vec3, b: Vec3): number {
  return Math.hypot(...minus(a, b));
}
