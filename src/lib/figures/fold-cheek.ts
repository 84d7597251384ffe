import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { growSection, measureFace } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Point } from './figure.ts';
import { boxPoints } from './ink.ts';

/** The cheek of a folded straight, in depths of the cheek; lengths within what a picture shows. */
export interface Cheek {
  readonly begins: number;
  readonly ends: number;
  readonly whole: number;
  readonly drop: number;
  /** Width of the sloping wall. */
  readonly across: number;
  /** Of the blade on the cheek, degrees. */
  readonly bevel: number;
}

/** Thickness of the board in depths of the cheek, as it is drawn. */
export const THICK = 0.14;

/** Reads the fold off the marks: where they run askew over a cheek the slope lies. */
export function measureCheek({ name, marks, section, thickness }: Straight): Cheek {
  const askew = marks.find(
    ({ from, to }) => Math.abs(from[0] - to[0]) > SAME_LENGTH && Math.abs(from[1] - to[1]) > SAME_LENGTH
  );
  const slit = marks.find(({ kind }) => kind === 'slit');
  if (!askew || !slit) throw new Error(`no wall of ${name} is marked to be folded down`);
  const level = marks.find(({ face, from }) => face === askew.face && from[0] === askew.to[0])!;
  const outside = growSection(section, thickness);
  const depth = measureFace(outside, askew.face);
  const show = (length: number, least: number, most: number): number =>
    Math.max(least, Math.min(most, length / depth));
  const begins = show(askew.from[0], 0.25, 0.6);
  const ends = begins + show(askew.to[0] - askew.from[0], 0.5, 1.6);
  return {
    begins,
    ends,
    whole: ends + show(level.to[0] - level.from[0], 0.35, 0.6),
    drop: show(Math.abs(askew.to[1] - askew.from[1]), 0.12, 0.55),
    across: show(measureFace(outside, slit.face), 0.5, 1.2),
    bevel: askew.bevel
  };
}

/** The cheek once the slope is cut. */
export function outlineCheek(straight: Straight): Point[] {
  const { begins, ends, whole, drop } = measureCheek(straight);
  return [
    [0, 0],
    [begins, 0],
    [ends, drop],
    [whole, drop],
    [whole, 1],
    [0, 1]
  ];
}

/** The walls of the straight cut lengthwise: before the slope and on it in one, after it, opposite; `gap` after the slope. */
export function cutLengthwise({ begins, ends, whole, drop }: Cheek, gap: number): Point[][] {
  return [
    [
      [0, 0],
      [begins, 0],
      [ends, drop],
      [ends, drop + THICK],
      [begins, THICK],
      [0, THICK]
    ],
    boxPoints(ends + gap, drop, whole, drop + THICK),
    boxPoints(0, 1 - THICK, whole, 1)
  ];
}
