import type { Point, Stroke } from './figure.ts';

/** Distance of hatching lines on paper, mm, square to them. */
const PITCH = 2.5;

/** Hatches a convex polygon with narrow lines at 45°, rising to the right; `scale` is mm on paper per mm of the thing. */
export function hatchPolygon(polygon: readonly Point[], scale: number): Stroke[] {
  // Along a line that rises to the right x + y stays the same, y running down.
  const levels = polygon.map(([x, y]) => x + y);
  const pitch = (PITCH * Math.SQRT2) / scale;
  const first = Math.floor(Math.min(...levels) / pitch) + 1;
  const last = Math.ceil(Math.max(...levels) / pitch) - 1;
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * pitch).flatMap(
    (level) => {
      const points = polygon.flatMap((from, i) => crossEdge(from, polygon[(i + 1) % polygon.length]!, level));
      const [a, b] = [points[0], points[points.length - 1]];
      return a && b ? [{ kind: 'stroke', line: 'narrow', points: [a, b] } as const] : [];
    }
  );
}

function crossEdge(from: Point, to: Point, level: number): Point[] {
  const [a, b] = [from[0] + from[1] - level, to[0] + to[1] - level];
  if (a < 0 === b < 0) return [];
  const share = a / (a - b);
  return [[from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]];
}
