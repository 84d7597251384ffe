import { findNormal, type ConvexSolid } from '../geometry/convex.ts';
import { movePoint, turnDirection, type Motion } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { subtract, type Vec3 } from '../geometry/vector.ts';
import { CORNERS, FACES } from '../straight/section.ts';
import { placePortCorner, type Body, type Port } from './fitting.ts';
import { listWallFaces, type Wall } from './wall.ts';

/** The outside of a body. */
export interface Envelope {
  readonly solids: readonly ConvexSolid[];
  /** Whether the solids fill all that its outside encloses, its open ends closed; if not they are its board alone. */
  readonly filled: boolean;
}

/**
 * The outside of a body as convex solids, in the fitting's frame: of a piece that is a straight's between two planes, with
 * its ends and openings closed; of a panel, or a piece that is folded across, every solid of its walls.
 */
export function wrapBody(body: Body): Envelope {
  const { placement, walls } = body;
  if (body.kind === 'piece') {
    const corners = listPieceCorners(walls);
    if (walls.length === FACES.length || isBlock(walls, corners)) {
      const placed = corners.map((corner) => movePoint(placement, corner));
      return { solids: [wrapPiece(placed, placement)], filled: true };
    }
  }
  return { solids: walls.map((wall) => wrapWalls([wall], placement)), filled: false };
}

/**
 * The corners of a piece's two ends in turn, in its own frame. One whose walls are parted (for openings, or folds across)
 * has square ends.
 */
export function listPieceCorners(walls: readonly Wall[]): Vec3[] {
  if (walls.length === FACES.length) return walls.flatMap(({ outer }) => [outer[0]!, outer[3]!]);
  const corners = walls.flatMap(({ outer }) => outer);
  const [[low, high], [bottom, top], [left, right]] = ([0, 1, 2] as const).map((axis) => {
    const along = corners.map((corner) => corner[axis]);
    return [Math.min(...along), Math.max(...along)];
  }) as [[number, number], [number, number], [number, number]];
  const ring = [
    [top, left],
    [top, right],
    [bottom, right],
    [bottom, left]
  ] as const;
  return ring.flatMap(([y, z]): Vec3[] => [
    [low, y, z],
    [high, y, z]
  ]);
}

/** Whether every facing of parted walls lies in a side of the box that their corners make: none is folded inward. */
function isBlock(walls: readonly Wall[], corners: readonly Vec3[]): boolean {
  return walls.every(({ outer }) =>
    corners.some((side) =>
      ([1, 2] as const).some((axis) =>
        outer.every((corner) => Math.abs(corner[axis] - side[axis]) < SAME_LENGTH)
      )
    )
  );
}

/** A flat lid over an open end, as large as its outside, in the fitting's frame. */
export function wrapLid(port: Port, thickness: number): ConvexSolid {
  const corners = CORNERS.map((corner) => placePortCorner(port, thickness, corner));
  return {
    corners,
    normals: [port.flow],
    edges: [subtract(corners[1]!, corners[0]!), subtract(corners[2]!, corners[1]!)]
  };
}

/** A piece as the hull of the corners of its two ends in turn, placed already. */
export function wrapPiece(corners: readonly Vec3[], placement: Motion): ConvexSolid {
  const [s0, e0, s1, e1, s2, e2] = corners as [Vec3, Vec3, Vec3, Vec3, Vec3, Vec3];
  return {
    corners,
    normals: [
      turnDirection(placement, [0, 1, 0]),
      turnDirection(placement, [0, 0, 1]),
      findNormal(s0, s1, s2),
      findNormal(e0, e1, e2)
    ],
    edges: [
      turnDirection(placement, [1, 0, 0]),
      subtract(s1, s0),
      subtract(s2, s1),
      subtract(e1, e0),
      subtract(e2, e1)
    ]
  };
}

/** The hull of walls, with the directions of each. */
export function wrapWalls(walls: readonly Wall[], placement: Motion): ConvexSolid {
  const corners: Vec3[] = [];
  const normals: Vec3[] = [];
  const edges: Vec3[] = [];
  for (const wall of walls) {
    corners.push(...wall.outer, ...wall.inner);
    for (const [a, b, c] of listWallFaces(wall)) normals.push(findNormal(a!, b!, c!));
    wall.outer.forEach((corner, i) => {
      edges.push(
        subtract(wall.outer[(i + 1) % wall.outer.length]!, corner),
        subtract(wall.inner[i]!, corner)
      );
    });
  }
  const turn = (direction: Vec3): Vec3 => turnDirection(placement, direction);
  return {
    corners: corners.map((corner) => movePoint(placement, corner)),
    normals: normals.map(turn),
    edges: edges.map(turn)
  };
}
