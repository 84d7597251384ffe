// Fittings of every mitered family, cut and placed by the kernel's rules and checked by an independent mesh-boolean library: the
// pieces touch without overlap, their volumes are the kernel's, joined they are one duct. A fitting that is divided over
// several straights is the one that a longer board gives in one.
import { describe, expect, it } from 'vitest';
import { listPieceBodies, type Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import { movePoint } from '../../src/lib/kernel/geometry/motion.ts';
import type { Straight } from '../../src/lib/kernel/straight/straight.ts';
import { build, ENDLESS } from '../duct.ts';
import { listBuildableFittings } from './generated-fittings.ts';
import { cutOut, free, makeBox, measureOverlap, oracle, place, type Solid } from './manifold.ts';

const FITTINGS = 500;
const PLENTY = 600_000;

/** Far below any gap a joint could have, far above the rounding of a double: joined pieces reach so far into each other. */
const HAIR = 0.01;

/** A hollow straight from shoulder to shoulder, and a hair longer at both ends. */
function makeTube({ section, thickness, length }: Straight, growth = 0): Solid {
  const outside = makeBox(
    -growth,
    length + growth,
    section.height + 2 * thickness,
    section.width + 2 * thickness
  );
  const inside = makeBox(-1, length + 1, section.height, section.width);
  const tube = outside.subtract(inside);
  free([outside, inside]);
  return tube;
}

/** The pieces of a fitting, each cut from the tube of its own straight by its own cuts, where the kernel puts them. */
function cutPieces(fitting: Fitting, growth = 0): Solid[] {
  const tubes = new Map(fitting.straights.map((straight) => [straight.name, makeTube(straight, growth)]));
  const pieces = listPieceBodies(fitting).map(({ straight, piece, placement }) => {
    const cut = cutOut(tubes.get(straight)!, piece.startCut, piece.endCut, growth);
    const placed = place(cut, placement);
    cut.delete();
    return placed;
  });
  free([...tubes.values()]);
  return pieces;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}

/**
 * How much of some solids is in none of others, mm³. Taken away one by one: the library's union of solids that only touch
 * may leave one of them out.
 */
function measureRest(solids: readonly Solid[], others: readonly Solid[]): number {
  return sum(
    solids.map((solid) => {
      const rests = [solid];
      for (const other of others) rests.push(rests[rests.length - 1]!.subtract(other));
      const volume = rests[rests.length - 1]!.volume();
      free(rests.slice(1));
      return volume;
    })
  );
}

describe('generated fittings of every mitered family, cut from hollow straights', () => {
  it(
    'have pieces that touch without overlap, of the volumes of their walls, and make up one duct open at its two ends',
    { timeout: PLENTY },
    () => {
      const counts = { checked: 0, divided: 0, atMiters: 0, straights: 0, joints: 0 };
      for (const { drawn, built } of listBuildableFittings(3_141, FITTINGS)) {
        const { fitting, quantities } = built;
        const what = JSON.stringify(drawn);
        const pieces = cutPieces(fitting);
        const volumes = pieces.map((piece) => piece.volume());
        const volume = sum(volumes);
        // Nothing is lost but the triangles at a division that carries a cut: the axis is that of the pieces.
        const { section, thickness } = fitting.straights[0]!;
        const board = 2 * thickness * (section.width + section.height + 2 * thickness);
        const axis = sum(listPieceBodies(fitting).map(({ piece }) => piece.axis));
        expect(Math.abs(volume / (board * axis) - 1), what).toBeLessThan(1e-6);
        expect(Math.abs(quantities.volume / volume - 1), what).toBeLessThan(1e-6);
        volumes.forEach((one, k) => {
          expect(Math.abs(quantities.bodies[k]! - one) / volume, what).toBeLessThan(1e-6);
        });
        for (let j = 1; j < pieces.length; j++) {
          for (let i = 0; i < j; i++) {
            expect(measureOverlap(pieces[i]!, pieces[j]!) / volume, what).toBeLessThan(1e-6);
          }
        }
        const grown = cutPieces(fitting, HAIR);
        const joined = oracle.Manifold.union(grown);
        const parts = joined.decompose();
        expect(parts, what).toHaveLength(1);
        // A tube is a ring: one hole through it and no other.
        expect(joined.genus(), what).toBe(1);
        free([...pieces, ...grown, ...parts, joined]);
        counts.checked++;
        counts.joints += fitting.joints.length;
        counts.straights += fitting.straights.length;
        if (fitting.straights.length > 1) counts.divided++;
        counts.atMiters += fitting.straights.filter(({ ends }) => ends[0] === 'miter').length;
      }
      expect(counts.checked).toBe(FITTINGS);
      expect(counts.divided).toBeGreaterThan(FITTINGS / 4);
      expect(counts.atMiters).toBeGreaterThan(FITTINGS / 10);
    }
  );

  it(
    'divided over several straights are the same duct as undivided, from a board that is long enough',
    { timeout: PLENTY },
    () => {
      let divided = 0;
      for (const { drawn, model, built } of listBuildableFittings(2_718, FITTINGS)) {
        if (built.fitting.straights.length === 1) continue;
        const { family, values, setting } = model.resolved;
        const { said, stock } = drawn;
        const derived = family.derive(values as never, setting);
        // What rests is told, for the rest of an endless board is another length.
        const rests = Object.fromEntries(
          Object.entries(said.params).map(([name, value]) => [name, value === 'rest' ? derived[name] : value])
        );
        const whole = build({ ...said, params: rests }, { ...stock, board: { ...stock.board, ...ENDLESS } });
        expect(whole.fitting.straights).toHaveLength(1);
        const [parts, undivided] = [cutPieces(built.fitting), cutPieces(whole.fitting)];
        const off = measureRest(parts, undivided) + measureRest(undivided, parts);
        expect(off / whole.quantities.volume, JSON.stringify(drawn)).toBeLessThan(1e-6);
        expect(Math.abs(built.quantities.volume / whole.quantities.volume - 1)).toBeLessThan(1e-9);
        free([...parts, ...undivided]);
        divided++;
      }
      expect(divided).toBeGreaterThan(FITTINGS / 4);
    }
  );

  it('have ports in the middle of the ends of the walls', () => {
    let checked = 0;
    for (const { built } of listBuildableFittings(1_732, 100)) {
      for (const port of built.fitting.ports) {
        const body = built.fitting.bodies.find(({ name }) => name === port.body)!;
        const corners = body.walls
          .map(({ inner }) => (port.name === 'inlet' ? inner[0]! : inner[3]!))
          .map((corner) => movePoint(body.placement, corner));
        for (const axis of [0, 1, 2] as const) {
          const middle = sum(corners.map((corner) => corner[axis])) / 4;
          expect(Math.abs(middle - port.at[axis])).toBeLessThan(1e-6);
        }
        checked++;
      }
    }
    expect(checked).toBe(200);
  });
});
