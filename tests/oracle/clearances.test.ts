// How near a fitting comes to boxes on site, by the kernel and by an independent mesh library. A mitered duct is built again
// from its parameters, its ends closed; a fitting of another family from its board as its parameters say it.
import { describe, expect, it } from 'vitest';
import { evaluateOne } from '../duct.ts';
import type { FittingModel } from '../../src/lib/kernel/evaluate.ts';
import { measureClearances } from '../../src/lib/kernel/site/clearance.ts';
import type { Obstacle, Site } from '../../src/lib/kernel/site/site.ts';
import { layOutLegs } from '../properties/legs.ts';
import { combine, measureGap, type Vector } from '../properties/turtle.ts';
import type { Way } from './expected.ts';
import { expectSolids } from './expected-solids.ts';
import { generateBranch, GENERATED_BRANCHES } from './generated-branches.ts';
import {
  between,
  count,
  generateFitting,
  GENERATED,
  pick,
  type GeneratedFitting,
  type Random
} from './generated-fittings.ts';
import { makeRandom } from './generated-paths.ts';
import { free, measureOverlap, oracle, type Solid } from './manifold.ts';
import { measureDistance, spanLegs, standObstacle } from './outside.ts';
import { findRounds } from './profiles.ts';

const FITTINGS = 500;
const BOXES = 6;
const PLENTY = 300_000;

/** Distances that differ by no more than this share are the same. */
const SAME = 1e-6;

/** Every third fitting is of one of the other families. */
const FAMILIES = GENERATED.flatMap((mitered, i) => [mitered, GENERATED[(i + 2) % GENERATED.length]!, null]);

/** What a fitting is by its parameters: turn, gore and throats as lengths where something else drives them. */
function settle(drawn: GeneratedFitting, { resolved }: FittingModel): GeneratedFitting['said'] {
  const { family, values, setting } = resolved;
  const derived = family.derive(values as never, setting);
  const told = Object.entries(values).filter(
    ([name]) => !['advance', 'travel', 'radius', 'setback'].includes(name)
  );
  const { gore, turn, ...params } = { ...Object.fromEntries(told), ...derived } as Record<string, unknown>;
  // A bend of two pieces has no gore.
  const drivers = { ...(turn === undefined ? {} : { turn }), ...(gore === undefined ? {} : { gore }) };
  return { ...drawn.said, params: { ...params, ...drivers } };
}

/** The least convex solid round each of some solids: a tube with closed ends. */
function close(solids: readonly Solid[]): Solid[] {
  const closed = solids.map((solid) => solid.hull());
  free(solids);
  return closed;
}

/** The outside of a fitting, its ends closed and its air ways filled. */
function buildOutside(drawn: GeneratedFitting, model: FittingModel): Solid[] {
  const { said, stock } = drawn;
  if (GENERATED.includes(said.family)) {
    const legs = layOutLegs(settle(drawn, model), stock.board.thickness, stock.shop!.minGore);
    return spanLegs(legs, said.section, stock.board.thickness);
  }
  const { board, ways } = expectSolids(drawn, findRounds(model.built!.fitting));
  const { params, family } = said;
  if (family === 'reducer') return [...board, ...fill(ways)];
  if (family !== 'takeoff' || params['entry'] !== 'shoe') return close(board);
  const [main, ...shoe] = board as [Solid, ...Solid[]];
  return [...close([main]), ...shoe, ...fill(ways)];
}

