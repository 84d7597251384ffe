import { add, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';

/**
 * A camera's directions, unit and square to each other: right and up on the screen, and back toward the eye.
 */
export interface Axes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly back: Vec3;
}

/** Tangents of half the field of view. */
export interface Slopes {
  readonly across: number;
  readonly upward: number;
}

/** A ball round something, mm. */
export interface Ball {
  readonly centre: Vec3;
  readonly radius: number;
}

/**
 * Where a camera with these directions looks at and how far off it stands so that all points are in sight and
 * in the middle of the picture, mm.
 */
export function frameView(
  points: readonly Vec3[],
  { right, up, back }: Axes,
  slopes: Slopes
): { target: Vec3; distance: number } {
  const seen = points.map((point) => ({ x: dot(point, right), y: dot(point, up), z: dot(point, back) }));
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  let x = middle(seen.map((point) => point.x));
  let y = middle(seen.map((point) => point.y));
  const z = middle(seen.map((point) => point.z));
  // A point is in sight when it is no further aside than the slope times its depth before the eye.
  const findDistance = (): number =>
    Math.max(
      ...seen.map(
        (point) =>
          point.z - z + Math.max(Math.abs(point.x - x) / slopes.across, Math.abs(point.y - y) / slopes.upward)
      )
    );
  // What is nearer looks larger, so the middle of the picture is not that of the box; each round more than
  // halves the rest.
  for (let round = 0; round < 6; round++) {
    const depth = findDistance();
    x += middle(seen.map((point) => (point.x - x) / (depth + z - point.z))) * depth;
    y += middle(seen.map((point) => (point.y - y) / (depth + z - point.z))) * depth;
  }
  const target = add(add(scale(right, x), scale(up, y)), scale(back, z));
  return { target, distance: findDistance() };
}

/** Whether a camera that looks like this has all points in sight. */
export function isInSight(
  points: readonly Vec3[],
  { right, up, back }: Axes,
  slopes: Slopes,
  look: { readonly target: Vec3; readonly distance: number }
): boolean {
  return points.every((point) => {
    const off = subtract(point, look.target);
    const depth = look.distance - dot(off, back);
    return (
      Math.abs(dot(off, right)) <= depth * slopes.across && Math.abs(dot(off, up)) <= depth * slopes.upward
    );
  });
}

/** The ball about the middle of the points' box that holds them all. */
export function wrapBall(points: readonly Vec3[]): Ball {
  const spans = ([0, 1, 2] as const).map((i) => {
    const along = points.map((point) => point[i]);
    return [Math.min(...along), Math.max(...along)] as const;
  });
  const [x, y, z] = spans.map(([low, high]) => (low + high) / 2);
  const centre: Vec3 = [x!, y!, z!];
  return { centre, radius: Math.max(...points.map((point) => norm(subtract(point, centre)))) };
}

/**
 * How much what is shown may grow, shrink or wander, as a share of its radius, before it is fitted to the
 * view again.
 */
const MUCH = 0.25;

/** Whether what is shown has changed so much that a camera fitted to `before` no longer shows `now` well. */
export function hasChangedMuch(before: Ball, now: Ball): boolean {
  const growth = now.radius / before.radius;
  const wandered = norm(subtract(now.centre, before.centre)) / before.radius;
  return growth > 1 + MUCH || growth < 1 / (1 + MUCH) || wandered > MUCH;
}
