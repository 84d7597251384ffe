import { findNormal, measurePenetration, type ConvexSolid } from '../geometry/convex.ts';
import { movePoint, turnDirection, type Motion } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { distance, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Body, Fitting } from '../fitting/fitting.ts';
import { listWallFaces } from '../fitting/wall.ts';
import { FACES } from '../straight/section.ts';

interface Envelope {
  readonly body: Body;
  readonly solid: ConvexSolid;
  readonly middle: Vec3;
  readonly radius: number;
}

/**
 * Pieces that would have to pass through each other. Neighbours lie on two sides of their cut and cannot; every other
 * pair is tested as the convex solids of their outsides. The first pair is reported, with how deep it is.
 */
export function checkCollision(fitting: Fitting): Finding[] {
  const envelopes = fitting.bodies.map(wrapBody);
  const joined = new Set(
    fitting.joints.flatMap(({ bodies: [first, second] }) => [`${first},${second}`, `${second},${first}`])
  );
  for (let j = 1; j < envelopes.length; j++) {
    for (let i = 0; i < j; i++) {
      const a = envelopes[i]!;
      const b = envelopes[j]!;
      if (distance(a.middle, b.middle) >= a.radius + b.radius) continue;
      if (joined.has(`${a.body.name},${b.body.name}`)) continue;
      const depth = measurePenetration(a.solid, b.solid, SAME_LENGTH);
      if (depth > SAME_LENGTH) return [describe(a.body, b.body, envelopes.slice(i + 1, j + 1), depth)];
    }
  }
  return [];
}

/** The piece between the two that is easiest to lengthen carries the finding: the first that a parameter sizes. */
function describe(a: Body, b: Body, between: Envelope[], depth: number): Finding {
  const sized = between.map(({ body }) => body.sizedBy).find(({ value }) => value !== null);
  return {
    level: 'error',
    code: 'pieces-collide',
    ...(sized ? { param: sized.param } : {}),
    data: { first: a.name, second: b.name, depth },
    source: 'geometry'
  };
}

function wrapBody(body: Body): Envelope {
  const { placement, walls } = body;
  const corners = (body.kind === 'panel' ? listPanelCorners(walls) : listPieceCorners(walls)).map((corner) =>
    movePoint(placement, corner)
  );
  const middle = centre(corners);
  return {
    body,
    solid: body.kind === 'panel' ? { corners, ...listDirections(body) } : wrapPiece(corners, placement),
    middle,
    radius: Math.max(...corners.map((corner) => distance(corner, middle)))
  };
}

function wrapPiece(corners: readonly Vec3[], placement: Motion): ConvexSolid {
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

/** The corners of a piece's two ends in turn. One whose walls are parted (for openings, or folds across) has square ends. */
function listPieceCorners(walls: Body['walls']): Vec3[] {
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

function listPanelCorners(walls: Body['walls']): Vec3[] {
  return walls.flatMap(({ outer, inner }) => [...outer, ...inner]);
}

function listDirections({ walls, placement }: Body): Pick<ConvexSolid, 'normals' | 'edges'> {
  const normals: Vec3[] = [];
  const edges: Vec3[] = [];
  for (const wall of walls) {
    for (const [a, b, c] of listWallFaces(wall)) normals.push(findNormal(a!, b!, c!));
    wall.outer.forEach((corner, i) => {
      edges.push(
        subtract(wall.outer[(i + 1) % wall.outer.length]!, corner),
        subtract(wall.inner[i]!, corner)
      );
    });
  }
  const turn = (direction: Vec3): Vec3 => turnDirection(placement, direction);
  return { normals: normals.map(turn), edges: edges.map(turn) };
}

function centre(points: readonly Vec3[]): Vec3 {
  const sum = points.reduce<[number, number, number]>(
    (s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]],
    [0, 0, 0]
  );
  return [sum[0] / points.length, sum[1] / points.length, sum[2] / points.length];
}
