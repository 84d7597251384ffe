import type { Step } from '../kernel/fitting/step.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPieceBodies, placePortCorner, type Body } from '../kernel/fitting/fitting.ts';
import { cosDegrees, sinDegrees, tanDegrees } from '../kernel/geometry/angle.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { growSection } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Item, Point } from './figure.ts';
import { wrapHull } from './hull.ts';
import { placePiece } from './step-cutting.ts';
import { drawClosed, drawLine } from './ink.ts';
import { drawArcArrow, drawArrow, drawBoard, drawSection, drawSpan, drawTape, fitInto } from './step-ink.ts';
import { findView, project } from './view.ts';

/** The pictures of rolling over, joining and inspecting; mm on paper, y down. */

/** A picture shows at most so many pieces of a fitting. */
const MOST_PIECES = 8;

/** How far a piece is drawn in from the others, as a share of its size. */
const APART = 0.1;

/** A piece with its axis, and half a turn about it. */
export function drawRolling(step: Step, { fitting }: BuiltModel): Item[] {
  const body = listPieceBodies(fitting).find(({ name }) => name === step.pieces[0])!;
  const straight = fitting.straights.find(({ name }) => name === body.straight)!;
  const outline = placePiece(straight, body.piece, [2, 3, 24, 17]);
  const xs = outline.map(([x]) => x);
  const [left, right, middle] = [Math.min(...xs), Math.max(...xs), 10];
  return [
    ...drawBoard(outline),
    drawLine(
      [
        [left - 1.5, middle],
        [right + 7, middle]
      ],
      'axis'
    ),
    ...drawArcArrow([right + 4, middle], 2.5, 6.5, -80, 100)
  ];
}

/** The pieces where they belong, a little apart. */
export function drawFit(step: Step, built: BuiltModel): Item[] {
  const outlines = seePieces(built, step.pieces).map(drawIn);
  return fitInto(outlines, [1.5, 1.5, 32.5, 18.5]).flatMap((points) => drawBoard(points));
}

/** The whole fitting, and the distance from corner to corner of its ends. */
export function drawInspection(step: Step, built: BuiltModel): Item[] {
  const { fitting, setting } = built;
  const view = findView('true', fitting);
  const { thickness } = setting.board;
  const corners = fitting.ports.map((port) => project(view, placePortCorner(port, thickness, 'top-left')));
  const outlines = seePieces(built, step.pieces, Infinity);
  const [span, ...placed] = fitInto([corners, ...outlines], [3, 3, 31, 17]);
  const [from, ...others] = span as [Point, ...Point[]];
  return [
    ...placed.flatMap((points) => drawBoard(points, 'narrow')),
    // Ends that lie behind one another have no distance on the picture.
    ...others
      .filter(([x, y]) => Math.hypot(x - from[0], y - from[1]) > 1)
      .flatMap((corner) => drawSpan(from, corner))
  ];
}

/** The end of a piece, square on: a line of glue right round, near the inner face. */
export function drawGlue({ section, thickness }: Straight): Item[] {
  const { items, outer, inner } = drawSection(growSection(section, thickness), [3, 1.5, 31, 18.5]);
  const bead = inner.map(([x, y], i): Point => [x + (outer[i]![0] - x) * 0.4, y + (outer[i]![1] - y) * 0.4]);
  return [
    ...items.slice(0, 2),
    drawClosed(outer, 'narrow'),
    drawClosed(inner, 'narrow'),
    drawClosed(bead, 'cut')
  ];
}

/** Two pieces before they meet, at the miter of their joint. */
export function drawJoining(step: Step, built: BuiltModel): Item[] {
  const { first, second, along } = placeJoint(step, built, 0.35);
  const press = (points: readonly Point[], [dx, dy]: Point): Item[] => {
    const [x, y] = findMiddle(points);
    return drawArrow([x - dx * 2.2, y - dy * 2.2], [x + dx * 2.2, y + dy * 2.2]);
  };
  const [flow, back]: [Point, Point] = [along[0], [-along[1][0], -along[1][1]]];
  return [...drawBoard(first), ...drawBoard(second), ...press(first, flow), ...press(second, back)];
}

