import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { add, distance, dot, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { findMiddle, type Fitting, type Port } from '../kernel/fitting/fitting.ts';
import type { Speech } from '../words/words.ts';
import {
  drawCut,
  drawHiddenOpenings,
  drawInside,
  drawShape,
  shapeBody,
  type BodyShape
} from './drawing-body.ts';
import { drawDimensions } from './drawing-dimensions.ts';
import { drawOpenEnds } from './drawing-ends.ts';
import type { Figure, Item, Layer, Point, Stroke, Text } from './figure.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { avoidLine, isInside, keepOffLine, startRoom, type Room } from './room.ts';
import { project, type View } from './view.ts';

/**
 * From the axis to the middle of a piece's name, mm on paper: clear of a handle on the axis, further where that slopes.
 */
const NAME_ASIDE = [5, 6, 7.5, 10];

/** From the middle of the axis to where a name is tried, as shares of its length. */
const NAME_ALONG = [0, 0.25, -0.25, 0.4, -0.4];

/** Where a name is tried beside the others', mm on paper from the middle, where all lie in one place as seen. */
const NAME_ROWS = [0, 5, -5, 10, -10, 15, -15];

/** Length of the flow arrow before the inlet, mm on paper. */
const ARROW = 9;

/** A panel whose facing is turned to the eye by more than this cosine is named. */
const NAMED = 0.3;

/**
 * The fitting as seen in a view: the outline of the whole wide, pieces from back to front, joints and edges narrow, the
 * inside dashed, the axis as a chain line, names of the pieces, the flow at the inlet. `paperScale`: mm on paper per mm.
 */
export function drawFitting(fitting: Fitting, view: View, paperScale: number, say: Speech): Figure {
  const shapes = fitting.bodies.map((body, index) => shapeBody(body, index, view));
  const axes = fitting.axes.flatMap((axis) => drawAxis(axis, fitting, view));
  const room = startRoom();
  for (const { points } of axes) keepOffLine(room, points, paperScale);
  const rims = shapes.flatMap(({ silhouettes }) => silhouettes);
  const dimensions = drawDimensions(fitting, view, paperScale, room, shapes, say);
  const backToFront = [...shapes].sort(compareDepth);
  const ends = drawOpenEnds(fitting, view, backToFront);
  const pieces = backToFront.flatMap((shape) => [...drawShape(shape, view), ...(ends.get(shape.body) ?? [])]);
  const inside = [...drawInside(shapes, view), ...shapes.flatMap((shape) => drawHiddenOpenings(shape, view))];
  for (const item of [...pieces, ...inside]) avoidLine(room, [...item.points, item.points[0]!], paperScale);
  const names = shapes.flatMap((shape) => {
    const inFront = backToFront.slice(backToFront.indexOf(shape) + 1);
    return drawName(shape, inFront, view, paperScale, room);
  });
  const layers: Layer[] = [
    // Of every piece's rim the pieces then cover all but what lies outside the whole.
    { name: 'outline', items: rims.map((points) => ({ kind: 'stroke', line: 'rim', points, closed: true })) },
    { name: 'pieces', items: pieces },
    { name: 'cuts', items: fitting.joints.flatMap((joint) => drawCut(joint, shapes, view)) },
    { name: 'inside', items: inside },
    { name: 'axis', items: axes },
    { name: 'names', items: names },
    { name: 'flow', items: fitting.ports.flatMap((port) => drawFlow(port, view, paperScale)) },
    { name: 'dimensions', items: dimensions }
  ];
  return { layers };
}

/** Depths that differ by less than this are one depth, mm. */
const SAME_DEPTH = 1e-3;

/** By the depth of the middles; of bodies in one depth the one that comes nearer to the eye is in front. */
function compareDepth(a: BodyShape, b: BodyShape): number {
  const layer = (depth: number): number => Math.round(depth / SAME_DEPTH);
  return layer(a.depth) - layer(b.depth) || layer(a.nearest) - layer(b.nearest);
}

/** The parts of an axis, each known as the piece through whose middle it runs. */
function drawAxis(axis: readonly Vec3[], { bodies }: Fitting, view: View): Stroke[] {
  return axis.slice(1).map((to, i) => {
    const from = axis[i]!;
    const piece = bodies.find((body) => isOnLine(movePoint(body.placement, findMiddle(body)), from, to));
    return {
      kind: 'stroke',
      line: 'axis',
      points: [project(view, from), project(view, to)],
      ...(piece ? { about: { piece: piece.name } } : {})
    };
  });
}

function isOnLine(point: Vec3, from: Vec3, to: Vec3): boolean {
  return distance(from, point) + distance(point, to) - distance(from, to) < SAME_LENGTH;
}

/**
 * The name of a piece stands beside the axis, square to it on the one side or the other, at the middle or further along;
 * smaller where it would lie over a line, over one where there is no other room, else above or below the middle. The name
 * of a panel stands on its facing, where that is turned to the eye. A name that would lie over another, or on what
 * hides its piece, is left out.
 */
function drawName(
  shape: BodyShape,
  inFront: readonly BodyShape[],
  view: View,
  scale: number,
  room: Room
): Item[] {
  const { body, silhouettes } = shape;
  if (body.kind === 'panel' && dot(view.eye, turnDirection(body.placement, [0, 1, 0])) < NAMED) return [];
  const [x, y] = project(view, movePoint(body.placement, findMiddle(body)));
  const [fx, fy] = project(view, turnDirection(body.placement, [1, 0, 0]));
  const write = (height: number, at: Point): Text => ({
    kind: 'text',
    text: body.name,
    bold: true,
    about: { piece: body.name },
    anchor: 'middle',
    height,
    at
  });
  const length = body.kind === 'piece' ? body.piece.axis : measureDownstream(body.panel.outer);
  const asides = NAME_ASIDE.flatMap((aside) => [aside, -aside]);
  const beside = [LETTERING.names, LETTERING.figures].flatMap((height) =>
    NAME_ALONG.flatMap((share) =>
      (body.kind === 'piece' ? asides : [0, ...asides]).map((aside): Text => {
        const [along, across] = [share * length, (aside * height) / LETTERING.names / scale];
        return write(height, [x + along * fx - across * fy, y + along * fy + across * fx]);
      })
    )
  );
  const rows = NAME_ROWS.map((row) => write(LETTERING.names, [x, y + row / scale]));
  const isOn = (at: Point, outlines: BodyShape['silhouettes']): boolean =>
    outlines.some((outline) => isInside(at, outline));
  const texts = [...beside, ...rows].filter((text) => {
    const corners = findTextRoom(text, scale).map(([px, py]): Point => [px / scale, py / scale]);
    return (
      isOn(text.at, silhouettes) &&
      // Of a neighbour in the same depth a little may be written over, of what hides the piece nothing.
      !inFront.some((other) =>
        [text.at, ...(compareDepth(shape, other) < 0 ? corners : [])].some((at) =>
          isOn(at, other.silhouettes)
        )
      )
    );
  });
  const found = texts[room.take(texts.map((text) => () => [findTextRoom(text, scale)]))];
  return found ? [found] : [];
}

function measureDownstream(outer: readonly (readonly [number, number])[]): number {
  const ys = outer.map(([, downstream]) => downstream);
  return Math.max(...ys) - Math.min(...ys);
}

/** An open arrow on the axis outside every end, pointing the way the air goes. */
function drawFlow(port: Port, view: View, paperScale: number): Stroke[] {
  const length = ARROW / paperScale;
  const gap = length / 2;
  const inward = port.name === 'inlet';
  const start = inward
    ? subtract(port.at, scale(port.flow, gap + length))
    : add(port.at, scale(port.flow, gap));
  const from = project(view, start);
  const to = project(view, add(start, scale(port.flow, length)));
  const seenLength = Math.hypot(to[0] - from[0], to[1] - from[1]);
  // Square on, an arrow along the eye is a point.
  if (seenLength < length / 4) return [];
  const [ux, uy] = [(to[0] - from[0]) / seenLength, (to[1] - from[1]) / seenLength];
  const head = length / 3;
  const barb = (side: number): Point => [
    to[0] - head * ux - side * (head / 3) * uy,
    to[1] - head * uy + side * (head / 3) * ux
  ];
  const narrow = (points: readonly Point[]): Stroke => ({ kind: 'stroke', line: 'narrow', points });
  return [narrow([from, to]), narrow([barb(1), to, barb(-1)])];
}
