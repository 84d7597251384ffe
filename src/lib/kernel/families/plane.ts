import { cosDegrees, sinDegrees } from '../geometry/angle.ts';
import type { Vec3 } from '../geometry/vector.ts';

/** A point or direction in the plane in which a duct turns: downstream at the inlet, and away from the heel; mm. */
export type PlanePoint = readonly [along: number, aside: number];

/** Takes a point or direction of the plane to the fitting's frame; `heel` as a clock angle, degrees. */
export function placeInPlane([along, aside]: PlanePoint, heel: number): Vec3 {
  return [along, 0 - aside * cosDegrees(heel), 0 - aside * sinDegrees(heel)];
}

/** Where a point of the fitting's frame is in the plane, its distance from the plane left out. */
export function seeInPlane(point: Vec3, heel: number): PlanePoint {
  return [point[0], -(point[1] * cosDegrees(heel) + point[2] * sinDegrees(heel))];
}

/** The unit direction at an angle from downstream, degrees, turned away from the heel. */
export function direct(angle: number): PlanePoint {
  return [cosDegrees(angle), sinDegrees(angle)];
}

/** The point so far from another in the direction at an angle. */
export function advance(from: PlanePoint, angle: number, length: number): PlanePoint {
  const [along, aside] = direct(angle);
  return [from[0] + along * length, from[1] + aside * length];
}

/** How far a point lies from another along a unit direction. */
export function measureAlong(from: PlanePoint, direction: PlanePoint, to: PlanePoint): number {
  return (to[0] - from[0]) * direction[0] + (to[1] - from[1]) * direction[1];
}
