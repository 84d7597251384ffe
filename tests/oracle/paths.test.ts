// Pieces cut and placed by the kernel's rules, checked by an independent mesh-boolean library: they touch without overlap,
// their volumes add up to the straight's, joined they are one duct.
import { describe, expect, it } from 'vitest';
import type { BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import { movePoint } from '../../src/lib/kernel/geometry/motion.ts';
import { ANY, listBuildable, PLENTY, WANTED, type GeneratedPath } from './generated-paths.ts';
import { cutOut, free, makeBox, measureOverlap, oracle, place, type Solid } from './manifold.ts';

/** Far below any gap a joint could have, far above the rounding of a double: joined pieces reach so far into each other. */
const HAIR = 0.01;

/** Pieces of a hollow straight, cut by the kernel's cuts and lying where the kernel puts them. */
function cutPieces(
  path: GeneratedPath,
  { fitting }: BuiltModel,
  growth = 0
): { tube: Solid; pieces: Solid[] } {
  const { section, thickness } = path;
  const length = path.lengths.reduce((sum, one) => sum + one, 0);
  const outside = makeBox(0, length, section.height + 2 * thickness, section.width + 2 * thickness);
  const inside = makeBox(-1, length + 1, section.height, section.width);
  const tube = outside.subtract(inside);
  free([outside, inside]);
  const pieces = fitting.bodies.map(({ piece, placement }) => {
    const cut = cutOut(tube, piece.startCut, piece.endCut, growth);
    const placed = place(cut, placement);
    cut.delete();
    return placed;
  });
  return { tube, pieces };
}

describe('generated paths of 1 to 5 joints, cut from a hollow straight', () => {
  it(
    'have pieces that touch without overlap and add up to the straight, and walls of the same volume',
    { timeout: PLENTY },
    () => {
      let checked = 0;
      let joints = 0;
      for (const [path, built] of listBuildable(20_261, WANTED, ANY)) {
        const { tube, pieces } = cutPieces(path, built);
        const straight = tube.volume();
        const volumes = pieces.map((piece) => piece.volume());
        const sum = volumes.reduce((total, one) => total + one, 0);
        expect(Math.abs(sum / straight - 1)).toBeLessThan(1e-6);
        expect(Math.abs(built.quantities.volume / straight - 1)).toBeLessThan(1e-6);
        volumes.forEach((volume, k) => {
          expect(Math.abs(built.quantities.bodies[k]! / volume - 1)).toBeLessThan(1e-6);
        });
        for (let j = 1; j < pieces.length; j++) {
          for (let i = 0; i < j; i++) {
            expect(measureOverlap(pieces[i]!, pieces[j]!) / straight).toBeLessThan(1e-6);
          }
        }
        free([tube, ...pieces]);
        checked++;
        joints += path.joints.length;
      }
      expect(checked).toBe(WANTED);
      expect(joints).toBeGreaterThan(2 * WANTED);
    }
  );

  it('joined are one duct, open at both ends and nowhere else', { timeout: PLENTY }, () => {
    let checked = 0;
    for (const [path, built] of listBuildable(31_415, WANTED, ANY)) {
      const { tube, pieces } = cutPieces(path, built, HAIR);
      const joined = oracle.Manifold.union(pieces);
      const parts = joined.decompose();
      expect(parts).toHaveLength(1);
      // A tube is a ring: one hole through it and no other.
      expect(joined.genus()).toBe(1);
      free([tube, joined, ...pieces, ...parts]);
      checked++;
    }
    expect(checked).toBe(WANTED);
  });
});

describe('ports of generated paths', () => {
  it('lie in the middle of the ends of the walls', () => {
    let checked = 0;
    for (const [, { fitting }] of listBuildable(17_320, 50, ANY)) {
      for (const port of fitting.ports) {
        const body = fitting.bodies.find(({ name }) => name === port.body)!;
        const corners = body.walls
          .map(({ inner }) => (port.name === 'inlet' ? inner[0]! : inner[3]!))
          .map((corner) => movePoint(body.placement, corner));
        for (const axis of [0, 1, 2] as const) {
          const middle = corners.reduce((sum, corner) => sum + corner[axis], 0) / 4;
          expect(Math.abs(middle - port.at[axis])).toBeLessThan(1e-6);
        }
        checked++;
      }
    }
    expect(checked).toBe(100);
  });
});
