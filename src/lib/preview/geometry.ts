import type { Body } from '../kernel/fitting/fitting.ts';
import { listWallFaces, type EdgeKind, type Wall } from '../kernel/fitting/wall.ts';
import { add, cross, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import { clipSegment, clipSolid, liesOnPlane, type Plane } from './clip.ts';

/**
 * Which side of the board a face of a body shows: the facing, the air way, the board's own thickness at an end, or
 * the same where a section plane cuts the body open.
 */
export type Surface = 'outside' | 'inside' | 'rim' | 'cap';

export const SURFACES: readonly Surface[] = ['outside', 'inside', 'rim', 'cap'];

/**
 * A line of a body, with the walls it belongs to: an edge of a wall on its facing or on its inside; at an end (`rim`)
 * the corner where two walls meet; in a section (`cap`) the outline of a wall, of kind `face` where it runs along the
 * facing or the inside.
 */
export interface MeshEdge {
  readonly surface: Surface;
  readonly kind: EdgeKind | 'face';
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
  /** The walls that a section plane has cut open. */
  readonly capped: readonly Face[];
}

/**
 * The shell of a body, from the outer and inner outlines of its walls and from nothing else. Where two walls
 * meet in a fold or a seam their sides lie against each other: both are left out, so that the walls make one
 * closed shell. Outlines are taken to be convex, as plane cuts leave them. With a plane, in the frame of the straight,
 * only what lies behind it is left, and the walls are closed there by caps.
 */
export function buildBodyMesh(body: Pick<Body, 'walls'>, plane: Plane | null = null): BodyMesh {
  const shell = {
    positions: [] as number[],
    normals: [] as number[],
    indices: [] as number[],
    wallOf: [] as Face[]
  };
  const walls = body.walls.map((wall) => cutOpen(wall, plane));
  const ranges = SURFACES.map((surface) => {
    const start = shell.indices.length;
    for (const { wall, polygons } of walls) {
      for (const polygon of polygons[surface]) addPolygon(shell, polygon, wall.face);
    }
    return { start, count: shell.indices.length - start };
  });
  const edges = joinEdges(walls.flatMap(({ lines }) => lines));
  return {
    positions: new Float32Array(shell.positions),
    normals: new Float32Array(shell.normals),
    indices: new Uint32Array(shell.indices),
    surfaces: { outside: ranges[0]!, inside: ranges[1]!, rim: ranges[2]!, cap: ranges[3]! },
    wallOf: shell.wallOf,
    edges: new Float32Array(edges.flatMap(({ from, to }) => [...from, ...to])),
    edgeOf: edges.map(({ edge }) => edge),
    capped: walls.filter(({ polygons }) => polygons.cap.length > 0).map(({ wall }) => wall.face)
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

/** The middle of what a plane leaves of the facing of every wall, with its vector area; none where nothing is left. */
export function listWallViews(walls: readonly Wall[], plane: Plane | null): { middle: Vec3; area: Vec3 }[] {
  return walls.flatMap((wall) => {
    const solid = listWallFaces(wall);
    const facing = (plane ? clipSolid(solid, plane).faces : solid)[0]!;
    return facing.length > 2 ? [{ middle: findMiddle(facing), area: findVectorArea(facing) }] : [];
  });
}

/** The middle of a set of points. */
export function findMiddle(points: readonly Vec3[]): Vec3 {
  return scale(points.reduce<Vec3>(add, [0, 0, 0]), 1 / points.length);
}

interface Line {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly edge: MeshEdge;
}

/** What a plane leaves of a wall: its faces by the surface they show, and its lines. */
function cutOpen(wall: Wall, plane: Plane | null): { wall: Wall; polygons: Polygons; lines: Line[] } {
  const solid = listWallFaces(wall);
  const lines = listLines(wall);
  if (!plane) return { wall, polygons: sortFaces(wall, solid, []), lines };
  const { faces, cap, capFaces } = clipSolid(solid, plane);
  // A plane that runs just through a corner of the duct takes one wall away and lays the side of the other bare.
  const bare = faces.filter(
    (face, i) => i > 1 && isCorner(wall.edges[i - 2]!.kind) && face.length > 2 && liesOnPlane(face, plane)
  );
  const kept = lines.flatMap(({ from, to, edge }): Line[] => {
    const part = clipSegment(from, to, plane);
    return part ? [{ from: part[0], to: part[1], edge }] : [];
  });
  const outline = cap.map((from, i): Line => {
    const side = wall.edges[capFaces[i]! - 2];
    const to = cap[(i + 1) % cap.length]!;
    return { from, to, edge: describeLine('cap', side ?? { kind: 'face' }, wall.face) };
  });
  return { wall, polygons: sortFaces(wall, faces, [cap, ...bare]), lines: [...kept, ...outline] };
}

/** The faces of a wall's solid, in the order of listWallFaces, by the surface they show. */
function sortFaces(wall: Wall, faces: readonly Polygon[], caps: readonly Polygon[]): Polygons {
  const isLeft = (face: Polygon): boolean => face.length > 2;
  return {
    outside: faces.slice(0, 1).filter(isLeft),
    inside: faces.slice(1, 2).filter(isLeft),
    rim: faces.slice(2).filter((face, i) => isLeft(face) && !isCorner(wall.edges[i]!.kind)),
    cap: caps.filter(isLeft)
  };
}

type Polygon = readonly Vec3[];
type Polygons = Readonly<Record<Surface, readonly Polygon[]>>;

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

/** The edges of a wall on its facing and on its inside, and the corners between them at its two ends. */
function listLines({ face, outer, inner, edges }: Wall): Line[] {
  const along = [['outside', outer] as const, ['inside', inner] as const].flatMap(([surface, outline]) =>
    edges.map((edge, i): Line => ({
      from: outline[i]!,
      to: outline[(i + 1) % outline.length]!,
      edge: describeLine(surface, edge, face)
    }))
  );
  const corners = outer.map((from, i): Line => {
    const corner = [edges[i]!, edges[(i + 3) % 4]!].find(({ kind }) => isCorner(kind))!;
    return { from, to: inner[i]!, edge: describeLine('rim', corner, face) };
  });
  return [...along, ...corners];
}

function describeLine(
  surface: Surface,
  { kind, cut }: { readonly kind: MeshEdge['kind']; readonly cut?: string },
  face: Face
): MeshEdge {
  return { surface, kind, faces: [face], ...(cut === undefined ? {} : { cut }) };
}

/** Makes one line of those that two walls share. */
function joinEdges(lines: readonly Line[]): Line[] {
  const drawn = new Map<string, Line>();
  for (const line of lines) {
    const name = [String(line.from), String(line.to)].sort().join(' ');
    const shared = drawn.get(name);
    const faces = [...(shared?.edge.faces ?? []), ...line.edge.faces];
    drawn.set(name, { ...line, edge: { ...(shared ?? line).edge, faces } });
  }
  return [...drawn.values()];
}
