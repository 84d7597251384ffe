import type { Box, Item, Point } from './figure.ts';
import { drawLine, writeLine } from './ink.ts';
import { breakLines, LETTERING, measureText } from './lettering.ts';
import type { Table } from './mark-table.ts';

/** A line of a block: how high it is and what it draws, its top left corner given; paper mm. */
export interface FlowLine {
  readonly height: number;
  draw(left: number, top: number): Item[];
}

/** Lines that stand together on one page as far as it is high enough; a space follows where there is room. */
export interface Block {
  readonly lines: readonly FlowLine[];
  /** Lines to repeat at the top of the next page when the block has to be broken. */
  readonly repeat?: readonly FlowLine[];
  /** Whether the next block has to begin on the same page, as under a heading. */
  readonly heads?: boolean;
}

const LINE = 4;

/** A heading wider than its column is broken at this, mm. */
const HEADING = 29;

/** Height of a table's letters and the space between its columns, mm: what they want, and what will do. */
const LAYOUTS = [
  ...[4, 3, 2].map((gap) => ({ height: LETTERING.figures, gap })),
  ...[3, 2].map((gap) => ({ height: LETTERING.labels, gap }))
];

/** A broken table shows at least so much of itself before the break, mm. */
const LEAST_PART = 35;
const SPACE = 2;

/** The widest column of text, and the space between columns, mm. */
export const COLUMN = { width: 180, gap: 8 } as const;

/** The columns of text that an area has room for: one as wide as it is, or as many of the widest as fit. */
function cutColumns(area: Box): Box[] {
  const pitch = COLUMN.width + COLUMN.gap;
  const count = Math.max(1, Math.floor((area.right - area.left + COLUMN.gap) / pitch));
  return Array.from({ length: count }, (_, i) => {
    const left = area.left + i * pitch;
    return { ...area, left, right: Math.min(area.right, left + COLUMN.width) };
  });
}

/**
 * Lays blocks into areas, one a page, column by column: the first as given, further ones as `nextPage` gives them.
 * Answers items a page.
 */
export function flowBlocks(blocks: readonly Block[], firstPage: Box, nextPage: Box): Item[][] {
  const pages: Item[][] = [[]];
  const nexts = cutColumns(nextPage);
  const next = nexts[0]!;
  let columns = cutColumns(firstPage);
  let area = columns[0]!;
  let top = area.top;
  const turnPage = (): void => {
    const beside = columns[columns.indexOf(area) + 1];
    if (!beside) {
      pages.push([]);
      columns = nexts;
    }
    area = beside ?? next;
    top = area.top;
  };
  const add = (line: FlowLine): void => {
    pages[pages.length - 1]!.push(...line.draw(area.left, top));
    top += line.height;
  };
  blocks.forEach((block, i) => {
    // A heading goes where what it heads goes; a table of half a page or more may be broken, nothing else is.
    const follower = block.heads ? blocks[i + 1] : undefined;
    const body = follower ?? block;
    const broken = body.repeat !== undefined && measureLines(body.lines) > (next.bottom - next.top) / 2;
    const head = follower ? measureLines(block.lines) : 0;
    const wanted = head + (broken ? LEAST_PART : measureLines(body.lines));
    const helps = top > area.top || next.bottom - next.top > area.bottom - area.top;
    if (helps && top + wanted > area.bottom) turnPage();
    for (const line of block.lines) {
      if (top + line.height > area.bottom) {
        turnPage();
        for (const again of block.repeat ?? []) add(again);
      }
      add(line);
    }
    top += block.heads ? 0 : SPACE;
  });
  return pages;
}

export function measureLines(lines: readonly FlowLine[]): number {
  return lines.reduce((sum, { height }) => sum + height, 0);
}

export function headBlock(text: string): Block {
  const line: FlowLine = {
    height: 7,
    draw: (left, top) => [writeLine(text, [left, top + 4], { height: LETTERING.names, bold: true })]
  };
  return { lines: [line], heads: true };
}

