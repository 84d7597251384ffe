import type { Fitting } from '../kernel/fitting/fitting.ts';
import type { Site } from '../kernel/site/site.ts';
import type { Point } from './figure.ts';
import { findReached, seeBox } from './site.ts';
import { findNearestPoint, findWindow, outlineObstacle } from './site-outline.ts';
import type { View } from './view.ts';

/** An obstacle too far away to be drawn unless it is reached for, and the way there as it is seen: right and down are 1. */
export interface Far {
  readonly obstacle: number;
  readonly across: -1 | 0 | 1;
  readonly down: -1 | 0 | 1;
}

/** The obstacles that a view does not show, and the one that it shows only because it is `reached` for. */
export function listFar(
  fitting: Fitting,
  site: Site,
  thickness: number,
  view: View,
  reached: number | null
): Far[] {
  const near = findWindow(fitting, site, thickness, view, null);
  const drawn = findWindow(fitting, site, thickness, view, findReached(site, reached));
  const { left, top, right, bottom } = near;
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  return site.obstacles.flatMap((one, obstacle): Far[] => {
    if (seeBox(one, view, obstacle === reached ? near : drawn).length > 2) return [];
    const [x, y] = findNearestPoint(outlineObstacle(one, view), middle);
    const across = x < left ? -1 : x > right ? 1 : 0;
    const down = y < top ? -1 : y > bottom ? 1 : 0;
    // One that is seen on edge has nothing to be drawn, wherever it stands.
    return across === 0 && down === 0 ? [] : [{ obstacle, across, down }];
  });
}
