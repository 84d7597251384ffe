import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { add, dot, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Body, Fitting, Port } from '../kernel/fitting/fitting.ts';
import { FACE_CLOCK } from '../kernel/straight/section.ts';
import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import type { Figure, Fill, Item, Layer, Point, Stroke, Subject } from './figure.ts';
import { wrapHull } from './hull.ts';
import { uniteOutlines } from './outline.ts';
import { project, type View } from './view.ts';

/** Height of piece names and of other texts on the drawing, mm on paper. */
const NAME_HEIGHT = 3.5;

/** Length of the flow arrow before the inlet, mm on paper. */
const ARROW = 9;

/** A face counts as seen when it is turned to the eye by more than this cosine; edge-on faces are lines anyway. */
const SEEN = 1e-6;

/**
 * The fitting as seen in a view: pieces from back to front, the outline of the whole wide, joints and edges narrow, the
 * inside dashed, the axis as a chain line, names of the pieces, the flow at the inlet. `paperScale`: mm on paper per mm.
 */
export function drawFitting(fitting: Fitting, view: View, paperScale: number): Figure {
  const backToFront = [...fitting.bodies]
    .map((body, index) => ({ body, index, depth: dot(view.eye, findMiddle(body)) }))
    .sort((a, b) => a.depth - b.depth);
  const silhouettes = fitting.bodies.map((body) =>
    wrapHull(listCorners(body, 'outer').map((p) => project(view, p)))
  );
  const layers: Layer[] = [
    {
      name: 'pieces',
      items: backToFront.flatMap(({ body, index }) =>
        drawBody(fitting, body, index, view, silhouettes[index]!)
      )
    },
    { name: 'inside', items: fitting.bodies.flatMap((body) => drawInside(body, view)) },
    { name: 'axis', items: fitting.bodies.flatMap((body) => drawAxis(body, view)) },
    {
      name: 'outline',
      items: uniteOutlines(silhouettes).map((points) => stroke('visible', points, undefined, true))
    },
    { name: 'names', items: fitting.bodies.map((body) => drawName(body, view)) },
    { name: 'flow', items: fitting.ports.flatMap((port) => drawFlow(port, view, paperScale)) }
  ];
  return { layers };
}

function drawBody(fitting: Fitting, body: Body, index: number, view: View, silhouette: Point[]): Item[] {
  const about: Subject = { piece: body.name };
  const fill: Fill = { kind: 'fill', fill: { piece: index }, points: silhouette, about };
  const walls = body.walls
    .filter(({ face }) => dot(view.eye, turnDirection(body.placement, faceNormal(face))) > SEEN)
    .map((wall) =>
      stroke(
        'narrow',
        wall.outer.map((corner) => seen(body, view, corner)),
        { piece: body.name, face: wall.face },
        true
      )
    );
  return [fill, ...walls, ...drawOpenEnds(fitting, body, view)];
}

/** An end of the fitting that faces the eye shows the board's edge and the air way. */
function drawOpenEnds(fitting: Fitting, body: Body, view: View): Item[] {
  return fitting.ports
    .filter((port) => port.body === body.name && dot(view.eye, outward(port)) > SEEN)
    .flatMap((port) => {
      const along = port.name === 'inlet' ? 0 : 3;
      const ring = (side: 'outer' | 'inner'): Point[] =>
        body.walls.map((wall) => seen(body, view, wall[side][along]!));
      const about: Subject = { piece: body.name };
      return [
        { kind: 'fill', fill: 'board', points: ring('outer'), about },
        { kind: 'fill', fill: 'air', points: ring('inner'), about },
        stroke('narrow', ring('outer'), about, true),
        stroke('narrow', ring('inner'), about, true)
      ] satisfies Item[];
    });
}

/** The two lines of the inside that are outermost in this view, dashed. */
function drawInside(body: Body, view: View): Stroke[] {
  const lines = body.walls.map(
    ({ inner }) => [seen(body, view, inner[0]!), seen(body, view, inner[3]!)] as const
  );
  const longest = lines.reduce((a, b) => (measure(b) > measure(a) ? b : a));
  const length = measure(longest);
  if (length === 0) return [];
  const across: Point = [-(longest[1][1] - longest[0][1]) / length, (longest[1][0] - longest[0][0]) / length];
  const offset = ([[x, y]]: readonly [Point, Point]): number => x * across[0] + y * across[1];
  const sorted = [...lines].sort((a, b) => offset(a) - offset(b));
  return [sorted[0]!, sorted[sorted.length - 1]!].map((line) => stroke('hidden', line, { piece: body.name }));
}

function drawAxis(body: Body, view: View): Stroke[] {
  const { from, axis } = body.piece;
  return [
    stroke('axis', [seen(body, view, [from, 0, 0]), seen(body, view, [from + axis, 0, 0])], {
      piece: body.name
    })
  ];
}

function drawName(body: Body, view: View): Item {
  return {
    kind: 'text',
    text: body.name,
    at: project(view, findMiddle(body)),
    height: NAME_HEIGHT,
    anchor: 'middle',
    bold: true,
    about: { piece: body.name }
  };
}

/** An open arrow on the axis outside every end, pointing the way the air goes. */
function drawFlow(port: Port, view: View, paperScale: number): Stroke[] {
  const length = ARROW / paperScale;
  const gap = length / 2;
  const start = add(port.at, scale(outward(port), port.name === 'inlet' ? gap + length : gap));
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
  return [stroke('narrow', [from, to]), stroke('narrow', [barb(1), to, barb(-1)])];
}

function outward(port: Port): Vec3 {
  return port.name === 'inlet' ? scale(port.flow, -1) : port.flow;
}

function faceNormal(face: Body['walls'][number]['face']): Vec3 {
  return [0, cosDegrees(FACE_CLOCK[face]), sinDegrees(FACE_CLOCK[face])];
}

function findMiddle(body: Body): Vec3 {
  return movePoint(body.placement, [body.piece.from + body.piece.axis / 2, 0, 0]);
}

function listCorners(body: Body, side: 'outer' | 'inner'): Vec3[] {
  return body.walls
    .flatMap((wall) => [wall[side][0]!, wall[side][3]!])
    .map((p) => movePoint(body.placement, p));
}

function seen(body: Body, view: View, point: Vec3): Point {
  return project(view, movePoint(body.placement, point));
}

function stroke(line: Stroke['line'], points: readonly Point[], about?: Subject, closed?: true): Stroke {
  return { kind: 'stroke', line, points, ...(closed ? { closed } : {}), ...(about ? { about } : {}) };
}

function measure([from, to]: readonly [Point, Point]): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}