/** A paragraph broken to a width, behind a mark (a number, a dash, a box) that has a column of its own. */
export function writeParagraph(
  text: string,
  width: number,
  { mark, title, boxed = false }: { mark?: string; title?: string; boxed?: boolean } = {}
): Block {
  const indent = mark === undefined ? 0 : boxed ? 14 : 5;
  const breakUp = (part: string, bold: boolean) =>
    breakLines(part, LETTERING.figures, width - indent, bold).map((line) => ({ text: line, bold }));
  const all = [...(title === undefined ? [] : breakUp(title, true)), ...breakUp(text, false)];
  const lines = all.map(({ text: line, bold }, i): FlowLine => ({
    height: LINE,
    draw: (left, top) => {
      const middle = top + LINE / 2;
      const marked = i === 0 && mark !== undefined;
      return [
        ...(marked && boxed ? [drawBox([left, middle - 1.6], 3.2)] : []),
        ...(marked ? [writeLine(mark, [left + indent - 2, middle], { anchor: 'end' })] : []),
        writeLine(line, [left + indent, middle], { bold })
      ];
    }
  }));
  return { lines };
}

/**
 * A table as wide as its cells want, its columns nearer to each other, its letters smaller where it would be wider than `width`; longer
 * headings on several lines, repeated on every page, a thin line under every group of rows.
 */
export function writeTable(table: Table, width = Infinity): Block {
  const { columns, rows } = table;
  const tried = LAYOUTS.map((layout) => layColumns(table, layout));
  const { heads, widths, starts, total, height } =
    tried.find((laid) => laid.total <= width) ?? tried[tried.length - 1]!;
  const cell = (text: string, k: number, left: number, middle: number, bold: boolean): Item => {
    const { align } = columns[k]!;
    const x = left + starts[k]! + (align === 'end' ? widths[k]! : 0);
    return writeLine(text, [x, middle], { anchor: align, bold, height });
  };
  const headed = Math.max(...heads.map((parts) => parts.length));
  const head: FlowLine = {
    height: headed * LINE + 1.5,
    draw: (left, top) => [
      ...heads.flatMap((parts, k) =>
        parts.map((part, i) => cell(part, k, left, top + LINE * (i + 0.5), true))
      ),
      drawLine([
        [left, top + headed * LINE + 0.7],
        [left + total, top + headed * LINE + 0.7]
      ])
    ]
  };
  const lines = rows.map(({ cells }, i): FlowLine => {
    const closes = rows[i + 1]?.cells[0] !== cells[0];
    return {
      height: LINE + (closes ? 0.8 : 0),
      draw: (left, top) => [
        ...cells.map((text, k) => cell(text, k, left, top + LINE / 2, k === 0)),
        ...(closes && rows.length > 1
          ? [
              drawLine([
                [left, top + LINE + 0.4],
                [left + total, top + LINE + 0.4]
              ])
            ]
          : [])
      ]
    };
  });
  return { lines: [head, ...lines], repeat: [head] };
}

/** Where the columns of a table are with letters of this height and so far from each other, mm. */
function layColumns({ columns, rows }: Table, { height, gap }: { height: number; gap: number }) {
  const cells = columns.map((_, k) => Math.max(0, ...rows.map((row) => measureText(row.cells[k]!, height))));
  const heads = columns.map(({ heading }, k) =>
    heading.split(', ').flatMap((part) => breakLines(part, height, Math.max(HEADING, cells[k]!), true))
  );
  const widths = heads.map((parts, k) =>
    Math.max(cells[k]!, ...parts.map((part) => measureText(part, height, true)))
  );
  const starts = widths.map((_, k) => widths.slice(0, k).reduce((sum, each) => sum + each + gap, 0));
  const total = widths.reduce((sum, each) => sum + each + gap, -gap);
  return { heads, widths, starts, total, height };
}

function drawBox([x, y]: Point, size: number): Item {
  return {
    kind: 'stroke',
    line: 'narrow',
    closed: true,
    points: [
      [x, y],
      [x + size, y],
      [x + size, y + size],
      [x, y + size]
    ]
  };
}
