import type { Opening, Straight } from '../kernel/straight/straight.ts';
import { drawMeasures, type Measure } from './dimensions.ts';
import { describeEdges, drawEdgeBlade, type OutlineEdge } from './edge-blade.ts';
import type { Fill, Item, Point, Stroke, Subject } from './figure.ts';
import { measureLabel, placeRows, type Label } from './mark-labels.ts';
import { isUpright } from './mark-table.ts';
import type { Manner } from './manner.ts';
import { hatchPolygon } from './hatch.ts';
import { keepOffLine, type Room } from './room.ts';
import { unrollPoint } from './unroll-point.ts';

/** Sizes on paper, mm: how far centre lines stand out, dimensions off the outline, labels off an edge; the blade on it. */
const CENTRE_OUT = 3;
const AWAY = 5;
const OFF = 2.4;
const DASHED_OFF = 1;
const BLADE = { base: 1.8, reach: 3.2 } as const;

/** Beside an opening, past the figure of a dimension that ends there, paper mm. */
const PAST_FIGURE = 11;

/** Where a label is tried in an opening and beside one, as shares of its length and width. */
const INSIDE = [0.5, 0.2, 0.8];
const ALONG = [0.5, 0.25, 0.75, 0.1, 0.9];

/** An opening on the unrolled faces. */
interface UnrolledOpening {
  readonly opening: Opening;
  readonly about: Subject;
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** The first edge of its face, y: stations across count from there. */
  readonly edge: number;
}

/** The openings of a straight as they lie on its unrolled faces. */
export function unrollOpenings(straight: Straight): UnrolledOpening[] {
  return straight.openings.map((opening) => {
    const place = (points: readonly (readonly [number, number])[]): Point[] =>
      points.map((point) => unrollPoint(straight, opening.face, point));
    const outer = place(opening.outer);
    const [xs, ys] = [outer.map(([x]) => x), outer.map(([, y]) => y)];
    return {
      opening,
      about: { cut: opening.name, face: opening.face },
      outer,
      inner: place(opening.inner),
      left: Math.min(...xs),
      right: Math.max(...xs),
      top: Math.min(...ys),
      bottom: Math.max(...ys),
      edge: unrollPoint(straight, opening.face, [0, 0])[1]
    };
  });
}

/**
 * Openings, hatched as off-cuts but where something is written: their outline on the facing a wide line, on the inside
 * dashed where that lies elsewhere, the centre lines of a circle.
 */
export function drawOpenings(
  straight: Straight,
  { scale }: Manner,
  labels: readonly Item[]
): (Fill | Stroke)[] {
  return unrollOpenings(straight).flatMap(({ opening, about, outer, inner }): (Fill | Stroke)[] => {
    const tilted = opening.edges.some(({ bevel }) => bevel > 0);
    return [
      { kind: 'fill', fill: 'offcut', points: outer, about },
      ...hatchPolygon(outer, labels, scale),
      { kind: 'stroke', line: 'cut', points: outer, closed: true, about },
      ...(tilted ? [{ kind: 'stroke', line: 'hidden', points: inner, closed: true, about } as const] : []),
      ...drawCentre(opening, straight, scale, about)
    ];
  });
}

function drawCentre({ circle, face }: Opening, straight: Straight, scale: number, about: Subject): Stroke[] {
  if (!circle) return [];
  const [x, y] = unrollPoint(straight, face, circle.at);
  const reach = circle.outer + CENTRE_OUT / scale;
  const axis = (points: Point[]): Stroke => ({ kind: 'stroke', line: 'axis', points, about });
  return [
    axis([
      [x - reach, y],
      [x + reach, y]
    ]),
    axis([
      [x, y - reach],
      [x, y + reach]
    ])
  ];
}

/**
 * What is written at the openings: from the datum end and from the face's first edge to their sides, of a circle to its
 * middle; name and size; at every edge that is not upright the blade, its bevel and set-back.
 */
export function labelOpenings(
  straight: Straight,
  manner: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const openings = unrollOpenings(straight);
  for (const { opening, about } of openings) {
    for (const { points } of drawCentre(opening, straight, manner.scale, about))
      keepOffLine(room, points, manner.scale);
  }
  const parts = openings.flatMap((opening) => [
    dimensionOpening(opening, straight, manner, room),
    nameOpening(opening, straight, manner, room),
    ...(opening.opening.circle ? [] : labelEdges(opening, manner, room))
  ]);
  // Nothing else is written where there is no wall.
  for (const { outer } of openings)
    room.keep(outer.map(([x, y]): Point => [x * manner.scale, y * manner.scale]));
  return {
    items: parts.flatMap(({ items }) => items),
    leftOut: parts.reduce((sum, { leftOut }) => sum + leftOut, 0)
  };
}

