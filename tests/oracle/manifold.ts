import Module, { type Manifold, type Mat4, type Vec3 as Point } from 'manifold-3d';
import type { Motion } from '../../src/lib/kernel/geometry/motion.ts';

const library = await Module();
library.setup();

/** The independent mesh-boolean library; nothing of it reaches the product. */
export const oracle = library;

export type Solid = Manifold;

const RADIANS = Math.PI / 180;

/** A box along x from the datum end, centred on the axis: the outside or the inside of a straight. */
export function makeBox(from: number, to: number, height: number, width: number): Solid {
  const cube = oracle.Manifold.cube([to - from, height, width], false);
  const box = cube.translate([from, -height / 2, -width / 2]);
  cube.delete();
  return box;
}

/** The plane of a cut, x = station + tan α (y cos φ + z sin φ), as a unit normal downstream and its distance. */
export function findPlane(cut: { station: number; miter: number; heel: number }): [Point, number] {
  const slope = Math.tan(cut.miter * RADIANS);
  const normal: Point = [1, -slope * Math.cos(cut.heel * RADIANS), -slope * Math.sin(cut.heel * RADIANS)];
  const size = Math.hypot(...normal);
  return [[normal[0] / size, normal[1] / size, normal[2] / size], cut.station / size];
}

type CutPlane = { station: number; miter: number; heel: number } | null;

/** The part of a solid between two cuts; with a growth, both cuts are moved apart by it along the axis. */
export function cutOut(solid: Solid, start: CutPlane, end: CutPlane, growth = 0): Solid {
  const parts = [solid];
  if (start) {
    const [normal, offset] = findPlane({ ...start, station: start.station - growth });
    parts.push(parts[0]!.trimByPlane(normal, offset));
  }
  if (end) {
    const [[x, y, z], offset] = findPlane({ ...end, station: end.station + growth });
    parts.push(parts[parts.length - 1]!.trimByPlane([-x, -y, -z], -offset));
  }
  const result = parts.length > 1 ? parts[parts.length - 1]! : solid.translate([0, 0, 0]);
  for (const part of parts.slice(1, -1)) part.delete();
  return result;
}

/** A solid where a motion takes it. */
export function place(solid: Solid, { x, y, z, t }: Motion): Solid {
  const columns: Mat4 = [...x, 0, ...y, 0, ...z, 0, ...t, 1] as unknown as Mat4;
  return solid.transform(columns);
}

/** Volume that two solids share, mm³; boxes that lie apart are not intersected. */
export function measureOverlap(a: Solid, b: Solid): number {
  const [p, q] = [a.boundingBox(), b.boundingBox()];
  if ([0, 1, 2].some((i) => p.max[i]! < q.min[i]! || q.max[i]! < p.min[i]!)) return 0;
  const shared = a.intersect(b);
  const volume = shared.volume();
  shared.delete();
  return volume;
}

/** Frees solids of the library's own memory. */
export function free(solids: readonly Solid[]): void {
  for (const solid of solids) solid.delete();
}
