// Raw edges of board: where the library finds nothing of the fitting before an edge but air that flows, the edge must be
// sealed, nosed or an end that mates; where a wall is told in parts, nothing may lie between them.
import { describe, expect, it } from 'vitest';
import { listWallFaces, type Wall } from '../../src/lib/kernel/fitting/wall.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { build } from '../duct.ts';
import { expectSolids } from './expected-solids.ts';
import { generateBranch, GENERATED_BRANCHES } from './generated-branches.ts';
import { makeRandom } from './generated-paths.ts';
import { free, measureOverlap, type Solid } from './manifold.ts';
import { cross, minus } from './planes.ts';
import { findRounds, measureShared, movePoint, span, spanBody } from './profiles.ts';

const RUNS = 15;
const PLENTY = 300_000;

/** What lies so close before an edge is beside it, mm. */
const BEFORE = 0.004;

/** Of what lies before an edge less than this share is nothing: where neighbours turn, slivers stay open. */
const SLIVER = 0.02;

/** The room before each edge of a wall in the wall's own frame. */
function listRooms(wall: Wall): Vec3[][] {
  // The faces of a wall are its facing, its inside, then one for each edge.
  return listWallFaces(wall)
    .slice(2)
    .map((face) => {
      const [a, b, c] = face as [Vec3, Vec3, Vec3];
      const out = cross(minus(b, a), minus(c, a));
      const size = Math.hypot(...out) / BEFORE;
      const shift = ([x, y, z]: Vec3): Vec3 => [x + out[0] / size, y + out[1] / size, z + out[2] / size];
      return [...face, ...face.map(shift)];
    });
}

describe.each(GENERATED_BRANCHES)('raw edges of the family %s', (family) => {
  it(
    'face the stream of air only where they are sealed or nosed, and parts of a wall join whole',
    { timeout: PLENTY },
    () => {
      const random = makeRandom(17_320 + GENERATED_BRANCHES.indexOf(family));
      const seen = { whole: 0, inTheAir: 0 };
      for (let i = 0; i < RUNS; i++) {
        const drawn = generateBranch(random, family);
        const what = JSON.stringify(drawn);
        const { fitting, openEdges } = build(drawn.said, drawn.stock);
        expect(openEdges, what).toBe(0);
        const expected = expectSolids(drawn, findRounds(fitting));
        const air = expected.ways.flatMap(({ plug }) => plug());
        const grouped = new Map<string, Solid[]>(fitting.bodies.map((body) => [body.name, spanBody(body)]));
        for (const { name, walls, placement } of fitting.bodies) {
          for (const [k, wall] of walls.entries()) {
            const others = grouped.get(name)!.filter((_, j) => j !== k);
            for (const [e, corners] of listRooms(wall).entries()) {
              const { kind, closing } = wall.edges[e]!;
              const room = span(corners.map((corner) => movePoint(placement, corner)));
              const size = room.volume();
              if (kind === 'whole') {
                expect(1 - measureShared([room], others) / size, `${name} ${k} ${e} of ${what}`).toBeLessThan(
                  SLIVER
                );
                seen.whole++;
              } else if (air.some((one) => measureOverlap(one, room) / size > SLIVER)) {
                const isTold =
                  kind === 'male' || kind === 'female' || ['seal', 'nose'].includes(closing?.by ?? '');
                expect(isTold, `${name} ${k} ${e}, ${kind}, ${closing?.by}, of ${what}`).toBe(true);
                seen.inTheAir++;
              }
              room.delete();
            }
          }
        }
        free([...air, ...expected.board, ...[...grouped.values()].flat()]);
      }
      // A folded reducer and a shoe have walls in parts, as has a wall round an opening; the others have none.
      expect(seen.whole > 0).toBe(['reducer', 'takeoff', 'opening', 'box'].includes(family));
      expect(seen.inTheAir > 0).toBe(!['reducer', 'cap'].includes(family));
    }
  );
});
