import { findMiddle, type Body, type Joint } from '../kernel/fitting/fitting.ts';
import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { dot, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Fill, Point, Stroke, Subject } from './figure.ts';
import { wrapHull } from './hull.ts';
import { project, type View } from './view.ts';
import {
  isConvex,
  listCornerLines,
  listEdges,
  listFacings,
  listRunCorners,
  type Facing,
  type Run
} from './wall-outline.ts';

/** A face counts as seen when it is turned to the eye by more than this cosine; edge-on faces are lines anyway. */
const SEEN = 1e-6;

/** Lines on paper this close, mm of the thing drawn, are one. */
const SAME_LINE = 1e-3;

/** Where an edge is bevelled by more than this, degrees, its line on the inside is clear of that on the facing. */
const FAR_IN = 25;

/** What of a body a view shows, worked out once. */
export interface BodyShape {
  readonly body: Body;
  /** Its place in the fitting. */
  readonly index: number;
  readonly facings: readonly Facing[];
  /** What it covers on paper: one outline where it is convex, else one of each part of its outside, back to front. */
  readonly silhouettes: readonly Point[][];
  /** Toward the eye, mm: its middle, and its nearest corner. */
  readonly depth: number;
  readonly nearest: number;
}

/** Works out what a view shows of a body. */
export function shapeBody(body: Body, index: number, view: View): BodyShape {
  const facings = listFacings(body);
  const corners = body.walls.flatMap(({ outer, inner }) =>
    body.kind === 'piece' ? outer : [...outer, ...inner]
  );
  const points = corners.map((corner) => movePoint(body.placement, corner));
  return {
    body,
    index,
    facings,
    silhouettes: isConvex(body, facings)
      ? [wrapHull(points.map((point) => project(view, point)))]
      : listParts(body, facings, view).map(({ points }) => points),
    depth: dot(view.eye, movePoint(body.placement, findMiddle(body))),
    nearest: Math.max(...points.map((point) => dot(view.eye, point)))
  };
}

/** Depths that differ by less than this are one depth, mm. */
const SAME_DEPTH = 1e-3;

/** By the depth of the middles; of bodies in one depth the one that comes nearer to the eye is in front. */
export function compareDepth(a: BodyShape, b: BodyShape): number {
  const layer = (depth: number): number => Math.round(depth / SAME_DEPTH);
  return layer(a.depth) - layer(b.depth) || layer(a.nearest) - layer(b.nearest);
}

/** Fills and edges of a body; of one that is not convex part after part, from back to front. */
export function drawShape(shape: BodyShape, view: View): (Fill | Stroke)[] {
  const { body, index, facings, silhouettes } = shape;
  const about: Subject = { piece: body.name };
  const fill = (points: readonly Point[]): Fill => ({ kind: 'fill', fill: { piece: index }, points, about });
  if (isConvex(body, facings)) {
    return [
      ...silhouettes.map(fill),
      ...facings
        .filter(({ normal }) => isSeen(body, view, normal))
        .flatMap((facing) => drawFacing(body, facing, view))
    ];
  }
  return listParts(body, facings, view).flatMap(({ points, facing }) => [
    fill(points),
    ...(facing ? drawFacing(body, facing, view) : [])
  ]);
}

/** The parts of the outside of a body from back to front; with a facing where that is seen. */
function listParts(
  body: Body,
  facings: readonly Facing[],
  view: View
): { points: Point[]; facing: Facing | null }[] {
  const parts = facings.flatMap((facing) => {
    const corners = facing.rims.map((run) => listRunCorners(run, 'outer'));
    const sides =
      body.kind === 'panel'
        ? facing.rims.flatMap(({ edges }) =>
            edges.map(({ outer, inner }) => ({ corners: [...outer, inner[1], inner[0]], facing: null }))
          )
        : [];
    const front = isSeen(body, view, facing.normal) ? facing : null;
    return [
      ...sides,
      ...corners.map((rim, i) => ({ corners: rim, facing: i === corners.length - 1 ? front : null }))
    ];
  });
  return parts
    .map(({ corners, facing }) => ({
      points: corners.map((corner) => see(body, view, corner)),
      facing,
      depth:
        corners.reduce((sum, corner) => sum + dot(view.eye, movePoint(body.placement, corner)), 0) /
        corners.length
    }))
    .sort((a, b) => a.depth - b.depth);
}

/** The outline of a facing, and its openings with the air way behind them. */
function drawFacing(body: Body, { face, rims, openings }: Facing, view: View): (Fill | Stroke)[] {
  const about: Subject = { piece: body.name, face };
  return [
    ...rims.map((run) => strokeRun(run, body, view, about)),
    ...openings.flatMap((run): (Fill | Stroke)[] => [
      { kind: 'fill', fill: 'air', points: seeRun(run, body, view), about },
      strokeRun(run, body, view, about)
    ])
  ];
}

