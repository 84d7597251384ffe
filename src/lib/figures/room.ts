import type { Box, Figure, Item, Point, Text } from './figure.ts';
import { findTextRoom } from './lettering.ts';

/** A convex outline on paper, mm; two points are a line. */
export type Outline = readonly Point[];

/** Two things may come this close on paper, mm. */
const CLEAR = 0.3;

/**
 * The room on a figure, for the one rule that keeps texts apart everywhere: a text may stand at several places, said
 * best first, and takes the first at which it meets neither a text that is already there nor a line it has to keep
 * off. Where there is none it is left out, and whoever asked says so.
 */
export interface Room {
  /** Keeps what is placed later off this. */
  keep(outline: Outline): void;
  isFree(outline: Outline): boolean;
  /** Takes the first free one of these places, each made of outlines; answers its index, or −1. */
  take(places: readonly (readonly Outline[])[]): number;
  /** A room with the same things in it; what is taken there is not taken here. */
  fork(): Room;
}

/** A room with nothing in it; what does not lie wholly inside `bounds` (convex, paper mm) is never free. */
export function startRoom(bounds?: Outline): Room {
  return openRoom(bounds, []);
}

/** What is kept, with its box: most things are too far away to look at more closely. */
interface Kept {
  readonly outline: Outline;
  readonly box: Box;
}

function openRoom(bounds: Outline | undefined, taken: readonly Kept[]): Room {
  const kept = [...taken];
  const keep = (outline: Outline): void => void kept.push({ outline, box: findBox(outline) });
  const isFree = (outline: Outline): boolean => {
    if (bounds && !outline.every((point) => isInside(point, bounds))) return false;
    const box = findBox(outline);
    return kept.every((other) => !areNear(box, other.box) || measureGap(outline, other.outline) >= CLEAR);
  };
  return {
    keep,
    isFree,
    take(places) {
      const found = places.findIndex((place) => place.every(isFree));
      if (found >= 0) places[found]!.forEach(keep);
      return found;
    },
    fork: () => openRoom(bounds, kept)
  };
}

/** Places one text at the first free of several spots; null when none is. */
export function placeText(
  room: Room,
  scale: number,
  text: Omit<Text, 'at' | 'anchor' | 'kind'>,
  spots: readonly Pick<Text, 'at' | 'anchor'>[]
): Text | null {
  const texts = spots.map((spot): Text => ({ kind: 'text', ...text, ...spot }));
  const found = room.take(texts.map((candidate) => [findTextRoom(candidate, scale)]));
  return texts[found] ?? null;
}

/** Pairs of texts of a figure that lie over each other: there should be none. */
export function findOverlaps(figure: Figure, scale: number): [string, string][] {
  const texts = figure.layers.flatMap(({ items }) => items.filter((item: Item) => item.kind === 'text'));
  const rooms = texts.map((text) => findTextRoom(text, scale));
  return texts.flatMap((text, i) =>
    texts
      .slice(i + 1)
      .filter((_, k) => measureGap(rooms[i]!, rooms[i + 1 + k]!) < 0)
      .map((other): [string, string] => [text.text, other.text])
  );
}

/**
 * The widest gap between the shadows of two convex outlines over the directions that can part them (separating axis
 * theorem), paper mm: negative where they overlap. Beside corners it is a little less than their distance.
 */
function measureGap(a: Outline, b: Outline): number {
  return Math.max(...[...listNormals(a), ...listNormals(b)].map((normal) => measureGapAlong(normal, a, b)));
}

function findBox(outline: Outline): Box {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

function areNear(a: Box, b: Box): boolean {
  return (
    a.left < b.right + CLEAR &&
    b.left < a.right + CLEAR &&
    a.top < b.bottom + CLEAR &&
    b.top < a.bottom + CLEAR
  );
}

function measureGapAlong([nx, ny]: Point, a: Outline, b: Outline): number {
  const [aLow, aHigh] = project(nx, ny, a);
  const [bLow, bHigh] = project(nx, ny, b);
  return Math.max(bLow - aHigh, aLow - bHigh);
}

function project(nx: number, ny: number, outline: Outline): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const [x, y] of outline) {
    const at = nx * x + ny * y;
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
}

function listNormals(outline: Outline): Point[] {
  return outline.flatMap(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length]!;
    const length = Math.hypot(nextX - x, nextY - y);
    if (length === 0) return [];
    const along: Point = [(nextX - x) / length, (nextY - y) / length];
    // A line has its own direction as well, in which something may lie beyond its ends.
    return outline.length === 2 ? [[-along[1], along[0]], along] : [[-along[1], along[0]]];
  });
}

function isInside(point: Point, bounds: Outline): boolean {
  const sides = bounds.map(([x, y], i) => {
    const [nextX, nextY] = bounds[(i + 1) % bounds.length]!;
    return (nextX - x) * (point[1] - y) - (nextY - y) * (point[0] - x);
  });
  return sides.every((side) => side >= 0) || sides.every((side) => side <= 0);
}
