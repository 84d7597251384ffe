// Whatever a document says of the families that change, divide, open or close a duct: it is refused, or the walls are the
// board that the parameters say.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findFamily } from '../../src/lib/kernel/families/index.ts';
import { evaluateOne, ENDLESS, SECTION } from '../duct.ts';
import { drawParams } from '../properties/documents.ts';
import { expectSolids, freeExpected } from './expected-solids.ts';
import { GENERATED_BRANCHES } from './generated-branches.ts';
import type { GeneratedFitting } from './generated-fittings.ts';
import { free } from './manifold.ts';
import { findRounds, measureShared, measureWorstOverlap, spanBody } from './profiles.ts';

const RUNS = 150;
const PLENTY = 300_000;
const SAME = 1e-6;

/** Far larger than any duct, mm: the library's own tolerance grows with what it is given. */
const LARGE = 20_000;

describe.each(GENERATED_BRANCHES)('any parameters of the family %s', (family) => {
  it('are refused with a reason, or built as they say', { timeout: PLENTY }, () => {
    const counts = { built: 0, refused: 0 };
    const drawn = fc.record({
      params: drawParams(findFamily(family)),
      thickness: fc.integer({ min: 5, max: 60 })
    });
    // What rests is what the board leaves: of an endless one any length.
    const told = drawn.filter(({ params }) => !JSON.stringify(params).includes('"rest"'));
    for (const { params, thickness } of fc.sample(told, { numRuns: RUNS, seed: 24_494 })) {
      const one: GeneratedFitting = {
        said: { family, section: SECTION, params },
        stock: { board: { ...ENDLESS, thickness } }
      };
      const what = JSON.stringify(one);
      const { built, findings } = evaluateOne(one.said, one.stock);
      if (!built) {
        expect(
          findings.some(({ level }) => level === 'error'),
          what
        ).toBe(true);
        counts.refused++;
        continue;
      }
      const { fitting, quantities } = built;
      if (quantities.bodies.some((volume) => Math.cbrt(volume) > LARGE)) continue;
      const walls = fitting.bodies.flatMap((body) => spanBody(body));
      const expected = expectSolids(one, findRounds(fitting));
      const board = expected.board.reduce((sum, solid) => sum + solid.volume(), 0);
      expect(Math.abs(quantities.volume / board - 1), what).toBeLessThan(SAME);
      expect(measureWorstOverlap(walls) / board, what).toBeLessThan(SAME);
      expect(Math.abs(measureShared(expected.board, walls) / board - 1), what).toBeLessThan(SAME);
      expect(built.openEdges, what).toBe(0);
      freeExpected(expected);
      free(walls);
      counts.built++;
    }
    expect(counts.built).toBeGreaterThan(RUNS / 20);
    if (family !== 'cap') expect(counts.refused).toBeGreaterThan(RUNS / 20);
  });
});
