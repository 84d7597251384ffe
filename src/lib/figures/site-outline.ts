import { movePoint } from '../kernel/geometry/motion.ts';
import { add, cross, scale as scaleBy, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { placeObstacle, straightenEnd, type Obstacle, type Site, type SiteEnd } from '../kernel/site/site.ts';
import { growSection, placeCorner, CORNERS, type Section } from '../kernel/straight/section.ts';
import type { Box, LineKind, Point, Stroke } from './figure.ts';
import { wrapHull } from './hull.ts';
import { project, type View } from './view.ts';

/** So far round the fitting and its end the site is drawn, mm; what goes on beyond is broken off. */
const AROUND = 300;

/** A break line reaches beyond the outline on both sides, and its zigzag is as wide and as high, paper mm. */
const BREAK = { over: 1.5, wide: 1.6, high: 2.2 } as const;

/** A corner of an outline, and whether the edge that leaves it is broken off and none of the thing's own. */
export interface Corner {
  readonly at: Point;
  readonly broken: boolean;
}

/**
 * What of the site is drawn, mm on the figure: the fitting, the end and what is near them, and of an obstacle that is
 * `reached` for, wherever it stands, the place that is nearest with what is round that.
 */
export function findWindow(
  fitting: Fitting,
  site: Site,
  thickness: number,
  view: View,
  reached: Obstacle | null
): Box {
  const outside = growSection(site.section, thickness);
  const corners = [
    ...fitting.bodies.flatMap(({ walls, placement }) =>
      walls.flatMap(({ outer }) => outer.map((corner) => movePoint(placement, corner)))
    ),
    ...placeSection(findEnd(site.end, fitting), outside)
  ].map((corner) => project(view, corner));
  const near = surround(corners);
  if (!reached) return near;
  const middle: Point = [(near.left + near.right) / 2, (near.top + near.bottom) / 2];
  return surround([...corners, findNearestPoint(outlineObstacle(reached, view), middle)]);
}

function surround(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return {
    left: Math.min(...xs) - AROUND,
    top: Math.min(...ys) - AROUND,
    right: Math.max(...xs) + AROUND,
    bottom: Math.max(...ys) + AROUND
  };
}

/** An obstacle as it stands, mm on the figure: convex, clockwise on paper. */
export function outlineObstacle(obstacle: Obstacle, view: View): Point[] {
  return wrapHull(placeObstacle(obstacle).corners.map((corner) => project(view, corner)));
}

/** The point of an outline that is nearest to another point. */
export function findNearestPoint(outline: readonly Point[], [x, y]: Point): Point {
  const nearest = outline.map(([ax, ay], i): Point => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const [dx, dy] = [bx - ax, by - ay];
    const square = dx * dx + dy * dy;
    const along = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
    return [ax + along * dx, ay + along * dy];
  });
  const away = nearest.map(([nx, ny]) => Math.hypot(nx - x, ny - y));
  return nearest[away.indexOf(Math.min(...away))]!;
}

/** A place with directions of unit length, where a duct begins or goes on. */
export interface Place {
  readonly at: Vec3;
  readonly flow: Vec3;
  readonly up: Vec3;
}

/** Where the end is drawn: a coordinate that is free is the outlet's, or the inlet's where there is no outlet. */
export function findEnd(end: SiteEnd, { ports }: Fitting): Place {
  const { at, flow, up } = straightenEnd(end);
  const outlet = ports.find(({ name }) => name === 'outlet')?.at ?? [0, 0, 0];
  return { at: [at[0] ?? outlet[0], at[1] ?? outlet[1], at[2] ?? outlet[2]], flow, up };
}

/** The four corners of a section at a place. */
export function placeSection({ at, flow, up }: Place, section: Section): Vec3[] {
  const right = cross(flow, up);
  return CORNERS.map((corner) => {
    const [y, z] = placeCorner(section, corner);
    return add(at, add(scaleBy(up, y), scaleBy(right, z)));
  });
}

