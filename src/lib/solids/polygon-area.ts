import { add, cross, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';

/**
 * Vector area of a plane polygon, mm²: its normal, as long as its area is large (Stokes). A corner that falls
 * on the next does no harm.
 */
export function findVectorArea(polygon: readonly Vec3[]): Vec3 {
  const origin = polygon[0]!;
  let area: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < polygon.length; i++) {
    area = add(area, cross(subtract(polygon[i]!, origin), subtract(polygon[i + 1]!, origin)));
  }
  return scale(area, 0.5);
}
