import type { Fitting, PanelBody, PanelPoint } from '../kernel/fitting/fitting.ts';
import { drawMeasures, type Measure } from './dimensions.ts';
import { describeEdges, type OutlineEdge } from './edge-blade.ts';
import type { Figure, Item, Layer, Point, Stroke, Subject, Text } from './figure.ts';
import { breakLines, LETTERING, measureOnPaper } from './lettering.ts';
import { measureLabel, placeRows, type Label } from './mark-labels.ts';
import { placeBlade } from './mark-openings.ts';
import { isUpright } from './mark-table.ts';
import type { Manner } from './manner.ts';
import { keepOffLine, startRoom, type Room } from './room.ts';

/** Sizes on paper, mm: between panels, with room for dimensions on both sides; these; the flow arrow; the caption. */
const APART = 22;
const AWAY = 6.5;
const ARROW = 9;
const ARROW_BELOW = 4;
const LINE_PITCH = 4;
const CAPTION_LEAST = 172;

/** What the whole is like: so much wider than high; what an empty place counts against that. */
const WIDER = 2;
const EMPTY = 2;

/** Where a name is tried, as shares of a panel's length and width. */
const NAME_PLACES: readonly Point[] = [
  [0.5, 0.5],
  [0.5, 0.35],
  [0.5, 0.65],
  [0.35, 0.5],
  [0.65, 0.5]
];

/** A panel where it lies on the figure. */
interface LaidPanel {
  readonly body: PanelBody;
  /** Its place in the fitting. */
  readonly index: number;
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
}

/**
 * Every panel of a fitting flat, outside up, downstream to the right, clockwise round the duct downward, at one scale both
 * ways: its outline on the facing wide, that on the inside dashed, every edge with the blade as it stands there, its
 * length, bevel and set-back; its name, the face it makes, the flow. Without a caption nothing is said of how to read it.
 * Layers: pieces, inside, outline, blades, names, dimensions, caption.
 */
export function drawPanels(fitting: Fitting, manner: Manner, captioned = true): Figure {
  const { scale } = manner;
  const panels = layPanels(fitting, scale);
  const room = startRoom();
  for (const { outer, inner } of panels) {
    for (const ring of [outer, inner]) keepOffLine(room, [...ring, ring[0]!], scale);
  }
  const edges = panels.map(({ body, outer, inner }) =>
    describeEdges(
      outer,
      inner,
      body.panel.edges.map(({ bevel }) => bevel)
    )
  );
  const blades = panels.flatMap((panel, i) =>
    edges[i]!.flatMap((edge) => placeBlade(edge, about(panel), scale, room))
  );
  const dimensions = drawMeasures(
    panels.flatMap((panel, i) => edges[i]!.map((edge) => measureEdge(edge, panel, manner))),
    { scale, room }
  );
  const names = panels.map((panel) => namePanel(panel, manner, room));
  const layers: Layer[] = [
    {
      name: 'pieces',
      items: panels.map((panel) => ({
        kind: 'fill',
        fill: { piece: panel.index },
        points: panel.outer,
        about: about(panel)
      }))
    },
    { name: 'inside', items: panels.map((panel) => drawRing(panel, 'inner')) },
    { name: 'outline', items: panels.map((panel) => drawRing(panel, 'outer')) },
    { name: 'blades', items: blades },
    { name: 'names', items: names.flatMap(({ items }) => items) },
    { name: 'dimensions', items: dimensions.items }
  ];
  if (!captioned || panels.length === 0) return { layers };
  const leftOut = [dimensions, ...names].reduce((sum, part) => sum + part.leftOut, 0);
  return { layers: [...layers, { name: 'caption', items: writeCaption({ layers }, leftOut, manner) }] };
}

/** Panels in rows, so many in each that the whole is wider than high and few places stay empty. */
function layPanels({ bodies }: Fitting, scale: number): LaidPanel[] {
  const panels = bodies.flatMap((body, index) => (body.kind === 'panel' ? [turnPanel(body, index)] : []));
  const apart = APART / scale;
  const grids = panels.map((_, i) => {
    const columns = i + 1;
    const rows = Math.ceil(panels.length / columns);
    const spread = (
      count: number,
      size: (panel: TurnedPanel) => number,
      place: (at: number) => number
    ): number[] =>
      Array.from(
        { length: count },
        (_, k) => Math.max(...panels.filter((_, at) => place(at) === k).map(size), 0) + apart
      );
    const widths = spread(
      columns,
      ({ width }) => width,
      (at) => at % columns
    );
    const heights = spread(
      rows,
      ({ height }) => height,
      (at) => Math.floor(at / columns)
    );
    const ratio = addUp(widths) / addUp(heights);
    const empty = (columns * rows - panels.length) / (columns * rows);
    return { columns, widths, heights, cost: Math.abs(Math.log(ratio / WIDER)) + EMPTY * empty };
  });
  if (grids.length === 0) return [];
  const { columns, widths, heights } = grids.reduce((best, grid) => (grid.cost < best.cost ? grid : best));
  return panels.map(({ body, index, outer, inner, left, top, width, height }, i) => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const by: Point = [
      addUp(widths.slice(0, column)) + (widths[column]! - apart - width) / 2 - left,
      addUp(heights.slice(0, row)) + (heights[row]! - apart - height) / 2 - top
    ];
    const shift = ([x, y]: Point): Point => [x + by[0], y + by[1]];
    return { body, index, outer: outer.map(shift), inner: inner.map(shift) };
  });
}

