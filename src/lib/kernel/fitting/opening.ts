import { cosDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { growSection, measureFace, type Face } from '../straight/section.ts';
import type { FacePoint, Opening, Straight } from '../straight/straight.ts';
import { nameOpeningDeed } from './step.ts';
import type { WallEdge } from './wall.ts';

/** Corners of the outline of a round opening; the walls' solids have as many sides, round a circle of the same area. */
export const ROUND_CORNERS = 64;

/** An opening with straight edges: its outline on the facing, and how far each of its edges is moved on the inside. */
export interface RectangleDescription {
  readonly name: string;
  readonly face: Face;
  /** Of the middle, on the facing. */
  readonly station: number;
  /** Up on a side wall, to the right on top or bottom, from the middle of the wall, mm. */
  readonly aside: number;
  /** Along the duct and across the wall, mm. */
  readonly along: number;
  readonly across: number;
  /** Tilt of the blade at its upstream edge, its downstream edge and its two sides, degrees; outward on the facing: positive. */
  readonly bevels: { readonly upstream: number; readonly downstream: number; readonly sides: number };
}

/** A rectangular opening; an edge with a positive bevel lies further out on the facing than on the inside. */
export function cutRectangle(description: RectangleDescription, straight: StraightSize): Opening {
  const { name, face, station, along, across, bevels } = description;
  const middle = placeAcross(face, description.aside, straight);
  const move = (bevel: number): number => straight.thickness * tanDegrees(bevel);
  const corners = (up: number, down: number, side: number): FacePoint[] => [
    [station - along / 2 + up, middle - across / 2 + side],
    [station + along / 2 - down, middle - across / 2 + side],
    [station + along / 2 - down, middle + across / 2 - side],
    [station - along / 2 + up, middle + across / 2 - side]
  ];
  const sides = Math.abs(bevels.sides);
  return {
    name,
    face,
    outer: corners(0, 0, 0),
    inner: corners(move(bevels.upstream), move(bevels.downstream), move(bevels.sides)),
    edges: [sides, Math.abs(bevels.downstream), sides, Math.abs(bevels.upstream)].map((bevel) => ({ bevel }))
  };
}

/** A round opening; `radius` on the facing, the bevel as of a rectangle. */
export function cutCircle(
  { name, face, station, aside }: Pick<RectangleDescription, 'name' | 'face' | 'station' | 'aside'>,
  radius: number,
  bevel: number,
  straight: StraightSize
): Opening {
  const at: FacePoint = [station, placeAcross(face, aside, straight)];
  const inner = radius - straight.thickness * tanDegrees(bevel);
  return {
    name,
    face,
    outer: traceCircle(at, radius),
    inner: traceCircle(at, inner),
    edges: Array.from({ length: ROUND_CORNERS }, () => ({ bevel: Math.abs(bevel) })),
    circle: { at, outer: radius, inner }
  };
}

export type StraightSize = Pick<Straight, 'section' | 'thickness'>;

/** From the first edge of a face to a place aside of its middle, mm; aside is up on a side wall. */
export function placeAcross(face: Face, aside: number, { section, thickness }: StraightSize): number {
  const width = measureFace(growSection(section, thickness), face);
  return face === 'right' || face === 'left' ? width / 2 - aside : width / 2 + aside;
}

/** The corners of a round outline; none lies on the middle lines or the diagonals. */
export function traceCircle([x, u]: FacePoint, radius: number): FacePoint[] {
  return Array.from({ length: ROUND_CORNERS }, (_, i): FacePoint => {
    const angle = (360 * (i + 0.5)) / ROUND_CORNERS;
    return [x - radius * cosDegrees(angle), u - radius * sinDegrees(angle)];
  });
}

/** A point of a face, so far under the facing, in the straight's frame, mm. */
export function placeOnFace(
  face: Face,
  [x, across]: FacePoint,
  depth: number,
  { section, thickness }: StraightSize
): Vec3 {
  const { width, height } = growSection(section, thickness);
  switch (face) {
    case 'top':
      return [x, height / 2 - depth, across - width / 2];
    case 'bottom':
      return [x, depth - height / 2, across - width / 2];
    case 'right':
      return [x, height / 2 - across, width / 2 - depth];
    case 'left':
      return [x, height / 2 - across, depth - width / 2];
  }
}

/** Looking at the facing with the flow to the right: whether a face's measure across runs with the clock. */
export function runsClockwise(face: Face): boolean {
  return face === 'top' || face === 'right';
}

/** What closes the edges of openings that are sealed or nosed as raw edges. */
export function sealEdge(opening: string): NonNullable<WallEdge['closing']> {
  return { by: 'seal', needs: [nameOpeningDeed(opening)] };
}

/** The reach of something on a face: stations, and places across it. */
export interface Box {
  readonly x: readonly [number, number];
  readonly u: readonly [number, number];
}

/** How far an opening reaches on the facing or the inside, whichever is further. */
export function measure({ outer, inner, circle }: Pick<Opening, 'outer' | 'inner' | 'circle'>): Box {
  if (circle) {
    const reach = Math.max(circle.outer, circle.inner);
    const [x, u] = circle.at;
    return { x: [x - reach, x + reach], u: [u - reach, u + reach] };
  }
  const all = [...outer, ...inner];
  const range = (axis: 0 | 1): [number, number] => [
    Math.min(...all.map((point) => point[axis])),
    Math.max(...all.map((point) => point[axis]))
  ];
  return { x: range(0), u: range(1) };
}
