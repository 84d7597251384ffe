/** What a cell holds: a number stays one, a text is never taken for a formula, null is an empty cell. */
export type Cell = string | number | null;

export interface Column<Row> {
  readonly heading: string;
  cell(row: Row): Cell;
}

/** The decimal mark of the spreadsheet that reads a table. */
export type DecimalMark = 'point' | 'comma';

/** So that spreadsheets read letters beyond ASCII right. */
const BYTE_ORDER_MARK = '\uFEFF';

/** What a spreadsheet expects between cells: where the comma is in its numbers, it cannot be. */
const SEPARATORS: Readonly<Record<DecimalMark, string>> = { point: ',', comma: ';' };

/**
 * Places in a text from which a spreadsheet could read a formula: its beginning, and behind whatever one that expects
 * another separator would break it at, where a sign follows that begins formulas (also those of full width).
 */
const FORMULA = /(^|[,;"])(?=\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/g;

/** Writes a table as CSV after RFC 4180 (CRLF, quotes doubled); with a decimal comma the cells are parted by semicolons. */
export function writeCsv<Row>(
  columns: readonly Column<Row>[],
  rows: Iterable<Row>,
  mark: DecimalMark = 'point'
): string {
  const line = (cells: readonly Cell[]): string =>
    `${cells.map((cell) => writeCell(cell, mark)).join(SEPARATORS[mark])}\r\n`;
  return [
    BYTE_ORDER_MARK,
    line(columns.map(({ heading }) => heading)),
    ...Array.from(rows, (row) => line(columns.map(({ cell }) => cell(row))))
  ].join('');
}

function writeCell(cell: Cell, mark: DecimalMark): string {
  if (cell === null) return '';
  if (typeof cell === 'string') return quote(disarm(cell));
  if (!Number.isFinite(cell)) throw new Error(`a table cannot hold ${cell}`);
  return mark === 'comma' ? String(cell).replace('.', ',') : String(cell);
}

/** A text on one line that no spreadsheet takes for a formula: an apostrophe before what could be one says that it is text. */
function disarm(text: string): string {
  return text.replace(/\p{Cc}+/gu, ' ').replace(FORMULA, "$1'");
}

function quote(text: string): string {
  return /[",;]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
