import { describeEdges } from '../figures/edge-blade.ts';
import { measureLineAngle } from '../figures/mark-lines.ts';
import { findFitting } from '../figures/paper-mark-out.ts';
import type { Show } from '../kernel/document/job.ts';
import type { BuiltModel, FittingModel, Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type PanelBody } from '../kernel/fitting/fitting.ts';
import { measureBlade } from '../kernel/straight/cut.ts';
import { FACES, growSection, measureFace, type Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { MM_PER_INCH, nameUnit } from '../quantity/length.ts';
import { round } from '../sheet/round.ts';
import type { SheetStraight } from '../sheet/schema.ts';
import { writePanel, writeStraight } from '../sheet/sheet.ts';
import { speakOfTables } from '../words/speak-of-tables.ts';
import type { TableWords } from '../words/tables.ts';
import { speak, type Words } from '../words/words.ts';
import { writeCsv, type Cell, type Column } from './csv.ts';
import { describeExport, whenFitting, type Export } from './export.ts';

/** The tables for spreadsheets: figures as in the sheet, in the unit shown; inches are decimal, or nothing could be added up. */
export const TABLES: readonly Export[] = [
  describeExport(
    'mark-table',
    'csv',
    whenFitting(
      (fitting) =>
        listPanelBodies(fitting).length > 0 ||
        fitting.straights.some(
          ({ cuts, marks, openings }) => cuts.length + marks.length + openings.length > 0
        )
    ),
    async (model, index, { decimal }) => {
      const { fitting, setting } = findFitting(model, index).built!;
      const marks = [
        ...listSheetStraights(model, index).flatMap(listMarks),
        ...listPanelBodies(fitting).flatMap((body) => listPanelMarks(body, setting.board.thickness))
      ];
      return writeCsv(describeMarks(model.show), marks, decimal);
    }
  ),
  describeExport(
    'piece-table',
    'csv',
    whenFitting(({ straights }) => straights.length > 0),
    async (model, index, { decimal }) =>
      writeCsv(describePieces(model), listSheetStraights(model, index).flatMap(listPieces), decimal)
  ),
  describeExport(
    'cut-list',
    'csv',
    ({ fittings }) => fittings.some(({ built }) => built !== null),
    async (model, _, { decimal }) =>
      writeCsv(describeParts(model), model.fittings.flatMap(listParts), decimal),
    { covers: 'job' }
  )
];

/** Kilograms of a mm³ of board, by its density in kg/m³. */
const CUBIC_METRES = 1e-9;

/** A ten-thousandth of an inch is what a thousandth of a millimetre is in the sheet: finer than anything that is cut. */
const STEPS_PER_INCH = 1e4;

type Place = readonly [number, number];

/** A line that is marked on a straight or a panel, or a round opening. */
interface Mark {
  readonly part: string;
  readonly name: string;
  readonly kind: SheetStraight['marks'][number]['kind'] | keyof TableWords['kinds'];
  readonly face: Face | null;
  /** Station, and from the first edge of the face; of a circle its middle. */
  readonly from: Place;
  readonly to: Place | null;
  readonly radius: number | null;
  readonly line: number | null;
  readonly bevel: number;
  readonly lean: 'downstream' | 'upstream' | null;
  /** Where the outline on the inside of the board lies, seen from that on the facing. */
  readonly innerLies: 'in' | 'out' | null;
  readonly setback: number;
  readonly depth: number;
}

interface Piece {
  readonly straight: string;
  readonly piece: SheetStraight['pieces'][number];
}

/** A straight or panel of a fitting; null where the fitting cannot be built. */
interface Part {
  readonly fitting: FittingModel;
  readonly body: {
    readonly name: string;
    readonly kind: 'straight' | 'panel';
    readonly length: number;
    readonly thickness: number;
    readonly blanks: number;
    readonly across: number;
    readonly volume: number;
    readonly straight: SheetStraight | null;
  } | null;
}

function describeMarks(show: Show): Column<Mark>[] {
  const words = speak(show.language);
  const own = speakOfTables(show.language);
  const { paper, page } = words;
  const length = describeLength<Mark>(show, words);
  const angle = describeUnit<Mark>('°', words);
  const kinds = { ...page.flat.kinds, ...own.kinds };
  return [
    { heading: own.part, cell: ({ part }) => part },
    { heading: page.flat.mark, cell: ({ name }) => name },
    { heading: page.flat.kind, cell: ({ kind }) => kinds[kind] },
    { heading: paper.table.face, cell: ({ face }) => face && words.faces[face] },
    length(paper.table.start, ({ from }) => from[0]),
    length(own.startAcross, ({ from }) => from[1]),
    length(paper.table.end, ({ to }) => to && to[0]),
    length(own.endAcross, ({ to }) => to && to[1]),
    length(own.radius, ({ radius }) => radius),
    angle(paper.table.line, ({ line }) => line),
    angle(paper.table.bevel, ({ bevel }) => bevel),
    {
      heading: paper.table.lean,
      cell: ({ bevel, lean }) => (bevel === 0 ? paper.table.upright : lean && words.leans[lean])
    },
    {
      heading: page.flat.insideLine,
      cell: ({ innerLies }) => innerLies && page.flat[innerLies === 'in' ? 'furtherIn' : 'furtherOut']
    },
    length(paper.table.setback, ({ setback }) => setback),
    length(paper.table.depth, ({ depth }) => depth)
  ];
}

/** What is marked on a straight, face by face: cuts right round, marks on single faces, edges of openings. */
function listMarks({ name: part, section, thickness, cuts, marks, openings }: SheetStraight): Mark[] {
  const outside = growSection(section, thickness);
  return [
    ...cuts.flatMap(({ name, faces }) =>
      FACES.map((face): Mark => {
        const { start, end, bevel, lean = null, line, setback, depth } = faces[face];
        const to = [end, round(measureFace(outside, face))] as const;
        const run = { from: [start, 0], to, radius: null, line } as const;
        return { part, name, kind: 'round', face, ...run, bevel, lean, innerLies: null, setback, depth };
      })
    ),
    ...marks.map(({ name, kind, face, from, to, bevel, lean = null }): Mark => {
      const blade = { lean, innerLies: null, ...holdBlade(bevel, thickness) };
      return { part, name, kind, face: face as Face, from, to, ...runLine(from, to), ...blade };
    }),
    ...openings.flatMap(({ name, face, outer, inner, edges, circle }): Mark[] => {
      const on = { part, name, face: face as Face };
      if (!circle) return listEdges(outer, inner, edges, thickness, () => ({ ...on, kind: 'opening' }));
      const { at, outer: radius, inner: innerRadius } = circle;
      const innerLies = lie(radius - innerRadius);
      const run = { from: at, to: null, radius, line: null };
      return [
        { ...on, kind: 'circle', ...run, lean: null, innerLies, ...holdBlade(edges[0]!.bevel, thickness) }
      ];
    })
  ];
}

/** The edges of a panel: stations count from its first edge, the one at the inlet. */
function listPanelMarks(body: PanelBody, thickness: number): Mark[] {
  const { name: part, outer, inner, edges } = writePanel(body);
  const { face } = body.panel;
  const turn = (points: typeof outer): Place[] => points.map(([across, along]) => [along, across]);
  return listEdges(turn(outer), turn(inner), edges, thickness, (i) => ({
    part,
    name: String(i + 1),
    kind: 'panel',
    face
  }));
}

/** The edges of an outline on the facing, corner by corner with that on the inside. */
function listEdges(
  outer: readonly Place[],
  inner: readonly Place[],
  edges: readonly { readonly bevel: number }[],
  thickness: number,
  name: (at: number) => Pick<Mark, 'part' | 'name' | 'kind' | 'face'>
): Mark[] {
  const blades = describeEdges(
    outer,
    inner,
    edges.map(({ bevel }) => bevel)
  );
  return outer.map((from, i): Mark => {
    const to = outer[(i + 1) % outer.length]!;
    const { bevel } = edges[i]!;
    const blade = blades.find((edge) => edge.from === from);
    const innerLies = blade && bevel !== 0 ? lie(blade.leansOut ? 1 : -1) : null;
    return {
      ...name(i),
      from,
      to,
      ...runLine(from, to),
      lean: null,
      innerLies,
      ...holdBlade(bevel, thickness)
    };
  });
}

const lie = (inwards: number): Mark['innerLies'] => (inwards > 0 ? 'in' : inwards < 0 ? 'out' : null);

function runLine(from: Place, to: Place): Pick<Mark, 'line' | 'radius'> {
  return { line: round(measureLineAngle({ from, to })), radius: null };
}

function holdBlade(bevel: number, thickness: number): Pick<Mark, 'bevel' | 'setback' | 'depth'> {
  const { setback, depth } = measureBlade(bevel, thickness);
  return { bevel, setback: round(setback), depth: round(depth) };
}

function describePieces({ show, board }: Model): Column<Piece>[] {
  const words = speak(show.language);
  const own = speakOfTables(show.language);
  const { table } = words.paper;
  const length = describeLength<Piece>(show, words);
  return [
    { heading: table.straight, cell: ({ straight }) => straight },
    { heading: table.piece, cell: ({ piece }) => piece.name },
    { heading: table.inFitting, cell: ({ piece }) => (piece.flipped ? table.rolled : table.stays) },
    { heading: own.seam, cell: ({ piece }) => words.corners[piece.seam as 'top-left'] },
    length(table.axis, ({ piece }) => piece.axis),
    length(table.shortest, ({ piece }) => piece.shortest),
    length(table.longest, ({ piece }) => piece.longest),
    describeVolume<Piece>(show, words, own.volume, ({ piece }) => piece.volume),
    describeUnit<Piece>('kg', words)(own.mass, ({ piece }) =>
      round(piece.volume * CUBIC_METRES * board.density)
    )
  ];
}

function listPieces({ name, pieces }: SheetStraight): Piece[] {
  return pieces.map((piece) => ({ straight: name, piece }));
}

function describeParts({ show, board }: Model): Column<Part>[] {
  const words = speak(show.language);
  const own = speakOfTables(show.language);
  const length = describeLength<Part>(show, words);
  const mass = describeUnit<Part>('kg', words);
  const quantity = ({ fitting }: Part): number => fitting.resolved.quantity;
  const weigh = ({ body }: Part, times: number): number | null =>
    body && round(body.volume * CUBIC_METRES * board.density * times);
  const say = (read: (straight: SheetStraight) => string) => ({
    cell: ({ body }: Part): Cell => (body?.straight ? read(body.straight) : null)
  });
  return [
    { heading: own.fitting, cell: ({ fitting }) => fitting.resolved.tag },
    { heading: own.family, cell: ({ fitting }) => words.families[fitting.resolved.family.name]! },
    { heading: own.part, cell: ({ body }) => body && body.name },
    { heading: words.page.flat.kind, cell: ({ body }) => own.parts[body?.kind ?? 'none'] },
    { heading: own.quantity, cell: quantity },
    length(own.length, ({ body }) => body && body.length),
    length(own.lengthInAll, (part) => part.body && part.body.length * quantity(part)),
    length(own.width, ({ body }) => body?.straight?.section.width ?? null),
    length(own.height, ({ body }) => body?.straight?.section.height ?? null),
    length(own.thickness, ({ body }) => body && body.thickness),
    { heading: own.lay, ...say(({ lay }) => words.lays[lay]) },
    { heading: own.make, ...say(({ make }) => words.makes[make]) },
    { heading: own.datumEnd, ...say(({ ends }) => words.ends[ends[0]]) },
    { heading: own.farEnd, ...say(({ ends }) => words.ends[ends[1]]) },
    { heading: own.blanks, cell: ({ body }) => body && body.blanks },
    length(own.blankWidth, ({ body }) => body && body.across),
    mass(own.mass, (part) => weigh(part, 1)),
    mass(own.massInAll, (part) => weigh(part, quantity(part)))
  ];
}

/** The straights and panels of a fitting; one that cannot be built is named, so that no one misses it by surprise. */
function listParts(fitting: FittingModel): Part[] {
  const { built } = fitting;
  if (!built) return [{ fitting, body: null }];
  return [
    ...built.fitting.straights.map((straight): Part => {
      const written = writeStraight(straight, built);
      return {
        fitting,
        body: {
          name: straight.name,
          kind: 'straight',
          length: written.length,
          thickness: written.thickness,
          blanks: straight.makeUp.blanks.length,
          across: round(sum(straight.makeUp.blanks.map(({ width }) => width))),
          volume: sumVolumes(built, straight),
          straight: written
        }
      };
    }),
    ...listPanelBodies(built.fitting).map((panel): Part => ({ fitting, body: describePanel(built, panel) }))
  ];
}

function describePanel(built: BuiltModel, body: PanelBody): Part['body'] {
  const { name, outer } = writePanel(body);
  const span = (axis: 0 | 1): number => {
    const places = outer.map((point) => point[axis]);
    return round(Math.max(...places) - Math.min(...places));
  };
  return {
    name,
    kind: 'panel',
    length: span(1),
    thickness: round(built.setting.board.thickness),
    blanks: 1,
    across: span(0),
    volume: built.quantities.bodies[built.fitting.bodies.indexOf(body)]!,
    straight: null
  };
}

/** The board that stays of a straight: that of its pieces, mm³. */
function sumVolumes({ fitting, quantities }: BuiltModel, { name }: Straight): number {
  return sum(
    fitting.bodies.map((body, i) =>
      body.kind === 'piece' && body.straight === name ? quantities.bodies[i]! : 0
    )
  );
}

function listSheetStraights(model: Model, index: number): SheetStraight[] {
  const { built } = findFitting(model, index);
  return built ? built.fitting.straights.map((straight) => writeStraight(straight, built)) : [];
}

type Read<Row> = (row: Row) => number | null;

/** A column of figures under a heading that says their unit. */
function describeUnit<Row>(unit: string, { paper }: Words) {
  return (heading: string, read: Read<Row>): Column<Row> => ({
    heading: paper.table.of(heading, unit),
    cell: read
  });
}

/** A column of lengths, read in mm of the sheet, written in the unit shown. */
function describeLength<Row>(show: Show, words: Words) {
  return (heading: string, read: Read<Row>): Column<Row> =>
    describeUnit<Row>(nameUnit(show.length), words)(heading, (row) => convert(read(row), show, 1));
}

function describeVolume<Row>(show: Show, words: Words, heading: string, read: Read<Row>): Column<Row> {
  const column = describeUnit<Row>(`${nameUnit(show.length)}³`, words);
  return column(heading, (row) => convert(read(row), show, 3));
}

function convert(mm: number | null, { length }: Show, power: 1 | 3): number | null {
  if (mm === null) return null;
  return length === 'mm'
    ? round(mm)
    : Math.round((mm / MM_PER_INCH ** power) * STEPS_PER_INCH) / STEPS_PER_INCH + 0;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
