import type { Item, Point, Stroke, Subject, Text } from './figure.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { keepOffLine, type Room } from './room.ts';

/** A distance to be dimensioned, from the one point to the other, mm of the thing drawn. */
export interface Measure {
  readonly from: Point;
  readonly to: Point;
  /** Unit direction to measure along; without it straight from the one to the other. */
  readonly along?: Point;
  /** From the further point to the dimension line, paper mm, to the left as one goes from `from` to `to`. */
  readonly away: number;
  readonly text: string;
  readonly about?: Subject;
}

/** An angle to be dimensioned: from one direction to another about a point, degrees counter-clockwise, 0 to the right. */
export interface Sweep {
  readonly at: Point;
  readonly start: number;
  readonly end: number;
  /** Paper mm. */
  readonly radius: number;
  readonly text: string;
  readonly about?: Subject;
}

/** Sizes on paper, mm, in the manner of ISO 129: narrow lines, oblique strokes, the figure above the line. */
const GAP = 1;
const OVERSHOOT = 2;
const OBLIQUE = 3;
const TEXT_ABOVE = 2.4;
const LEADER_ABOVE = 0.6;
const ROW = 4.4;
const ROWS = 5;

/** Distance of parallel dimension lines, paper mm: a figure fits between two. */
export const DIMENSION_PITCH = 7;

/**
 * Draws dimensions: extension lines, dimension line with an oblique stroke at either end, figure above its middle,
 * readable from below or from the right. A figure that would meet another goes to a further row with a leader, or
 * beside the end; where none is free it is left out with its dimension line and counted in `leftOut`.
 */
export function drawMeasures(
  measures: readonly Measure[],
  { scale, room, height = LETTERING.figures }: { scale: number; room: Room; height?: number }
): { items: Item[]; leftOut: number } {
  const laid = measures
    .map((measure) => layMeasure(measure, scale, height))
    .filter((dimension) => dimension !== null);
  // The lines of all come first, so that no figure stands on another's line.
  for (const { lines } of laid) for (const line of lines) keepOffLine(room, line.points, scale);
  const drawn = laid.map(({ lines, spots }) => {
    const found = room.take(
      spots.map(({ text, leader }) => () => [
        findTextRoom(text, scale),
        ...(leader ? [onPaper(leader, scale)] : [])
      ])
    );
    const spot = spots[found];
    return spot ? [...lines, ...(spot.leader ? [spot.leader] : []), spot.text] : null;
  });
  return {
    items: drawn.flatMap((items) => items ?? []),
    leftOut: drawn.filter((items) => items === null).length
  };
}

/** Dimensions of the parts between points on a line, one after another. */
export function chainMeasures(
  points: readonly Point[],
  away: number,
  say: (mm: number) => string
): Measure[] {
  return points.slice(1).map((to, i) => {
    const from = points[i]!;
    return { from, to, away, text: say(Math.hypot(to[0] - from[0], to[1] - from[1])) };
  });
}

/** Dimensions of points on a line, all from the first one, each a pitch further out. */
export function baselineMeasures(
  points: readonly Point[],
  away: number,
  say: (mm: number) => string
): Measure[] {
  const from = points[0]!;
  return points.slice(1).map((to, i) => ({
    from,
    to,
    away: away + i * DIMENSION_PITCH,
    text: say(Math.hypot(to[0] - from[0], to[1] - from[1]))
  }));
}

/** Draws the arc of an angle with its figure outside it; the figure moves outward while it would meet something. */
export function drawSweep(
  { at, start, end, radius, text, about }: Sweep,
  { scale, room, height = LETTERING.figures }: { scale: number; room: Room; height?: number }
): { items: Item[]; leftOut: number } {
  const subject = about ? { about } : {};
  const steps = Math.max(2, Math.ceil(Math.abs(end - start) / 5));
  const points = Array.from({ length: steps + 1 }, (_, i) =>
    goFrom(at, start + ((end - start) * i) / steps, radius / scale)
  );
  const arc: Stroke = { kind: 'stroke', line: 'narrow', points, ...subject };
  const middle = (start + end) / 2;
  const spots = Array.from({ length: ROWS }, (_, i): Text => {
    const [x] = goFrom([0, 0], middle, 1);
    return {
      kind: 'text',
      text,
      at: goFrom(at, middle, (radius + TEXT_ABOVE + i * ROW) / scale),
      height,
      anchor: Math.abs(x) < 0.5 ? 'middle' : x > 0 ? 'start' : 'end',
      ...subject
    };
  });
  const found = room.take(spots.map((spot) => () => [findTextRoom(spot, scale)]));
  const spot = spots[found];
  if (!spot) return { items: [], leftOut: 1 };
  keepOffLine(room, points, scale);
  return {
    items: [arc, ...[points[0]!, points[steps]!].map((p) => strikeThrough(p, 45, scale, subject)), spot],
    leftOut: 0
  };
}

