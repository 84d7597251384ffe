import { auditEdges, type Closure } from '../kernel/assembly/audit.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import type { Words } from '../words/words.ts';
import type { Table } from './mark-table.ts';

/**
 * What closes each edge of each wall in the assembled fitting: a row a wall, its four edges one after another. Of a wall
 * in parts an edge may be closed by several things; what further edges an outline has stands with its last ones.
 */
export function tabulateEdges({ fitting, steps }: BuiltModel, words: Words): Table {
  const { columns, by, open } = words.closures;
  const tell = ({ by: kind, cut }: Closure): string =>
    `${kind === null ? open : by[kind]}${cut ? ` (${cut})` : ''}`;
  const walls = new Map<string, Closure[]>();
  for (const closure of auditEdges(fitting, steps)) {
    const wall = JSON.stringify([closure.body, closure.wall]);
    walls.set(wall, [...(walls.get(wall) ?? []), closure]);
  }
  const last = columns.edges.length - 1;
  return {
    columns: [columns.piece, columns.wall, ...columns.edges].map((heading) => ({ heading, align: 'start' })),
    rows: [...walls.values()].map((closures) => {
      const { body: name, wall } = closures[0]!;
      const body = fitting.bodies.find((other) => other.name === name)!;
      const face = body.kind === 'panel' ? body.panel.face : wall;
      const edges = columns.edges.map((_, i) => {
        const told = closures.filter(({ place }) => Math.min(place, last) === i).map(tell);
        return [...new Set(told)].join(', ');
      });
      return {
        about: { piece: name, ...(face ? { face } : {}) },
        cells: [name, face ? words.faces[face] : '–', ...edges]
      };
    })
  };
}
