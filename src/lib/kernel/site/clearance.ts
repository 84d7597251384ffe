import { measurePenetration, type ConvexSolid } from '../geometry/convex.ts';
import { measureGap } from '../geometry/gap.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { wrapBody } from '../fitting/envelope.ts';
import type { Fitting } from '../fitting/fitting.ts';
import { findWanted, placeObstacle, type Obstacle, type Site } from './site.ts';

/** How near the fitting comes to one obstacle. */
export interface Clearance {
  readonly obstacle: Obstacle;
  /** Least distance of the fitting's outside, ends included, mm; where they overlap, minus how deep. */
  readonly value: number;
  /** What it should be, mm. */
  readonly wanted: number;
  /** The two points that are nearest to each other, on the fitting and on the obstacle; where they overlap, a point of each. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** The body of the fitting that is nearest. */
  readonly body: string;
}

/** The clearance of a fitting from every obstacle of the site, in the site's order. */
export function measureClearances(fitting: Fitting, site: Site): Clearance[] {
  const solids = fitting.bodies.flatMap((body) =>
    wrapBody(body).map((solid) => ({ solid, body: body.name }))
  );
  return site.obstacles.map((obstacle) => {
    const box = placeObstacle(obstacle);
    const wanted = findWanted(obstacle, site);
    const measured = solids.map(({ solid, body }): Clearance => ({
      obstacle,
      wanted,
      body,
      ...measureApart(solid, box)
    }));
    return measured.reduce((least, one) => (one.value < least.value ? one : least));
  });
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
  // A depth of nothing is written without a sign.
  return { value: 0 - Math.max(0, measurePenetration(solid, box)), from, to };
}
