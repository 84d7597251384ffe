import { cosDegrees, sinDegrees } from '../geometry/angle.ts';
import type { ConvexSolid } from '../geometry/convex.ts';
import { dot, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Section } from '../straight/section.ts';
import type { Tape } from './tape.ts';

/** A box that the duct has to keep clear of, mm, in the frame of the inlet: x along the flow, y up, z right. */
export interface Obstacle {
  readonly name: string;
  /** What it is, in the user's own word or one of the page's. */
  readonly kind: string;
  readonly min: Vec3;
  readonly max: Vec3;
  /** Clearance it wants for itself, mm; the site's where it is not said. */
  readonly clearance?: number;
  /** How far it is turned about the vertical through its centre, degrees: counter-clockwise in the plan, which looks down. */
  readonly turn?: number;
}

/** Where the fitting has to end. */
export interface SiteEnd {
  /** Centre of the inside section, mm; null for a coordinate that is free, where only a level or a line is to be reached. */
  readonly at: readonly [number | null, number | null, number | null];
  /** Directions of any length, square to each other to three decimals. */
  readonly flow: Vec3;
  readonly up: Vec3;
}

/** The place of a fitting on site: its inlet is the origin, flowing along +x, up +y. */
export interface Site {
  /** Tag of the fitting that stands there; none yet where it is left out. */
  readonly fitting?: string;
  /** Inside section of the duct at both ends, mm. */
  readonly section: Section;
  readonly end: SiteEnd;
  /** Least distance of the fitting's outside from every obstacle that says none of its own, mm. */
  readonly clearance: number;
  readonly obstacles: readonly Obstacle[];
  /** Room for the hands at a joint that is closed in place, mm. */
  readonly handRoom?: number;
  /** What a tape gave, where the end and obstacles come from one. */
  readonly tape?: Tape;
}

/** Common practice, no source; editable. */
export const USUAL_HAND_ROOM = 100;

/** The eight corners of an obstacle where it stands, turned about the vertical through its centre. */
export function placeObstacle({ min, max, turn = 0 }: Obstacle): ConvexSolid {
  const [cosine, sine] = [cosDegrees(turn), sinDegrees(turn)];
  const [x0, z0] = [(min[0] + max[0]) / 2, (min[2] + max[2]) / 2];
  const corners = [min[0], max[0]].flatMap((x) =>
    [min[1], max[1]].flatMap((y) =>
      [min[2], max[2]].map((z): Vec3 => {
        const [dx, dz] = [x - x0, z - z0];
        return [x0 + cosine * dx + sine * dz, y, z0 - sine * dx + cosine * dz];
      })
    )
  );
  const sides: Vec3[] = [
    [cosine, 0, -sine],
    [0, 1, 0],
    [sine, 0, cosine]
  ];
  return { corners, normals: sides, edges: sides };
}

/** A part of a place or of a direction that is less counts as none: far below what an end has to be met within. */
const NOTHING = 1e-6;

/** The same end with directions of unit length, up square to the flow, and without the rounding of what means none. */
export function straightenEnd({ at, flow, up }: SiteEnd): SiteEnd {
  const clean = (part: number): number => (Math.abs(part) < NOTHING ? 0 : part);
  const unit = (direction: Vec3): Vec3 => {
    const [x, y, z] = scale(direction, 1 / norm(direction));
    const cleaned: Vec3 = [clean(x), clean(y), clean(z)];
    return scale(cleaned, 1 / norm(cleaned));
  };
  const place = (part: number | null): number | null => (part === null ? null : clean(part));
  const along = unit(flow);
  return {
    at: [place(at[0]), place(at[1]), place(at[2])],
    flow: along,
    up: unit(subtract(up, scale(along, dot(up, along))))
  };
}

/** The clearance that an obstacle wants, mm. */
export function findWanted(obstacle: Obstacle, site: Site): number {
  return obstacle.clearance ?? site.clearance;
}
