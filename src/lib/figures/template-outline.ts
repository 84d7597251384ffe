import type { PanelBody } from '../kernel/fitting/fitting.ts';
import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Opening, Straight } from '../kernel/straight/straight.ts';
import { clipItems, clipLine } from './clip.ts';
import { describeEdges, drawEdgeBlade, type OutlineEdge } from './edge-blade.ts';
import type { Box, Figure, Item, Point, Stroke, Subject, Text } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { findTextRoom, LETTERING, measureText } from './lettering.ts';
import type { Manner } from './manner.ts';
import { keepOffLine, startRoom, type Room } from './room.ts';
import { drawCross } from './template.ts';
import type { Line, Tile } from './tiles.ts';
import { unrollPoint } from './unroll-point.ts';
import { unrollFaces } from './unroll.ts';

/** What is cut along an outline: a panel, or an opening in a face; mm, outside up, downstream to the right. */
export interface CutOutline {
  readonly name: string;
  /** The straight that an opening is in. */
  readonly straight: string | null;
  readonly face: Face | null;
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
  /** Of the edge from point i to i + 1, degrees. */
  readonly bevels: readonly number[];
  /** What it is laid by: the edges of the face, the middle lines of the opening, and what each says. */
  readonly guides: readonly Guide[];
  /** Diameter of a round opening. */
  readonly diameter: number | null;
  readonly about: Subject;
}

interface Guide {
  readonly line: 'fold' | 'axis';
  readonly points: Line;
  /** The station of a middle line; how far it lies from the edge of the face that is named; null: what need not be said. */
  readonly says: { readonly station: number } | { readonly across: number; readonly edge: Face } | null;
}

/** A round outline is drawn with so many corners: within 0.02 mm of the circle up to 400 mm across. */
const ROUND = 360;

/** How far the middle lines of an opening reach beyond it, mm. */
const BEYOND = 12;

/** The blade laid over at an edge, letters from its line, the arrow of the flow, from row to row; paper mm. */
const GLYPH = { base: 4, reach: 8 } as const;
const OFF = 3.4;
const ARROW = 16;
const BARB = { length: 3, half: 1.2 } as const;
const ROW = 5;

/** An edge shorter than this on a page has no label there, mm. */
const LEAST_EDGE = 12;

/** The outline of a panel. */
export function outlinePanel({ name, panel }: PanelBody): CutOutline {
  const lay = (points: typeof panel.outer): Point[] =>
    points.map(([clockwise, downstream]) => [downstream, clockwise]);
  return {
    name,
    straight: null,
    face: panel.face,
    outer: lay(panel.outer),
    inner: lay(panel.inner),
    bevels: panel.edges.map(({ bevel }) => bevel),
    guides: [],
    diameter: null,
    about: { piece: name, ...(panel.face ? { face: panel.face } : {}) }
  };
}

/** The outline of an opening on its face, where it lies on the unrolled faces, with its middle lines. */
export function outlineOpening(opening: Opening, straight: Straight): CutOutline {
  const { name, face, edges, circle } = opening;
  const lay = (points: typeof opening.outer): Point[] =>
    points.map((point) => unrollPoint(straight, face, point));
  const round = (radius: number): Point[] => {
    const [x, y] = unrollPoint(straight, face, circle!.at);
    return Array.from({ length: ROUND }, (_, i): Point => {
      const angle = (360 * i) / ROUND;
      return [x + radius * cosDegrees(angle), y + radius * sinDegrees(angle)];
    });
  };
  const outer = circle ? round(circle.outer) : lay(opening.outer);
  const { from, to } = unrollFaces(straight).faces.find((unrolled) => unrolled.face === face)!;
  const box = measureOutline(outer);
  const middle: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const level = (y: number): Line => [
    [box.left - BEYOND, y],
    [box.right + BEYOND, y]
  ];
  const clockwise = face === 'top' || face === 'right';
  const first: Face = face === 'top' || face === 'bottom' ? 'left' : 'top';
  return {
    name,
    straight: straight.name,
    face,
    outer,
    inner: circle ? round(circle.inner) : lay(opening.inner),
    bevels: circle ? outer.map(() => edges[0]!.bevel) : edges.map(({ bevel }) => bevel),
    guides: [
      ...[from, to].map((y): Guide => ({ line: 'fold', points: level(y), says: null })),
      {
        line: 'axis',
        points: [
          [middle[0], box.top - BEYOND],
          [middle[0], box.bottom + BEYOND]
        ],
        says: { station: middle[0] }
      },
      {
        line: 'axis',
        points: level(middle[1]),
        says: { across: clockwise ? middle[1] - from : to - middle[1], edge: first }
      }
    ],
    diameter: circle ? 2 * circle.outer : null,
    about: { face }
  };
}