interface Spot {
  readonly text: Text;
  readonly leader: Stroke | null;
}

function layMeasure(
  { from, to, along, away, text, about }: Measure,
  scale: number,
  height: number
): { lines: Stroke[]; spots: Spot[] } | null {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return null;
  const [dx, dy]: Point = along ?? [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const out: Point = [dy, -dx];
  const outOf = ([x, y]: Point): number => x * out[0] + y * out[1];
  const level = Math.max(outOf(from), outOf(to)) + away / scale;
  const [a, b] = [from, to].map((point) => go(point, out, level - outOf(point))) as [Point, Point];

  const subject = about ? { about } : {};
  const narrow = (points: readonly Point[]): Stroke => ({
    kind: 'stroke',
    line: 'narrow',
    points,
    ...subject
  });
  const angle = readable((Math.atan2(-dy, dx) * 180) / Math.PI);
  const lines = [
    // A dimension line that begins at the point itself needs no line to it.
    ...[from, to].flatMap((point, i) => {
      const foot = [a, b][i]!;
      if (outOf(foot) - outOf(point) < GAP / scale) return [];
      return [narrow([go(point, out, GAP / scale), go(foot, out, OVERSHOOT / scale)])];
    }),
    narrow([a, b]),
    ...[a, b].map((point) => strikeThrough(point, angle + 45, scale, subject))
  ];

  const up: Point = [-Math.sin((angle * Math.PI) / 180), -Math.cos((angle * Math.PI) / 180)];
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const write = (at: Point, anchor: Text['anchor']): Text => ({
    kind: 'text',
    text,
    at,
    height,
    anchor,
    ...(angle === 0 ? {} : { angle }),
    ...subject
  });
  const rows = Array.from({ length: ROWS }, (_, row): Spot => {
    const distance = TEXT_ABOVE + row * ROW;
    const foot = go(middle, up, (distance - height) / scale);
    return {
      text: write(go(middle, up, distance / scale), 'middle'),
      leader: row === 0 ? null : narrow([go(middle, up, LEADER_ABOVE / scale), foot])
    };
  });
  const forward = dx * Math.cos((angle * Math.PI) / 180) - dy * Math.sin((angle * Math.PI) / 180) > 0;
  const beside = (point: Point, sense: number): Spot => ({
    text: write(go(point, [dx, dy], (sense * OBLIQUE) / scale), forward === sense > 0 ? 'start' : 'end'),
    leader: null
  });
  return { lines, spots: [...rows, beside(b, 1), beside(a, -1)] };
}

/** Brings an angle of writing, degrees counter-clockwise, to where it reads from below or from the right. */
function readable(angle: number): number {
  const turned = angle <= -90 + 1e-9 ? angle + 180 : angle > 90 + 1e-9 ? angle - 180 : angle;
  return Math.abs(turned) < 1e-9 ? 0 : turned;
}

/** The oblique stroke that ends a dimension line, at an angle in degrees counter-clockwise. */
export function strikeThrough(
  at: Point,
  angle: number,
  scale: number,
  subject: { about?: Subject } = {}
): Stroke {
  const half = OBLIQUE / 2 / scale;
  return {
    kind: 'stroke',
    line: 'narrow',
    points: [goFrom(at, angle + 180, half), goFrom(at, angle, half)],
    ...subject
  };
}

function onPaper(stroke: Stroke, scale: number): Point[] {
  return stroke.points.map(([x, y]) => [x * scale, y * scale]);
}

function go([x, y]: Point, [dx, dy]: Point, distance: number): Point {
  return [x + dx * distance, y + dy * distance];
}

/** From a point in a direction, degrees counter-clockwise on paper, where y runs down. */
function goFrom(at: Point, angle: number, distance: number): Point {
  return go(at, [Math.cos((angle * Math.PI) / 180), -Math.sin((angle * Math.PI) / 180)], distance);
}
