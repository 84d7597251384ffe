import { cross, dot, subtract, type Vec3 } from './vector.ts';

/** How far two convex solids are apart. */
export interface Gap {
  /** mm; 0 where they touch or reach into each other. */
  readonly distance: number;
  /** The nearest points of the two; where the solids reach into each other, a point of each and nothing more. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** `from` as a mean of corners of the first solid: their places in its list, and their shares. */
  readonly corners: readonly number[];
  readonly shares: readonly number[];
}

/** The search ends when no corner brings the solids nearer by more than this part of their distance. */
const NEARER = 1e-12;

/** A face of the difference is as far as the origin, for rounding, below this part of the size of the solids. */
const TOUCHING = 1e-13;

/** More corners than this are never looked at: two boxes have 64 pairs. */
const MOST_ROUNDS = 200;

interface Vertex {
  readonly point: Vec3;
  readonly a: number;
  readonly b: number;
}

/**
 * The distance of two convex solids, each the hull of its corners (Gilbert, Johnson and Keerthi, 1988: the point of
 * their Minkowski difference nearest to the origin, by simplices of at most four corners; the nearest point of a simplex
 * by its Voronoi regions). Where they are further apart than `enough`, mm, it may end early, with points that are further
 * apart than that too, but not the nearest.
 */
export function measureGap(a: readonly Vec3[], b: readonly Vec3[], enough = Infinity): Gap {
  const pair = (i: number, j: number): Vertex => ({ point: subtract(a[i]!, b[j]!), a: i, b: j });
  let simplex: Vertex[] = [pair(0, 0)];
  let shares: number[] = [1];
  let nearest = simplex[0]!.point;
  let size = norm(nearest);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const length = norm(nearest);
    if (length <= TOUCHING * size) break;
    const next = pair(findFarthest(a, nearest, -1), findFarthest(b, nearest, 1));
    size = Math.max(size, norm(next.point));
    // How much nearer the plane square to the way of approach is, beyond which the difference cannot reach.
    const along = dot(nearest, next.point);
    if (length * length - along <= NEARER * length * length) break;
    if (along > enough * length) break;
    if (simplex.some((vertex) => vertex.a === next.a && vertex.b === next.b)) break;
    const reduced = reduceSimplex([...simplex, next]);
    const closer = blend(
      reduced.simplex.map(({ point }) => point),
      reduced.shares
    );
    // Rounding has the last word where two corners are as near: then the search has come to its end.
    if (!reduced.inside && norm(closer) >= length) break;
    ({ simplex, shares } = reduced);
    nearest = reduced.inside ? [0, 0, 0] : closer;
    if (reduced.inside) break;
  }
  return {
    distance: norm(nearest) <= TOUCHING * size ? 0 : norm(nearest),
    from: blend(
      simplex.map((vertex) => a[vertex.a]!),
      shares
    ),
    to: blend(
      simplex.map((vertex) => b[vertex.b]!),
      shares
    ),
    corners: simplex.map((vertex) => vertex.a),
    shares
  };
}

/** Length of a vector; no size that occurs here overflows when it is squared. */
function norm(v: Vec3): number {
  return Math.sqrt(dot(v, v));
}

function findFarthest(corners: readonly Vec3[], direction: Vec3, sense: 1 | -1): number {
  let [best, farthest] = [0, -Infinity];
  for (let i = 0; i < corners.length; i++) {
    const along = sense * dot(corners[i]!, direction);
    if (along > farthest) [best, farthest] = [i, along];
  }
  return best;
}

/** The mean of points by their shares. */
export function blend(points: readonly Vec3[], shares: readonly number[]): Vec3 {
  let [x, y, z] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) {
    const [p, share] = [points[i]!, shares[i]!];
    x += p[0] * share;
    y += p[1] * share;
    z += p[2] * share;
  }
  return [x, y, z];
}

interface Reduced {
  readonly simplex: Vertex[];
  readonly shares: number[];
  readonly inside: boolean;
}

/** The part of a simplex whose nearest point to the origin is the nearest of the whole, and that point's shares. */
function reduceSimplex(simplex: Vertex[]): Reduced {
  switch (simplex.length) {
    case 1:
      return { simplex, shares: [1], inside: false };
    case 2:
      return reduceEdge(simplex[0]!, simplex[1]!);
    case 3:
      return reduceTriangle(simplex[0]!, simplex[1]!, simplex[2]!);
    default:
      return reduceTetrahedron(simplex as [Vertex, Vertex, Vertex, Vertex]);
  }
}

function reduceEdge(p: Vertex, q: Vertex): Reduced {
  const along = subtract(q.point, p.point);
  const share = -dot(p.point, along) / dot(along, along);
  if (!(share > 0)) return { simplex: [p], shares: [1], inside: false };
  if (share >= 1) return { simplex: [q], shares: [1], inside: false };
  return { simplex: [p, q], shares: [1 - share, share], inside: false };
}

function reduceTriangle(p: Vertex, q: Vertex, r: Vertex): Reduced {
  const normal = cross(subtract(q.point, p.point), subtract(r.point, p.point));
  const area = dot(normal, normal);
  const weigh = (u: Vec3, v: Vec3): number => dot(cross(u, v), normal);
  const shares = [weigh(q.point, r.point), weigh(r.point, p.point), weigh(p.point, q.point)];
  if (area > 0 && shares.every((share) => share > 0))
    return {
      simplex: [p, q, r],
      shares: shares.map((share) => share / (shares[0]! + shares[1]! + shares[2]!)),
      inside: false
    };
  return pickNearest([reduceEdge(p, q), reduceEdge(q, r), reduceEdge(r, p)]);
}

function reduceTetrahedron([p, q, r, s]: [Vertex, Vertex, Vertex, Vertex]): Reduced {
  const faces = [
    [p, q, r, s],
    [p, q, s, r],
    [p, r, s, q],
    [q, r, s, p]
  ] as const;
  const outside = faces.filter(([a, b, c, opposite]) => {
    const normal = cross(subtract(b.point, a.point), subtract(c.point, a.point));
    const there = dot(normal, subtract(opposite.point, a.point));
    const here = -dot(normal, a.point);
    // On a flat tetrahedron no side is the inside: every face is looked at.
    return there * here <= 0 || Math.abs(there) <= TOUCHING * norm(normal) * norm(opposite.point);
  });
  if (outside.length === 0) return { simplex: [p], shares: [1], inside: true };
  return pickNearest(outside.map(([a, b, c]) => reduceTriangle(a, b, c)));
}

function pickNearest(candidates: readonly Reduced[]): Reduced {
  let [best, least] = [candidates[0]!, Infinity];
  for (const candidate of candidates) {
    const length = norm(
      blend(
        candidate.simplex.map(({ point }) => point),
        candidate.shares
      )
    );
    if (length < least) [best, least] = [candidate, length];
  }
  return best;
}
