import type { Fitting } from '../kernel/fitting/fitting.ts';
import { drawMeasures, type Measure } from './dimensions.ts';
import { describeEdges, type OutlineEdge } from './edge-blade.ts';
import type { Figure, Item, Layer, Point, Stroke, Subject, Text } from './figure.ts';
import { breakLines, LETTERING, measureOnPaper } from './lettering.ts';
import { measureLabel, placeRows, type Label } from './mark-labels.ts';
import { placeBlade } from './mark-openings.ts';
import { isUpright } from './mark-table.ts';
import type { Manner } from './manner.ts';
import { layPanels, type LaidPanel } from './panel-layout.ts';
import { keepOffLine, placeText, startRoom, type Room } from './room.ts';

/** Sizes on paper, mm: from an edge to its dimension; the flow arrow; the lines of the caption. */
const AWAY = 6;
const ARROW = 9;
const ARROW_BELOW = 4;
const LINE_PITCH = 4;
const CAPTION_LEAST = 172;

/** Where the blade stands on an edge, as a share of its length; where bevel and set-back are tried. */
const BLADE_AT = 0.12;
const BEVEL_PLACES = [0.55, 0.65, 0.45, 0.75, 0.35];

/** From an edge inward to the middle of its bevel, and from its dimension line outward, mm on paper. */
const BEVEL_OFF = 2.4;
const BEVEL_BEYOND = [2.4, 6];

/** What the whole is like: so much wider than high. */
const WIDER = 2;

/** Where a name is tried, as shares of a panel's length and width. */
const NAME_PLACES: readonly Point[] = [
  [0.5, 0.5],
  [0.5, 0.35],
  [0.5, 0.65],
  [0.35, 0.5],
  [0.65, 0.5]
];

/**
 * Every panel of a fitting flat, outside up, downstream to the right, clockwise round the duct downward, at one scale both
 * ways: its outline on the facing wide, that on the inside dashed, every edge with the blade as it stands there, its
 * length, bevel and set-back; its name, the face it makes, the flow. `wider`: so much wider than high is the whole at best. Without
 * a caption nothing is said of how to read it.
 * Layers: pieces, inside, outline, blades, figures, names, dimensions, caption.
 */
export function drawPanels(
  fitting: Fitting,
  manner: Manner,
  { captioned = true, wider = WIDER }: { captioned?: boolean; wider?: number } = {}
): Figure {
  const { scale } = manner;
  const panels = layPanels(fitting, scale, wider);
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
    edges[i]!.flatMap((edge) => placeBlade(edge, placeAlong(edge, BLADE_AT), about(panel), scale, room))
  );
  const dimensions = drawMeasures(
    panels.flatMap((panel, i) => edges[i]!.map((edge) => measureEdge(edge, panel, manner))),
    { scale, room }
  );
  const names = panels.map((panel) => namePanel(panel, manner, room));
  const bevels = panels.flatMap((panel, i) => edges[i]!.map((edge) => writeBevel(edge, panel, manner, room)));
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
    { name: 'figures', items: bevels.flatMap((text) => text ?? []) },
    { name: 'names', items: names.flatMap(({ items }) => items) },
    { name: 'dimensions', items: dimensions.items }
  ];
  if (!captioned || panels.length === 0) return { layers };
  const leftOut = [
    dimensions.leftOut,
    ...names.map((part) => part.leftOut),
    bevels.filter((text) => text === null).length
  ].reduce((sum, count) => sum + count, 0);
  return { layers: [...layers, { name: 'caption', items: writeCaption({ layers }, leftOut, manner) }] };
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

/** The length of an edge, outside the panel and clear of the dashed line where that lies further out. */
function measureEdge(edge: OutlineEdge, panel: LaidPanel, { scale, say }: Manner): Measure {
  const { from, to, outward, length, setback, leansOut } = edge;
  // The dimension stands to the left as one goes along the edge, y running down.
  const isLeft = (to[1] - from[1]) * outward[0] - (to[0] - from[0]) * outward[1] > 0;
  return {
    ...(isLeft ? { from, to } : { from: to, to: from }),
    away: AWAY + (leansOut ? 0 : setback * scale),
    text: say.figure(length),
    about: about(panel)
  };
}

/**
 * Bevel and set-back of an edge, along it: inside the panel, clear of the dashed line where that lies there, else beyond
 * the dimension; null where neither has room. Upright it has no set-back.
 */
function writeBevel(edge: OutlineEdge, panel: LaidPanel, { scale, say }: Manner, room: Room): Text | null {
  const { outward, angle, leansOut } = edge;
  const [bevel, setback] = [say.angle(edge.bevel), edge.setback * scale];
  const inside = -BEVEL_OFF - (leansOut ? setback : 0);
  const beyond = AWAY + (leansOut ? 0 : setback);
  const spots = [inside, ...BEVEL_BEYOND.map((off) => beyond + off)].flatMap((off) =>
    BEVEL_PLACES.map((share): Pick<Text, 'at' | 'anchor'> => {
      const [x, y] = placeAlong(edge, share);
      return { at: [x + (outward[0] * off) / scale, y + (outward[1] * off) / scale], anchor: 'middle' };
    })
  );
  const text = isUpright(edge, say) ? bevel : `${bevel} · ${say.figure(edge.setback)}`;
  const turned = angle === 0 ? {} : { angle };
  return placeText(room, scale, { text, height: LETTERING.figures, ...turned, about: about(panel) }, spots);
}

/** The point at a share of an edge, as a text along it is read. */
function placeAlong({ from, to, along, length }: OutlineEdge, share: number): Point {
  const forward = (to[0] - from[0]) * along[0] + (to[1] - from[1]) * along[1] > 0;
  const start = forward ? from : to;
  return [start[0] + along[0] * length * share, start[1] + along[1] * length * share];
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
