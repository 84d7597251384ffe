import type { Vec3 } from '../src/lib/kernel/geometry/vector.ts';

/** Edges that are not used exactly once each way: none where the faces close. */
export function countLooseEdges(faces: readonly (readonly Vec3[])[]): number {
  const uses = new Map<string, number>();
  const name = (point: Vec3): string => point.map((one) => one.toPrecision(15)).join();
  for (const face of faces) {
    face.forEach((from, i) => {
      const to = face[(i + 1) % face.length]!;
      const [a, b] = [name(from), name(to)];
      const edge = a < b ? `${a} ${b}` : `${b} ${a}`;
      uses.set(edge, (uses.get(edge) ?? 0) + (a < b ? 1 : -1));
    });
  }
  return [...uses.values()].filter((use) => use !== 0).length;
}

/** How far the corners of a face lie from the plane of its first three, mm. */
export function measureWarp(face: readonly Vec3[]): number {
  const [a, b, c] = face as [Vec3, Vec3, Vec3];
  const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
  const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
  const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
  const size = Math.hypot(...n);
  return Math.max(
    ...face.map((p) => Math.abs(n[0] * (p[0] - a[0]) + n[1] * (p[1] - a[1]) + n[2] * (p[2] - a[2])) / size)
  );
}

/** Volume that faces enclose, mm³: cones from one of their corners; negative where they are seen from inside. */
export function measureSpace(faces: readonly (readonly Vec3[])[]): number {
  const from = faces[0]![0]!;
  const reach = (p: Vec3): Vec3 => [p[0] - from[0], p[1] - from[1], p[2] - from[2]];
  return faces.reduce((total, face) => {
    const [a, ...rest] = face.map(reach) as [Vec3, ...Vec3[]];
    return rest.slice(1).reduce((sum, c, i) => {
      const b = rest[i]!;
      const [x, y, z] = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]];
      return sum + (a[0] * x + a[1] * y + a[2] * z) / 6;
    }, total);
  }, 0);
}
