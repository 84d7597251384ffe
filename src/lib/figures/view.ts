import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import { add, cross, dot, scale, type Vec3 } from '../kernel/geometry/vector.ts';
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

/** The view by its name; the true view looks square at the plane of the first turn, which is where a bend lies. */
export function findView(name: ViewName, fitting: Fitting | null): View {
  if (name !== 'true') return FIXED[name];
  const heel = fitting?.straights[0]?.cuts[0]?.heel;
  if (heel === undefined || sinDegrees(heel) === 0) return FIXED.elevation;
  if (cosDegrees(heel) === 0) return FIXED.plan;
  const up: Vec3 = scale([0, cosDegrees(heel), sinDegrees(heel)], cosDegrees(heel) > 0 ? 1 : -1);
  return { right: [1, 0, 0], down: scale(up, -1), eye: cross([1, 0, 0], up) };
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
