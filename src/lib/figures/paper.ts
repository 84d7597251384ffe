import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { breakLines, LETTERING, measureText, shortenText } from './lettering.ts';
import { drawTitleBlock, TITLE_BLOCK, type TitleEntries } from './title-block.ts';

/** Width and height, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * Sheets, upright, mm, in the order they are offered: A4 to A0 of ISO 216; letter, tabloid and C to E, which are sizes A
 * to E of ASME Y14.1 (8 1/2 by 11 to 34 by 44 in; from memory).
 */
export const PAPERS = {
  a4: { width: 210, height: 297 },
  a3: { width: 297, height: 420 },
  a2: { width: 420, height: 594 },
  a1: { width: 594, height: 841 },
  a0: { width: 841, height: 1189 },
  letter: { width: 215.9, height: 279.4 },
  tabloid: { width: 279.4, height: 431.8 },
  'ansi-c': { width: 431.8, height: 558.8 },
  'ansi-d': { width: 558.8, height: 863.6 },
  'ansi-e': { width: 863.6, height: 1117.6 }
} as const satisfies Readonly<Record<string, Size>>;

/** Widths of rolls, mm: 24, 36 and 42 in, sold as 610, 914 and 1067 mm, and that of A0. */
export const ROLLS = {
  'roll-610': 609.6,
  'roll-841': 841,
  'roll-914': 914.4,
  'roll-1067': 1066.8
} as const;

export type PaperName = keyof typeof PAPERS | keyof typeof ROLLS;
export const PAPER_NAMES = [...Object.keys(PAPERS), ...Object.keys(ROLLS)] as readonly PaperName[];

/** The sheet that is taken from a roll for what is read and not laid on board: mark-outs, gauges, card models, maps. */
export const READ_ON = 'a4';

/** Shortest and longest page of a roll, mm: room for the check bars; less than the 14400 points that readers take (ISO 32000-1, Annex C, from memory). */
export const ROLL_LENGTH = { least: 297, most: 5000 } as const;

/** A page of paper and what lies on it; every coordinate is mm from the top left corner of what is to come out on it. */
export interface Page extends Size {
  /** Composed when asked for: a page of a template takes its time. */
  readonly parts: readonly Part[];
  /** What of the page is printed, where it is drawn larger or smaller for a printer that does not print true. */
  readonly print?: Print;
}

/** How many times as large all is drawn, and where the corner of what comes out lies on the page, mm. */
export interface Print {
  readonly factor: number;
  readonly at: Point;
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
  /** Of a roll: how much of it the page takes, mm; without it the page is a sheet. */
  readonly length?: number;
  /** Under the note: of which job and revision the page is. */
  readonly stamp?: string;
  /** A small figure beside the body, no larger than {@link KEY}; its box begins at the origin. */
  readonly key?: Figure;
}

/** Margins after ISO 5457: 20 mm on the left, 10 mm elsewhere; the bars that stand upright are in the left one. */
const LEFT = 20;
const EDGE = 10;
const PADDING = 3;

/** A plain page has its title above the body, page number and check bars under it. */
const HEADER = 13;
const FOOTER = 18;

/** Room for a small figure in the left margin beside the head of the body, over the standing bars of any page, mm. */
export const KEY = { width: 9, height: 54 } as const;

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

export function isRoll(paper: PaperName): paper is keyof typeof ROLLS {
  return paper in ROLLS;
}

/** The size of a page, mm: of a roll so much as `length` says, where nothing is said a sheet of A4. */
export function sizePage(paper: PaperName, landscape: boolean, length?: number): Size {
  const { width, height } = !isRoll(paper)
    ? PAPERS[paper]
    : length === undefined
      ? PAPERS[READ_ON]
      : { width: ROLLS[paper], height: length };
  return landscape ? { width: height, height: width } : { width, height };
}

/** The part of a page that a drawing may fill: what margins, title and check bars leave, plain or with a title block. */
export function findBody(paper: PaperName, landscape: boolean, titled = false): Box {
  return findBodyOn(sizePage(paper, landscape), titled ? 'titled' : 'plain');
}

/** The same of a page of any size; on a corrected one a sentence more stands under it. */
export function findBodyOn({ width, height }: Size, kind: 'plain' | 'titled' | 'corrected'): Box {
  const [above, below] = {
    plain: [HEADER, FOOTER],
    corrected: [HEADER, FOOTER + LINE],
    titled: [TOP, TITLE_BLOCK.height + STRIP]
  }[kind] as [number, number];
  return {
    left: LEFT + PADDING,
    top: EDGE + above,
    right: width - EDGE - PADDING,
    bottom: height - EDGE - below
  };
}