/** The part of a convex outline inside a box, in the order it came; none where it lies outside. */
export function breakOff(outline: readonly Point[], { left, top, right, bottom }: Box): Corner[] {
  const sides: readonly ((at: Point) => number)[] = [
    ([x]) => left - x,
    ([x]) => x - right,
    ([, y]) => top - y,
    ([, y]) => y - bottom
  ];
  const whole = outline.map((at): Corner => ({ at, broken: false }));
  return sides.reduce<readonly Corner[]>(cutOff, whole) as Corner[];
}

/** What two convex outlines, clockwise on paper, have in common; none where they only touch. */
export function findCommon(one: readonly Point[], other: readonly Point[]): Point[] {
  const whole = one.map((at): Corner => ({ at, broken: false }));
  return other
    .reduce<readonly Corner[]>((corners, [x, y], i) => {
      const [nextX, nextY] = other[(i + 1) % other.length]!;
      return cutOff(corners, ([px, py]) => (nextY - y) * (px - x) - (nextX - x) * (py - y));
    }, whole)
    .map(({ at }) => at);
}

/** The part of a convex outline on the near side of a line, beyond which a point is by more than 0 (Sutherland and Hodgman). */
function cutOff(corners: readonly Corner[], beyond: (at: Point) => number): Corner[] {
  return corners.flatMap((from, i): Corner[] => {
    const to = corners[(i + 1) % corners.length]!;
    const [a, b] = [beyond(from.at), beyond(to.at)];
    if (a <= 0 && b <= 0) return [from];
    if (a > 0 && b > 0) return [];
    const share = a / (a - b);
    const at: Point = [
      from.at[0] + share * (to.at[0] - from.at[0]),
      from.at[1] + share * (to.at[1] - from.at[1])
    ];
    return a <= 0 ? [from, { at, broken: true }] : [{ at, broken: from.broken }];
  });
}

/** The outline of what may be broken off: its own edges as lines of a kind, the broken ones with a zigzag. */
export function strokeOutline(
  corners: readonly Corner[],
  line: LineKind,
  paperScale: number,
  more: Pick<Stroke, 'tone'> = {}
): Stroke[] {
  const own = (points: readonly Point[]): Stroke => ({ kind: 'stroke', line, points, ...more });
  const first = corners.findIndex(({ broken }) => broken);
  if (first < 0) return [{ ...own(corners.map(({ at }) => at)), closed: true }];
  const ring = [...corners.slice(first), ...corners.slice(0, first)];
  const strokes: Stroke[] = [];
  let run: Point[] = [];
  ring.forEach(({ at, broken }, i) => {
    const next = ring[(i + 1) % ring.length]!.at;
    if (!broken) return void (run = run.length > 0 ? [...run, next] : [at, next]);
    if (run.length > 0) strokes.push(own(run));
    run = [];
    strokes.push(...drawBreak(at, next, paperScale, more));
  });
  return run.length > 0 ? [...strokes, own(run)] : strokes;
}

/** A narrow line with a zigzag in its middle: what it crosses goes on (ISO 128, line 01.1 with zigzags; from memory). */
export function drawBreak(
  from: Point,
  to: Point,
  paperScale: number,
  more: Pick<Stroke, 'tone'> = {}
): Stroke[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return [];
  const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const half = Math.min(BREAK.wide / 2 / paperScale, length / 4);
  const high = BREAK.high / paperScale;
  const at = (along: number, across: number): Point => [
    from[0] + along * dx - across * dy,
    from[1] + along * dy + across * dx
  ];
  const middle = length / 2;
  const over = BREAK.over / paperScale;
  const points = [
    at(-over, 0),
    at(middle - half, 0),
    at(middle - half / 2, -high),
    at(middle + half / 2, high),
    at(middle + half, 0),
    at(length + over, 0)
  ];
  return [{ kind: 'stroke', line: 'narrow', points, ...more }];
}