function dimensionOpening(
  { opening, about, left, right, top, bottom, edge }: UnrolledOpening,
  straight: Straight,
  { scale, say }: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const over = (from: Point, to: Point, away = 0): Measure => ({
    from,
    to,
    away,
    text: say.figure(Math.hypot(to[0] - from[0], to[1] - from[1])),
    about
  });
  if (opening.circle) {
    const [x, y] = unrollPoint(straight, opening.face, opening.circle.at);
    const away = AWAY + opening.circle.outer * scale;
    return drawMeasures(
      // To the left as one goes along it: below it, and before it.
      [over([x, y], [0, y], away), edge < y ? over([x, y], [x, edge], away) : over([x, edge], [x, y], away)],
      { scale, room }
    );
  }
  // Across the opening itself: there is always room, and no line over another face.
  const [near, far] = edge < top + SAME_PLACE ? [top, bottom] : [bottom, top];
  const at = (share: number): Point => [left + (right - left) * share, top + (bottom - top) * share];
  return drawMeasures(
    [
      over([0, at(1 / 3)[1]], [left, at(1 / 3)[1]]),
      over([0, at(2 / 3)[1]], [right, at(2 / 3)[1]]),
      over([at(1 / 3)[0], edge], [at(1 / 3)[0], near]),
      over([at(2 / 3)[0], edge], [at(2 / 3)[0], far])
    ],
    { scale, room }
  );
}

/** Places nearer than this are the same, mm. */
const SAME_PLACE = 1e-6;

function nameOpening(
  { opening, about, left, right, top, bottom }: UnrolledOpening,
  { length }: Straight,
  { scale, say, words }: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const { circle, name, edges } = opening;
  const size = circle
    ? `⌀${say.figure(2 * circle.outer)}`
    : `${say.figure(right - left)} × ${say.figure(bottom - top)}`;
  const tilted = circle && edges.find((edge) => !isUpright(edge, say));
  const full: Label = [
    [{ text: name, bold: true }],
    [{ text: size }],
    ...(tilted ? [[{ text: words.page.flat.bevel(say.angle(tilted.bevel)) }]] : [])
  ];
  for (const label of [full, full.slice(0, 1)]) {
    const { width, height } = measureLabel(label);
    const [w, h] = [width / scale, height / scale];
    const inside = INSIDE.flatMap((down) =>
      INSIDE.map((along): Point => [
        left + (right - left) * along - w / 2,
        top + (bottom - top) * down - h / 2
      ])
    ).filter(([x, y]) => x > left && x + w < right && y > top && y + h < bottom);
    const [off, after, before] = [OFF / scale, right + OFF / scale, left - OFF / scale - w];
    const beside: Point[] = [
      [after, top],
      [after, bottom - h],
      [before, top],
      [before, bottom - h],
      [after + PAST_FIGURE / scale, (top + bottom - h) / 2],
      ...[top - off - h, bottom + off].flatMap((level): Point[] => [
        [left, level],
        [right - w, level],
        [(left + right - w) / 2, level]
      ])
    ];
    const onStraight = beside.filter(([x]) => x > 0 && x + w < length);
    const items = placeRows(label, [...inside, ...onStraight], scale, about, room);
    if (items) return { items, leftOut: label === full ? 0 : 1 };
  }
  return { items: [], leftOut: 1 };
}

/** At every edge that is not upright the blade, and beside it its bevel and set-back, outside the opening first. */
function labelEdges(
  { opening, about, outer, inner }: UnrolledOpening,
  { scale, say, words }: Manner,
  room: Room
): { items: Item[]; leftOut: number }[] {
  const bevels = opening.edges.map(({ bevel }) => bevel);
  const tilted = describeEdges(outer, inner, bevels).filter((edge) => !isUpright(edge, say));
  return tilted.map((edge) => {
    const label: Label = [
      [{ text: words.page.flat.bevel(say.angle(edge.bevel)) }],
      [{ text: words.paper.marks.setback(say.figure(edge.setback)) }]
    ];
    const blade = placeBlade(edge, edge.middle, about, scale, room);
    const items = placeRows(label, listBeside(edge, label, scale), scale, about, room);
    return { items: [...blade, ...(items ?? [])], leftOut: items ? 0 : 1 };
  });
}

/** Top left corners of a label beside an edge, clear of it and of the dashed line beside it. */
function listBeside(
  { from, to, outward, leansOut, setback }: OutlineEdge,
  label: Label,
  scale: number
): Point[] {
  const { width, height } = measureLabel(label);
  const half = (Math.abs(outward[0]) * width + Math.abs(outward[1]) * height) / 2;
  return [1, -1].flatMap((side) =>
    ALONG.map((share): Point => {
      const dashed = side > 0 === leansOut ? 0 : setback * scale;
      const clear = (side * (half + Math.max(OFF, dashed + DASHED_OFF))) / scale;
      const [x, y] = [0, 1].map(
        (axis) => from[axis]! + (to[axis]! - from[axis]!) * share + outward[axis]! * clear
      ) as [number, number];
      return [x - width / 2 / scale, y - height / 2 / scale];
    })
  );
}

/** The blade at a point of an edge of an outline, as it stands there; texts keep off it. */
export function placeBlade(
  edge: OutlineEdge,
  at: Point,
  about: Subject,
  scale: number,
  room: Room
): Stroke[] {
  const size = { base: BLADE.base / scale, reach: BLADE.reach / scale };
  const blade = drawEdgeBlade(edge, at, size).map((stroke) => ({ ...stroke, about }));
  for (const { points } of blade) keepOffLine(room, points, scale);
  return blade;
}
