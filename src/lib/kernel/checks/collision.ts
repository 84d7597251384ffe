import { measurePenetration, wrapBall, type Ball, type ConvexSolid } from '../geometry/convex.ts';
import { movePoint } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { distance } from '../geometry/vector.ts';
import { listPieceCorners, wrapPiece, wrapWalls } from '../fitting/envelope.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Body, Fitting } from '../fitting/fitting.ts';

interface Envelope {
  readonly body: Body;
  readonly solid: ConvexSolid;
  readonly ball: Ball;
}

/**
 * Pieces that would have to pass through each other. Neighbours lie on two sides of their cut and cannot; every other
 * pair is tested as the convex solids of their outsides. The first pair is reported, with how deep it is.
 */
export function checkCollision(fitting: Fitting): Finding[] {
  const envelopes = fitting.bodies.map(wrapOutside);
  const joined = new Set(
    fitting.joints.flatMap(({ bodies: [first, second] }) => [`${first},${second}`, `${second},${first}`])
  );
  for (let j = 1; j < envelopes.length; j++) {
    for (let i = 0; i < j; i++) {
      const a = envelopes[i]!;
      const b = envelopes[j]!;
      if (distance(a.ball.middle, b.ball.middle) >= a.ball.radius + b.ball.radius) continue;
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

function wrapOutside(body: Body): Envelope {
  const { placement, walls } = body;
  const solid =
    body.kind === 'panel'
      ? wrapWalls(walls, placement)
      : wrapPiece(
          listPieceCorners(walls).map((corner) => movePoint(placement, corner)),
          placement
        );
  return { body, solid, ball: wrapBall(solid.corners) };
}