/** A joint with strips of tape across it. */
export function drawTabs(step: Step, built: BuiltModel): Item[] {
  const { first, second, edge } = placeJoint(step, built, 0);
  const [a, b] = edge;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const tabs = [0.25, 0.75].flatMap((share) => {
    const [x, y] = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
    return drawTape(
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1]
      ].map(([along, across]): Point => [
        x + along! * ux - across! * 3.5 * uy,
        y + along! * uy + across! * 3.5 * ux
      ])
    );
  });
  return [...drawBoard(first), ...drawBoard(second), ...tabs];
}

/** A joint under its tape. */
export function drawJointTape(step: Step, built: BuiltModel): Item[] {
  const { first, second, edge } = placeJoint(step, built, 0);
  const [[ax, ay], [bx, by]] = edge;
  const length = Math.hypot(bx - ax, by - ay);
  const [nx, ny] = [(-(by - ay) / length) * 1.6, ((bx - ax) / length) * 1.6];
  const tape: Point[] = [
    [ax + nx, ay + ny],
    [bx + nx, by + ny],
    [bx - nx, by - ny],
    [ax - nx, ay - ny]
  ];
  return [...drawBoard(first), ...drawBoard(second), ...drawTape(tape), drawLine(edge, 'hidden')];
}

/** Outlines of pieces where they belong, in true view. */
function seePieces({ fitting }: BuiltModel, names: readonly string[], most = MOST_PIECES): Point[][] {
  const view = findView('true', fitting);
  const see = ({ walls, placement }: Body): Point[] =>
    wrapHull(
      walls.flatMap(({ outer, inner }) =>
        [...outer, ...inner].map((corner) => project(view, movePoint(placement, corner)))
      )
    );
  return fitting.bodies
    .filter(({ name }) => names.includes(name))
    .slice(0, most)
    .map(see);
}

function drawIn(points: readonly Point[]): Point[] {
  const [mx, my] = findMiddle(points);
  return points.map(([x, y]) => [x + (mx - x) * APART, y + (my - y) * APART]);
}

function findMiddle(points: readonly Point[]): Point {
  const [x, y] = [0, 1].map((axis) => points.reduce((sum, point) => sum + point[axis]!, 0) / points.length);
  return [x!, y!];
}

/**
 * Two pieces that meet in a joint, seen square on its plane: the first comes from the left, the second turns away from
 * the heel; between them `gap` widths of the duct. Without a cut they meet square, in line.
 */
function placeJoint(
  step: Step,
  { fitting }: BuiltModel,
  gap: number
): { first: Point[]; second: Point[]; edge: [Point, Point]; along: [Point, Point] } {
  const straight = fitting.straights.find(({ name }) => name === step.straight);
  const cut = straight?.cuts.find(({ name }) => name === step.cuts[0]);
  const first = listPieceBodies(fitting).find(({ name }) => name === step.pieces[0]);
  const flipped = first?.piece.flipped ?? false;
  const miter = cut?.miter ?? 0;
  // In elevation a heel at the top is up, in plan a heel on the left is.
  const [up, left] = [cosDegrees(cut?.heel ?? 0), -sinDegrees(cut?.heel ?? 0)];
  const heel = (Math.abs(up) > SAME_LENGTH ? up > 0 : left > 0) !== flipped ? -1 : 1;
  const [half, reach] = [0.5, 0.5 * tanDegrees(miter)];
  const length = 0.9 + reach;
  // The cut runs from the heel side, where it lies further on, to the throat side; y runs down, so up is −1.
  const edge: [Point, Point] = [
    [reach, heel * half],
    [-reach, -heel * half]
  ];
  const near: Point[] = [[-length, heel * half], edge[0], edge[1], [-length, -heel * half]];
  // The second piece is the first mirrored in the cut.
  const [cosine, sine] = [sinDegrees(miter), heel * cosDegrees(miter)];
  const mirror = ([x, y]: Point): Point => {
    const along = 2 * (x * cosine + y * sine);
    return [along * cosine - x, along * sine - y];
  };
  const out = mirror([-1, 0]);
  const far = near.map((point) => {
    const [x, y] = mirror(point);
    return [x + out[0] * gap, y + out[1] * gap] as Point;
  });
  const [placedFirst, placedSecond, placedEdge] = fitInto([near, far, edge], [1.5, 1.5, 32.5, 18.5]);
  return {
    first: placedFirst!,
    second: placedSecond!,
    edge: placedEdge as [Point, Point],
    along: [[1, 0], out]
  };
}
