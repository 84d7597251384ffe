// Paths that run into themselves, told by the kernel and by an independent mesh-boolean library.
import { describe, expect, it } from 'vitest';
import { listPieceBodies } from '../../src/lib/kernel/fitting/fitting.ts';
import {
  evaluatePath,
  generatePath,
  listBuildable,
  makeRandom,
  PLENTY,
  type GeneratedPath,
  type PathLimits
} from './generated-paths.ts';
import { cutOut, free, makeBox, measureOverlap, place, type Solid } from './manifold.ts';

describe('paths that run into themselves', () => {
  /** Mostly turning on one way, with short legs: about half of them collide. */
  const CURLED: PathLimits = { joints: 5, leastTurn: 60, mostTurn: 90, spare: 700, sameHeel: 0.8 };
  /** Volumes below this are the rounding of the library, mm³. */
  const NOTHING = 1e-3;

  it('are told apart as the library tells them, by the outsides of their pieces', { timeout: PLENTY }, () => {
    const random = makeRandom(16_180);
    const counts = { colliding: 0, clear: 0 };
    for (let i = 0; i < 300; i++) {
      const path = generatePath(random, CURLED);
      const { section, thickness } = path;
      const { built, findings } = evaluatePath(path);
      const collides = findings.some(({ code }) => code === 'pieces-collide');
      expect(built === null).toBe(collides);
      const overlaps = overlapOutsides(path, section, thickness);
      const deepest = Math.max(0, ...overlaps.map(({ volume }) => volume));
      expect(deepest > NOTHING).toBe(collides);
      if (collides) {
        const { data } = findings.find(({ code }) => code === 'pieces-collide')!;
        const named = overlaps.find(
          ({ first, second }) => first === data['first'] && second === data['second']
        );
        expect(named!.volume).toBeGreaterThan(NOTHING);
      }
      counts[collides ? 'colliding' : 'clear']++;
    }
    expect(counts.colliding).toBeGreaterThan(50);
    expect(counts.clear).toBeGreaterThan(50);
  });

  /** Shared volumes of all pairs of pieces, taken as solid. A path that collides is not built, so it is laid out here. */
  function overlapOutsides(
    { lengths, joints }: GeneratedPath,
    section: { width: number; height: number },
    thickness: number
  ): { first: string; second: string; volume: number }[] {
    const stations = [0];
    for (const length of lengths) stations.push(stations[stations.length - 1]! + length);
    const cuts = joints.map(({ turn, heel }, i) => ({
      station: stations[i + 1]!,
      miter: turn / 2,
      heel: heel + 180 * i
    }));
    const length = stations[stations.length - 1]!;
    const straight = makeBox(0, length, section.height + 2 * thickness, section.width + 2 * thickness);
    let here: Solid[] = [];
    // From the outlet back: each piece is put in front of what follows, which is then turned and shifted as a whole.
    for (let k = lengths.length - 1; k >= 0; k--) {
      const cut = cutOut(straight, cuts[k - 1] ?? null, cuts[k] ?? null);
      const shifted = cut.translate([-stations[k]!, 0, 0]);
      const piece = k % 2 === 1 ? shifted.rotate([180, 0, 0]) : shifted;
      const joint = joints[k];
      const after = here.map((solid) => {
        // Turned by −θ about cos φ·z − sin φ·y: rolled until the heel is up, turned down, rolled back.
        const turned = solid
          .rotate([-joint!.heel, 0, 0])
          .rotate([0, 0, -joint!.turn])
          .rotate([joint!.heel, 0, 0]);
        return turned.translate([lengths[k]!, 0, 0]);
      });
      here = [piece, ...after];
    }
    return here.flatMap((b, j) =>
      here.slice(0, j).flatMap((a, i) =>
        // Neighbours share a cut.
        j === i + 1 ? [] : [{ first: `P${i + 1}`, second: `P${j + 1}`, volume: measureOverlap(a, b) }]
      )
    );
  }

  it('are never among the buildable ones', { timeout: PLENTY }, () => {
    let checked = 0;
    for (const [path, built] of listBuildable(14_142, 60, CURLED)) {
      const { section, thickness } = path;
      const length = path.lengths.reduce((sum, one) => sum + one, 0);
      const straight = makeBox(0, length, section.height + 2 * thickness, section.width + 2 * thickness);
      const solids = listPieceBodies(built.fitting).map(({ piece, placement }) =>
        place(cutOut(straight, piece.startCut, piece.endCut), placement)
      );
      for (let j = 1; j < solids.length; j++) {
        for (let i = 0; i < j; i++) {
          expect(measureOverlap(solids[i]!, solids[j]!) / straight.volume()).toBeLessThan(1e-6);
        }
      }
      free([straight, ...solids]);
      checked++;
    }
    expect(checked).toBe(60);
  });
});
