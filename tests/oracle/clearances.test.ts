// How near a fitting comes to boxes on site, by the kernel and by an independent mesh library. A mitered duct is built again
// from its parameters, its ends closed; a fitting of another family from its board and its air ways as its parameters say
// them.
import { describe, expect, it } from 'vitest';
import { evaluateOne } from '../duct.ts';
import type { FittingModel } from '../../src/lib/kernel/evaluate.ts';
import { measureClearances } from '../../src/lib/kernel/site/clearance.ts';
import type { Obstacle, Site } from '../../src/lib/kernel/site/site.ts';
import { layOutLegs } from '../properties/legs.ts';
import { combine, measureGap, walkLegs, type Vector } from '../properties/turtle.ts';
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
import { dot, measureDistance, spanLegs, standObstacle } from './outside.ts';
import { findRounds } from './profiles.ts';

const FITTINGS = 500;
const BOXES = 6;
const PLENTY = 300_000;

/** How far before an end a small box stands, and half its side, mm. */
const [BEFORE, SMALL] = [30, 5];

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

/** An end of a fitting: the middle of it, and the way out. */
interface End {
  readonly at: Vector;
  readonly out: Vector;
}

/** A fitting built without the kernel. */
interface Rebuilt {
  /** Its outside, its ends closed and its air ways filled. */
  readonly outside: readonly Solid[];
  /** Its board; empty where the family is a mitered one. */
  readonly board: readonly Solid[];
  /** What lies within its outside, and of families that are not mitered within their board. */
  readonly air: readonly Solid[];
  readonly ends: readonly End[];
}

const INLET: End = { at: [0, 0, 0], out: [-1, 0, 0] };

function rebuild(drawn: GeneratedFitting, model: FittingModel): Rebuilt {
  const { said, stock } = drawn;
  const { family, params } = said;
  if (GENERATED.includes(family)) {
    const legs = layOutLegs(settle(drawn, model), stock.board.thickness, stock.shop!.minGore);
    const outside = spanLegs(legs, said.section, stock.board.thickness);
    const last = walkLegs(legs.lengths, legs.joints).at(-1)!;
    const outlet: End = { at: combine([1, last.at], [legs.lengths.at(-1)!, last.flow]), out: last.flow };
    return { outside, board: [], air: outside, ends: [INLET, outlet] };
  }
  const { board, ways } = expectSolids(drawn, findRounds(model.built!.fitting));
  /** Where the air comes in a way is told by its flow, which points inward. */
  const isInlet = (port: string): boolean => port === (family === 'box' ? 'O1' : 'inlet');
  const ends = ways.map(({ port, at, flow }): End => ({ at, out: combine([isInlet(port) ? -1 : 1, flow]) }));
  const air = ways.flatMap((way, i) => fill(way, ends[i]!));
  const closed = (solids: readonly Solid[]): Solid[] => solids.map((solid) => solid.hull());
  const [main, ...shoe] = board as [Solid, ...Solid[]];
  const isShod = family === 'takeoff' && params['entry'] === 'shoe';
  const outside =
    family === 'reducer' ? [...board, ...air] : isShod ? [...closed([main]), ...shoe, ...air] : closed(board);
  return { outside, board, air, ends: ways.some(({ port }) => isInlet(port)) ? ends : [INLET, ...ends] };
}

/** What the air takes on a way, from the inlet's plane to that of the way's end. */
function fill({ plug }: Way, { at, out }: End): Solid[] {
  return plug().flatMap((solid) => {
    const begun = solid.trimByPlane([1, 0, 0], 0);
    const ended = begun.trimByPlane([-out[0], -out[1], -out[2]], -dot(at, out));
    free([solid, begun]);
    // A collar of no length has no air.
    return ended.isEmpty() ? [] : [ended];
  });
}

/** Small boxes before each end and in it, and one in an air way or near it. */
function drawAtEnds(random: Random, { ends, air }: Rebuilt): Obstacle[] {
  // Half a millimetre more than 30, so that a box touches no other end that is set on whole millimetres.
  const before = ends.map(({ at, out }) => combine([1, at], [BEFORE + 0.5 + SMALL, out]));
  const within = ends.map(({ at, out }) => combine([1, at], [-3 - SMALL, out]));
  return [...before, ...within, drawPoint(random, air)].map((middle, i): Obstacle => {
    const half: Vector = [SMALL, SMALL, SMALL];
    return {
      name: `small ${i + 1}`,
      kind: 'box',
      min: combine([1, middle], [-1, half]),
      max: combine([1, middle], [1, half])
    };
  });
}

/** A point in the bounding box of one of some solids. */
function drawPoint(random: Random, solids: readonly Solid[]): Vector {
  const { min, max } = pick(random, solids).boundingBox();
  const draw = (i: 0 | 1 | 2): number => between(random, min[i], max[i]);
  return [draw(0), draw(1), draw(2)];
}

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
      const counts = { fittings: 0, apart: 0, near: 0, sharing: 0, within: 0, branches: 0 };
      while (counts.fittings < FITTINGS) {
        const family = FAMILIES[counts.fittings % FAMILIES.length] ?? pick(random, GENERATED_BRANCHES);
        const isBranch = GENERATED_BRANCHES.includes(family);
        const drawn = isBranch ? generateBranch(random, family) : generateFitting(random, family);
        const model = evaluateOne(drawn.said, drawn.stock);
        if (!model.built) continue;
        counts.fittings++;
        counts.branches += isBranch ? 1 : 0;
        const rebuilt = rebuild(drawn, model);
        const { outside, board } = rebuilt;
        const corners = outside.flatMap((solid) => {
          const { min, max } = solid.boundingBox();
          return [min, max].map(([x, y, z]): Vector => [x, y, z]);
        });
        const obstacles = [...drawBoxes(random, corners), ...drawAtEnds(random, rebuilt)];
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
              const isWithin = isBranch && board.every((solid) => measureOverlap(solid, box) === 0);
              counts.within += isWithin ? 1 : 0;
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
        free([...new Set([...outside, ...board, ...rebuilt.air])]);
      }
      expect(counts.branches).toBeGreaterThan(FITTINGS / 4);
      expect(counts.sharing).toBeGreaterThan(FITTINGS / 4);
      expect(counts.near).toBeGreaterThan(FITTINGS / 4);
      expect(counts.within).toBeGreaterThan(FITTINGS / 4);
    }
  );
});
