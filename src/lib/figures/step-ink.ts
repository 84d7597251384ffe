import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import type { Fill, Item, LineKind, Point, Stroke, Text } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { LETTERING, shortenText } from './lettering.ts';

/** Size of the picture of a step, mm on paper. */
export const PICTURE = { width: 34, height: 20 } as const;

/** Length and half the width of an arrow's head, mm. */
const HEAD = { length: 2, half: 0.8 } as const;

/** Steps in which an arc is drawn, degrees. */
const ARC_STEP = 10;

/** A part of board: filled, with its outline. */
export function drawBoard(points: readonly Point[], line: LineKind = 'visible'): Item[] {
  return [fillWith('board', points), drawClosed(points, line)];
}

export function fillWith(fill: 'board' | 'air', points: readonly Point[]): Fill {
  return { kind: 'fill', fill, points };
}

/** Length of the blade's glyph, how far it may lean aside, and the base line it stands on, mm. */
const BLADE = 8;
const ASIDE = 5.7;
const BASE = 9;

/** A blade on the facing: a stroke on a base line, tilted as it is held; a positive tilt, degrees, leans to the right. */
export function drawBlade([x, y]: Point, tilt: number): Stroke[] {
  const length = Math.min(BLADE, ASIDE / Math.abs(sinDegrees(tilt)));
  return [
    drawLine([
      [x - BASE / 2, y],
      [x + BASE / 2, y]
    ]),
    drawLine(
      [
        [x, y],
        [x + length * sinDegrees(tilt), y - length * cosDegrees(tilt)]
      ],
      'cut'
    )
  ];
}

/** A narrow line with a head at its end. */
export function drawArrow(from: Point, to: Point): Stroke[] {
  return [drawLine([from, to]), drawHead(to, [to[0] - from[0], to[1] - from[1]])];
}

/** An arrow along an ellipse, from one angle to another, degrees counter-clockwise from the right. */
export function drawArcArrow(centre: Point, rx: number, ry: number, start: number, end: number): Stroke[] {
  const steps = Math.max(2, Math.ceil(Math.abs(end - start) / ARC_STEP));
  const points = Array.from({ length: steps + 1 }, (_, i): Point => {
    const angle = start + ((end - start) * i) / steps;
    return [centre[0] + rx * cosDegrees(angle), centre[1] - ry * sinDegrees(angle)];
  });
  const [before, last] = [points[steps - 1]!, points[steps]!];
  return [drawLine(points), drawHead(last, [last[0] - before[0], last[1] - before[1]])];
}

/** A letter or two on a picture, cut off where it would be wider than `width`. */
export function writeOn(
  text: string,
  at: Point,
  { width = PICTURE.width, anchor = 'middle' }: { width?: number; anchor?: Text['anchor'] } = {}
): Text {
  return writeLine(shortenText(text, LETTERING.figures, width), at, { anchor });
}

/** Brings points (any number of outlines) into a box at one scale both ways, in its middle. */
export function fitInto(
  outlines: readonly (readonly Point[])[],
  [left, top, right, bottom]: readonly [number, number, number, number]
): Point[][] {
  const points = outlines.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [west, east] = [Math.min(...xs), Math.max(...xs)];
  const [north, south] = [Math.min(...ys), Math.max(...ys)];
  const scale = Math.min((right - left) / (east - west || 1), (bottom - top) / (south - north || 1));
  const place = ([x, y]: Point): Point => [
    (left + right) / 2 + (x - (west + east) / 2) * scale,
    (top + bottom) / 2 + (y - (north + south) / 2) * scale
  ];
  return outlines.map((outline) => outline.map(place));
}

/** A strip of tape: it covers what is under it. */
export function drawTape(points: readonly Point[]): Item[] {
  return [fillWith('air', points), drawClosed(points, 'narrow')];
}

/** A section seen from its end, at one scale into a box, its board drawn thick enough to be seen. */
export function drawSection(
  { width, height }: { width: number; height: number },
  box: readonly [number, number, number, number]
): { items: Item[]; outer: Point[]; inner: Point[] } {
  const [outer] = fitInto([boxPoints(0, 0, width, height)], box) as [Point[]];
  const [[left, top], , [right, bottom]] = outer as [Point, Point, Point];
  const thick = Math.min(2, (bottom - top) / 4, (right - left) / 4);
  const inner = boxPoints(left + thick, top + thick, right - thick, bottom - thick);
  return {
    items: [
      fillWith('board', outer),
      fillWith('air', inner),
      drawClosed(outer, 'visible'),
      drawClosed(inner, 'narrow')
    ],
    outer,
    inner
  };
}

/** A narrow line with a head at both ends. */
export function drawSpan(from: Point, to: Point): Item[] {
  const [, head] = drawArrow(to, from);
  return [...drawArrow(from, to), head!];
}

function drawHead(tip: Point, [dx, dy]: Point): Stroke {
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const foot: Point = [tip[0] - ux * HEAD.length, tip[1] - uy * HEAD.length];
  return drawLine([
    [foot[0] - uy * HEAD.half, foot[1] + ux * HEAD.half],
    tip,
    [foot[0] + uy * HEAD.half, foot[1] - ux * HEAD.half]
  ]);
}
