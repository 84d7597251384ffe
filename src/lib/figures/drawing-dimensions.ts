import { atan2Degrees } from '../kernel/geometry/angle.ts';
import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { distance, dot, norm, scale as scaleBy, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { findMiddle, listPieceBodies } from '../kernel/fitting/fitting.ts';
import type { Body, Fitting, Joint, PieceBody } from '../kernel/fitting/fitting.ts';
import type { Speech } from '../words/words.ts';
import { DIMENSION_PITCH, drawMeasures, drawSweep, type Measure, type Sweep } from './dimensions.ts';
import type { Item, Point } from './figure.ts';
import type { BodyShape } from './drawing-body.ts';
import { avoidLine, isInside, type Room } from './room.ts';
import { project, type View } from './view.ts';
import { listRunCorners, type Run } from './wall-outline.ts';

/** From the outline to the dimensions, and the radius of the arcs of turns, mm on paper. */
const DIMENSION_AWAY = 7;
const SWEEP_RADIUS = 14;

/** At how many places a dimension line is looked at whether something is there. */
const PROBES = 12;

/** A length is shown in its true size when the view shortens it by less than this share. */
const TRUE_SIZE = 1e-6;

/**
 * The shortest outside edge of every piece, how long its tapers are along the duct, where branches stand, and the turn of
 * every joint, where this view shows them in true size.
 */
export function drawDimensions(
  fitting: Fitting,
  view: View,
  scale: number,
  room: Room,
  shapes: readonly BodyShape[],
  say: Speech
): Item[] {
  const outlinesBut = (body: Body | null) =>
    shapes.filter((shape) => shape.body !== body).flatMap(({ silhouettes }) => silhouettes);
  const branches = listBranches(fitting);
  const measures = [
    ...shapes.flatMap(({ body, cornerLines }) => {
      if (body.kind !== 'piece') return [];
      // Shorter dimensions stand nearer.
      const branched = branches.some((branch) => carries(branch, body));
      const away = DIMENSION_AWAY + (branched ? DIMENSION_PITCH : 0);
      return measureShortest(body, cornerLines, away, view, scale, outlinesBut(body), say);
    }),
    ...measureTapers(fitting, view, say),
    ...measureBranches(fitting, view, say)
  ];
  const sweeps = [
    ...fitting.joints.flatMap((joint) => sweepTurn(fitting, joint, view, scale, say)),
    ...branches.flatMap((branch) => sweepBranch(branch, view, scale, say))
  ];
  // Lengths stand outside the pieces; turns may lie over an edge, near their arcs.
  const outside = room.fork();
  for (const points of outlinesBut(null)) avoidLine(outside, [...points, points[0]!], scale);
  const lengths = drawMeasures(measures, { scale, room: outside }).items;
  room.join(outside);
  return [...lengths, ...sweeps.flatMap((sweep) => drawSweep(sweep, { scale, room }).items)];
}

function measureShortest(
  body: PieceBody,
  cornerLines: readonly Run[],
  away: number,
  view: View,
  scale: number,
  others: readonly (readonly Point[])[],
  say: Speech
): Measure[] {
  const edges = cornerLines.flatMap((run) => {
    const corners = listRunCorners(run, 'outer').map((corner) => movePoint(body.placement, corner));
    const [from, to] = [corners[0]!, corners[1]!];
    if (corners.length !== 2) return [];
    return [{ from: project(view, from), to: project(view, to), length: distance(from, to) }];
  });
  if (edges.length === 0) return [];
  const middle = project(view, movePoint(body.placement, findMiddle(body)));
  const farOut = ({ from, to }: (typeof edges)[number]): number => Math.abs(sideOf(from, to, middle));
  // Of equally short edges the one that stands out most: the others lie behind the piece or in the middle of it. Of two
  // of these the one beside which nothing else is.
  const least = Math.min(...edges.map(({ length }) => length));
  const short = edges.filter(({ length }) => length < least + SAME_LENGTH);
  const furthest = Math.max(...short.map(farOut));
  const outermost = short.filter((edge) => farOut(edge) > furthest - SAME_LENGTH);
  const isFree = ({ from, to }: (typeof edges)[number]): boolean =>
    isClear(from, to, ((sideOf(from, to, middle) > 0 ? -1 : 1) * away) / scale, others);
  const shortest = outermost.find(isFree) ?? outermost[0]!;
  const { from, to, length } = shortest;
  const seenLength = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (Math.abs(seenLength - length) > TRUE_SIZE * length || farOut(shortest) < SAME_LENGTH) return [];
  const ends = sideOf(from, to, middle) > 0 ? { from: to, to: from } : { from, to };
  return [{ ...ends, away, text: say.figure(length), about: { piece: body.name } }];
}

/** Whether the dimension line beside an edge, so far to its left, mm, is clear of the outlines of other bodies. */
function isClear(from: Point, to: Point, away: number, others: readonly (readonly Point[])[]): boolean {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [((to[1] - from[1]) * away) / length, ((from[0] - to[0]) * away) / length];
  return Array.from({ length: PROBES + 1 }, (_, i): Point => {
    const share = i / PROBES;
    return [from[0] + (to[0] - from[0]) * share + dx, from[1] + (to[1] - from[1]) * share + dy];
  }).every((point) => !others.some((outline) => isInside(point, outline)));
}

/**
 * The length along the duct of every part of an axis that runs through no straight piece, beside the panels or the folded
 * piece round it.
 */
function measureTapers(fitting: Fitting, view: View, say: Speech): Measure[] {
  const parts = fitting.axes.flatMap((axis) => axis.slice(1).map((to, i) => [axis[i]!, to] as const));
  const through = (body: Body): boolean => {
    const middle = movePoint(body.placement, findMiddle(body));
    return body.kind === 'piece' && parts.some(([from, to]) => isBetween(middle, from, to));
  };
  const corners = fitting.bodies
    .filter((body) => !through(body))
    .flatMap(({ walls, placement }) =>
      walls.flatMap(({ outer }) => outer.map((corner) => project(view, movePoint(placement, corner))))
    );
  const straight = listPieceBodies(fitting).filter(through);
  if (corners.length === 0) return [];
  return parts.flatMap(([from, to]): Measure[] => {
    if (straight.some((body) => isBetween(movePoint(body.placement, findMiddle(body)), from, to))) return [];
    const direction = findFlow(fitting, subtract(to, from));
    if (!direction || Math.abs(dot(direction, view.eye)) > TRUE_SIZE) return [];
    const along = project(view, direction);
    const length = dot(subtract(to, from), direction);
    // On the far side of everything: to the left as one goes along it, y running down.
    const out: Point = [along[1], -along[0]];
    const level = Math.max(...corners.map(([x, y]) => x * out[0] + y * out[1]));
    const raise = ([x, y]: Point): Point => {
      const by = level - (x * out[0] + y * out[1]);
      return [x + by * out[0], y + by * out[1]];
    };
    const [start, end] = [project(view, from), project(view, to)];
    return [{ from: raise(start), to: raise(end), along, away: DIMENSION_AWAY, text: say.figure(length) }];
  });
}

/** An axis that branches off another one: the part of that it stands on, and how far along it, mm. */
interface Branch {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly station: number;
  /** Where it begins, and its first part. */
  readonly at: Vec3;
  readonly way: Vec3;
}

function listBranches({ axes }: Fitting): Branch[] {
  const parts = axes.flatMap((axis) =>
    axis.slice(1).map((to, i) => ({ axis, from: axis[i]!, to, length: distance(axis[i]!, to) }))
  );
  return axes.flatMap((axis) =>
    parts.flatMap(({ axis: other, from, to, length }): Branch[] => {
      const station = dot(subtract(axis[0]!, from), subtract(to, from)) / length;
      const isOn = other !== axis && station > SAME_LENGTH && station < length - SAME_LENGTH;
      return isOn ? [{ from, to, station, at: axis[0]!, way: subtract(axis[1]!, axis[0]!) }] : [];
    })
  );
}

/** Whether the axis of a body is a part of the one that a branch stands on. */
function carries({ from, to }: Branch, body: Body): boolean {
  return isBetween(movePoint(body.placement, findMiddle(body)), from, to);
}

/** How far along its main a branch stands, on the side away from it. */
function measureBranches(fitting: Fitting, view: View, say: Speech): Measure[] {
  return listBranches(fitting).flatMap((branch): Measure[] => {
    const { from, to, station, way } = branch;
    const direction = scaleBy(subtract(to, from), 1 / distance(from, to));
    const corners = fitting.bodies
      .filter((body) => carries(branch, body))
      .flatMap(({ walls, placement }) =>
        walls.flatMap(({ outer }) => outer.map((corner) => project(view, movePoint(placement, corner))))
      );
    if (corners.length === 0 || Math.abs(dot(direction, view.eye)) > TRUE_SIZE) return [];
    const along = project(view, direction);
    const [wayX, wayY] = project(view, way);
    // To the left as one goes along it, y running down; turned round where the branch goes there.
    const sense = along[1] * wayX - along[0] * wayY > SAME_LENGTH ? -1 : 1;
    const out: Point = [along[1] * sense, -along[0] * sense];
    const level = Math.max(...corners.map(([x, y]) => x * out[0] + y * out[1]));
    const [x, y] = project(view, from);
    const by = level - (x * out[0] + y * out[1]);
    const near: Point = [x + by * out[0], y + by * out[1]];
    const far: Point = [near[0] + along[0] * station, near[1] + along[1] * station];
    const ends = sense > 0 ? { from: near, to: far } : { from: far, to: near };
    return [{ ...ends, away: DIMENSION_AWAY, text: say.figure(station) }];
  });
}

/** The flow at an end of the fitting that goes most nearly the same way. */
function findFlow({ ports }: Fitting, way: Vec3): Vec3 | null {
  const flows = ports.map(({ flow }) => flow).sort((a, b) => dot(b, way) - dot(a, way));
  return flows[0] ?? null;
}

/** Whether a point lies on the line between two others. */
function isBetween(point: Vec3, from: Vec3, to: Vec3): boolean {
  return distance(from, point) + distance(point, to) - distance(from, to) < SAME_LENGTH;
}

/** How far a point lies to the left of a line as one goes along it, times the line's length; y runs down. */
function sideOf(from: Point, to: Point, point: Point): number {
  return (to[1] - from[1]) * (point[0] - from[0]) - (to[0] - from[0]) * (point[1] - from[1]);
}

function sweepTurn(fitting: Fitting, joint: Joint, view: View, scale: number, say: Speech): Sweep[] {
  if (joint.closing.kind !== 'miter') return [];
  const pieces = listPieceBodies(fitting);
  const bodies = joint.bodies.map((name) => pieces.find((body) => body.name === name)!);
  const [before, after] = bodies.map(({ placement }) => turnDirection(placement, [1, 0, 0]));
  const swept = sweepBetween(before!, after!, view);
  if (!swept) return [];
  const text = say.angle(2 * joint.closing.miter);
  const radius = Math.min(SWEEP_RADIUS, ...bodies.map(({ piece }) => (piece.axis * scale) / 2));
  return [{ at: project(view, joint.at), ...swept, radius, text }];
}

/** The angle of a branch that does not stand square, where this view shows it in its true size. */
function sweepBranch({ from, to, at, way }: Branch, view: View, scale: number, say: Speech): Sweep[] {
  const main = scaleBy(subtract(to, from), 1 / distance(from, to));
  const length = norm(way);
  const swept = sweepBetween(main, scaleBy(way, 1 / length), view);
  if (!swept) return [];
  const text = say.angle(Math.abs(swept.end - swept.start));
  const radius = Math.min(SWEEP_RADIUS, (length * scale) / 2);
  return text === say.angle(90) ? [] : [{ at: project(view, at), ...swept, radius, text }];
}

/** From one direction to another, the short way round, degrees on paper; null where the view does not show it truly. */
function sweepBetween(before: Vec3, after: Vec3, view: View): { start: number; end: number } | null {
  if ([before, after].some((flow) => Math.abs(dot(flow, view.eye)) > TRUE_SIZE)) return null;
  const [start, end] = [before, after].map((flow) => {
    const [x, y] = project(view, flow);
    return atan2Degrees(-y, x);
  }) as [number, number];
  // Whichever side of half a turn the two directions lie.
  return { start, end: start + (((end - start + 540) % 360) - 180) };
}