/** Openings in walls that are not turned to the eye, dashed: as far as they reach through the wall. */
export function drawHiddenOpenings({ body, facings }: BodyShape, view: View): Stroke[] {
  return facings
    .filter(({ normal }) => !isSeen(body, view, normal))
    .flatMap(({ face, openings }) =>
      openings.map((run): Stroke => ({
        kind: 'stroke',
        line: 'hidden',
        points: wrapHull([...seeRun(run, body, view), ...seeRun(run, body, view, 'inner')]),
        closed: true,
        about: { piece: body.name, face }
      }))
    );
}

/** A joint as it is seen: the line of its cut on every face of the first body that is turned to the eye. */
export function drawCut({ bodies, closing }: Joint, shapes: readonly BodyShape[], view: View): Stroke[] {
  if (closing.kind !== 'miter') return [];
  const { body, facings } = shapes.find(({ body: { name } }) => name === bodies[0])!;
  return facings
    .filter(({ normal }) => isSeen(body, view, normal))
    .flatMap(({ walls }) => walls.flatMap(listEdges))
    .filter(({ kind, cut }) => kind === 'cut' && cut === closing.cut)
    .map(({ outer }) => ({
      kind: 'stroke',
      line: 'narrow',
      points: outer.map((corner) => see(body, view, corner)),
      about: { cut: closing.cut }
    }));
}

/**
 * The inside, dashed: of a duct the two corner lines that are outermost in this view, of a panel the lines of its corners,
 * once where they lie over each other.
 */
export function drawInside(shapes: readonly BodyShape[], view: View): Stroke[] {
  const lines = shapes.flatMap(({ body, facings }) =>
    (body.kind === 'piece' ? seePieceInside(body, view) : seePanelInside(body, facings, view)).map(
      (points): Stroke => ({ kind: 'stroke', line: 'hidden', points, about: { piece: body.name } })
    )
  );
  return lines.filter(
    ({ points }, i) =>
      !lines
        .slice(0, i)
        .some((other) => isSameLine(points, other.points) || isSameLine(points, [...other.points].reverse()))
  );
}

function seePieceInside(body: Body, view: View): Point[][] {
  const lines = listCornerLines(body).map((run) => seeRun(run, body, view, 'inner'));
  const longest = lines.reduce((a, b) => (measureSpan(b) > measureSpan(a) ? b : a));
  const length = measureSpan(longest);
  if (length < SAME_LINE) return [];
  const [from, to] = [longest[0]!, longest[longest.length - 1]!];
  const across: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  // A line with a bend in it is as far out as its middle.
  const offset = (line: readonly Point[]): number =>
    line.reduce((sum, [x, y]) => sum + x * across[0] + y * across[1], 0) / line.length;
  const sorted = [...lines].sort((a, b) => offset(a) - offset(b));
  return [sorted[0]!, sorted[sorted.length - 1]!];
}

function seePanelInside(body: Body, facings: readonly Facing[], view: View): Point[][] {
  return facings.flatMap(({ normal, rims }) => {
    const turned = dot(view.eye, turnDirection(body.placement, normal));
    // Edge-on the outline is a line there and back.
    if (Math.abs(turned) <= SEEN) return rims.map((run) => wrapHull(seeRun(run, body, view, 'inner')));
    if (turned < 0) return [];
    return rims.flatMap(({ edges }) =>
      edges
        .filter(({ bevel }) => bevel > FAR_IN)
        .map(({ inner }) => inner.map((corner) => see(body, view, corner)))
    );
  });
}

function strokeRun(run: Run, body: Body, view: View, about: Subject): Stroke {
  return {
    kind: 'stroke',
    line: 'narrow',
    points: seeRun(run, body, view),
    ...(run.closed ? { closed: true } : {}),
    about
  };
}

function seeRun(run: Run, body: Body, view: View, side: 'outer' | 'inner' = 'outer'): Point[] {
  return listRunCorners(run, side).map((corner) => see(body, view, corner));
}

function isSeen(body: Body, view: View, normal: Vec3): boolean {
  return dot(view.eye, turnDirection(body.placement, normal)) > SEEN;
}

function see(body: Body, view: View, point: Vec3): Point {
  return project(view, movePoint(body.placement, point));
}

function measureSpan(line: readonly Point[]): number {
  const [from, to] = [line[0]!, line[line.length - 1]!];
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}

function isSameLine(a: readonly Point[], b: readonly Point[]): boolean {
  return a.length === b.length && a.every(([x, y], i) => Math.hypot(x - b[i]![0], y - b[i]![1]) < SAME_LINE);
}
