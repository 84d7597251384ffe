import type { LineKind, Point, Stroke, Text } from './figure.ts';
import { LETTERING } from './lettering.ts';

/** A line from point to point, narrow unless said. */
export function drawLine(points: readonly Point[], line: LineKind = 'narrow'): Stroke {
  return { kind: 'stroke', line, points };
}

/** An outline that closes itself, wide unless said. */
export function drawClosed(points: readonly Point[], line: LineKind = 'visible'): Stroke {
  return { kind: 'stroke', line, points, closed: true };
}

/** The corners of an upright box, clockwise on paper from its top left. */
export function boxPoints(left: number, top: number, right: number, bottom: number): Point[] {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom]
  ];
}

/** One line of text on a page, paper mm. */
export function writeLine(
  text: string,
  at: Point,
  {
    height = LETTERING.figures,
    anchor = 'start',
    bold = false,
    angle = 0
  }: {
    height?: number;
    anchor?: Text['anchor'];
    bold?: boolean;
    angle?: number;
  } = {}
): Text {
  return { kind: 'text', text, at, height, anchor, ...(bold ? { bold } : {}), ...(angle ? { angle } : {}) };
}
