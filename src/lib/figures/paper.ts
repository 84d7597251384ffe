import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { breakLines, LETTERING, measureText, shortenText } from './lettering.ts';
import { drawTitleBlock, TITLE_BLOCK, type TitleEntries } from './title-block.ts';

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
  /** The scale, as the words say it. */
  readonly note: string;
  readonly parts: readonly Part[];
}

/** Margins after ISO 5457: 20 mm on the left, 10 mm elsewhere; the bars that stand upright are in the left one. */
const LEFT = 20;
const EDGE = 10;
const PADDING = 3;

/** A plain page has its title above the body, page number and check bars under it. */
const HEADER = 13;
const FOOTER = 18;

/** A titled page has its title block at the bottom and the check bars over it. */
const STRIP = 10.5;
const TOP = 2;

/** The check bars, mm: one for those who measure in millimetres, one for those who measure in inches. */
const BARS = [
  { length: 100, label: '100 mm' },
  { length: 101.6, label: '4 in' }
] as const;
const BAR_PITCH = 5;
const BAR_TICK = 1.2;

/** Room for a bar's label, and from line to line of the sentence beside them. */
const BAR_LABEL = 16;
const LINE = 3.4;

export function sizePage(paper: PaperName, landscape: boolean): { width: number; height: number } {
  const { width, height } = PAPERS[paper];
  return landscape ? { width: height, height: width } : { width, height };
}

/** The part of a page that a drawing may fill: what margins, title and check bars leave, plain or with a title block. */
export function findBody(paper: PaperName, landscape: boolean, titled = false): Box {
  const { width, height } = sizePage(paper, landscape);
  const [above, below] = titled ? [TOP, TITLE_BLOCK.height + STRIP] : [HEADER, FOOTER];
  return {
    left: LEFT + PADDING,
    top: EDGE + above,
    right: width - EDGE - PADDING,
    bottom: height - EDGE - below
  };
}

/** Adds to every leaf its title, page number and check bars. */
export function finishPages(leaves: readonly Leaf[], paper: PaperName, words: Words): Page[] {
  return leaves.map(({ landscape, title, subtitle, note, parts }, i) => {
    const size = sizePage(paper, landscape);
    const foot = size.height - EDGE - BAR_PITCH / 2;
    return layPage(size, parts, [
      ...writeHeader(title, subtitle, note, size),
      ...drawBars(size, foot),
      writeLine(words.paper.page.check, [LEFT + PADDING, foot - 2 * BAR_PITCH]),
      writeLine(words.paper.page.number(i + 1, leaves.length), [size.width - EDGE - PADDING, foot], {
        anchor: 'end'
      })
    ]);
  });
}

/** Adds to every leaf the frame of ISO 5457, the title block of ISO 7200 and check bars; `type` is the document's. */
export function finishTitledPages(
  leaves: readonly Leaf[],
  paper: PaperName,
  type: string,
  entries: TitleEntries,
  words: Words
): Page[] {
  return leaves.map(({ landscape, title, subtitle, note, parts }, i) => {
    const size = sizePage(paper, landscape);
    const [right, bottom] = [size.width - EDGE, size.height - EDGE];
    const top = bottom - TITLE_BLOCK.height;
    const said = { title, subtitle, type, scale: note, page: i + 1, pages: leaves.length };
    return layPage(size, parts, [
      drawClosed(boxPoints(LEFT, EDGE, right, bottom)),
      ...[top, top - STRIP].map((y) =>
        drawLine([
          [LEFT, y],
          [right, y]
        ])
      ),
      ...drawTitleBlock(right, bottom, entries, said, words),
      ...drawBars(size, top - BAR_PITCH / 2),
      ...writeBeside(words.paper.page.check, right - PADDING, top - STRIP / 2 - 0.3)
    ]);
  });
}

function layPage(size: { width: number; height: number }, parts: readonly Part[], items: Item[]): Page {
  const furniture: Part = { figure: { layers: [{ name: 'page', items }] }, scale: 1, at: [0, 0] };
  return { ...size, parts: [furniture, ...parts] };
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

/** A sentence in lines right of the lying bars, up to `right`, about a level. */
function writeBeside(text: string, right: number, middle: number): Item[] {
  const left = LEFT + PADDING + BARS[1].length + BAR_LABEL;
  const lines = breakLines(text, LETTERING.figures, right - left);
  return lines.map((line, i) => writeLine(line, [left, middle + (i - (lines.length - 1) / 2) * LINE]));
}

/** Both bars lie under the body, the lower one at a level, and stand in the left margin, their length written beyond. */
function drawBars({ height }: { height: number }, lowest: number): Item[] {
  const foot = height - EDGE - BAR_PITCH / 2;
  return BARS.flatMap(({ length, label }, i) => {
    const left = LEFT + PADDING;
    const level = lowest - i * BAR_PITCH;
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
