import { clipLine } from './clip.ts';
import type { Box, Point } from './figure.ts';

/** One page of a template at full size: its part of the unrolled faces, mm, and crosses it shares with its neighbours. */
export interface Tile {
  readonly window: Box;
  readonly crosses: readonly Point[];
}

/** A line that has to be on the pages, from one point to another. */
export type Line = readonly [Point, Point];

/** Around the lines there is so much paper, mm, less where that saves a page; and pages overlap at least so far. */
const AROUND = 15;
const LEAST_AROUND = 3;
const OVERLAP = 12;

/** How far crosses stand from the ends of an overlap, mm. */
const CROSS_INSET = 15;

/**
 * Tiles of a given size that cover lines, row by row from the top. A row is as wide as what crosses it, so a slanting
 * line takes one page a row where it can; pages without a line are not made.
 */
export function tileLines(lines: readonly Line[], size: { width: number; height: number }): Tile[] {
  const points = lines.flat();
  const tops = spread(
    Math.min(...points.map(([, y]) => y)) - AROUND,
    Math.max(...points.map(([, y]) => y)) + AROUND,
    size.height
  );
  const windows = tops.flatMap((top) => {
    const row = { left: -Infinity, right: Infinity, top, bottom: top + size.height };
    const crossing = lines.flatMap(([a, b]) => clipLine(a, b, row) ?? []);
    if (crossing.length === 0) return [];
    const xs = crossing.map(([x]) => x);
    return spread(Math.min(...xs) - AROUND, Math.max(...xs) + AROUND, size.width)
      .map((left): Box => ({ left, right: left + size.width, top, bottom: top + size.height }))
      .filter((window) => lines.some(([a, b]) => clipLine(a, b, window) !== null));
  });
  const overlaps = windows.flatMap((a, i) => windows.slice(i + 1).map((b) => meet(a, b)));
  const crosses = overlaps.flatMap(placeCrosses);
  return windows.map((window) => ({
    window,
    crosses: crosses.filter((cross) => isWellInside(cross, window))
  }));
}

/** Where windows of one size begin that together cover from `low` to `high`, evenly, overlapping enough. */
function spread(low: number, high: number, size: number): number[] {
  const length = high - low;
  if (length - 2 * (AROUND - LEAST_AROUND) <= size) return [(low + high - size) / 2];
  const count = Math.ceil((length - OVERLAP) / (size - OVERLAP));
  return Array.from({ length: count }, (_, i) => low + ((length - size) * i) / (count - 1));
}

function meet(a: Box, b: Box): Box {
  return {
    left: Math.max(a.left, b.left),
    right: Math.min(a.right, b.right),
    top: Math.max(a.top, b.top),
    bottom: Math.min(a.bottom, b.bottom)
  };
}

/** Two crosses on the middle line of an overlap, near its ends; one where it is short. */
function placeCrosses({ left, right, top, bottom }: Box): Point[] {
  const [width, height] = [right - left, bottom - top];
  if (width < OVERLAP / 2 || height < OVERLAP / 2) return [];
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  if (Math.max(width, height) < 4 * CROSS_INSET) return [middle];
  return width >= height
    ? [
        [left + CROSS_INSET, middle[1]],
        [right - CROSS_INSET, middle[1]]
      ]
    : [
        [middle[0], top + CROSS_INSET],
        [middle[0], bottom - CROSS_INSET]
      ];
}

function isWellInside([x, y]: Point, { left, right, top, bottom }: Box): boolean {
  return x > left + 2 && x < right - 2 && y > top + 2 && y < bottom - 2;
}
