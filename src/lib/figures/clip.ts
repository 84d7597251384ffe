import type { Box, Fill, Item, Point, Stroke } from './figure.ts';
import { clipOutline } from './outline.ts';

/** The parts of strokes and fills inside a box, mm of the thing drawn; texts are not touched, they are placed anew. */
export function clipItems(items: readonly Item[], box: Box): Item[] {
  return items.flatMap((item): Item[] => {
    if (item.kind === 'stroke') return clipStroke(item, box);
    if (item.kind === 'fill') return clipFill(item, box);
    return [item];
  });
}

/** The part of a line from a to b inside a box (Liang and Barsky); null where it misses it. */
export function clipLine(a: Point, b: Point, box: Box): [Point, Point] | null {
  let [enter, leave] = [0, 1];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const sides: [number, number][] = [
    [-dx, a[0] - box.left],
    [dx, box.right - a[0]],
    [-dy, a[1] - box.top],
    [dy, box.bottom - a[1]]
  ];
  for (const [outward, room] of sides) {
    if (outward === 0 && room < 0) return null;
    if (outward < 0) enter = Math.max(enter, room / outward);
    if (outward > 0) leave = Math.min(leave, room / outward);
  }
  if (enter > leave) return null;
  const at = (share: number): Point => [a[0] + share * dx, a[1] + share * dy];
  return [at(enter), at(leave)];
}

function clipStroke(stroke: Stroke, box: Box): Stroke[] {
  const { points, closed, ...rest } = stroke;
  if (points.every((point) => isInside(point, box))) return [stroke];
  const ring = closed ? [...points, points[0]!] : points;
  return ring.slice(1).flatMap((point, i) => {
    const part = clipLine(ring[i]!, point, box);
    return part ? [{ ...rest, points: part }] : [];
  });
}

function clipFill(fill: Fill, box: Box): Fill[] {
  const { left, top, right, bottom } = box;
  const window: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom]
  ];
  return clipOutline(fill.points, window).map((points) => ({ ...fill, points }));
}

function isInside([x, y]: Point, { left, top, right, bottom }: Box): boolean {
  return x >= left && x <= right && y >= top && y <= bottom;
}
