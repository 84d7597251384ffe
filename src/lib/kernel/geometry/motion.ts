import { add, norm, scale, subtract, type Vec3 } from './vector.ts';

/**
 * A rigid motion p → R·p + t. `x`, `y`, `z` are the columns of R: where the unit directions go; `t` is where the
 * origin goes, mm.
 */
export interface Motion {
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
  readonly t: Vec3;
}

export const IDENTITY: Motion = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1], t: [0, 0, 0] };

/** Half a turn about the x axis: a piece rolled over about its own length. */
export const HALF_TURN_ABOUT_X: Motion = { x: [1, 0, 0], y: [0, -1, 0], z: [0, 0, -1], t: [0, 0, 0] };

/** A shift along x, mm. */
export function shiftAlongX(distance: number): Motion {
  return { ...IDENTITY, t: [distance, 0, 0] };
}

/**
 * Rotation about a line through the origin, right-handed, by the angle with the given cosine and sine (Rodrigues).
 * `axis` is a unit direction.
 */
export function rotateAbout(axis: Vec3, cosine: number, sine: number): Motion {
  const [u, v, w] = axis;
  const k = 1 - cosine;
  return {
    x: [cosine + u * u * k, u * v * k + w * sine, u * w * k - v * sine],
    y: [u * v * k - w * sine, cosine + v * v * k, v * w * k + u * sine],
    z: [u * w * k + v * sine, v * w * k - u * sine, cosine + w * w * k],
    t: [0, 0, 0]
  };
}

/** The image of a direction. */
export function turnDirection(m: Motion, d: Vec3): Vec3 {
  return [
    m.x[0] * d[0] + m.y[0] * d[1] + m.z[0] * d[2],
    m.x[1] * d[0] + m.y[1] * d[1] + m.z[1] * d[2],
    m.x[2] * d[0] + m.y[2] * d[1] + m.z[2] * d[2]
  ];
}

/** The image of a point. */
export function movePoint(m: Motion, p: Vec3): Vec3 {
  const d = turnDirection(m, p);
  return [d[0] + m.t[0], d[1] + m.t[1], d[2] + m.t[2]];
}

/** The point whose image a point is. */
export function movePointBack({ x, y, z, t }: Motion, p: Vec3): Vec3 {
  const [dx, dy, dz] = [p[0] - t[0], p[1] - t[1], p[2] - t[2]];
  return [
    dx * x[0] + dy * x[1] + dz * x[2],
    dx * y[0] + dy * y[1] + dz * y[2],
    dx * z[0] + dy * z[1] + dz * z[2]
  ];
}

/** The motion that does `second` first and `first` after it: first ∘ second. */
export function compose(first: Motion, second: Motion): Motion {
  return {
    x: turnDirection(first, second.x),
    y: turnDirection(first, second.y),
    z: turnDirection(first, second.z),
    t: movePoint(first, second.t)
  };
}

/** The motion that undoes `m`. */
export function invertMotion(m: Motion): Motion {
  const inverse: Motion = {
    x: [m.x[0], m.y[0], m.z[0]],
    y: [m.x[1], m.y[1], m.z[1]],
    z: [m.x[2], m.y[2], m.z[2]],
    t: [0, 0, 0]
  };
  const t = turnDirection(inverse, m.t);
  return { ...inverse, t: [-t[0], -t[1], -t[2]] };
}

/** A sine below this is none: of a motion that does not turn, or turns by half a turn. */
const NO_TURN = 1e-9;

/**
 * A motion on the way from one to another: at a share of 0 the first, at 1 the second. It turns steadily about one axis,
 * the shorter way round, while the point `pivot` (in the frame that is moved) goes straight. Half a turn has two ways
 * round; one of them is taken.
 */
export function moveBetween(from: Motion, to: Motion, share: number, pivot: Vec3): Motion {
  const { axis, angle } = findTurn(compose({ ...to, t: [0, 0, 0] }, invertMotion({ ...from, t: [0, 0, 0] })));
  const turned = compose(rotateAbout(axis, Math.cos(angle * share), Math.sin(angle * share)), from);
  const [begin, end] = [movePoint(from, pivot), movePoint(to, pivot)];
  const middle = add(scale(begin, 1 - share), scale(end, share));
  return { ...turned, t: subtract(middle, turnDirection(turned, pivot)) };
}

/** The axis, a unit direction, and the angle, radians 0 … π, of the rotation of a motion. */
function findTurn({ x, y, z }: Motion): { axis: Vec3; angle: number } {
  const double: Vec3 = [y[2] - z[1], z[0] - x[2], x[1] - y[0]];
  const sine = norm(double) / 2;
  const cosine = (x[0] + y[1] + z[2] - 1) / 2;
  const angle = Math.atan2(sine, cosine);
  if (sine > NO_TURN) return { axis: scale(double, 1 / (2 * sine)), angle };
  // R + 1 of half a turn is twice the axis times itself: every column lies along the axis, the longest one tells it best.
  const columns: Vec3[] = [add(x, [1, 0, 0]), add(y, [0, 1, 0]), add(z, [0, 0, 1])];
  const longest = columns.reduce((best, column) => (norm(column) > norm(best) ? column : best));
  return { axis: scale(longest, 1 / norm(longest)), angle };
}
