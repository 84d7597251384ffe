import type { Fitting } from '../kernel/fitting/fitting.ts';
import { invertMotion, movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { add, dot, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Plane } from './clip.ts';
import type { Arrangement } from './spread.ts';

/**
 * How the fitting is cut open: lengthwise through the axis, upright (the right half is taken away) or level (the upper
 * half is), or square across the duct (what lies upstream is).
 */
export type SectionKind = 'upright' | 'level' | 'across';

export const SECTION_KINDS: readonly SectionKind[] = ['upright', 'level', 'across'];

export interface SectionPlane {
  readonly kind: SectionKind;
  /** Of a section across: where on the axis, as a share of its length, 0 … 1. */
  readonly at: number;
}

/** A body lies along x when its direction comes this near to 1: only rounding lies between. */
const ALONG_X = 1 - 1e-9;

/**
 * The section plane as every body sees it, in the frame of its straight, in the order of the fitting's bodies. A
 * section lengthwise follows the duct: it is carried along as the duct's own up and right are, so it passes through
 * every miter without a step. A body not joined yet is cut as it lies. A section across is one plane through all that
 * is shown.
 */
export function placeSectionPlanes(
  fitting: Fitting,
  { poses, offsets }: Arrangement,
  section: SectionPlane
): Plane[] {
  if (section.kind !== 'across') {
    const direction: Vec3 = section.kind === 'upright' ? [0, 0, 1] : [0, 1, 0];
    return fitting.bodies.map(({ piece }, k) => {
      const { joined, placement } = poses[k]!;
      const carried = scale(direction, piece.flipped ? -1 : 1);
      // On its way to its joint it is cut as it will be.
      const isLaid = !joined && placement.x[0] > ALONG_X;
      return { normal: isLaid ? turnDirection(invertMotion(placement), direction) : carried, at: 0 };
    });
  }
  const { body, station } = findOnAxis(fitting, section.at);
  const normal = scale(poses[body]!.placement.x, -1);
  const through = add(movePoint(poses[body]!.placement, [station, 0, 0]), offsets[body]!);
  return poses.map(({ placement }, k) => ({
    normal: turnDirection(invertMotion(placement), normal),
    at: dot(normal, through) - dot(normal, add(placement.t, offsets[k]!))
  }));
}

/** The body at a share of the axis, and the station in its straight, mm. */
function findOnAxis({ bodies }: Fitting, share: number): { body: number; station: number } {
  const total = bodies.reduce((sum, { piece }) => sum + piece.axis, 0);
  let rest = share * total;
  for (const [body, { piece }] of bodies.entries()) {
    if (rest <= piece.axis || body === bodies.length - 1) return { body, station: piece.from + rest };
    rest -= piece.axis;
  }
  throw new Error('a fitting without bodies has no axis');
}