interface TurnedPanel extends LaidPanel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A panel with downstream to the right, and the box round it. */
function turnPanel(body: PanelBody, index: number): TurnedPanel {
  const turn = ([clockwise, downstream]: PanelPoint): Point => [downstream, clockwise];
  const [outer, inner] = [body.panel.outer.map(turn), body.panel.inner.map(turn)];
  const [xs, ys] = [[...outer, ...inner].map(([x]) => x), [...outer, ...inner].map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return {
    body,
    index,
    outer,
    inner,
    left,
    top,
    width: Math.max(...xs) - left,
    height: Math.max(...ys) - top
  };
}

function addUp(lengths: readonly number[]): number {
  return lengths.reduce((total, length) => total + length, 0);
}

function about({ body }: LaidPanel): Subject {
  return { piece: body.name, ...(body.panel.face ? { face: body.panel.face } : {}) };
}

function drawRing(panel: LaidPanel, side: 'outer' | 'inner'): Stroke {
  return {
    kind: 'stroke',
    line: side === 'outer' ? 'cut' : 'hidden',
    points: panel[side],
    closed: true,
    about: about(panel)
  };
}

/** Length, bevel and set-back of an edge, outside the panel and clear of the dashed line where that lies further out. */
function measureEdge(edge: OutlineEdge, panel: LaidPanel, { scale, say }: Manner): Measure {
  const { from, to, outward, setback, leansOut } = edge;
  const [length, bevel] = [say.figure(edge.length), say.angle(edge.bevel)];
  // The dimension stands to the left as one goes along the edge, y running down.
  const isLeft = (to[1] - from[1]) * outward[0] - (to[0] - from[0]) * outward[1] > 0;
  return {
    ...(isLeft ? { from, to } : { from: to, to: from }),
    away: AWAY + (leansOut ? 0 : setback * scale),
    text: isUpright(edge, say) ? `${length} · ${bevel}` : `${length} · ${bevel} · ${say.figure(setback)}`,
    short: length,
    about: about(panel)
  };
}

/** The name, the face it makes and the flow, in the middle of the panel where there is room. */
function namePanel(
  panel: LaidPanel,
  { scale, words }: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const { name, panel: shape } = panel.body;
  const subject = about(panel);
  const [xs, ys] = [panel.outer.map(([x]) => x), panel.outer.map(([, y]) => y)];
  const middle = ([along, down]: Point): Point => [
    Math.min(...xs) + (Math.max(...xs) - Math.min(...xs)) * along,
    Math.min(...ys) + (Math.max(...ys) - Math.min(...ys)) * down
  ];
  const full: Label = [
    [{ text: name, bold: true }, ...(shape.face ? [{ text: words.faces[shape.face] }] : [])],
    [{ text: ' ' }]
  ];
  for (const label of [full, full.slice(0, 1)]) {
    const { width, height } = measureLabel(label);
    const corners = NAME_PLACES.map(middle).map(([x, y]): Point => [
      x - Math.max(width, ARROW) / 2 / scale,
      y - height / 2 / scale
    ]);
    const items = placeRows(label, corners, scale, subject, room);
    const [text] = items ?? [];
    if (!items || text?.kind !== 'text') continue;
    if (label !== full) return { items: [text], leftOut: 1 };
    const words = items.filter((item) => item.kind === 'text' && item.text.trim() !== '');
    return { items: [...words, ...drawArrow(text, scale)], leftOut: 0 };
  }
  return { items: [], leftOut: 1 };
}

/** The flow, under a name. */
function drawArrow({ at: [x, y] }: Text, scale: number): Stroke[] {
  const [tail, tip, level] = [x, x + ARROW / scale, y + ARROW_BELOW / scale];
  const barb = (side: number): Point => [tip - ARROW / 3 / scale, level + (side * ARROW) / 9 / scale];
  const narrow = (points: readonly Point[]): Stroke => ({ kind: 'stroke', line: 'narrow', points });
  return [
    narrow([
      [tail, level],
      [tip, level]
    ]),
    narrow([barb(1), [tip, level], barb(-1)])
  ];
}

function writeCaption(sofar: Figure, leftOut: number, { scale, words }: Manner): Text[] {
  const { left, right, bottom } = measureOnPaper(sofar, scale)!;
  const sentences = [words.page.flat.reading, ...(leftOut > 0 ? [words.paper.marks.leftOut] : [])];
  const width = Math.max(right - left, CAPTION_LEAST);
  return breakLines(sentences.join(' '), LETTERING.figures, width).map((text, i) => ({
    kind: 'text',
    text,
    at: [left / scale, (bottom + LINE_PITCH * (i + 0.8)) / scale],
    height: LETTERING.figures,
    anchor: 'start'
  }));
}
