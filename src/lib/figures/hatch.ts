import type { Item, Point, Stroke } from './figure.ts';
import { findTextRoom } from './lettering.ts';

/** Distance of hatching lines on paper, mm, square to them, and how far they keep off a label. */
const PITCH = 2.5;
const CLEAR = 0.8;

/** From a to b along a line, as shares of its length. */
type Stretch = readonly [from: number, to: number];

/**
 * Hatches a convex polygon with narrow lines at 45°, rising to the right, interrupted where labels stand; `scale` is mm
 * on paper per mm of the thing drawn.
 */
export function hatchPolygon(polygon: readonly Point[], labels: readonly Item[], scale: number): Stroke[] {
  const gaps = labels.map((label) => findGap(label, scale));
  // Along a line that rises to the right x + y stays the same, y running down.
  const levels = polygon.map(([x, y]) => x + y);
  const pitch = (PITCH * Math.SQRT2) / scale;
  const first = Math.floor(Math.min(...levels) / pitch) + 1;
  const last = Math.ceil(Math.max(...levels) / pitch) - 1;
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * pitch).flatMap(
    (level) => {
      const points = polygon.flatMap((from, i) => crossEdge(from, polygon[(i + 1) % polygon.length]!, level));
      const [a, b] = [points[0], points[points.length - 1]];
      return a && b ? interrupt(a, b, gaps) : [];
    }
  );
}

/** The box round a text or a line of a label, mm of the thing drawn. */
function findGap(label: Item, scale: number): Point[] {
  const onPaper = label.kind === 'text';
  const points = onPaper ? findTextRoom(label, scale) : label.points;
  const [xs, ys] = [0, 1].map((axis) => points.map((point) => point[axis]! / (onPaper ? scale : 1))) as [
    number[],
    number[]
  ];
  const clear = CLEAR / scale;
  const [left, right] = [Math.min(...xs) - clear, Math.max(...xs) + clear];
  const [top, bottom] = [Math.min(...ys) - clear, Math.max(...ys) + clear];
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom]
  ];
}

function crossEdge(from: Point, to: Point, level: number): Point[] {
  const [a, b] = [from[0] + from[1] - level, to[0] + to[1] - level];
  if (a < 0 === b < 0) return [];
  const share = a / (a - b);
  return [[from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]];
}

function interrupt(a: Point, b: Point, gaps: readonly (readonly Point[])[]): Stroke[] {
  const left = gaps.reduce<Stretch[]>(
    (stretches, gap) => {
      const [enter, leave] = findStretchInside(a, b, gap);
      if (enter >= leave) return stretches;
      return stretches.flatMap(([from, to]): Stretch[] =>
        [[from, Math.min(to, enter)] as const, [Math.max(from, leave), to] as const].filter(
          ([start, end]) => end > start
        )
      );
    },
    [[0, 1]]
  );
  const at = (share: number): Point => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
  return left.map(([from, to]) => ({ kind: 'stroke', line: 'narrow', points: [at(from), at(to)] }));
}

/** The stretch of a line inside a convex polygon that runs clockwise on paper (Cyrus and Beck). */
function findStretchInside(a: Point, b: Point, polygon: readonly Point[]): Stretch {
  let [enter, leave] = [0, 1];
  polygon.forEach(([x, y], i) => {
    const [nextX, nextY] = polygon[(i + 1) % polygon.length]!;
    const inward = ([px, py]: Point): number => (nextX - x) * (py - y) - (nextY - y) * (px - x);
    const [start, end] = [inward(a), inward(b)];
    if (start < 0 && end < 0) leave = -1;
    else if (start < 0) enter = Math.max(enter, start / (start - end));
    else if (end < 0) leave = Math.min(leave, start / (start - end));
  });
  return [enter, leave];
}
