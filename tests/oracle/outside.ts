// The outside of a mitered duct as solids of the mesh library, its ends closed, from legs and joints alone; obstacles as the
// library turns and moves a block; and how far the two are apart.
import type { Obstacle } from '../../src/lib/kernel/site/site.ts';
import { surround, type Legs, type Size } from '../properties/legs.ts';
import { combine, walkLegs, type Stand, type Vector } from '../properties/turtle.ts';
import { free, oracle, type Solid } from './manifold.ts';
import { span } from './profiles.ts';

/** Every leg of a duct as a prism between the planes that halve its joints, or square at an end. */
export function spanLegs({ lengths, joints }: Legs, section: Size, thickness: number): Solid[] {
  return listLegCorners({ lengths, joints }, section, thickness).map(span);
}

/** The eight outside corners of every leg. */
export function listLegCorners({ lengths, joints }: Legs, section: Size, thickness: number): Vector[][] {
  const { width, height } = surround(section, thickness);
  const legs = walkLegs(lengths, joints);
  const last = legs[legs.length - 1]!;
  const outlet = combine([1, last.at], [lengths[lengths.length - 1]!, last.flow]);
  return legs.map((leg, k) => {
    const [before, after] = [legs[k - 1] ?? leg, legs[k + 1] ?? { ...leg, at: outlet }];
    return [-1, 1].flatMap((up) =>
      [-1, 1].flatMap((right) => {
        const edge = combine([1, leg.at], [(up * height) / 2, leg.up], [(right * width) / 2, leg.right]);
        return [meet(leg, edge, before, leg.at), meet(leg, edge, after, after.at)];
      })
    );
  });
}

/** Where an edge of a leg meets the plane through a point that halves the angle between the leg and its neighbour. */
function meet(leg: Stand, edge: Vector, neighbour: Stand, point: Vector): Vector {
  const normal = combine([1, leg.flow], [1, neighbour.flow]);
  const along = dot(normal, combine([1, point], [-1, edge])) / dot(normal, leg.flow);
  return combine([1, edge], [along, leg.flow]);
}

/** An obstacle where it stands: its turn is counter-clockwise as seen from above. */
export function standObstacle({ min, max, turn = 0 }: Obstacle): Solid {
  const block = oracle.Manifold.cube([max[0] - min[0], max[1] - min[1], max[2] - min[2]], true);
  // The library turns by the right hand about y, which points at whoever looks from above.
  const turned = block.rotate([0, turn, 0]);
  const placed = turned.translate([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2]);
  free([block, turned]);
  return placed;
}

/** How far a solid is from the nearest of others, mm; 0 where they share a space or touch. */
export function measureDistance(solids: readonly Solid[], other: Solid): number {
  const far = other.boundingBox();
  return Math.min(
    ...solids.map((solid) => {
      const near = solid.boundingBox();
      // No two points of two boxes are further apart than the sides of the box round both of them.
      const reach = ([0, 1, 2] as const).reduce<number>(
        (sum, i) => sum + Math.max(near.max[i], far.max[i]) - Math.min(near.min[i], far.min[i]),
        0
      );
      return solid.minGap(other, reach);
    })
  );
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
