import { auditEdges, type Closure } from '../kernel/assembly/audit.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import type { Words } from '../words/words.ts';
import type { Table } from './mark-table.ts';

/** What closes each edge of each wall in the assembled fitting: a row a wall, its four edges one after another. */
export function tabulateEdges({ fitting, steps }: BuiltModel, words: Words): Table {
  const closures = auditEdges(fitting, steps);
  const { columns, by, open } = words.closures;
  const tell = ({ by: kind, cut }: Closure): string =>
    `${kind === null ? open : by[kind]}${cut ? ` (${cut})` : ''}`;
  const rows: Table['rows'][number][] = [];
  for (let i = 0; i < closures.length; i += columns.edges.length) {
    const edges = closures.slice(i, i + columns.edges.length);
    const { body, wall } = edges[0]!;
    rows.push({ about: { piece: body, face: wall }, cells: [body, words.faces[wall], ...edges.map(tell)] });
  }
  return {
    columns: [columns.piece, columns.wall, ...columns.edges].map((heading) => ({ heading, align: 'start' })),
    rows
  };
}