/** What comes out of a printer that is corrected by a factor: the page, and less of it where it is drawn larger. */
export function shrinkPage({ width, height }: Size, factor: number): Size {
  const by = Math.max(1, factor);
  return { width: width / by, height: height / by };
}

/** Adds to every leaf its title, page number and check bars, and draws it for a printer that is corrected. */
export function finishPages(
  leaves: readonly Leaf[],
  paper: PaperName,
  words: Words,
  corrected?: { readonly factor: number; readonly said: string }
): Page[] {
  return leaves.map((leaf, i) => {
    const page = sizePage(paper, leaf.landscape, leaf.length);
    const size = corrected ? shrinkPage(page, corrected.factor) : page;
    const foot = size.height - EDGE - BAR_PITCH / 2;
    const right = size.width - EDGE - PADDING;
    const body = findBodyOn(size, corrected ? 'corrected' : 'plain');
    const said = breakLines(
      [...(corrected ? [corrected.said] : []), speakOfPrint(words.language).page.check].join(' '),
      LETTERING.figures,
      right - body.left
    );
    const furniture: Item[] = [
      ...writeHeader(leaf, size),
      ...drawBars(size, foot),
      ...said.map((line, k) =>
        writeLine(line, [body.left, foot - 2 * BAR_PITCH - (said.length - 1 - k) * LINE])
      ),
      writeLine(speakOfPrint(words.language).page.number(i + 1, leaves.length), [right, foot], {
        anchor: 'end'
      })
    ];
    const key: Part[] = leaf.key ? [{ figure: leaf.key, scale: 1, at: [EDGE, body.top] }] : [];
    return {
      ...page,
      get parts() {
        return layParts([...leaf.parts, ...key], furniture);
      },
      ...(corrected ? { print: centrePrint(page, size, corrected.factor) } : {})
    };
  });
}

/** Drawn about the middle of the page: a printer that shrinks or stretches does so about it. */
function centrePrint(page: Size, size: Size, factor: number): Print {
  return {
    factor,
    at: [(page.width - factor * size.width) / 2, (page.height - factor * size.height) / 2]
  };
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
    const furniture = [
      drawClosed(boxPoints(LEFT, EDGE, right, bottom)),
      ...[top, top - STRIP].map((y) =>
        drawLine([
          [LEFT, y],
          [right, y]
        ])
      ),
      ...drawTitleBlock(right, bottom, entries, said, words),
      ...drawBars(size, top - BAR_PITCH / 2),
      ...writeBeside(speakOfPrint(words.language).page.check, right - PADDING, top - STRIP / 2 - 0.3)
    ];
    return { ...size, parts: layParts(parts, furniture) };
  });
}

function layParts(parts: readonly Part[], items: Item[]): Part[] {
  return [{ figure: { layers: [{ name: 'page', items }] }, scale: 1, at: [0, 0] }, ...parts];
}

/** Title and note, under them subtitle and stamp: what is on the left is shortened, never what is on the right. */
function writeHeader({ title, subtitle, note, stamp = '' }: Leaf, { width }: Size): Item[] {
  const [left, right] = [LEFT + PADDING, width - EDGE - PADDING];
  return [
    { text: title, height: LETTERING.names, bold: true, aside: note, y: EDGE + 4.5 },
    { text: subtitle, height: LETTERING.figures, bold: false, aside: stamp, y: EDGE + 9.5 }
  ].flatMap(({ text, height, bold, aside, y }) => {
    const taken = aside === '' ? 0 : measureText(aside, LETTERING.figures, bold) + PADDING;
    return [
      writeLine(shortenText(text, height, right - left - taken, bold), [left, y], { height, bold }),
      ...(aside === '' ? [] : [writeLine(aside, [right, y], { anchor: 'end', bold })])
    ];
  });
}

/** A sentence in lines right of the lying bars, up to `right`, about a level. */
function writeBeside(text: string, right: number, middle: number): Item[] {
  const left = LEFT + PADDING + BARS[1].length + BAR_LABEL;
  const lines = breakLines(text, LETTERING.figures, right - left);
  return lines.map((line, i) => writeLine(line, [left, middle + (i - (lines.length - 1) / 2) * LINE]));
}

/** Both bars lie under the body, the lower one at a level, and stand in the left margin, their length written beyond. */
function drawBars({ height }: Size, lowest: number): Item[] {
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
