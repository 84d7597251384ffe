import { sinDegrees } from '../geometry/angle.ts';
import { growSection, measureFace } from '../straight/section.ts';
import type { FacePoint, Opening } from '../straight/straight.ts';
import type { Wall, WallEdge } from './wall.ts';
import {
  measure,
  placeOnFace,
  ROUND_CORNERS,
  runsClockwise,
  traceCircle,
  type Box,
  type StraightSize
} from './opening.ts';

/** A part of a wall: a rectangle on the facing and one on the inside, each as low and high stations and places across. */
interface Region {
  readonly outer: Box;
  readonly inner: Box;
  /** At low station, high station, low across, high across. */
  readonly edges: readonly [WallEdge, WallEdge, WallEdge, WallEdge];
}

const WHOLE: WallEdge = { kind: 'whole', bevel: 0 };

/**
 * A wall with square ends, its openings cut out, as convex solids: parted by straight planes until every part holds one
 * opening, which has eight parts round it and, if it is round, a ring of wedges. Null where no straight plane parts two
 * openings. `closing` says what closes the edges of each.
 */
export function cutOpenings(
  wall: Wall,
  openings: readonly Opening[],
  straight: StraightSize,
  closing: (opening: Opening) => NonNullable<WallEdge['closing']>
): Wall[] | null {
  const { face, edges } = wall;
  const { section, thickness } = straight;
  const width = measureFace(growSection(section, thickness), face);
  const ends = wall.outer.map(([x]) => x);
  const x: [number, number] = [Math.min(...ends), Math.max(...ends)];
  // Edges run: datum end, clockwise corner, far end, other corner.
  const [low, high] = runsClockwise(face) ? [edges[3]!, edges[1]!] : [edges[1]!, edges[3]!];
  const whole: Region = {
    outer: { x, u: [0, width] },
    inner: { x, u: [thickness, width - thickness] },
    edges: [edges[0]!, edges[2]!, low, high]
  };
  const solids = part(whole, openings);
  if (!solids) return null;
  return solids.map(({ outer, inner, edges: sides }): Wall => {
    // As in every wall the first edge is at the datum end, the second along the clockwise corner.
    const order = <T>([first, ...rest]: readonly T[]): T[] =>
      runsClockwise(face) ? [first!, ...rest.reverse()] : [rest.pop()!, first!, ...rest];
    const [last, ...others] = [...sides].reverse();
    return {
      face,
      outer: order(outer).map((point) => placeOnFace(face, point, 0, straight)),
      inner: order(inner).map((point) => placeOnFace(face, point, thickness, straight)),
      edges: runsClockwise(face) ? [last!, ...others] : [last!, ...others.reverse()]
    };
  });

  function part(region: Region, within: readonly Opening[]): Polygon[] | null {
    if (within.length === 0) return [outlineRegion(region)];
    if (within.length === 1) return surround(region, within[0]!, closing(within[0]!));
    for (const axis of ['u', 'x'] as const) {
      const sorted = [...within].sort((a, b) => measure(a)[axis][0] - measure(b)[axis][0]);
      for (let i = 1; i < sorted.length; i++) {
        const before = Math.max(...sorted.slice(0, i).map((opening) => measure(opening)[axis][1]));
        const after = measure(sorted[i]!)[axis][0];
        if (before >= after) continue;
        const [first, second] = split(region, axis, (before + after) / 2);
        const parts = [part(first, sorted.slice(0, i)), part(second, sorted.slice(i))];
        if (parts.some((one) => one === null)) continue;
        return parts.flatMap((one) => one!);
      }
    }
    return null;
  }
}

/** A convex solid: outlines in [station, across], and the edge from corner i to corner i + 1. */
interface Polygon {
  readonly outer: readonly FacePoint[];
  readonly inner: readonly FacePoint[];
  readonly edges: readonly WallEdge[];
}

function outlineRegion({ outer, inner, edges: [low, high, first, second] }: Region): Polygon {
  const trace = ({ x, u }: Box): FacePoint[] => [
    [x[0], u[0]],
    [x[1], u[0]],
    [x[1], u[1]],
    [x[0], u[1]]
  ];
  return { outer: trace(outer), inner: trace(inner), edges: [first, high, second, low] };
}

/** Parts a region by an upright plane at a station or a place across. */
function split(region: Region, axis: 'x' | 'u', at: number): [Region, Region] {
  const cut = (box: Box, side: 0 | 1): Box => {
    const range: readonly [number, number] = side === 0 ? [box[axis][0], at] : [at, box[axis][1]];
    return { ...box, [axis]: range };
  };
  const [low, high, first, second] = region.edges;
  const edges: readonly [Region['edges'], Region['edges']] =
    axis === 'x'
      ? [
          [low, WHOLE, first, second],
          [WHOLE, high, first, second]
        ]
      : [
          [low, high, first, WHOLE],
          [low, high, WHOLE, second]
        ];
  return [0, 1].map((side) => ({
    outer: cut(region.outer, side as 0 | 1),
    inner: cut(region.inner, side as 0 | 1),
    edges: edges[side as 0 | 1]
  })) as [Region, Region];
}

