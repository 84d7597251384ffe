import type { Box, Figure, Item, Point, Text } from './figure.ts';
import { findTextRoom } from './lettering.ts';

/** A convex outline on paper, mm; two points are a line. */
export type Outline = readonly Point[];

/** Two things may come this close on paper, mm. */
const CLEAR = 0.3;

/** An outline with its box, as most are too far away to look at more closely, and the directions that may part it. */
export interface Shape {
  readonly outline: Outline;
  readonly box: Box;
  /** Found when first asked for. */
  normals?: readonly Point[];
}

/**
 * The room on a figure, for the one rule that keeps texts apart everywhere: a text may stand at several places, said
 * best first, and takes the first at which it meets neither a text that is already there nor a line it has to keep
 * off. Where there is none it is left out, and whoever asked says so.
 */
export interface Room {
  /** What is kept off, in the order it came. */
  readonly kept: readonly Shape[];
  /** Keeps what is placed later off this. */
  keep(outline: Outline): void;
  /** What is placed later keeps off this as well where it can, and lies over it where it cannot. */
  avoid(outline: Outline): void;
  /**
   * Takes the first free one of these places, each made of outlines once it is tried (null: it is none after all); answers
   * its index, or −1. `clear`: none that lies over what is to be avoided.
   */
  take(places: readonly (() => readonly Outline[] | null)[], clear?: boolean): number;
  /** A room with the same things in it; what is taken there is not taken here until it is joined. */
  fork(): Room;
  /** Takes over what was taken in a fork of this room; nothing may have been taken here since. */
  join(fork: Room): void;
}

/** A room with nothing in it; what does not lie wholly inside `bounds` (convex, paper mm) is never free. */
export function startRoom(bounds?: Outline): Room {
  return openRoom(bounds, [], []);
}

function openRoom(
  bounds: Outline | undefined,
  before: readonly Shape[],
  avoidedBefore: readonly Shape[]
): Room {
  const kept = [...before];
  const avoided = [...avoidedBefore];
  const keep = (outline: Outline): void => void kept.push(shapeOf(outline));
  const isApartFrom = (shape: Shape, others: readonly Shape[]): boolean =>
    others.every((other) => areApart(shape, other, CLEAR));
  const isWithin = ({ outline }: Shape): boolean =>
    !bounds || outline.every((point) => isInside(point, bounds));
  return {
    keep,
    avoid: (outline) => void avoided.push(shapeOf(outline)),
    take(places, clear = false) {
      let found: { readonly index: number; readonly shapes: readonly Shape[]; readonly over: number } | null =
        null;
      for (const [index, place] of places.entries()) {
        const shapes = place()?.map(shapeOf);
        if (!shapes?.every((shape) => isWithin(shape) && isApartFrom(shape, kept))) continue;
        // Of places that lie over something the one that lies over least.
        const over = avoided.filter(
          (other) => !shapes.every((shape) => areApart(shape, other, CLEAR))
        ).length;
        if (over === 0 || (!clear && over < (found?.over ?? Infinity))) found = { index, shapes, over };
        if (over === 0) break;
      }
      if (found) kept.push(...found.shapes);
      return found ? found.index : -1;
    },
    kept,
    fork: () => openRoom(bounds, kept, avoided),
    join: (fork) => void kept.push(...fork.kept.slice(kept.length))
  };
}

/** Keeps texts off a line of points, mm of the thing drawn; `scale` is mm on paper per mm of it. */
export function keepOffLine(room: Room, points: readonly Point[], scale: number): void {
  for (const part of listParts(points, scale)) room.keep(part);
}

/** Keeps texts off a line where they can, as {@link keepOffLine}. */
export function avoidLine(room: Room, points: readonly Point[], scale: number): void {
  for (const part of listParts(points, scale)) room.avoid(part);
}

function listParts(points: readonly Point[], scale: number): Outline[] {
  const onPaper = points.map(([x, y]): Point => [x * scale, y * scale]);
  return onPaper.slice(1).map((point, i) => [onPaper[i]!, point]);
}

/** Places one text at the first free of several spots; null when none is. */
export function placeText(
  room: Room,
  scale: number,
  text: Omit<Text, 'at' | 'anchor' | 'kind'>,
  spots: readonly Pick<Text, 'at' | 'anchor'>[]
): Text | null {
  const texts = spots.map((spot): Text => ({ kind: 'text', ...text, ...spot }));
  const found = room.take(texts.map((candidate) => () => [findTextRoom(candidate, scale)]));
  return texts[found] ?? null;
}

/** Pairs of texts of a figure that lie over each other: there should be none. */
export function findOverlaps(figure: Figure, scale: number): [string, string][] {
  const texts = figure.layers.flatMap(({ items }) => items.filter((item: Item) => item.kind === 'text'));
  const rooms = texts.map((text) => shapeOf(findTextRoom(text, scale)));
  return texts.flatMap((text, i) =>
    texts
      .slice(i + 1)
      .filter((_, k) => !areApart(rooms[i]!, rooms[i + 1 + k]!, 0))
      .map((other): [string, string] => [text.text, other.text])
  );
}

function shapeOf(outline: Outline): Shape {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of outline) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < top) top = y;
    if (y > bottom) bottom = y;
  }
  return { outline, box: { left, top, right, bottom } };
}

/**
 * Whether the shadows of two convex outlines are `clear` paper mm apart in a direction that can part them (separating
 * axis theorem). Beside corners that asks for a little more than their distance.
 */
function areApart(a: Shape, b: Shape, clear: number): boolean {
  if (!areNear(a.box, b.box, clear)) return true;
  const parts = (normal: Point): boolean => measureGapAlong(normal, a.outline, b.outline) >= clear;
  return (
    (a.normals ??= listNormals(a.outline)).some(parts) || (b.normals ??= listNormals(b.outline)).some(parts)
  );
}

function areNear(a: Box, b: Box, clear: number): boolean {
  return (
    a.left < b.right + clear &&
    b.left < a.right + clear &&
    a.top < b.bottom + clear &&
    b.top < a.bottom + clear
  );
}

function measureGapAlong([nx, ny]: Point, a: Outline, b: Outline): number {
  let [aLow, aHigh, bLow, bHigh] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of a) {
    const at = nx * x + ny * y;
    if (at < aLow) aLow = at;
    if (at > aHigh) aHigh = at;
  }
  for (const [x, y] of b) {
    const at = nx * x + ny * y;
    if (at < bLow) bLow = at;
    if (at > bHigh) bHigh = at;
  }
  return Math.max(bLow - aHigh, aLow - bHigh);
}

/** Directions square to the sides, but those along the axes: there the boxes say it already. */
function listNormals(outline: Outline): Point[] {
  return outline.flatMap(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length]!;
    const [dx, dy] = [nextX - x, nextY - y];
    if (dx === 0 || dy === 0) return [];
    const length = Math.hypot(dx, dy);
    const along: Point = [dx / length, dy / length];
    // A line has its own direction as well, in which something may lie beyond its ends.
    return outline.length === 2 ? [[-along[1], along[0]], along] : [[-along[1], along[0]]];
  });
}

/** Whether a point lies in a convex outline or on its edge. */
export function isInside(point: Point, bounds: Outline): boolean {
  const sides = bounds.map(([x, y], i) => {
    const [nextX, nextY] = bounds[(i + 1) % bounds.length]!;
    return (nextX - x) * (point[1] - y) - (nextY - y) * (point[0] - x);
  });
  return sides.every((side) => side >= 0) || sides.every((side) => side <= 0);
}
