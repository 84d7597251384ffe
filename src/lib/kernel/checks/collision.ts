import { findNormal, measurePenetration, type ConvexSolid } from '../geometry/convex.ts';
import { movePoint, turnDirection } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { distance, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Body, Fitting } from '../fitting/fitting.ts';

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
  const joined = new Set(fitting.joints.map(({ bodies }) => bodies.join()));
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
  const corners = walls
    .flatMap(({ outer }) => [outer[0]!, outer[3]!])
    .map((corner) => movePoint(placement, corner));
  const [s0, e0, s1, e1, s2, e2] = corners as [Vec3, Vec3, Vec3, Vec3, Vec3, Vec3];
  const middle = centre(corners);
  return {
    body,
    solid: {
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
    },
    middle,
    radius: Math.max(...corners.map((corner) => distance(corner, middle)))
  };
}

function centre(points: readonly Vec3[]): Vec3 {
  const sum = points.reduce<[number, number, number]>(
    (s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]],
    [0, 0, 0]
  );
  return [sum[0] / points.length, sum[1] / points.length, sum[2] / points.length];
}