/** The eight parts of a region round one opening, between the planes of its edges. */
function surround(region: Region, opening: Opening, closing: NonNullable<WallEdge['closing']>): Polygon[] {
  const rim = (bevel: number): WallEdge => ({ kind: 'cut', bevel, closing });
  if (opening.circle) return surroundCircle(region, opening, rim);
  // The corners run: low station and low across, high and low, high and high, low and high.
  const boxOf = (points: readonly FacePoint[]): Box => ({
    x: [points[0]![0], points[1]![0]],
    u: [points[0]![1], points[2]![1]]
  });
  const [hole, holeInside] = [boxOf(opening.outer), boxOf(opening.inner)];
  const [sideEdge, downEdge, , upEdge] = opening.edges.map(({ bevel }) => rim(bevel));
  const third = (range: readonly [number, number], [from, to]: readonly [number, number], i: number) =>
    ([range[0], from, to, range[1]] as const).slice(i, i + 2) as unknown as [number, number];
  const [low, high, first, second] = region.edges;
  const parts: Polygon[] = [];
  for (const i of [0, 1, 2]) {
    for (const k of [0, 1, 2]) {
      if (i === 1 && k === 1) continue;
      const box = (range: Box, inside: Box): Box => ({
        x: third(range.x, inside.x, i),
        u: third(range.u, inside.u, k)
      });
      // What lies beside the opening itself has one of its edges.
      const edges: Region['edges'] = [
        i === 0 ? low : i === 2 && k === 1 ? downEdge! : WHOLE,
        i === 2 ? high : i === 0 && k === 1 ? upEdge! : WHOLE,
        k === 0 ? first : k === 2 && i === 1 ? sideEdge! : WHOLE,
        k === 2 ? second : k === 0 && i === 1 ? sideEdge! : WHOLE
      ];
      parts.push(
        outlineRegion({ outer: box(region.outer, hole), inner: box(region.inner, holeInside), edges })
      );
    }
  }
  return parts;
}

/** The square round a circle as a rectangular opening that closes nothing, and the wedges between the two. */
function surroundCircle(region: Region, opening: Opening, rim: (bevel: number) => WallEdge): Polygon[] {
  const { at, outer, inner } = opening.circle!;
  const trace = (radius: number): FacePoint[] => traceCircle(at, radius * SAME_AREA);
  const reach = Math.max(outer, inner) * SAME_AREA;
  const [x, u] = at;
  const corners: FacePoint[] = [
    [x - reach, u - reach],
    [x + reach, u - reach],
    [x + reach, u + reach],
    [x - reach, u + reach]
  ];
  const square: Opening = {
    name: opening.name,
    face: opening.face,
    outer: corners,
    inner: corners,
    edges: corners.map(() => ({ bevel: 0 }))
  };
  const around = surround(region, square, { by: 'seal', needs: [] }).map((polygon) => ({
    ...polygon,
    edges: polygon.edges.map((edge) => (edge.closing?.needs.length === 0 ? WHOLE : edge))
  }));
  const [onFacing, onInside] = [trace(outer), trace(inner)];
  const beyond = traceCircle(at, 1).map(([cx, cu]): FacePoint => {
    const [dx, du] = [cx - x, cu - u];
    const stretch = reach / Math.max(Math.abs(dx), Math.abs(du));
    return [x + dx * stretch, u + du * stretch];
  });
  const quarter = ROUND_CORNERS / 4;
  const edge = rim(opening.edges[0]!.bevel);
  const wedges = onFacing.map((point, i): Polygon => {
    const next = (i + 1) % ROUND_CORNERS;
    // Between the last corner of one side and the first of the next lies a corner of the square.
    const isAtCorner = (i + 1) % quarter === quarter / 2;
    const corner = isAtCorner ? [findSquareCorner(beyond[i]!, beyond[next]!, at, reach)] : [];
    const outside = [beyond[i]!, ...corner, beyond[next]!];
    return {
      outer: [point, ...outside, onFacing[next]!],
      inner: [onInside[i]!, ...outside, onInside[next]!],
      edges: [WHOLE, ...outside.slice(1).map(() => WHOLE), WHOLE, edge]
    };
  });
  return [...around, ...wedges];
}

function findSquareCorner(a: FacePoint, b: FacePoint, [x, u]: FacePoint, reach: number): FacePoint {
  return [x + Math.sign(a[0] + b[0] - 2 * x) * reach, u + Math.sign(a[1] + b[1] - 2 * u) * reach];
}

/** A polygon of as many corners has the area of a circle when its corners lie on one larger by this factor. */
const SAME_AREA = Math.sqrt((2 * Math.PI) / ROUND_CORNERS / sinDegrees(360 / ROUND_CORNERS));
