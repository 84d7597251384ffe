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

/** The camera that shows a box as large as it goes, centred, with a margin in px round it. */
export function fitBox(box: Box, size: Size, margin: number): Camera {
  const room = { width: Math.max(1, size.width - 2 * margin), height: Math.max(1, size.height - 2 * margin) };
  const scale = Math.min(
    room.width / Math.max(1, box.right - box.left),
    room.height / Math.max(1, box.bottom - box.top)
  );
  return {
    scale,
    x: size.width / 2 - ((box.left + box.right) / 2) * scale,
    y: size.height / 2 - ((box.top + box.bottom) / 2) * scale
  };
}

/** Whether all of a box is in sight. */
export function isInSight(camera: Camera, box: Box, size: Size): boolean {
  const [left, top] = toScreen(camera, [box.left, box.top]);
  const [right, bottom] = toScreen(camera, [box.right, box.bottom]);
  return left >= 0 && top >= 0 && right <= size.width && bottom <= size.height;
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
