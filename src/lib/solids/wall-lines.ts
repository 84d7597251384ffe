import type { Body } from '../kernel/fitting/fitting.ts';
import { listWallFaces, type EdgeKind, type Wall } from '../kernel/fitting/wall.ts';
import { dot, norm, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { MeshEdge, Surface } from './mesh-edge.ts';
import { findVectorArea } from './polygon-area.ts';

/** A line of a body and what it is. */
export interface Line {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly edge: MeshEdge;
}

/**
 * Which sides of the walls of a body are not seen, by wall and edge: those that lie against another wall of it. Walls of
 * a piece meet so in folds and seams, the parts of one wall wherever the board goes on; a panel lies by itself.
 */
export function findHiddenSides({ kind, walls }: Pick<Body, 'kind' | 'walls'>): boolean[][] {
  const sides = walls.map((wall) => listWallFaces(wall).slice(2).map(nameSide));
  const times = new Map<string, number>();
  for (const side of sides.flat()) times.set(side, (times.get(side) ?? 0) + 1);
  return walls.map(({ edges }, w) =>
    edges.map((edge, i) => {
      const isCorner = kind === 'piece' && (edge.kind === 'fold' || edge.kind === 'seam');
      return edge.kind === 'whole' || isCorner || times.get(sides[w]![i]!)! > 1;
    })
  );
}

/** The edges of the walls on the facing and on the inside, and the corners between those where board ends. */
export function listWallLines(walls: readonly Wall[], hidden: readonly (readonly boolean[])[]): Line[] {
  return [...walls.flatMap((wall, w) => traceWall(wall, hidden[w]!)), ...listBrokenCorners(walls, hidden)];
}

export function describeLine(
  surface: Surface,
  { kind, cut }: { readonly kind: EdgeKind | 'face'; readonly cut?: string },
  face: Face
): MeshEdge {
  return { surface, kind, faces: [face], ...(cut === undefined ? {} : { cut }) };
}

/** Makes one line of those that two walls share. */
export function joinLines(lines: readonly Line[]): Line[] {
  const drawn = new Map<string, Line>();
  for (const line of lines) {
    const name = [String(line.from), String(line.to)].sort().join(' ');
    const shared = drawn.get(name);
    const faces = [...new Set([...(shared?.edge.faces ?? []), ...line.edge.faces])];
    drawn.set(name, { ...line, edge: { ...(shared ?? line).edge, faces } });
  }
  return [...drawn.values()];
}

function traceWall({ face, outer, inner, edges }: Wall, hidden: readonly boolean[]): Line[] {
  const along = [['outside', outer] as const, ['inside', inner] as const].flatMap(([surface, outline]) =>
    edges.flatMap((edge, i): Line[] =>
      edge.kind === 'whole'
        ? []
        : [
            {
              from: outline[i]!,
              to: outline[(i + 1) % outline.length]!,
              edge: describeLine(surface, edge, face)
            }
          ]
    )
  );
  const corners = outer.flatMap((from, i): Line[] => {
    const sides = [i, (i + edges.length - 1) % edges.length];
    const within = sides.filter((side) => hidden[side]);
    if (within.length === 2) return [];
    const edge = within.length === 1 ? edges[within[0]!]! : ({ kind: 'face' } as const);
    return edge.kind === 'whole' ? [] : [{ from, to: inner[i]!, edge: describeLine('rim', edge, face) }];
  });
  return [...along, ...corners];
}

/** The corners of openings: there the ends of two parts of one wall meet at an angle. */
function listBrokenCorners(walls: readonly Wall[], hidden: readonly (readonly boolean[])[]): Line[] {
  const met = new Map<string, { normal: Vec3; line: Line }[]>();
  walls.forEach((wall, w) => {
    const { outer, inner, edges, face } = wall;
    const count = edges.length;
    outer.forEach((from, i) => {
      const sides = [i, (i + count - 1) % count];
      const bare = sides.filter((side) => !hidden[w]![side]);
      if (bare.length !== 1 || !sides.some((side) => edges[side]!.kind === 'whole')) return;
      const area = findVectorArea(listWallFaces(wall)[2 + bare[0]!]!);
      const name = nameSide([from, inner[i]!]);
      const edge = describeLine('rim', { kind: 'face' }, face);
      const here = { normal: scale(area, 1 / norm(area)), line: { from, to: inner[i]!, edge } };
      met.set(name, [...(met.get(name) ?? []), here]);
    });
  });
  return [...met.values()].flatMap(([first, ...others]) =>
    others.some(({ normal }) => dot(normal, first!.normal) < SMOOTH) ? [first!.line] : []
  );
}

/** Cosine of the angle up to which two sides are seen as one that is bent: those of a round opening. */
const SMOOTH = 0.9;

function nameSide(points: readonly Vec3[]): string {
  return points
    .map((point) => point.map((at) => Math.round(at * 1e4)).join(' '))
    .sort()
    .join(' | ');
}
