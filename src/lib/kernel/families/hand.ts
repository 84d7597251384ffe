import { normalizeDegrees } from '../geometry/angle.ts';
import type { Face } from '../straight/section.ts';

const OTHER_HAND: Record<Face, Face> = { top: 'top', right: 'left', bottom: 'bottom', left: 'right' };

/** The face that a face becomes when left and right change places: in a mirror, and seen from the other end. */
export function mirrorFace(face: Face): Face {
  return OTHER_HAND[face];
}

/** The clock angle that a clock angle becomes when left and right change places, 0 ≤ angle < 360 degrees. */
export function mirrorClock(clock: number): number {
  return normalizeDegrees(-clock);
}
