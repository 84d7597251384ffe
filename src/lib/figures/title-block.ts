import type { Words } from '../words/words.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Item } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { LETTERING, measureText, shortenText } from './lettering.ts';

/** What the user gives for the title block; what is left out stays empty. No date comes from a clock. */
export interface TitleFields {
  readonly owner?: string | undefined;
  readonly number?: string | undefined;
  readonly date?: string | undefined;
  readonly revision?: string | undefined;
}

/** The fields of the user, and the digest of the job; null where none could be computed. */
export interface TitleEntries extends TitleFields {
  readonly digest: string | null;
}

/** What one page adds. */
export interface TitledPage {
  readonly title: string;
  readonly subtitle: string;
  readonly type: string;
  readonly scale: string;
  readonly page: number;
  readonly pages: number;
}

/** Size of the block, mm: ISO 7200 wants it 180 wide, so that it fits between the margins of A4. */
export const TITLE_BLOCK = { width: 180, height: 19 } as const;

/** Rows from the top, mm: height, how far down the middle of the value is, widths of the cells, 180 together. */
const UPPER = { height: 12, value: 5.1, widths: [42, 103, 35] } as const;
const LOWER = { height: 7, value: 4.8, widths: [42, 30, 18, 40, 20, 30] } as const;
const PADDING = 1.5;

interface Row {
  readonly height: number;
  readonly value: number;
  readonly widths: readonly number[];
}

interface Cell {
  readonly label: string;
  readonly value: string;
  readonly bold?: boolean;
  /** A second line under the value. */
  readonly under?: string;
}

/**
 * The title block with its bottom right corner at `right`, `bottom`, paper mm; fields after ISO 7200: owner, title and
 * supplementary title, document type, number, date of issue, revision, scale, page; beside them the digest of the job.
 */
export function drawTitleBlock(
  right: number,
  bottom: number,
  entries: TitleEntries,
  { title, subtitle, type, scale, page, pages }: TitledPage,
  { language }: Words
): Item[] {
  const { titleBlock } = speakOfPrint(language);
  const [left, top] = [right - TITLE_BLOCK.width, bottom - TITLE_BLOCK.height];
  const upper: Cell[] = [
    { label: titleBlock.owner, value: entries.owner ?? '' },
    { label: titleBlock.title, value: title, bold: true, under: subtitle },
    { label: titleBlock.type, value: type }
  ];
  const lower: Cell[] = [
    { label: titleBlock.number, value: entries.number ?? '' },
    { label: titleBlock.date, value: entries.date ?? '' },
    { label: titleBlock.revision, value: entries.revision ?? '' },
    { label: titleBlock.digest, value: entries.digest ?? '–' },
    { label: titleBlock.scale, value: scale },
    { label: titleBlock.page, value: titleBlock.of(page, pages) }
  ];
  return [
    drawClosed(boxPoints(left, top, right, bottom)),
    drawLine([
      [left, top + UPPER.height],
      [right, top + UPPER.height]
    ]),
    ...drawRow(upper, UPPER, left, top),
    ...drawRow(lower, LOWER, left, top + UPPER.height)
  ];
}

function drawRow(
  cells: readonly Cell[],
  { height, value: middle, widths }: Row,
  left: number,
  top: number
): Item[] {
  let x = left;
  return cells.flatMap(({ label, value, bold = false, under }, i): Item[] => {
    const start = x;
    const width = widths[i]!;
    x += width;
    const room = width - 2 * PADDING;
    const write = (text: string, y: number, letters: number, strong = false): Item =>
      writeLine(shortenText(text, letters, room, strong), [start + PADDING, y], {
        height: letters,
        bold: strong
      });
    const large = bold && measureText(value, LETTERING.names, true) <= room;
    return [
      ...(i > 0
        ? [
            drawLine([
              [start, top],
              [start, top + height]
            ])
          ]
        : []),
      write(label, top + 1.6, LETTERING.labels),
      ...(value === ''
        ? []
        : [write(value, top + middle, large ? LETTERING.names : LETTERING.figures, bold)]),
      ...(under === undefined ? [] : [write(under, top + 9.7, LETTERING.figures)])
    ];
  });
}
