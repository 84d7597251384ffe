import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import { measureBlade } from '../kernel/straight/cut.ts';
import type { FacePoint, Straight } from '../kernel/straight/straight.ts';
import type { Speech, Words } from '../words/words.ts';
import { describeEdges } from './edge-blade.ts';
import { measureLineAngle } from './mark-lines.ts';
import { isUpright, type Table } from './mark-table.ts';

/** The line marks of a straight: from where to where, angle from square across the face, the blade and its set-back. */
export function tabulateLineMarks(straight: Straight, words: Words, say: Speech): Table {
  const { table } = words.paper;
  const { flat } = words.page;
  const length = (heading: string) => ({ heading: table.of(heading, say.unit), align: 'end' as const });
  return {
    columns: [
      { heading: flat.mark, align: 'start' },
      { heading: flat.kind, align: 'start' },
      { heading: table.face, align: 'start' },
      length(flat.station),
      length(flat.across),
      length(flat.toStation),
      length(flat.toAcross),
      { heading: table.line, align: 'end' },
      { heading: table.bevel, align: 'end' },
      { heading: table.lean, align: 'start' },
      length(table.setback)
    ],
    rows: straight.marks.map((mark) => ({
      about: { cut: mark.name, face: mark.face },
      cells: [
        mark.name,
        flat.kinds[mark.kind],
        words.faces[mark.face],
        ...[...mark.from, ...mark.to].map((at) => say.figure(at)),
        say.angle(measureLineAngle(mark)),
        say.angle(mark.bevel),
        isUpright(mark, say) ? table.upright : mark.lean ? words.leans[mark.lean] : '–',
        say.figure(measureBlade(mark.bevel, straight.thickness).setback)
      ]
    }))
  };
}

/** The openings of a straight: where their outline on the facing lies, and where a bevel moves it, that on the inside. */
export function tabulateOpenings(straight: Straight, words: Words, say: Speech): Table {
  const { table } = words.paper;
  const { flat } = words.page;
  const length = (heading: string) => ({ heading: table.of(heading, say.unit), align: 'end' as const });
  return {
    columns: [
      { heading: flat.opening, align: 'start' },
      { heading: table.face, align: 'start' },
      { heading: flat.outline, align: 'start' },
      length(flat.station),
      length(flat.toStation),
      length(flat.across),
      length(flat.toAcross),
      length(flat.size),
      { heading: flat.bevels, align: 'start' }
    ],
    rows: straight.openings.flatMap(({ name, face, outer, inner, edges, circle }) => {
      const bevels = [...new Set(edges.map(({ bevel }) => say.angle(bevel)))];
      const sides = edges.some((edge) => !isUpright(edge, say))
        ? (['outer', 'inner'] as const)
        : (['outer'] as const);
      return sides.map((side) => {
        const [stations, across] = spanOutline(side === 'outer' ? outer : inner, circle?.at, circle?.[side]);
        const size = [stations, across].map(([from, to]) => say.figure(to - from));
        return {
          about: { cut: name, face },
          cells: [
            name,
            words.faces[face],
            side === 'outer' ? flat.facing : flat.inside,
            ...[...stations, ...across].map((at) => say.figure(at)),
            circle ? `⌀${size[0]}` : size.join(' × '),
            say.list(circle ? bevels : edges.map(({ bevel }) => say.angle(bevel)))
          ]
        };
      });
    })
  };
}

type Span = readonly [number, number];

/** From where to where an outline reaches, along and across; a round one as far as its circle, not its corners. */
function spanOutline(
  outline: readonly FacePoint[],
  at: FacePoint | undefined,
  radius: number | undefined
): [Span, Span] {
  const span = (axis: 0 | 1): Span => {
    if (at && radius !== undefined) return [at[axis] - radius, at[axis] + radius];
    const places = outline.map((point) => point[axis]);
    return [Math.min(...places), Math.max(...places)];
  };
  return [span(0), span(1)];
}

/** Every edge of every panel, in the order round it: from the upstream edge clockwise, then downstream and back. */
export function tabulatePanels(fitting: Fitting, words: Words, say: Speech): Table {
  const { table } = words.paper;
  const { flat } = words.page;
  const length = (heading: string) => ({ heading: table.of(heading, say.unit), align: 'end' as const });
  return {
    columns: [
      { heading: flat.panel, align: 'start' },
      { heading: table.face, align: 'start' },
      { heading: flat.edge, align: 'end' },
      { heading: flat.kind, align: 'start' },
      length(flat.length),
      { heading: table.bevel, align: 'end' },
      length(table.setback),
      { heading: flat.insideLine, align: 'start' }
    ],
    rows: listPanelBodies(fitting).flatMap(({ name, panel: { face, outer, inner, edges } }) =>
      edges.flatMap(({ kind, bevel }, i) => {
        const edge = describeEdges(
          outer,
          inner,
          edges.map((other) => other.bevel)
        )[i];
        if (!edge || kind === 'whole') return [];
        return [
          {
            about: { piece: name, ...(face ? { face } : {}) },
            cells: [
              name,
              face ? words.faces[face] : '–',
              String(i + 1),
              flat.edgeKinds[kind],
              say.figure(edge.length),
              say.angle(bevel),
              say.figure(edge.setback),
              isUpright(edge, say) ? '–' : edge.leansOut ? flat.furtherIn : flat.furtherOut
            ]
          }
        ];
      })
    )
  };
}
