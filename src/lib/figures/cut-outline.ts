import type { PanelBody } from '../kernel/fitting/fitting.ts';
import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Opening, Straight } from '../kernel/straight/straight.ts';
import type { Box, Point, Subject } from './figure.ts';
import type { Side } from './manner.ts';
import type { Line } from './tiles.ts';
import { unrollPoint } from './unroll-point.ts';
import { unrollFaces } from './unroll.ts';

/** What is cut along an outline: a panel, or an opening in a face; mm, downstream to the right; outside up where it is not turned. */
export interface CutOutline {
  readonly name: string;
  /** The straight that an opening is in. */
  readonly straight: string | null;
  readonly face: Face | null;
  /** On the side that is up, and on the other. */
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
  /** Of the edge from point i to i + 1, degrees. */
  readonly bevels: readonly number[];
  /** What it is laid by: the edges of the face, the middle lines of the opening, and what each says. */
  readonly guides: readonly Guide[];
  /** Diameter of a round opening. */
  readonly diameter: number | null;
  readonly about: Subject;
}

/** A line that an outline is laid by. */
export interface Guide {
  readonly line: 'fold' | 'axis';
  readonly points: Line;
  /** The station of a middle line; how far it lies from the edge of the face that is named; null: what need not be said. */
  readonly says: { readonly station: number } | { readonly across: number; readonly edge: Face } | null;
}

/** A round outline is drawn with so many corners: within 0.02 mm of the circle up to 400 mm across. */
const ROUND = 360;

/** How far the middle lines of an opening reach beyond it, mm. */
const BEYOND = 12;

/** The outline of a panel. */
export function outlinePanel({ name, panel }: PanelBody): CutOutline {
  const lay = (points: typeof panel.outer): Point[] =>
    points.map(([clockwise, downstream]) => [downstream, clockwise]);
  return {
    name,
    straight: null,
    face: panel.face,
    outer: lay(panel.outer),
    inner: lay(panel.inner),
    bevels: panel.edges.map(({ bevel }) => bevel),
    guides: [],
    diameter: null,
    about: { piece: name, ...(panel.face ? { face: panel.face } : {}) }
  };
}

/** The outline of an opening on its face, where it lies on the unrolled faces, with its middle lines. */
export function outlineOpening(opening: Opening, straight: Straight): CutOutline {
  const { name, face, edges, circle } = opening;
  const lay = (points: typeof opening.outer): Point[] =>
    points.map((point) => unrollPoint(straight, face, point));
  const round = (radius: number): Point[] => {
    const [x, y] = unrollPoint(straight, face, circle!.at);
    return Array.from({ length: ROUND }, (_, i): Point => {
      const angle = (360 * i) / ROUND;
      return [x + radius * cosDegrees(angle), y + radius * sinDegrees(angle)];
    });
  };
  const outer = circle ? round(circle.outer) : lay(opening.outer);
  const { from, to } = unrollFaces(straight).faces.find((unrolled) => unrolled.face === face)!;
  const box = measureOutline(outer);
  const middle: Point = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const level = (y: number): Line => [
    [box.left - BEYOND, y],
    [box.right + BEYOND, y]
  ];
  const clockwise = face === 'top' || face === 'right';
  const first: Face = face === 'top' || face === 'bottom' ? 'left' : 'top';
  return {
    name,
    straight: straight.name,
    face,
    outer,
    inner: circle ? round(circle.inner) : lay(opening.inner),
    bevels: circle ? outer.map(() => edges[0]!.bevel) : edges.map(({ bevel }) => bevel),
    guides: [
      ...[from, to].map((y): Guide => ({ line: 'fold', points: level(y), says: null })),
      {
        line: 'axis',
        points: [
          [middle[0], box.top - BEYOND],
          [middle[0], box.bottom + BEYOND]
        ],
        says: { station: middle[0] }
      },
      {
        line: 'axis',
        points: level(middle[1]),
        says: { across: clockwise ? middle[1] - from : to - middle[1], edge: first }
      }
    ],
    diameter: circle ? 2 * circle.outer : null,
    about: { face }
  };
}

/** What a template of an outline has to show: both outlines, edge by edge. */
export function listOutlineLines({ outer, inner }: CutOutline): Line[] {
  return [outer, inner].flatMap(listRing);
}

/** The sides of a closed outline. */
export function listRing(points: readonly Point[]): Line[] {
  return points.map((point, i): Line => [point, points[(i + 1) % points.length]!]);
}

/**
 * An outline as it lies with a side of the board up, that on the side that is up as the outer one: inside up mirrored
 * about the middle of a height, mm.
 */
export function turnOutline(cut: CutOutline, side: Side, height = 0): CutOutline {
  if (side === 'outside') return cut;
  const turn = ([x, y]: Point): Point => [x, height - y];
  const { left, right } = measureOutline(cut.inner);
  return {
    ...cut,
    outer: cut.inner.map(turn),
    inner: cut.outer.map(turn),
    diameter: cut.diameter === null ? null : right - left,
    guides: cut.guides.map((guide) => ({ ...guide, points: [turn(guide.points[0]), turn(guide.points[1])] }))
  };
}

function measureOutline(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}
