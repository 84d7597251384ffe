import { markCut, type FaceMark } from '../kernel/straight/cut.ts';
import { growSection } from '../kernel/straight/section.ts';
import { measureEdges, type Straight } from '../kernel/straight/straight.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import type { Speech, Words } from '../words/words.ts';
import type { Subject } from './figure.ts';

/** A table as it is read: the screen and the PDF show the same cells. */
export interface Table {
  readonly columns: readonly { readonly heading: string; readonly align: 'start' | 'end' }[];
  readonly rows: readonly { readonly about: Subject; readonly cells: readonly string[] }[];
}

/** Every mark of every cut, face by face, in the order of FACES: what the figure shows and what it leaves out. */
export function tabulateMarks(straight: Straight, words: Words, say: Speech): Table {
  const { table } = words.paper;
  const length = (heading: string) => ({ heading: table.of(heading, say.unit), align: 'end' as const });
  const outside = growSection(straight.section, straight.thickness);
  return {
    columns: [
      { heading: table.cut, align: 'start' },
      { heading: table.face, align: 'start' },
      length(table.start),
      length(table.end),
      { heading: table.line, align: 'end' },
      { heading: table.bevel, align: 'end' },
      { heading: table.lean, align: 'start' },
      length(table.setback),
      length(table.depth)
    ],
    rows: straight.cuts.flatMap((cut) =>
      markCut(cut, outside, straight.thickness).map((mark) => ({
        about: { cut: cut.name, face: mark.face },
        cells: [
          cut.name,
          words.faces[mark.face],
          say.figure(mark.start),
          say.figure(mark.end),
          say.angle(mark.line),
          say.angle(mark.bevel),
          mark.lean && !isUpright(mark, say) ? words.leans[mark.lean] : table.upright,
          say.figure(mark.setback),
          say.figure(mark.depth)
        ]
      }))
    )
  };
}

/** Every piece: its length on the axis, its shortest outside edge and the corners it is at, its longest, what becomes of it. */
export function tabulatePieces(straight: Straight, words: Words, say: Speech): Table {
  const { table } = words.paper;
  const length = (heading: string) => ({ heading: table.of(heading, say.unit), align: 'end' as const });
  return {
    columns: [
      { heading: table.piece, align: 'start' },
      length(table.axis),
      length(table.shortest),
      { heading: table.at, align: 'start' },
      length(table.longest),
      { heading: table.inFitting, align: 'start' }
    ],
    rows: straight.pieces.map((piece) => {
      const edges = measureEdges(piece, straight.section, straight.thickness);
      const lengths = edges.map((edge) => edge.length);
      const [shortest, longest] = [Math.min(...lengths), Math.max(...lengths)];
      const shared = edges.filter((edge) => edge.length - shortest < SAME_LENGTH);
      const where =
        shared.length === edges.length
          ? table.everyCorner
          : say.list(shared.map(({ corner }) => words.corners[corner]));
      return {
        about: { piece: piece.name },
        cells: [
          piece.name,
          say.figure(piece.axis),
          say.figure(shortest),
          where,
          say.figure(longest),
          piece.flipped ? table.rolled : table.stays
        ]
      };
    })
  };
}

/** Whether the blade stands upright as far as the figures shown can tell. */
export function isUpright({ bevel }: Pick<FaceMark, 'bevel'>, say: Speech): boolean {
  return say.angle(bevel) === say.angle(0);
}
