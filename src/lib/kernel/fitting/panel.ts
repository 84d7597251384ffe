import { movePointBack, type Motion } from '../geometry/motion.ts';
import { findNormal } from '../geometry/convex.ts';
import { cross, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Face } from '../straight/section.ts';
import type { PanelBody, PanelPoint, ParamReference } from './fitting.ts';
import type { Wall, WallEdge } from './wall.ts';

/** A solid of board between two outlines, corner by corner; outer ones on the facing, counter-clockwise seen from outside. */
export interface Slab {
  readonly outer: readonly Vec3[];
  readonly inner: readonly Vec3[];
  readonly edges: readonly WallEdge[];
}

export interface PanelDescription extends Slab {
  readonly name: string;
  readonly face: Face | null;
  readonly sizedBy: ParamReference;
  /** The convex solids that it is, where it is not convex itself or has openings. */
  readonly parts?: readonly Slab[];
}

/**
 * A wall cut flat from board, from where it is in the fitting, mm. Its first edge is the one at the inlet, in the clockwise
 * sense of the duct: the origin of the panel's frame is its first corner, clockwise runs along it.
 */
export function cutPanel({ name, face, sizedBy, parts, ...slab }: PanelDescription): PanelBody {
  const placement = layFrame(slab.outer);
  const layWall = ({ outer, inner, edges }: Slab): Wall => ({
    face: face ?? 'top',
    outer: outer.map((corner) => movePointBack(placement, corner)),
    inner: inner.map((corner) => movePointBack(placement, corner)),
    edges
  });
  const whole = layWall(slab);
  return {
    kind: 'panel',
    name,
    panel: {
      face,
      outer: whole.outer.map(readPattern),
      inner: whole.inner.map(readPattern),
      edges: slab.edges
    },
    walls: parts ? parts.map(layWall) : [whole],
    placement,
    sizedBy,
    least: 0
  };
}

function readPattern([downstream, , clockwise]: Vec3): PanelPoint {
  return [clockwise, downstream];
}

/** The frame of a panel's facing: z along its first edge, y outward, x = y × z downstream. */
function layFrame(outer: readonly Vec3[]): Motion {
  const along = subtract(outer[1]!, outer[0]!);
  const z = scale(along, 1 / norm(along));
  const y = findNormal(outer[0]!, outer[1]!, outer[2]!);
  return { x: cross(y, z), y, z, t: outer[0]! };
}