/** What a template of an outline has to show: both outlines, edge by edge. */
export function listOutlineLines({ outer, inner }: CutOutline): Line[] {
  return [outer, inner].flatMap((points) =>
    points.map((point, i): Line => [point, points[(i + 1) % points.length]!])
  );
}

/**
 * The template of an outline, one tile of it, meant for full size, scale 1. Wide: the outline on the facing; dashed: on
 * the inside; on every edge in sight its length, its bevel with set-back, and the blade laid over along the edge.
 */
export function drawOutlineTemplate(cut: CutOutline, manner: Manner, { window, crosses }: Tile): Figure {
  const { scale } = manner;
  const { outer, inner, bevels, about, diameter } = cut;
  const isUpright = bevels.every((bevel) => bevel <= SAME_BEVEL);
  const outline = clipItems([{ ...drawClosed(outer, 'cut'), about }], window);
  const inside = isUpright ? [] : clipItems([{ ...drawClosed(inner, 'hidden'), about }], window);
  const guides = clipItems(
    cut.guides.map(({ line, points }) => drawLine(points, line)),
    window
  );
  const edges = diameter === null ? listEdgesInside(cut, window) : [];
  const blades = edges.flatMap((edge) =>
    edge.bevel > SAME_BEVEL
      ? drawEdgeBlade(edge, edge.middle, { base: GLYPH.base / scale, reach: GLYPH.reach / scale })
      : []
  );
  const marks = crosses.flatMap(drawCross(scale));

  const room = startRoom(
    boxPoints(window.left * scale, window.top * scale, window.right * scale, window.bottom * scale)
  );
  for (const item of [...outline, ...inside, ...guides, ...blades, ...marks]) {
    const { points, closed } = item as Stroke;
    keepOffLine(room, closed ? [...points, points[0]!] : points, scale);
  }
  const labels = [
    ...edges.flatMap((edge) => labelEdge(edge, manner, room)),
    ...cut.guides.flatMap((guide) => labelGuide(guide, manner, window, room)),
    ...nameOutline(cut, manner, window, room)
  ];
  const board: Item[] =
    cut.straight === null ? clipItems([{ kind: 'fill', fill: 'board', points: outer, about }], window) : [];
  return {
    layers: [
      { name: 'pieces', items: board },
      { name: 'guides', items: guides },
      { name: 'inside', items: inside },
      { name: 'cuts', items: outline },
      { name: 'blades', items: blades },
      { name: 'crosses', items: marks },
      { name: 'labels', items: labels }
    ]
  };
}

/** The parts of the edges that a page shows, each with its own middle. */
function listEdgesInside({ outer, inner, bevels }: CutOutline, window: Box): OutlineEdge[] {
  return describeEdges(outer, inner, bevels).flatMap((edge) => {
    const part = clipLine(edge.from, edge.to, window);
    if (!part) return [];
    const [a, b] = part;
    if (Math.hypot(b[0] - a[0], b[1] - a[1]) < LEAST_EDGE) return [];
    return [{ ...edge, middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as Point }];
  });
}

