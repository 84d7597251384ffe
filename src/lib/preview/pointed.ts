import type { Subject } from '../figures/figure.ts';
import { add, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { BodyMesh } from '../solids/body-mesh.ts';
import type { MeshEdge } from '../solids/mesh-edge.ts';

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

/**
 * The cut whose edge on the facing or on the inside comes nearest to a point of a body, both in the frame of its
 * straight, mm; null where none comes as near as `reach`.
 */
export function findCutNear(mesh: BodyMesh, point: Vec3, reach: number): string | null {
  let nearest: { cut: string; away: number } | null = null;
  mesh.edgeOf.forEach(({ cut }, i) => {
    if (cut === undefined) return;
    const [ax, ay, az, bx, by, bz] = mesh.edges.subarray(6 * i, 6 * i + 6) as unknown as number[];
    const away = measureToSegment(point, [ax!, ay!, az!], [bx!, by!, bz!]);
    if (away <= (nearest?.away ?? reach)) nearest = { cut, away };
  });
  return (nearest as { cut: string } | null)?.cut ?? null;
}

function measureToSegment(point: Vec3, from: Vec3, to: Vec3): number {
  const along = subtract(to, from);
  const length = dot(along, along);
  const share = length > 0 ? dot(subtract(point, from), along) / length : 0;
  return norm(subtract(point, add(from, scale(along, Math.min(1, Math.max(0, share))))));
}
