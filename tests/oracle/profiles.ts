// Solids for the judge: profiles drawn in a plane through the duct and made solid across it, and the kernel's own walls
// taken by their corners.
import type { Mat4, Vec3 as Point } from 'manifold-3d';
import type { Body, Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import type { Wall } from '../../src/lib/kernel/fitting/wall.ts';
import type { Motion } from '../../src/lib/kernel/geometry/motion.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { oracle, type Solid } from './manifold.ts';

/** A plane that a profile is drawn in: along the duct, and out of a wall; `aside` is square to both. Unit directions. */
export interface Plane {
  readonly out: Vec3;
  readonly aside: Vec3;
}

/** The planes through the middle of each wall; aside is up on a side wall, right on top and bottom. */
export const PLANES = {
  top: { out: [0, 1, 0], aside: [0, 0, 1] },
  right: { out: [0, 0, 1], aside: [0, 1, 0] },
  bottom: { out: [0, -1, 0], aside: [0, 0, 1] },
  left: { out: [0, 0, -1], aside: [0, 1, 0] }
} as const satisfies Record<string, Plane>;

export type WallName = keyof typeof PLANES;

/** A point of a plane: station along the duct, distance out from its axis, mm. */
export type Flat = readonly [along: number, out: number];

/** A point in space from its station, its distance out and its distance aside. */
export function placeInPlane({ out, aside }: Plane, [x, far]: Flat, beside: number): Vec3 {
  return [x, out[1] * far + aside[1] * beside, out[2] * far + aside[2] * beside];
}

/** The prism over a profile, from one distance aside to another; the profile may run either way round. */
export function extrudeProfile(
  { out, aside }: Plane,
  profile: readonly Flat[],
  [from, to]: readonly [number, number]
): Solid {
  const ring = profile.map(([x, y]): [number, number] => [x, y]);
  if (measureProfile(profile) < 0) ring.reverse();
  const upright = oracle.Manifold.extrude([ring], to - from);
  const columns = [1, 0, 0, 0, ...out, 0, ...aside, 0, ...aside.map((one) => one * from), 1];
  const placed = upright.transform(columns as unknown as Mat4);
  upright.delete();
  return placed;
}

/** Area of a profile, positive where it runs counter-clockwise, mm². */
export function measureProfile(profile: readonly Flat[]): number {
  return (
    profile.reduce((total, [x, y], i) => {
      const [u, v] = profile[(i + 1) % profile.length]!;
      return total + x * v - u * y;
    }, 0) / 2
  );
}

/** A solid less others, which are used up with it. */
export function hollow(solid: Solid, ...holes: readonly Solid[]): Solid {
  return holes.reduce((rest, hole) => {
    const less = rest.subtract(hole);
    rest.delete();
    hole.delete();
    return less;
  }, solid);
}

/** The least convex solid round some points. */
export function span(points: readonly Vec3[]): Solid {
  return oracle.Manifold.hull(points.map((point): Point => [...point]));
}

/** A wall where its body is placed, reaching `growth` further to all sides; it is convex, so its corners span it. */
export function spanPlacedWall({ outer, inner }: Wall, placement: Motion, growth = 0): Solid {
  const corners = [...outer, ...inner].map((corner) => movePoint(placement, corner));
  const ways = growth === 0 ? [0] : [-growth, growth];
  return span(
    corners.flatMap(([x, y, z]) =>
      ways.flatMap((dx) => ways.flatMap((dy) => ways.map((dz): Vec3 => [x + dx, y + dy, z + dz])))
    )
  );
}

/** The polygons with the circle's area that stand for circles: how many sides, and where on the circle one corner lies, radians. */
export interface Rounds {
  readonly sides: number;
  readonly from: number;
}

/** The polygons that stand for circles in a fitting's walls. */
export function findRounds({ straights }: Fitting): Rounds {
  const round = straights.flatMap(({ openings }) => openings).find(({ circle }) => circle);
  if (!round) return { sides: 3, from: 0 };
  const [[x, u], [atX, atU]] = [round.outer[0]!, round.circle!.at];
  return { sides: round.outer.length, from: Math.atan2(u - atU, x - atX) };
}

/** The walls of a body where it is placed. */
export function spanBody({ walls, placement }: Body, growth = 0): Solid[] {
  return walls.map((wall) => spanPlacedWall(wall, placement, growth));
}

/** Where a motion takes a point. */
export function movePoint({ x, y, z, t }: Motion, [a, b, c]: Vec3): Vec3 {
  const at = (i: 0 | 1 | 2): number => x[i] * a + y[i] * b + z[i] * c + t[i];
  return [at(0), at(1), at(2)];
}

/** Volume that solids of one row share with those of another, mm³. */
export function measureShared(ones: readonly Solid[], others: readonly Solid[]): number {
  return sharePairs(ones, others, () => true).reduce((sum, volume) => sum + volume, 0);
}

/** The most that any two of some solids share, mm³. */
export function measureWorstOverlap(solids: readonly Solid[]): number {
  return Math.max(0, ...sharePairs(solids, solids, (i, j) => i < j));
}

/** Boxes that share less than this share nothing, mm. */
const TOUCHING = 1e-9;

/** What pairs of two rows share, mm³; those whose boxes lie apart or only touch are left out. */
function sharePairs(
  ones: readonly Solid[],
  others: readonly Solid[],
  wanted: (i: number, j: number) => boolean
): number[] {
  const boxes = others.map((other) => other.boundingBox());
  return ones.flatMap((one, i) => {
    const own = one.boundingBox();
    return others.flatMap((other, j) => {
      const box = boxes[j]!;
      const apart = ([0, 1, 2] as const).some(
        (k) => Math.min(own.max[k], box.max[k]) - Math.max(own.min[k], box.min[k]) < TOUCHING
      );
      if (apart || !wanted(i, j)) return [];
      const shared = one.intersect(other);
      const volume = shared.volume();
      shared.delete();
      return [volume];
    });
  });
}
