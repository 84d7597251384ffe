import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { add, distance, dot, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Body, Fitting, Joint, Port } from '../kernel/fitting/fitting.ts';
import { FACE_CLOCK } from '../kernel/straight/section.ts';
import { atan2Degrees, cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import type { Speech } from '../words/words.ts';
import { drawMeasures, drawSweep, type Measure, type Sweep } from './dimensions.ts';
import type { Figure, Fill, Item, Layer, Point, Stroke, Subject, Text } from './figure.ts';
import { wrapHull } from './hull.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { avoidLine, keepOffLine, startRoom, type Room } from './room.ts';
import { project, type View } from './view.ts';

/** From the outline to the dimensions, and the radius of the arcs of turns, mm on paper. */
const DIMENSION_AWAY = 7;
const SWEEP_RADIUS = 14;

/**
 * From the axis to the middle of a piece's name, mm on paper: clear of a handle on the axis, further where that slopes.
 */
const NAME_ASIDE = [5, 6, 7.5, 10];

/** From the middle of the axis to where a name is tried, as shares of its length. */
const NAME_ALONG = [0, 0.25, -0.25];

/** A length is shown in its true size when the view shortens it by less than this share. */
const TRUE_SIZE = 1e-6;

/** Length of the flow arrow before the inlet, mm on paper. */
const ARROW = 9;

/** A face counts as seen when it is turned to the eye by more than this cosine; edge-on faces are lines anyway. */
const SEEN = 1e-6;

/**
 * The fitting as seen in a view: the outline of the whole wide, pieces from back to front, joints and edges narrow, the
 * inside dashed, the axis as a chain line, names of the pieces, the flow at the inlet. `paperScale`: mm on paper per mm.
 */
export function drawFitting(fitting: Fitting, view: View, paperScale: number, say: Speech): Figure {
  const backToFront = [...fitting.bodies]
    .map((body, index) => ({ body, index, depth: dot(view.eye, findMiddle(body)) }))
    .sort((a, b) => a.depth - b.depth);
  const silhouettes = fitting.bodies.map((body) =>
    wrapHull(listCorners(body, 'outer').map((p) => project(view, p)))
  );
  const axes = fitting.bodies.flatMap((body) => drawAxis(body, view));
  const room = startRoom();
  for (const { points } of axes) keepOffLine(room, points, paperScale);
  const dimensions = drawDimensions(fitting, view, paperScale, room, silhouettes, say);
  const pieces = backToFront.flatMap(({ body, index }) =>
    drawBody(fitting, body, index, view, silhouettes[index]!)
  );
  const inside = fitting.bodies.flatMap((body) => drawInside(body, view));
  for (const item of [...pieces, ...inside]) avoidLine(room, closeRing(item.points), paperScale);
  const names = fitting.bodies.flatMap((body) => drawName(body, view, paperScale, room));
  const layers: Layer[] = [
    // Of every piece's rim the pieces then cover all but what lies outside the whole.
    { name: 'outline', items: silhouettes.map((points) => stroke('rim', points, undefined, true)) },
    { name: 'pieces', items: pieces },
    { name: 'cuts', items: fitting.joints.flatMap((joint) => drawCut(fitting, joint, view)) },
    { name: 'inside', items: inside },
    { name: 'axis', items: axes },
    { name: 'names', items: names },
    { name: 'flow', items: fitting.ports.flatMap((port) => drawFlow(port, view, paperScale)) },
    { name: 'dimensions', items: dimensions }
  ];
  return { layers };
}

/** The shortest outside edge of every piece and the turn of every joint, where this view shows them in true size. */
function drawDimensions(
  fitting: Fitting,
  view: View,
  scale: number,
  room: Room,
  silhouettes: readonly (readonly Point[])[],
  say: Speech
): Item[] {
  const measures = fitting.bodies.flatMap((body) => measureShortest(body, view, say));
  const sweeps = fitting.joints.flatMap((joint) => sweepTurn(fitting, joint, view, scale, say));
  // Lengths stand outside the pieces; turns may lie over an edge, near their arcs.
  const outside = room.fork();
  for (const points of silhouettes) avoidLine(outside, closeRing(points), scale);
  const lengths = drawMeasures(measures, { scale, room: outside }).items;
  room.join(outside);
  return [...lengths, ...sweeps.flatMap((sweep) => drawSweep(sweep, { scale, room }).items)];
}

function measureShortest(body: Body, view: View, say: Speech): Measure[] {
  const edges = body.walls.map(({ outer }) => {
    const [from, to] = [movePoint(body.placement, outer[0]!), movePoint(body.placement, outer[3]!)];
    return { from: project(view, from), to: project(view, to), length: distance(from, to) };
  });
  const middle = project(view, findMiddle(body));
  const farOut = ({ from, to }: (typeof edges)[number]): number => Math.abs(sideOf(from, to, middle));
  // Of equally short edges the one that stands out most: the others lie behind the piece or in the middle of it.
  const shortest = edges.reduce((a, b) =>
    b.length < a.length - SAME_LENGTH ||
    (b.length < a.length + SAME_LENGTH && farOut(b) > farOut(a) + SAME_LENGTH)
      ? b
      : a
  );
  const { from, to, length } = shortest;
  if (Math.abs(measure([from, to]) - length) > TRUE_SIZE * length || farOut(shortest) < SAME_LENGTH)
    return [];
  const ends = sideOf(from, to, middle) > 0 ? { from: to, to: from } : { from, to };
  return [{ ...ends, away: DIMENSION_AWAY, text: say.figure(length), about: { piece: body.name } }];
}

/** How far a point lies to the left of a line as one goes along it, times the line's length; y runs down. */
function sideOf(from: Point, to: Point, point: Point): number {
  return (to[1] - from[1]) * (point[0] - from[0]) - (to[0] - from[0]) * (point[1] - from[1]);
}

function sweepTurn(fitting: Fitting, joint: Joint, view: View, scale: number, say: Speech): Sweep[] {
  if (joint.closing.kind !== 'miter') return [];
  const bodies = joint.bodies.map((name) => findBody(fitting, name));
  const flows = bodies.map(({ placement }) => turnDirection(placement, [1, 0, 0]));
  if (flows.some((flow) => Math.abs(dot(flow, view.eye)) > TRUE_SIZE)) return [];
  const [start, end] = flows.map((flow) => {
    const [x, y] = project(view, flow);
    return atan2Degrees(-y, x);
  }) as [number, number];
  // The short way round, whichever side of half a turn the two directions lie.
  const swept = ((end - start + 540) % 360) - 180;
  const text = say.angle(2 * joint.closing.miter);
  const radius = Math.min(SWEEP_RADIUS, ...bodies.map(({ piece }) => (piece.axis * scale) / 2));
  return [{ at: project(view, joint.at), start, end: start + swept, radius, text }];
}

function findBody(fitting: Fitting, name: string): Body {
  return fitting.bodies.find((body) => body.name === name)!;
}

function closeRing(points: readonly Point[]): Point[] {
  return [...points, points[0]!];
}

function drawBody(
  fitting: Fitting,
  body: Body,
  index: number,
  view: View,
  silhouette: Point[]
): (Fill | Stroke)[] {
  const about: Subject = { piece: body.name };
  const fill: Fill = { kind: 'fill', fill: { piece: index }, points: silhouette, about };
  const walls = listSeenWalls(body, view).map((wall) =>
    stroke(
      'narrow',
      wall.outer.map((corner) => seen(body, view, corner)),
      { piece: body.name, face: wall.face },
      true
    )
  );
  return [fill, ...walls, ...drawOpenEnds(fitting, body, view)];
}

/** A joint as it is seen: the line of its cut on every face of the first body that is turned to the eye. */
function drawCut(fitting: Fitting, { bodies, closing }: Joint, view: View): Stroke[] {
  if (closing.kind !== 'miter') return [];
  const body = findBody(fitting, bodies[0]);
  return listSeenWalls(body, view).map(({ outer }) =>
    stroke('narrow', [seen(body, view, outer[2]!), seen(body, view, outer[3]!)], { cut: closing.cut })
  );
}

function listSeenWalls(body: Body, view: View): Body['walls'][number][] {
  return body.walls.filter(
    ({ face }) => dot(view.eye, turnDirection(body.placement, faceNormal(face))) > SEEN
  );
}

/** An end of the fitting that faces the eye shows the board's edge and the air way. */
function drawOpenEnds(fitting: Fitting, body: Body, view: View): (Fill | Stroke)[] {
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

/**
 * The name stands beside the axis, square to it on the one side or the other, at the middle or further along; smaller
 * where it would lie over a line, over one where there is no other room, else on the middle itself.
 */
function drawName(body: Body, view: View, scale: number, room: Room): Item[] {
  const [x, y] = project(view, findMiddle(body));
  const [fx, fy] = project(view, turnDirection(body.placement, [1, 0, 0]));
  const name = {
    kind: 'text',
    text: body.name,
    bold: true,
    about: { piece: body.name },
    anchor: 'middle'
  } as const;
  const texts = [LETTERING.names, LETTERING.figures].flatMap((height) =>
    NAME_ALONG.flatMap((share) =>
      NAME_ASIDE.flatMap((aside) => [aside, -aside]).map((aside): Text => {
        const [along, across] = [share * body.piece.axis, (aside * height) / LETTERING.names / scale];
        return { ...name, height, at: [x + along * fx - across * fy, y + along * fy + across * fx] };
      })
    )
  );
  const found = room.take(texts.map((text) => () => [findTextRoom(text, scale)]));
  return [texts[found] ?? { ...name, height: LETTERING.names, at: [x, y] }];
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