/** What the air takes, from the inlet to where each way ends. */
function fill(ways: readonly Way[]): Solid[] {
  return ways.flatMap(({ at, flow, plug }) =>
    plug().flatMap((solid) => {
      const begun = solid.trimByPlane([1, 0, 0], 0);
      const ended = begun.trimByPlane([-flow[0], -flow[1], -flow[2]], -dot(at, flow));
      free([solid, begun]);
      // A collar of no length has no air.
      return ended.isEmpty() ? [] : [ended];
    })
  );
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** A small box before the inlet, 30.5 mm off so that it touches no end set on board of whole millimetres, and one within it. */
const AT_THE_INLET: readonly Obstacle[] = [
  { name: 'before the inlet', kind: 'box', min: [-50.5, -5, -5], max: [-30.5, 5, 5] },
  { name: 'in the inlet', kind: 'box', min: [3, -5, -5], max: [13, 5, 5] }
];

/** Boxes round a fitting: some far off, some near its axis, some in it; beams, racks and posts, some of them turned. */
function drawBoxes(random: Random, corners: readonly Vector[]): Obstacle[] {
  return Array.from({ length: BOXES }, (_, i): Obstacle => {
    const at = pick(random, corners);
    const far = [30, 300, 300, 900, 900, 5000][i]!;
    const draw = (size: number): number => between(random, -size, size);
    const middle: Vector = [at[0] + draw(far), at[1] + draw(far), at[2] + draw(far)];
    const size = pick(random, [
      [50, 50, 50],
      [200, 300, 1500],
      [3000, 100, 100],
      [100, 4000, 100],
      [400, 200, 300]
    ] as const).map((one) => one * between(random, 0.3, 1));
    const half: Vector = [size[0]! / 2, size[1]! / 2, size[2]! / 2];
    return {
      name: `box ${i + 1}`,
      kind: 'box',
      min: combine([1, middle], [-1, half]),
      max: combine([1, middle], [1, half]),
      ...(random() < 0.5 ? { turn: pick(random, [90, 45, draw(180), draw(720)]) } : {}),
      ...(random() < 0.3 ? { clearance: count(random, 0, 100) } : {})
    };
  });
}

/** A cube of a thousandth of a millimetre round a point. */
function mark(at: Vector): Solid {
  const cube = oracle.Manifold.cube([1e-3, 1e-3, 1e-3], true);
  const moved = cube.translate([...at]);
  cube.delete();
  return moved;
}

describe('the clearance of generated fittings from boxes', () => {
  it(
    'is the distance that a mesh library finds, none where the two share a space',
    { timeout: PLENTY },
    () => {
      const random = makeRandom(5_772);
      const counts = { fittings: 0, apart: 0, near: 0, sharing: 0, branches: 0 };
      while (counts.fittings < FITTINGS) {
        const family = FAMILIES[counts.fittings % FAMILIES.length] ?? pick(random, GENERATED_BRANCHES);
        const isBranch = GENERATED_BRANCHES.includes(family);
        const drawn = isBranch ? generateBranch(random, family) : generateFitting(random, family);
        const model = evaluateOne(drawn.said, drawn.stock);
        if (!model.built) continue;
        counts.fittings++;
        counts.branches += isBranch ? 1 : 0;
        const outside = buildOutside(drawn, model);
        const corners = outside.flatMap((solid) => {
          const { min, max } = solid.boundingBox();
          return [min, max].map(([x, y, z]): Vector => [x, y, z]);
        });
        const obstacles = [...drawBoxes(random, corners), ...AT_THE_INLET];
        const site: Site = {
          section: drawn.said.section,
          end: { at: [null, null, null], flow: [1, 0, 0], up: [0, 1, 0] },
          clearance: 25,
          obstacles
        };
        measureClearances(model.built.fitting, site, drawn.stock.board.thickness).forEach(
          ({ obstacle, value, wanted, from, to }, i) => {
            const what = JSON.stringify({ drawn, obstacle: obstacles[i] });
            expect(obstacle, what).toEqual(obstacles[i]);
            expect(wanted, what).toBe(obstacles[i]!.clearance ?? 25);
            const box = standObstacle(obstacles[i]!);
            const shared = outside.reduce((sum, solid) => sum + measureOverlap(solid, box), 0);
            const distance = measureDistance(outside, box);
            if (shared > 0) {
              expect(value, what).toBeLessThan(0);
              counts.sharing++;
            } else {
              expect(value, what).toBeGreaterThan(0);
              expect(Math.abs(value / distance - 1), `${value} is ${distance}: ${what}`).toBeLessThan(SAME);
              expect(Math.abs(measureGap(from, to) / value - 1), what).toBeLessThan(SAME);
              const [near, far] = [mark(from), mark(to)];
              expect(measureDistance(outside, near), what).toBe(0);
              expect(measureDistance([box], far), what).toBe(0);
              free([near, far]);
              counts.apart++;
              if (value < 100) counts.near++;
            }
            box.delete();
          }
        );
        free(outside);
      }
      expect(counts.branches).toBeGreaterThan(FITTINGS / 4);
      expect(counts.sharing).toBeGreaterThan(FITTINGS / 4);
      expect(counts.near).toBeGreaterThan(FITTINGS / 4);
      expect(counts.apart + counts.sharing).toBe(FITTINGS * (BOXES + AT_THE_INLET.length));
    }
  );
});
