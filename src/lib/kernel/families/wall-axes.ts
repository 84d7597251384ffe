import { dot, type Vec3 } from '../geometry/vector.ts';
import type { Face } from '../straight/section.ts';

/** Of a wall of a straight: the direction out of it, and the one in which `aside` counts: up, or right on top and bottom. */
export function wallAxes(wall: Face): { readonly out: Vec3; readonly aside: Vec3 } {
  switch (wall) {
    case 'top':
      return { out: [0, 1, 0], aside: [0, 0, 1] };
    case 'right':
      return { out: [0, 0, 1], aside: [0, 1, 0] };
    case 'bottom':
      return { out: [0, -1, 0], aside: [0, 0, 1] };
    case 'left':
      return { out: [0, 0, -1], aside: [0, 1, 0] };
  }
}

/** Where a point lies as seen square onto a wall, mm: its station, and how far aside of the middle. */
export function readOnWall(wall: Face, point: Vec3): [station: number, aside: number] {
  return [point[0], dot(point, wallAxes(wall).aside)];
}
