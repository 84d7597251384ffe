import type { Fitting } from '../kernel/fitting/fitting.ts';
import { placeObstacle, type Obstacle } from '../kernel/site/site.ts';
import { compareDepth, drawCut, drawShape, shapeBodies } from './drawing-body.ts';
import type { Figure, Item } from './figure.ts';
import { wrapHull } from './hull.ts';
import { findView, project } from './view.ts';

/**
 * A fitting as it would stand, in the view in which it shows what it is, with the boxes it has to pass behind it: small
 * enough for a card, so without names, dimensions or inside. The layers are `boxes` and `fitting`.
 */
export function drawProposal(fitting: Fitting, obstacles: readonly Obstacle[]): Figure {
  const view = findView('true', fitting);
  const boxes = obstacles.flatMap((obstacle): Item[] => {
    const points = wrapHull(placeObstacle(obstacle).corners.map((corner) => project(view, corner)));
    return [
      { kind: 'fill', fill: 'offcut', points },
      { kind: 'stroke', line: 'narrow', points, closed: true }
    ];
  });
  const shapes = shapeBodies(fitting, view);
  const pieces = [...shapes].sort(compareDepth).flatMap((shape) => drawShape(shape, view));
  const cuts = fitting.joints.flatMap((joint) => drawCut(joint, shapes, view));
  return {
    layers: [
      { name: 'boxes', items: boxes },
      { name: 'fitting', items: [...pieces, ...cuts] }
    ]
  };
}
