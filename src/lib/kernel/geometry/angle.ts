/** An angle in radians. Documents, parameters and findings use plain numbers in degrees; radians stay in this folder. */
export type Radians = number & { readonly unit: 'radian' };

const RADIANS_PER_DEGREE = Math.PI / 180;

/** Converts degrees to radians. */
export function toRadians(degrees: number): Radians {
  return (degrees * RADIANS_PER_DEGREE) as Radians;
}

/** Converts radians to degrees. */
export function toDegrees(radians: number): number {
  return radians / RADIANS_PER_DEGREE;
}

/** Brings an angle in degrees into 0 ≤ angle < 360. */
export function normalizeDegrees(degrees: number): number {
  const rest = degrees % 360;
  const positive = rest < 0 ? rest + 360 : rest;
  // A tiny negative rest rounds up to a full turn when 360 is added.
  return positive >= 360 ? 0 : positive + 0;
}

/**
 * Sine of an angle in degrees, reduced to the first half quadrant before it is computed: exact at multiples of 90,
 * and the same to the last bit for angles that mirror each other, so a mirrored fitting has mirrored numbers.
 */
export function sinDegrees(degrees: number): number {
  const angle = normalizeDegrees(degrees);
  if (angle >= 180) return -sinFirstHalf(angle - 180);
  return sinFirstHalf(angle);
}

/** Cosine of an angle in degrees; see {@link sinDegrees}. */
export function cosDegrees(degrees: number): number {
  const angle = normalizeDegrees(degrees);
  const folded = angle > 180 ? 360 - angle : angle;
  return folded > 90 ? -cosFirstQuadrant(180 - folded) : cosFirstQuadrant(folded);
}

/** Tangent of an angle in degrees, for angles away from ±90 (where it is ±Infinity). Exact at 0 and 45. */
export function tanDegrees(degrees: number): number {
  const sine = sinDegrees(degrees);
  const cosine = cosDegrees(degrees);
  return Math.abs(sine) === Math.abs(cosine) ? Math.sign(sine) * Math.sign(cosine) : sine / cosine;
}

/** Arc sine in degrees; arguments that rounding pushed past ±1 count as ±1. */
export function asinDegrees(sine: number): number {
  return toDegrees(Math.asin(Math.max(-1, Math.min(1, sine))));
}

/** Arc tangent in degrees. */
export function atanDegrees(tangent: number): number {
  return toDegrees(Math.atan(tangent));
}

function sinFirstHalf(angle: number): number {
  const folded = angle > 90 ? 180 - angle : angle;
  return folded <= 45 ? Math.sin(toRadians(folded)) : Math.cos(toRadians(90 - folded));
}

function cosFirstQuadrant(angle: number): number {
  // At 45 both functions take the sine, so that sine and cosine are equal there to the last bit.
  return angle < 45 ? Math.cos(toRadians(angle)) : Math.sin(toRadians(90 - angle));
}

/** Angle in degrees of the direction (along, across) from the first axis, −180 < angle ≤ 180. */
export function atan2Degrees(across: number, along: number): number {
  return toDegrees(Math.atan2(across, along));
}
