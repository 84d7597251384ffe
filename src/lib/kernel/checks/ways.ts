import { measurePenetration, type ConvexSolid } from '../geometry/convex.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { add, cross, scale } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Fitting, Port } from '../fitting/fitting.ts';
import { CORNERS, placeCorner } from '../straight/section.ts';

/** How far the ducts that go on from a fitting are looked at, mm: common practice, no source. */
const FURTHER_ON = 2000;

/** Ducts that would go straight on from two ends of a branching fitting and run into each other; the first pair is told. */
export function checkWays({ ports }: Fitting): Finding[] {
  const open = ports.filter(({ isOpening }) => !isOpening);
  if (open.length < 3) return [];
  const ducts = open.map(extend);
  for (let j = 1; j < open.length; j++) {
    for (let i = 0; i < j; i++) {
      if (measurePenetration(ducts[i]!, ducts[j]!, SAME_LENGTH) <= SAME_LENGTH) continue;
      return [
        {
          level: 'warning',
          code: 'ways-cross',
          data: { first: open[i]!.name, second: open[j]!.name, within: FURTHER_ON },
          source: 'geometry'
        }
      ];
    }
  }
  return [];
}

/** The air way that goes on from an end, outward. */
function extend({ name, at, flow, up, section }: Port): ConvexSolid {
  const out = scale(flow, name === 'inlet' ? -1 : 1);
  const right = cross(flow, up);
  const ring = CORNERS.map((corner) => {
    const [y, z] = placeCorner(section, corner);
    return add(at, add(scale(up, y), scale(right, z)));
  });
  return {
    corners: [...ring, ...ring.map((corner) => add(corner, scale(out, FURTHER_ON)))],
    normals: [flow, up, right],
    edges: [flow, up, right]
  };
}
