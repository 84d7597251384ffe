import { movePoint } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { add, distance, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { findMiddle, type Fitting, type Port } from '../kernel/fitting/fitting.ts';
import type { Speech } from '../words/words.ts';
import { compareDepth, drawCut, drawHiddenOpenings, drawShape, shapeBodies } from './drawing-body.ts';
import { drawDimensions } from './drawing-dimensions.ts';
import { drawInside } from './drawing-inside.ts';
import { drawHiddenEnds, drawOpenEnds } from './drawing-ends.ts';
import { drawName } from './drawing-names.ts';
import type { Figure, Layer, Point, Stroke } from './figure.ts';
import { avoidLine, keepOffLine, startRoom, type Room } from './room.ts';
import { project, type View } from './view.ts';

/** Length of the flow arrow before the inlet, mm on paper. */
const ARROW = 9;

/**
 * The fitting as seen in a view: the outline of the whole wide, pieces from back to front, joints and edges narrow, the
 * inside dashed, the axis as a chain line, names of the pieces, the flow at the inlet. `paperScale`: mm on paper per mm.
 * `room`: with what is drawn round the fitting in it.
 */
export function drawFitting(
  fitting: Fitting,
  view: View,
  paperScale: number,
  say: Speech,
  room: Room = startRoom()
): Figure {
  const shapes = shapeBodies(fitting, view);
  const axes = fitting.axes.flatMap((axis) => drawAxis(axis, fitting, view));
  for (const { points } of axes) keepOffLine(room, points, paperScale);
  const rims = shapes.flatMap(({ silhouettes }) => silhouettes);
  const dimensions = drawDimensions(fitting, view, paperScale, room, shapes, say);
  const backToFront = [...shapes].sort(compareDepth);
  const ends = drawOpenEnds(fitting, view, backToFront);
  const pieces = backToFront.flatMap((shape) => [...drawShape(shape, view), ...(ends.get(shape.body) ?? [])]);
  const inside = [
    ...drawInside(shapes, view),
    ...drawHiddenEnds(fitting, view),
    ...shapes.flatMap((shape) => drawHiddenOpenings(shape, view))
  ];
  for (const item of [...pieces, ...inside]) {
    avoidLine(room, [...item.points, item.points[0]!], paperScale);
    // The air way is dark.
    if (item.kind === 'fill' && item.fill === 'air')
      room.keep(item.points.map(([x, y]): Point => [x * paperScale, y * paperScale]));
  }
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

/** An open arrow on the axis outside every end, pointing the way the air goes. */
export function drawFlow(port: Pick<Port, 'name' | 'at' | 'flow'>, view: View, paperScale: number): Stroke[] {
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
