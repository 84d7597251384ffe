import { clipLine } from './clip.ts';
import type { Box, Point } from './figure.ts';

/** One page of a template at full size: its part of the unrolled faces, mm, and crosses it shares with its neighbours. */
export interface Tile {
  readonly window: Box;
  readonly crosses: readonly Point[];
  /** Counted from the top and from the left, from 1. */
  readonly row: number;
  readonly column: number;
}

/** What a page shows, mm. On a roll one way is free: it is as long as what it shows, from `least` up to what is given. */
export interface TileSize {
  readonly width: number;
  readonly height: number;
  readonly free?: { readonly way: 'width' | 'height'; readonly least: number };
}

/** A line that has to be on the pages, from one point to another. */
export type Line = readonly [Point, Point];

/** Around the lines there is so much paper, mm, less where that saves a page; and pages overlap at least so far. */
const AROUND = 15;
const LEAST_AROUND = 3;
const OVERLAP = 12;

/** How far crosses stand from the ends of an overlap, mm: not where the outline of what is on the pages runs. */
const CROSS_INSET = 22;

/**
 * Tiles that cover lines, row by row from the top. A row is as wide as what crosses it, so a slanting line takes one
 * page a row where it can; pages without a line are not made.
 */
export function tileLines(lines: readonly Line[], { width, height, free }: TileSize): Tile[] {
  const rows = spread(measureSpan(lines, 1), height, free?.way === 'height' ? free.least : height);
  const windows = rows.flatMap(([top, bottom], row) => {
    const crossing = clipLines(lines, { left: -Infinity, right: Infinity, top, bottom });
    if (crossing.length === 0) return [];
    const columns = spread(measureSpan(crossing, 0), width, free?.way === 'width' ? free.least : width);
    return columns.flatMap(([left, right], column) => {
      const window: Box = { left, right, top, bottom };
      const shown = clipLines(lines, window);
      if (shown.length === 0) return [];
      const cropped = free?.way === 'height' ? cropHeight(shown, window, free.least) : window;
      return [{ window: cropped, row: row + 1, column: column + 1 }];
    });
  });
  const crosses = joinWindows(windows.map(({ window }) => window));
  return windows.map((tile) => ({
    ...tile,
    crosses: crosses.filter((cross) => isWellInside(cross, tile.window))
  }));
}

function clipLines(lines: readonly Line[], window: Box): Line[] {
  return lines.flatMap(([a, b]) => {
    const part = clipLine(a, b, window);
    return part ? [part] : [];
  });
}

/** From where to where lines reach along an axis. */
function measureSpan(lines: readonly Line[], axis: 0 | 1): readonly [low: number, high: number] {
  const along = lines.flat().map((point) => point[axis]);
  return [Math.min(...along), Math.max(...along)];
}

/**
 * Windows, no longer than `most`, that together cover a span with paper around it, evenly, overlapping enough. They are
 * as long as they have to be, but no shorter than `least`.
 */
function spread(
  [low, high]: readonly [number, number],
  most: number,
  least: number
): [from: number, to: number][] {
  const length = high - low + 2 * AROUND;
  if (length - 2 * (AROUND - LEAST_AROUND) <= most) {
    const [middle, half] = [(low + high) / 2, Math.min(Math.max(length, least), most) / 2];
    return [[middle - half, middle + half]];
  }
  const count = Math.ceil((length - OVERLAP) / (most - OVERLAP));
  const size = Math.max((length + (count - 1) * OVERLAP) / count, least);
  return Array.from({ length: count }, (_, i) => {
    const from = low - AROUND + ((length - size) * i) / (count - 1);
    return [from, from + size];
  });
}

/** A window of a roll, as high as what lies in it, with paper around that as far as the window reaches. */
function cropHeight(shown: readonly Line[], { top, bottom, ...across }: Box, least: number): Box {
  const [low, high] = measureSpan(shown, 1);
  const [from, to] = [Math.max(top, low - AROUND), Math.min(bottom, high + AROUND)];
  const short = Math.max(0, least - (to - from)) / 2;
  return { ...across, top: from - short, bottom: to + short };
}

/** Crosses on all overlaps, the largest first; none beside one that the two windows share already. */
function joinWindows(windows: readonly Box[]): Point[] {
  const pairs = windows.flatMap((a, i) => windows.slice(i + 1).map((b) => ({ a, b, common: meet(a, b) })));
  const measure = ({ left, right, top, bottom }: Box): number => (right - left) * (bottom - top);
  const crosses: Point[] = [];
  for (const { a, b, common } of pairs
    .filter(({ common: { left, right, top, bottom } }) => right > left && bottom > top)
    .sort((one, other) => measure(other.common) - measure(one.common))) {
    const shared = crosses.filter((cross) => isWellInside(cross, a) && isWellInside(cross, b));
    const isNear = ([x, y]: Point): boolean =>
      shared.some((cross) => Math.hypot(cross[0] - x, cross[1] - y) < 2 * CROSS_INSET);
    crosses.push(...placeCrosses(common).filter((cross) => !isNear(cross)));
  }
  return crosses;
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
