import { findMiddle, type Body, type Fitting, type Joint } from '../kernel/fitting/fitting.ts';
import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { dot, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Opening } from '../kernel/straight/straight.ts';
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
export const SEEN = 1e-6;

/** What of a body a view shows, worked out once. */
export interface BodyShape {
  readonly body: Body;
  /** Its place in the fitting. */
  readonly index: number;
  readonly facings: readonly Facing[];
  readonly isConvex: boolean;
  /** Its corners along folds and seams. */
  readonly cornerLines: readonly Run[];
  /** The openings of its straight. */
  readonly openings: readonly Opening[];
  /** What it covers on paper: one outline where it is convex, else one of each part of its outside, back to front. */
  readonly silhouettes: readonly Point[][];
  /** Toward the eye, mm: its middle, and its nearest corner. */
  readonly depth: number;
  readonly nearest: number;
}

/** Works out what a view shows of every body of a fitting. */
export function shapeBodies({ bodies, straights }: Fitting, view: View): BodyShape[] {
  return bodies.map((body, index) => {
    const straight = straights.find(({ name }) => body.kind === 'piece' && name === body.straight);
    return shapeBody(body, index, straight?.openings ?? [], view);
  });
}

function shapeBody(body: Body, index: number, openings: readonly Opening[], view: View): BodyShape {
  const facings = listFacings(body);
  const corners = body.walls.flatMap(({ outer, inner }) =>
    body.kind === 'piece' ? outer : [...outer, ...inner]
  );
  const points = corners.map((corner) => movePoint(body.placement, corner));
  const convex = isConvex(body, facings);
  return {
    body,
    index,
    facings,
    isConvex: convex,
    cornerLines: listCornerLines(body),
    openings,
    silhouettes: convex
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
  if (shape.isConvex) {
    return [
      ...silhouettes.map(fill),
      ...facings
        .filter(({ normal }) => isSeen(body, view, normal))
        .flatMap((facing) => drawFacing(shape, facing, view))
    ];
  }
  return listParts(body, facings, view).flatMap(({ points, facing }) => [
    fill(points),
    ...(facing ? drawFacing(shape, facing, view) : [])
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
function drawFacing(shape: BodyShape, { face, rims, openings }: Facing, view: View): (Fill | Stroke)[] {
  const { body } = shape;
  const about: Subject = { piece: body.name, face };
  return [
    ...rims.map((run) => strokeRun(run, body, view, about)),
    ...openings.flatMap((run): (Fill | Stroke)[] => {
      const hole = { ...about, ...findOpening(shape, face, run) };
      return [
        { kind: 'fill', fill: 'air', points: seeRun(run, body, view), about: hole },
        strokeRun(run, body, view, hole)
      ];
    })
  ];
}

/** The name of the opening that a run bounds: the one on its face in the middle of which it lies. */
function findOpening({ openings }: BodyShape, face: Facing['face'], { edges }: Run): Subject {
  const station = (points: readonly (readonly number[])[]): number =>
    points.reduce((sum, point) => sum + point[0]!, 0) / points.length;
  const middle = station(edges.map(({ outer }) => outer[0]));
  const near = openings
    .filter((opening) => opening.face === face)
    .sort((a, b) => Math.abs(station(a.outer) - middle) - Math.abs(station(b.outer) - middle));
  return near[0] ? { cut: near[0].name } : {};
}

/** Openings in walls that are not turned to the eye, dashed: as far as they reach through the wall. */
export function drawHiddenOpenings(shape: BodyShape, view: View): Stroke[] {
  const { body, facings } = shape;
  return facings
    .filter(({ normal }) => !isSeen(body, view, normal))
    .flatMap(({ face, openings }) =>
      openings.map((run): Stroke => ({
        kind: 'stroke',
        line: 'hidden',
        points: wrapHull([...seeRun(run, body, view), ...seeRun(run, body, view, 'inner')]),
        closed: true,
        about: { piece: body.name, face, ...findOpening(shape, face, run) }
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

function strokeRun(run: Run, body: Body, view: View, about: Subject): Stroke {
  return {
    kind: 'stroke',
    line: 'narrow',
    points: seeRun(run, body, view),
    ...(run.closed ? { closed: true } : {}),
    about
  };
}

/** A run of edges as it is seen, on the facing or on the inside. */
export function seeRun(run: Run, body: Body, view: View, side: 'outer' | 'inner' = 'outer'): Point[] {
  return listRunCorners(run, side).map((corner) => see(body, view, corner));
}

function isSeen(body: Body, view: View, normal: Vec3): boolean {
  return dot(view.eye, turnDirection(body.placement, normal)) > SEEN;
}

/** A point of a body as it is seen. */
export function see(body: Body, view: View, point: Vec3): Point {
  return project(view, movePoint(body.placement, point));
}
