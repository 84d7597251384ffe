import type { Subject } from '../figures/figure.ts';
import type { Body } from '../kernel/fitting/fitting.ts';
import { listWallFaces, type EdgeKind, type Wall } from '../kernel/fitting/wall.ts';
import { add, cross, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';

/**
 * Which side of the board a face of a body shows: the facing, the air way, or the board's own thickness at an
 * end.
 */
export type Surface = 'outside' | 'inside' | 'rim';

export const SURFACES: readonly Surface[] = ['outside', 'inside', 'rim'];

/** A line of a body: an edge of a wall on its facing or on its inside, with the walls it belongs to. */
export interface MeshEdge {
  readonly surface: 'outside' | 'inside';
  readonly kind: EdgeKind;
  readonly faces: readonly Face[];
  /** The cut that made it, for kind `cut`. */
  readonly cut?: string;
}

/**
 * A body as a closed shell of triangles, flat-shaded (every face has vertices of its own), in the frame of
 * its straight, mm. Triangles run counter-clockwise seen from outside the board.
 */
export interface BodyMesh {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
  /** Where in `indices` the triangles of each surface lie. */
  readonly surfaces: Readonly<Record<Surface, { readonly start: number; readonly count: number }>>;
  /** The wall of every triangle. */
  readonly wallOf: readonly Face[];
  /** Line segments, six numbers each; a corner edge that two walls share is there once. */
  readonly edges: Float32Array;
  /** What every segment is. */
  readonly edgeOf: readonly MeshEdge[];
}

/**
 * The shell of a body, from the outer and inner outlines of its walls and from nothing else. Where two walls
 * meet in a fold or a seam their sides lie against each other: both are left out, so that the walls make one
 * closed shell. Outlines are taken to be convex, as plane cuts leave them.
 */
export function buildBodyMesh(body: Pick<Body, 'walls'>): BodyMesh {
  const shell = {
    positions: [] as number[],
    normals: [] as number[],
    indices: [] as number[],
    wallOf: [] as Face[]
  };
  const ranges = SURFACES.map((surface) => {
    const start = shell.indices.length;
    for (const wall of body.walls) {
      for (const polygon of listSurface(wall, surface)) addPolygon(shell, polygon, wall.face);
    }
    return { start, count: shell.indices.length - start };
  });
  const edges = listEdges(body.walls);
  return {
    positions: new Float32Array(shell.positions),
    normals: new Float32Array(shell.normals),
    indices: new Uint32Array(shell.indices),
    surfaces: { outside: ranges[0]!, inside: ranges[1]!, rim: ranges[2]! },
    wallOf: shell.wallOf,
    edges: new Float32Array(edges.flatMap(({ from, to }) => [...from, ...to])),
    edgeOf: edges.map(({ edge }) => edge)
  };
}

/** The segments of a mesh that pass a test, six numbers each. */
export function pickEdges(mesh: BodyMesh, wanted: (edge: MeshEdge) => boolean): Float32Array {
  return new Float32Array(
    mesh.edgeOf.flatMap((edge, i) => (wanted(edge) ? [...mesh.edges.subarray(6 * i, 6 * i + 6)] : []))
  );
}

/** The indices of the triangles of one wall. */
export function pickWall(mesh: BodyMesh, face: Face): Uint32Array {
  return new Uint32Array(
    mesh.wallOf.flatMap((wall, i) => (wall === face ? [...mesh.indices.subarray(3 * i, 3 * i + 3)] : []))
  );
}

/**
 * Whether an edge of a body is part of what is pointed at: of a cut its own edges (on one face, where one is
 * named), of a piece all of them, of a face those of that wall.
 */
export function isEdgePointedAt(edge: MeshEdge, body: string, pointed: Subject | null): boolean {
  if (!pointed || (pointed.piece !== undefined && pointed.piece !== body)) return false;
  const onFace = pointed.face === undefined || edge.faces.includes(pointed.face);
  if (pointed.cut !== undefined) return edge.cut === pointed.cut && onFace;
  return pointed.piece !== undefined || (pointed.face !== undefined && onFace);
}

/** The wall of a body that is pointed at; null where the body, or a single wall of it, is not. */
export function findPointedWall(body: string, pointed: Subject | null): Face | null {
  if (!pointed || pointed.cut !== undefined) return null;
  if (pointed.piece !== undefined && pointed.piece !== body) return null;
  return pointed.face ?? null;
}

/** The middle of a set of points. */
export function findMiddle(points: readonly Vec3[]): Vec3 {
  return scale(points.reduce<Vec3>(add, [0, 0, 0]), 1 / points.length);
}

function listSurface(wall: Wall, surface: Surface): Vec3[][] {
  const [outside, inside, ...sides] = listWallFaces(wall);
  if (surface === 'outside') return [outside!];
  if (surface === 'inside') return [inside!];
  return sides.filter((_, i) => !isCorner(wall.edges[i]!.kind));
}

function isCorner(kind: EdgeKind): boolean {
  return kind === 'fold' || kind === 'seam';
}

function addPolygon(
  shell: { positions: number[]; normals: number[]; indices: number[]; wallOf: Face[] },
  polygon: readonly Vec3[],
  face: Face
): void {
  const first = shell.positions.length / 3;
  const area = findVectorArea(polygon);
  const size = norm(area);
  // A face without an area has no direction, and is not seen either.
  const normal = size > 0 ? scale(area, 1 / size) : area;
  for (const corner of polygon) {
    shell.positions.push(...corner);
    shell.normals.push(...normal);
  }
  for (let i = 1; i + 1 < polygon.length; i++) {
    shell.indices.push(first, first + i, first + i + 1);
    shell.wallOf.push(face);
  }
}

/**
 * Vector area of a plane polygon, mm²: its normal, as long as its area is large (Stokes). A corner that falls
 * on the next does no harm.
 */
export function findVectorArea(polygon: readonly Vec3[]): Vec3 {
  const origin = polygon[0]!;
  let area: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < polygon.length; i++) {
    area = add(area, cross(subtract(polygon[i]!, origin), subtract(polygon[i + 1]!, origin)));
  }
  return scale(area, 0.5);
}

function listEdges(walls: readonly Wall[]): { from: Vec3; to: Vec3; edge: MeshEdge }[] {
  const drawn = new Map<string, { from: Vec3; to: Vec3; edge: MeshEdge }>();
  for (const { face, outer, inner, edges } of walls) {
    for (const [surface, outline] of [['outside', outer] as const, ['inside', inner] as const]) {
      edges.forEach(({ kind, cut }, i) => {
        const from = outline[i]!;
        const to = outline[(i + 1) % outline.length]!;
        // The wall beyond a corner runs along the shared edge the other way round.
        const shared = drawn.get(nameSegment(to, from));
        const faces = shared ? [...shared.edge.faces, face] : [face];
        const edge: MeshEdge = cut === undefined ? { surface, kind, faces } : { surface, kind, faces, cut };
        drawn.set(shared ? nameSegment(to, from) : nameSegment(from, to), { from, to, edge });
      });
    }
  }
  return [...drawn.values()];
}

function nameSegment(from: Vec3, to: Vec3): string {
  return `${from.join(' ')} ${to.join(' ')}`;
}
