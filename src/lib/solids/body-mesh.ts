import type { Body } from '../kernel/fitting/fitting.ts';
import { listWallFaces, type Wall } from '../kernel/fitting/wall.ts';
import { add, norm, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import { clipSegment, clipSolid, liesOnPlane, type Plane } from './clip.ts';
import { SURFACES, type MeshEdge, type Surface } from './mesh-edge.ts';
import { findVectorArea } from './polygon-area.ts';
import { describeLine, findHiddenSides, joinLines, listWallLines, type Line } from './wall-lines.ts';

/**
 * A body as a closed shell of triangles, flat-shaded (every face has vertices of its own), in the frame of
 * its straight or of the panel, mm. Triangles run counter-clockwise seen from outside the board.
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
 * The shell of a body, from the outer and inner outlines of its walls and from nothing else. Sides that lie against
 * another wall of the body are left out, so that the walls make one closed shell. Outlines are convex. With a plane, in
 * the frame of the body, only what lies behind it is left, and the walls are closed there by caps.
 */
export function buildBodyMesh(body: Pick<Body, 'kind' | 'walls'>, plane: Plane | null = null): BodyMesh {
  const shell = {
    positions: [] as number[],
    normals: [] as number[],
    indices: [] as number[],
    wallOf: [] as Face[]
  };
  const hidden = findHiddenSides(body);
  const walls = body.walls.map((wall, w) => ({ face: wall.face, ...cutOpen(wall, hidden[w]!, plane) }));
  const ranges = SURFACES.map((surface) => {
    const start = shell.indices.length;
    for (const wall of walls) {
      for (const polygon of wall[surface]) addPolygon(shell, polygon, wall.face);
    }
    return { start, count: shell.indices.length - start };
  });
  const lines = clipLines(listWallLines(body.walls, hidden), plane);
  const edges = joinLines([...lines, ...walls.flatMap(({ outline }) => outline)]);
  return {
    positions: new Float32Array(shell.positions),
    normals: new Float32Array(shell.normals),
    indices: new Uint32Array(shell.indices),
    surfaces: { outside: ranges[0]!, inside: ranges[1]!, rim: ranges[2]!, cap: ranges[3]! },
    wallOf: shell.wallOf,
    edges: new Float32Array(edges.flatMap(({ from, to }) => [...from, ...to])),
    edgeOf: edges.map(({ edge }) => edge),
    capped: [...new Set(walls.flatMap(({ cap, face }) => (cap.length > 0 ? [face] : [])))]
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

type Polygon = readonly Vec3[];

/** What a plane leaves of a wall: its faces by the surface they show, and the outline of its cap. */
type Open = Readonly<Record<Surface, readonly Polygon[]>> & { readonly outline: readonly Line[] };

function cutOpen(wall: Wall, hidden: readonly boolean[], plane: Plane | null): Open {
  const solid = listWallFaces(wall);
  if (!plane) return sortFaces(solid, hidden, [], []);
  const { faces, cap, capFaces } = clipSolid(solid, plane);
  // A plane that runs just between two walls takes one away and lays the side of the other bare.
  const bare = faces.filter(
    (face, i) => i > 1 && hidden[i - 2] && face.length > 2 && liesOnPlane(face, plane)
  );
  const outline = cap.flatMap((from, i): Line[] => {
    const side = wall.edges[capFaces[i]! - 2] ?? ({ kind: 'face' } as const);
    if (side.kind === 'whole') return [];
    return [{ from, to: cap[(i + 1) % cap.length]!, edge: describeLine('cap', side, wall.face) }];
  });
  return sortFaces(faces, hidden, [cap, ...bare], outline);
}

/** The faces of a wall's solid, in the order of listWallFaces, by the surface they show. */
function sortFaces(
  faces: readonly Polygon[],
  hidden: readonly boolean[],
  caps: readonly Polygon[],
  outline: readonly Line[]
): Open {
  const isLeft = (face: Polygon): boolean => face.length > 2;
  return {
    outside: faces.slice(0, 1).filter(isLeft),
    inside: faces.slice(1, 2).filter(isLeft),
    rim: faces.slice(2).filter((face, i) => isLeft(face) && !hidden[i]),
    cap: caps.filter(isLeft),
    outline
  };
}

function clipLines(lines: readonly Line[], plane: Plane | null): readonly Line[] {
  if (!plane) return lines;
  return lines.flatMap(({ from, to, edge }): Line[] => {
    const part = clipSegment(from, to, plane);
    return part ? [{ from: part[0], to: part[1], edge }] : [];
  });
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
