import type { Table } from '../figures/mark-table.ts';

/** So that spreadsheets read the degree sign right. */
const BYTE_ORDER_MARK = '\uFEFF';

/** Writes tables of the same columns as one CSV (RFC 4180: CRLF, quotes doubled), the headings once. */
export function writeCsv(tables: readonly Table[]): string {
  const first = tables[0];
  if (!first) throw new Error('there is no table to write');
  const lines = [
    first.columns.map(({ heading }) => heading),
    ...tables.flatMap(({ rows }) => rows.map(({ cells }) => cells))
  ];
  return BYTE_ORDER_MARK + lines.map((cells) => `${cells.map(quote).join(',')}\r\n`).join('');
}

function quote(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
