import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point, Stroke, Text } from './figure.ts';
import { LETTERING, measureText, shortenText } from './lettering.ts';

/** Portrait sizes, mm: ISO 216 A4, ANSI A (letter, 8 1/2 by 11 in). */
export const PAPERS = { a4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const;
export type PaperName = keyof typeof PAPERS;

/** A page of paper and what lies on it; every coordinate is mm from its top left corner. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly Part[];
}

/** A figure on a page: where its origin is, and mm on paper per mm of the thing drawn. */
export interface Part {
  readonly figure: Figure;
  readonly scale: number;
  readonly at: Point;
}

/** A page laid out, without what all pages have. */
export interface Leaf {
  readonly landscape: boolean;
  readonly title: string;
  readonly subtitle: string;
  /** At the right of the title, as a scale. */
  readonly note: string;
  readonly parts: readonly Part[];
}

/** Margins after ISO 5457: 20 mm on the left, 10 mm elsewhere; the bars that stand upright are in the left one. */
const LEFT = 20;
const EDGE = 10;
const HEADER = 13;
const FOOTER = 18;
const PADDING = 3;

/** The check bars, mm: one for those who measure in millimetres, one for those who measure in inches. */
const BARS = [
  { length: 100, label: '100 mm' },
  { length: 101.6, label: '4 in' }
] as const;
const BAR_PITCH = 5;
const BAR_TICK = 1.2;

export function sizePage(paper: PaperName, landscape: boolean): { width: number; height: number } {
  const { width, height } = PAPERS[paper];
  return landscape ? { width: height, height: width } : { width, height };
}

/** The part of a page that a drawing may fill: what frame, header, footer and check bars leave. */
export function findBody(paper: PaperName, landscape: boolean): Box {
  const { width, height } = sizePage(paper, landscape);
  return {
    left: LEFT + PADDING,
    top: EDGE + HEADER,
    right: width - EDGE - PADDING,
    bottom: height - EDGE - FOOTER
  };
}

/** Adds to every leaf its frame, title, page number and check bars. `framed` draws the frame of ISO 5457. */
export function finishPages(
  leaves: readonly Leaf[],
  paper: PaperName,
  framed: boolean,
  words: Words
): Page[] {
  return leaves.map(({ landscape, title, subtitle, note, parts }, i) => {
    const size = sizePage(paper, landscape);
    const items = [
      ...(framed ? drawFrame(size) : []),
      ...writeHeader(title, subtitle, note, size),
      ...drawBars(size),
      ...writeFooter(words, i + 1, leaves.length, size)
    ];
    const furniture: Part = { figure: { layers: [{ name: 'page', items }] }, scale: 1, at: [0, 0] };
    return { ...size, parts: [furniture, ...parts] };
  });
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

export function drawLine(points: readonly Point[], line: Stroke['line'] = 'narrow'): Stroke {
  return { kind: 'stroke', line, points };
}

function drawFrame({ width, height }: { width: number; height: number }): Item[] {
  const [right, bottom] = [width - EDGE, height - EDGE];
  const frame: Stroke = {
    kind: 'stroke',
    line: 'visible',
    closed: true,
    points: [
      [LEFT, EDGE],
      [right, EDGE],
      [right, bottom],
      [LEFT, bottom]
    ]
  };
  const level = bottom - FOOTER + PADDING;
  return [
    frame,
    drawLine([
      [LEFT, level],
      [right, level]
    ])
  ];
}

function writeHeader(title: string, subtitle: string, note: string, { width }: { width: number }): Item[] {
  const [left, right] = [LEFT + PADDING, width - EDGE - PADDING];
  const noteWidth = note === '' ? 0 : measureText(note, LETTERING.figures, true) + PADDING;
  return [
    writeLine(shortenText(title, LETTERING.names, right - left - noteWidth, true), [left, EDGE + 4.5], {
      height: LETTERING.names,
      bold: true
    }),
    ...(note === '' ? [] : [writeLine(note, [right, EDGE + 4.5], { anchor: 'end', bold: true })]),
    writeLine(shortenText(subtitle, LETTERING.figures, right - left), [left, EDGE + 9.5])
  ];
}

function writeFooter(
  { paper: { page } }: Words,
  number: number,
  pages: number,
  { width, height }: { width: number; height: number }
): Item[] {
  const level = height - EDGE - BAR_PITCH / 2;
  return [
    writeLine(page.check, [LEFT + PADDING, level - 2 * BAR_PITCH]),
    writeLine(page.number(number, pages), [width - EDGE - PADDING, level], { anchor: 'end' })
  ];
}

/** Both bars lie in the footer and stand in the left margin, with a tick at either end and their length beyond. */
function drawBars({ height }: { height: number }): Item[] {
  const foot = height - EDGE - BAR_PITCH / 2;
  return BARS.flatMap(({ length, label }, i) => {
    const left = LEFT + PADDING;
    const level = foot - i * BAR_PITCH;
    const upright = LEFT - 4.5 - i * BAR_PITCH;
    return [
      drawLine([
        [left, level],
        [left + length, level]
      ]),
      ...[left, left + length].map((x) =>
        drawLine([
          [x, level - BAR_TICK],
          [x, level + BAR_TICK]
        ])
      ),
      writeLine(label, [left + length + 2, level]),
      drawLine([
        [upright, foot],
        [upright, foot - length]
      ]),
      ...[foot, foot - length].map((y) =>
        drawLine([
          [upright - BAR_TICK, y],
          [upright + BAR_TICK, y]
        ])
      ),
      writeLine(label, [upright, foot - length - 2], { angle: 90 })
    ];
  });
}