/** The whole edge's length, its bevel and set-back, along it inside or outside, shorter where there is little room. */
function labelEdge(edge: OutlineEdge, { scale, words, say }: Manner, room: Room): Text[] {
  const { template, marks } = words.paper;
  const isTilted = edge.bevel > SAME_BEVEL;
  const length = say.length(edge.length);
  const bevel = isTilted ? template.bevel(say.angle(edge.bevel)) : '';
  const setback = isTilted ? marks.setback(say.figure(edge.setback)) : '';
  const texts = [[length, bevel, setback], [length, bevel], [bevel || length]].map((parts) =>
    parts.filter((part) => part !== '').join(' · ')
  );
  for (const text of new Set(texts)) {
    const half = measureText(text, LETTERING.figures) / 2 + GLYPH.reach / 2 + 2;
    const spots = [-1, 1].flatMap((side) =>
      [half, -half, 2 * half, -2 * half, half * 1.5, -half * 1.5].map((shift): Text => ({
        kind: 'text',
        text,
        at: [
          edge.middle[0] + (edge.outward[0] * side * OFF + edge.along[0] * shift) / scale,
          edge.middle[1] + (edge.outward[1] * side * OFF + edge.along[1] * shift) / scale
        ],
        height: LETTERING.figures,
        anchor: 'middle',
        angle: edge.angle
      }))
    );
    const placed = placeAny(spots, scale, room);
    if (placed) return [placed];
  }
  return [];
}

function labelGuide(
  { points, says, line }: Guide,
  { scale, words, say }: Manner,
  window: Box,
  room: Room
): Text[] {
  if (!says) return [];
  const part = clipLine(points[0], points[1], window);
  if (!part || line !== 'axis') return [];
  const { template } = words.paper;
  const text =
    'station' in says
      ? template.station(say.length(says.station))
      : template.across(say.length(says.across), words.faces[says.edge]);
  const isUpright = 'station' in says;
  const spots = [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((share) =>
    [-1, 1].map((side): Text => {
      const [x, y] = [0, 1].map((axis) => part[0][axis]! + (part[1][axis]! - part[0][axis]!) * share);
      const aside = (side * OFF) / scale;
      return {
        kind: 'text',
        text,
        at: isUpright ? [x! + aside, y!] : [x!, y! + aside],
        height: LETTERING.figures,
        anchor: 'middle',
        ...(isUpright ? { angle: 90 } : {})
      };
    })
  );
  const placed = placeAny(spots, scale, room);
  return placed ? [placed] : [];
}

/** Name, face and "outside up", and the arrow of the flow, once on every page where there is room. */
function nameOutline(
  { name, face, diameter, about }: CutOutline,
  { scale, words, say }: Manner,
  window: Box,
  room: Room
): Item[] {
  const { template, marks } = words.paper;
  const rows = [
    name,
    [...(face ? [template.face(words.faces[face])] : []), template.outsideUp].join(', '),
    ...(diameter === null ? [] : [template.diameter(say.length(diameter))])
  ];
  const heights = rows.map((_, i) => (i === 0 ? LETTERING.title : LETTERING.figures));
  const width = Math.max(...rows.map((row, i) => measureText(row, heights[i]!, i === 0)), ARROW);
  const height = (rows.length + 1.6) * ROW;
  const shares = [0.5, 0.3, 0.7, 0.15, 0.85];
  const corners = shares.flatMap((down) =>
    shares.map((right): Point => [
      window.left + right * (window.right - window.left) - width / 2 / scale,
      window.top + down * (window.bottom - window.top) - height / 2 / scale
    ])
  );
  const found = room.take(
    corners.map(([x, y]) => () => [boxPoints(x * scale, y * scale, x * scale + width, y * scale + height)])
  );
  const corner = corners[found];
  if (!corner) return [];
  const [left, top] = corner;
  const middle = left + width / 2 / scale;
  const level = top + ((rows.length + 0.7) * ROW) / scale;
  const tip: Point = [middle + ARROW / 2 / scale, level];
  return [
    ...rows.map((text, i): Item => ({
      kind: 'text',
      text,
      at: [middle, top + ((i + 0.5) * ROW) / scale],
      height: heights[i]!,
      anchor: 'middle',
      ...(i === 0 ? { bold: true as const } : {}),
      about
    })),
    drawLine([[middle - ARROW / 2 / scale, level], tip]),
    drawLine([
      [tip[0] - BARB.length / scale, level - BARB.half / scale],
      tip,
      [tip[0] - BARB.length / scale, level + BARB.half / scale]
    ]),
    {
      kind: 'text',
      text: marks.flow,
      at: [middle, level + (0.7 * ROW) / scale],
      height: LETTERING.labels,
      anchor: 'middle'
    }
  ];
}

function placeAny(texts: readonly Text[], scale: number, room: Room): Text | null {
  const found = room.take(texts.map((text) => () => [findTextRoom(text, scale)]));
  return texts[found] ?? null;
}

function measureOutline(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}
