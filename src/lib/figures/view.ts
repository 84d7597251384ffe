import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import { findNormal } from '../kernel/geometry/convex.ts';
import { turnDirection } from '../kernel/geometry/motion.ts';
import { add, cross, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { FACE_CLOCK } from '../kernel/straight/section.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import type { Point } from './figure.ts';

export type ViewName = 'true' | 'elevation' | 'plan' | 'end';

/** A direction to look at the fitting from: what lies to the right and down on paper, and toward the eye. */
export interface View {
  readonly right: Vec3;
  readonly down: Vec3;
  readonly eye: Vec3;
}

/** An elevation looks along −z (x right, y up), a plan along −y (x right, z down), an end view downstream along x. */
const FIXED: Readonly<Record<'elevation' | 'plan' | 'end', View>> = {
  elevation: { right: [1, 0, 0], down: [0, -1, 0], eye: [0, 0, 1] },
  plan: { right: [1, 0, 0], down: [0, 0, 1], eye: [0, 1, 0] },
  end: { right: [0, 0, 1], down: [0, -1, 0], eye: [-1, 0, 0] }
};

/** A part across the flow smaller than this, of a unit direction, is none. */
const NONE = 1e-9;

/** The view by its name; the true view looks square at the plane in which the fitting shows what it is. */
export function findView(name: ViewName, fitting: Fitting | null): View {
  if (name !== 'true') return FIXED[name];
  const across =
    fitting && (findHeel(fitting) ?? findAside(fitting) ?? findSlope(fitting) ?? findOpening(fitting));
  if (!across || Math.abs(across[2]) < NONE) return FIXED.elevation;
  if (Math.abs(across[1]) < NONE) return FIXED.plan;
  const up = across[1] > 0 ? across : scale(across, -1);
  return { right: [1, 0, 0], down: scale(up, -1), eye: cross([1, 0, 0], up) };
}

/** The outside of the first turn: a bend lies in its plane. */
function findHeel({ straights }: Fitting): Vec3 | null {
  const heel = straights[0]?.cuts[0]?.heel;
  return heel === undefined ? null : [0, cosDegrees(heel), sinDegrees(heel)];
}

/** Where the first axis goes that does not go straight on. */
function findAside({ axes }: Fitting): Vec3 | null {
  const ways = axes.flatMap((axis) => axis.slice(1).map((to, i) => subtract(to, axis[i]!)));
  return listAcross(ways)[0] ?? null;
}

/** Where the steepest sloping wall faces. */
function findSlope({ bodies }: Fitting): Vec3 | null {
  const normals = listNormals(bodies)
    .filter(([along]) => Math.abs(along) > NONE)
    .sort((a, b) => Math.abs(b[0]) - Math.abs(a[0]));
  return listAcross(normals)[0] ?? null;
}

/** Along the wall in which the first opening is, so that it faces the eye. */
function findOpening({ straights, bodies }: Fitting): Vec3 | null {
  for (const { name, openings } of straights) {
    const body = bodies.find((other) => other.kind === 'piece' && other.straight === name);
    if (!openings[0] || !body) continue;
    const clock = FACE_CLOCK[openings[0].face];
    return turnDirection(body.placement, [0, sinDegrees(clock), -cosDegrees(clock)]);
  }
  return null;
}

/** The unit parts across the flow at the inlet, of those directions that have any. */
function listAcross(ways: readonly Vec3[]): Vec3[] {
  return ways.flatMap((way): Vec3[] => {
    const across: Vec3 = [0, way[1], way[2]];
    const size = norm(across);
    return size > NONE * norm(way) ? [scale(across, 1 / size)] : [];
  });
}

function listNormals(bodies: Fitting['bodies']): Vec3[] {
  return bodies.flatMap(({ walls, placement }) =>
    walls.map(({ outer }) => turnDirection(placement, findNormal(outer[0]!, outer[1]!, outer[2]!)))
  );
}

/** The name of the view a true view coincides with, or `true` where it lies between. */
export function nameView(view: View): ViewName {
  const same = (other: View): boolean => dot(view.eye, other.eye) === 1;
  return (['elevation', 'plan', 'end'] as const).find((name) => same(FIXED[name])) ?? 'true';
}

/** Where a point of the fitting's frame is on the figure, mm. */
export function project(view: View, point: Vec3): Point {
  return [dot(view.right, point), dot(view.down, point)];
}

/** The point of the fitting's frame that lies on the figure at `seen`, as deep as `beside` does. */
export function unproject(view: View, seen: Point, beside: Vec3): Vec3 {
  const from = project(view, beside);
  return add(beside, add(scale(view.right, seen[0] - from[0]), scale(view.down, seen[1] - from[1])));
}
