import { findWayOut, wrapBall, type ConvexSolid } from '../geometry/convex.ts';
import { measureGap } from '../geometry/gap.ts';
import { add, dot, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { wrapBody, wrapLid } from '../fitting/envelope.ts';
import type { Fitting, Port } from '../fitting/fitting.ts';
import { findWanted, placeObstacle, type Obstacle, type Site } from './site.ts';

/** How near the fitting comes to one obstacle. */
export interface Clearance {
  readonly obstacle: Obstacle;
  /**
   * Least distance of the fitting's outside, its ends and openings closed by flat lids, mm. Where they overlap: minus the
   * longest of the shortest ways out of its pieces and walls, and out of the hull of all panels and folded walls where the
   * box reaches into their air way.
   */
  readonly value: number;
  /** What it should be, mm. */
  readonly wanted: number;
  /** The two points that are nearest to each other, on the fitting and on the obstacle; where they overlap, a point of each. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** The body of the fitting that is nearest. */
  readonly body: string;
}

/** The clearance of a fitting from every obstacle of the site, in the site's order. `thickness` of its board, mm. */
export function measureClearances(fitting: Fitting, site: Site, thickness: number): Clearance[] {
  const outside = wrapFitting(fitting, thickness);
  return site.obstacles.map((obstacle): Clearance => {
    const box = placeObstacle(obstacle);
    const wanted = findWanted(obstacle, site);
    const measured = outside.parts.map((part): Clearance => ({
      obstacle,
      wanted,
      body: part.body,
      ...measureApart(part.solid, box)
    }));
    const least = measured.reduce((nearest, one) => (one.value < nearest.value ? one : nearest));
    const { hollow } = outside;
    if (!hollow || !meets(hollow, box) || !reachesInside(outside, fitting, box)) return least;
    return { ...least, value: Math.min(least.value, tellDepth(hollow, box)) };
  });
}

/** The outside of a fitting, its open ends closed by lids where no solid of a body does. */
interface Outside {
  readonly parts: readonly { readonly solid: ConvexSolid; readonly body: string }[];
  /** Those of them that are lids. */
  readonly lids: readonly ConvexSolid[];
  /** What the bodies that are board alone have between them lies in this hull; null where all bodies are filled. */
  readonly hollow: ConvexSolid | null;
}

function wrapFitting({ bodies, ports }: Fitting, thickness: number): Outside {
  const wrapped = bodies.map((body) => ({ body, ...wrapBody(body) }));
  const open = wrapped.filter(({ filled }) => !filled);
  const isOpen = (port: Port): boolean =>
    open.some(({ body: { name } }) => name === port.body || port.others?.includes(name));
  const lids = ports.filter(isOpen).map((port) => ({ solid: wrapLid(port, thickness), body: port.body }));
  return {
    parts: [
      ...wrapped.flatMap(({ body, solids }) => solids.map((solid) => ({ solid, body: body.name }))),
      ...lids
    ],
    lids: lids.map(({ solid }) => solid),
    hollow: open.length === 0 ? null : joinSolids(open.flatMap(({ solids }) => solids))
  };
}

/** The least convex solid round some, with the directions of each. */
function joinSolids(solids: readonly ConvexSolid[]): ConvexSolid {
  return {
    corners: solids.flatMap(({ corners }) => corners),
    normals: solids.flatMap(({ normals }) => normals),
    edges: solids.flatMap(({ edges }) => edges)
  };
}

/** An air way is looked into from so many places along every leg of its axis, and from the nearest. */
const LOOKS = 8;

/**
 * Whether a box reaches into an air way, though its board may not tell: nothing of the outside is between the middle of the
 * box and the axis, or the box is in a lid.
 */
function reachesInside({ parts, lids }: Outside, { axes }: Fitting, box: ConvexSolid): boolean {
  const { middle } = wrapBall(box.corners);
  const isFree = (to: Vec3): boolean => {
    const way = [middle, to];
    return parts.every(({ solid }) => measureGap(way, solid.corners).distance > 0);
  };
  return (
    lids.some((lid) => meets(lid, box)) ||
    axes.some((axis) =>
      axis.slice(1).some((to, i) => {
        const from = axis[i]!;
        const along = subtract(to, from);
        const nearest = dot(subtract(middle, from), along) / dot(along, along);
        const shares = [nearest, ...Array.from({ length: LOOKS }, (_, k) => (k + 0.5) / LOOKS)];
        return shares.some((share) => share > 0 && share < 1 && isFree(add(from, scale(along, share))));
      })
    )
  );
}

/** The clearance that falls furthest short of what its obstacle wants, or exceeds it least; null without obstacles. */
export function findTightest(clearances: readonly Clearance[]): Clearance | null {
  return clearances.reduce<Clearance | null>(
    (tightest, one) =>
      tightest === null || one.value - one.wanted < tightest.value - tightest.wanted ? one : tightest,
    null
  );
}

/** The clearance that is least in itself; null without obstacles. */
export function findNearest(clearances: readonly Clearance[]): Clearance | null {
  return clearances.reduce<Clearance | null>(
    (nearest, one) => (nearest === null || one.value < nearest.value ? one : nearest),
    null
  );
}

function measureApart(solid: ConvexSolid, box: ConvexSolid): Pick<Clearance, 'value' | 'from' | 'to'> {
  const { distance, from, to } = measureGap(solid.corners, box.corners);
  if (distance > 0) return { value: distance, from, to };
  return { value: tellDepth(solid, box), from, to };
}

function meets(a: ConvexSolid, b: ConvexSolid): boolean {
  return measureGap(a.corners, b.corners).distance === 0;
}

/** Minus the shortest way out of each other; a depth of nothing is written without a sign. */
function tellDepth(solid: ConvexSolid, box: ConvexSolid): number {
  return 0 - Math.max(0, findWayOut(solid, box).depth);
}
