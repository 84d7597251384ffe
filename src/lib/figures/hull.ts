import type { Point } from './figure.ts';

/** The convex hull of points, clockwise on paper (y down), by Andrew's monotone chain; no corner lies on an edge. */
export function wrapHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (order: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const point of order) {
      while (chain.length >= 2 && turn(chain[chain.length - 2]!, chain[chain.length - 1]!, point) <= FLAT)
        chain.pop();
      chain.push(point);
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Twice the area, mm², under which three points are in line: a thousandth of a millimetre over a metre. */
const FLAT = 1;

function turn(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
