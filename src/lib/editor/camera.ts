import type { Box, Point } from '../figures/figure.ts';

/** CSS pixels of a millimetre on paper: letters and lines have the size on the screen that they have in print. */
export const PX_PER_PAPER_MM = 96 / 25.4;

/** How a figure lies on the screen: pixels per mm of the thing drawn, and where the figure's origin is, px. */
export interface Camera {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export function toScreen(camera: Camera, [x, y]: Point): Point {
  return [camera.x + x * camera.scale, camera.y + y * camera.scale];
}

/** Nearer than this two handles look like one, px; and how far a step takes one of them away. */
const TOO_NEAR = 14;
const STEP = 28;

/**
 * Places, px, moved so far that no two handles look like one: a later one goes on in its direction (`along`,
 * any length; straight down where it has none) until it is clear of all before it, and of the places that are `taken`.
 */
export function spreadPlaces(
  places: readonly { readonly at: Point; readonly along: Point }[],
  taken: readonly Point[] = []
): Point[] {
  const spread = [...taken];
  for (const { at, along } of places) {
    const length = Math.hypot(...along);
    const [dx, dy] = length > 0 ? [along[0] / length, along[1] / length] : [0, 1];
    let [x, y] = at;
    while (spread.some((other) => Math.hypot(other[0] - x, other[1] - y) < TOO_NEAR)) {
      x += dx * STEP;
      y += dy * STEP;
    }
    spread.push([x, y]);
  }
  return spread.slice(taken.length);
}

/** The camera at this scale with a box, px from the figure's origin, in the middle of the view. */
export function centreBox(box: Box, size: Size, scale: number): Camera {
  return {
    scale,
    x: (size.width - box.left - box.right) / 2,
    y: (size.height - box.top - box.bottom) / 2
  };
}

/** By how much a box could grow, px, to fill the view up to a margin; less than 1 where it is too large. */
export function measureSlack(box: Box, size: Size, margin: number): number {
  return Math.min(
    Math.max(1, size.width - 2 * margin) / Math.max(1, box.right - box.left),
    Math.max(1, size.height - 2 * margin) / Math.max(1, box.bottom - box.top)
  );
}

/** Whether all of a box, px from the figure's origin, is in sight. */
export function isInSight(camera: Camera, box: Box, size: Size): boolean {
  return (
    camera.x + box.left >= 0 &&
    camera.y + box.top >= 0 &&
    camera.x + box.right <= size.width &&
    camera.y + box.bottom <= size.height
  );
}

const LEAST_SCALE = 0.005;
const GREATEST_SCALE = 20;

/** Zooms by a factor about a point of the screen, which stays where it is. */
export function zoomAbout(camera: Camera, [px, py]: Point, factor: number): Camera {
  const scale = Math.min(GREATEST_SCALE, Math.max(LEAST_SCALE, camera.scale * factor));
  const applied = scale / camera.scale;
  return { scale, x: px - (px - camera.x) * applied, y: py - (py - camera.y) * applied };
}

export function panBy(camera: Camera, dx: number, dy: number): Camera {
  return { ...camera, x: camera.x + dx, y: camera.y + dy };
}
