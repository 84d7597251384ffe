import type { Body, PanelPoint } from '../kernel/fitting/fitting.ts';
import type { Wall, EdgeKind } from '../kernel/fitting/wall.ts';
import { findNormal } from '../kernel/geometry/convex.ts';
import { cross, distance, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';

/** Corners of neighbouring walls this close are the same corner, mm. */
const SAME_CORNER = 1e-3;

/** Normals whose cosine is nearer to 1 than this are the same. */
const SAME_DIRECTION = 1e-9;

/** One edge of a wall, on the facing and on the inside. */
export interface Edge {
  readonly kind: EdgeKind;
  readonly bevel: number;
  /** The cut that made it. */
  readonly cut: string | undefined;
  readonly outer: readonly [Vec3, Vec3];
  readonly inner: readonly [Vec3, Vec3];
}

/** Edges one after another. */
export interface Run {
  readonly edges: readonly Edge[];
  /** Whether the last one ends where the first one begins. */
  readonly closed: boolean;
}

/** One plane part of a body's outside, whatever solids it is made of, in the body's frame, mm. */
export interface Facing {
  readonly face: Face;
  /** Unit, outward. */
  readonly normal: Vec3;
  readonly walls: readonly Wall[];
  /** What bounds it; an edge where the board only goes on is none. */
  readonly rims: readonly Run[];
  readonly openings: readonly Run[];
}

/** The plane parts of the outside of a body, in the order of its walls; walls that go on in one plane are one. */
export function listFacings(body: Body): Facing[] {
  const groups: { normal: Vec3; walls: Wall[] }[] = [];
  for (const wall of body.walls) {
    const normal = findNormal(wall.outer[0]!, wall.outer[1]!, wall.outer[2]!);
    const plane = groups.find(
      ({ normal: other, walls: [first] }) =>
        first!.face === wall.face &&
        dot(normal, other) > 1 - SAME_DIRECTION &&
        Math.abs(dot(normal, subtract(wall.outer[0]!, first!.outer[0]!))) < SAME_CORNER
    );
    if (plane) plane.walls.push(wall);
    else groups.push({ normal, walls: [wall] });
  }
  return groups.map(({ normal, walls }) => {
    const [only] = walls;
    const face = only!.face;
    if (walls.length === 1 && only!.edges.every(({ kind }) => kind !== 'whole')) {
      return { face, normal, walls, rims: [{ edges: listEdges(only!), closed: true }], openings: [] };
    }
    const runs = chainEdges(walls.flatMap(listEdges).filter(({ kind }) => kind !== 'whole'));
    const isOpening = (run: Run): boolean => run.closed && dot(measureTurn(run), normal) < 0;
    return {
      face,
      normal,
      walls,
      rims: runs.filter((run) => !isOpening(run)),
      openings: runs.filter(isOpening)
    };
  });
}

/** The edges of a wall in their order. */
export function listEdges({ outer, inner, edges }: Wall): Edge[] {
  return edges.map((edge, i) => {
    const next = (i + 1) % outer.length;
    return {
      kind: edge.kind,
      bevel: edge.bevel,
      cut: edge.cut,
      outer: [outer[i]!, outer[next]!],
      inner: [inner[i]!, inner[next]!]
    };
  });
}

/** Puts edges one after another where one ends at the corner at which another begins. */
export function chainEdges(edges: readonly Edge[]): Run[] {
  const left = [...edges];
  const runs: Run[] = [];
  const takeAt = (isNext: (edge: Edge) => boolean): Edge | undefined => {
    const found = left.findIndex(isNext);
    return found < 0 ? undefined : left.splice(found, 1)[0];
  };
  for (let first = left.shift(); first; first = left.shift()) {
    const run = [first];
    const isClosed = (): boolean => distance(run[run.length - 1]!.outer[1], run[0]!.outer[0]) < SAME_CORNER;
    while (!isClosed()) {
      const [start, end] = [run[0]!.outer[0], run[run.length - 1]!.outer[1]];
      const after = takeAt(({ outer }) => distance(outer[0], end) < SAME_CORNER);
      const before = after ?? takeAt(({ outer }) => distance(outer[1], start) < SAME_CORNER);
      if (after) run.push(after);
      else if (before) run.unshift(before);
      else break;
    }
    runs.push({ edges: run, closed: isClosed() });
  }
  return runs;
}

/** The corners of a run on the facing or on the inside, those on a straight line left out; closed ones not repeated. */
export function listRunCorners({ edges, closed }: Run, side: 'outer' | 'inner'): Vec3[] {
  const points = edges.map((edge) => edge[side][0]);
  if (!closed) points.push(edges[edges.length - 1]![side][1]);
  return points.filter((point, i) => {
    const before = points[i - 1] ?? (closed ? points[points.length - 1] : undefined);
    const after = points[i + 1] ?? (closed ? points[0] : undefined);
    return !before || !after || !isBetween(point, before, after);
  });
}

/**
 * The corner lines of a body along its folds and seams, downstream in its frame: once each, one line where the walls on
 * both sides are several.
 */
export function listCornerLines(body: Body): Run[] {
  const edges: Edge[] = [];
  for (const wall of body.walls) {
    // The corner at the wall's own beginning comes first, then the one where the next wall begins.
    for (const edge of listEdges(wall).reverse()) {
      if (edge.kind !== 'fold' && edge.kind !== 'seam') continue;
      const [along, round] = [0, 1].map((axis) => Math.abs(edge.outer[1][axis]! - edge.outer[0][axis]!));
      const aside = Math.abs(edge.outer[1][2] - edge.outer[0][2]);
      if (along! < Math.hypot(round!, aside) * ALONG) continue;
      const downstream = edge.outer[0][0] < edge.outer[1][0] ? edge : turnRound(edge);
      if (!edges.some(({ outer }) => isSame(outer, downstream.outer))) edges.push(downstream);
    }
  }
  return chainEdges(edges);
}

/** A corner line rises at most so steeply; a fold across the duct is none. */
const ALONG = 0.1;

/** Whether nothing of the body's outside stands in front of any of its facings. */
export function isConvex(body: Body, facings: readonly Facing[]): boolean {
  if (body.kind === 'panel') return isConvexOutline(body.panel.outer);
  const corners = body.walls.flatMap(({ outer }) => outer);
  return facings.every(({ normal, walls: [wall] }) =>
    corners.every((corner) => dot(normal, subtract(corner, wall!.outer[0]!)) < SAME_CORNER)
  );
}

function isConvexOutline(points: readonly PanelPoint[]): boolean {
  const turns = points.map(([x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    const [farX, farY] = points[(i + 2) % points.length]!;
    return (nextX - x) * (farY - nextY) - (nextY - y) * (farX - nextX);
  });
  return turns.every((turn) => turn > -SAME_CORNER) || turns.every((turn) => turn < SAME_CORNER);
}

function turnRound(edge: Edge): Edge {
  return { ...edge, outer: [edge.outer[1], edge.outer[0]], inner: [edge.inner[1], edge.inner[0]] };
}

function isSame(a: Edge['outer'], b: Edge['outer']): boolean {
  return distance(a[0], b[0]) < SAME_CORNER && distance(a[1], b[1]) < SAME_CORNER;
}

function isBetween(point: Vec3, before: Vec3, after: Vec3): boolean {
  const [a, b] = [subtract(point, before), subtract(after, point)];
  return dot(a, b) > 0 && norm(cross(a, b)) < SAME_CORNER * norm(subtract(after, before));
}

/** Twice the vector area inside a closed run: along the normal from which it runs counter-clockwise. */
function measureTurn({ edges }: Run): Vec3 {
  const origin = edges[0]!.outer[0];
  return edges.reduce<Vec3>(
    (sum, { outer: [from, to] }) => {
      const part = cross(subtract(from, origin), subtract(to, origin));
      return [sum[0] + part[0], sum[1] + part[1], sum[2] + part[2]];
    },
    scale(origin, 0)
  );
}
