// A path longer than one straight, divided by the kernel and by brute force over every millimetre.
import { describe, expect, it } from 'vitest';
import { divideStretches, type Stretch } from '../../src/lib/kernel/straight/divide.ts';
import { evaluateOne } from '../duct.ts';
import { makeRandom } from '../oracle/generated-paths.ts';

const PLENTY = 120_000;
const SAME = 1e-6;

describe('dividing whole numbers of millimetres', () => {
  interface Reached {
    readonly datum: number;
    readonly leg: number;
    readonly square: boolean;
  }

  /** The fewest straights, by trying every division at every millimetre; null where there is no way. */
  function countFewest(legs: readonly Stretch[], longest: number): number | null {
    const total = legs[legs.length - 1]!.to;
    const seen = new Set<string>();
    let reached: Reached[] = [{ datum: 0, leg: 0, square: true }];
    for (let straights = 1; reached.length > 0; straights++) {
      if (reached.some(({ datum }) => total - datum <= longest)) return straights;
      const next: Reached[] = [];
      const reach = (one: Reached): void => {
        const key = `${one.datum} ${one.leg} ${one.square}`;
        if (seen.has(key)) return;
        seen.add(key);
        next.push(one);
      };
      for (const { datum, leg, square } of reached) {
        legs.forEach(({ from, to, startReach, endReach, least }, k) => {
          if (k < leg) return;
          const begin = k === leg && square ? datum : from + startReach;
          const part = Math.max(1, least);
          for (let at = begin + part; at <= Math.min(datum + longest, to - endReach - part); at++) {
            reach({ datum: at, leg: k, square: true });
          }
          const joint = k < legs.length - 1 && to + endReach <= datum + longest && to - endReach > datum;
          if (joint) reach({ datum: to - endReach, leg: k + 1, square: false });
        });
      }
      reached = next;
    }
    return null;
  }

  function drawLegs(random: () => number): { legs: Stretch[]; longest: number } {
    const whole = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
    const count = whole(1, 5);
    const reaches = [0, ...Array.from({ length: count - 1 }, () => whole(0, 12)), 0];
    let from = 0;
    const legs = Array.from({ length: count }, (_, k): Stretch => {
      const [startReach, endReach] = [reaches[k]!, reaches[k + 1]!];
      const axis = startReach + endReach + whole(1, 60);
      const leg = { from, to: from + axis, axis, startReach, endReach, least: whole(0, 9) };
      from += axis;
      return leg;
    });
    return { legs, longest: whole(20, 45) };
  }

  it(
    'takes as few straights as any division does, and finds none only where there is none',
    { timeout: PLENTY },
    () => {
      const counts = { divided: 0, impossible: 0 };
      const random = makeRandom(5);
      for (let run = 0; run < 10_000; run++) {
        const { legs, longest } = drawLegs(random);
        const spans = divideStretches(legs, longest);
        expect(spans?.length ?? null, JSON.stringify({ legs, longest })).toBe(countFewest(legs, longest));
        counts[spans ? 'divided' : 'impossible']++;
      }
      expect(counts.divided).toBeGreaterThan(5000);
      expect(counts.impossible).toBeGreaterThan(1000);
    }
  );
});

describe('a leg that is a little too long for two straights', () => {
  it('is divided sooner, so that the last straight of it still takes in the joint', () => {
    // 1180 a straight, across. Outside depth 1250, miter 37.5: the cut reaches 479.6; 200 is the least throat.
    const { built } = evaluateOne({
      family: 'path',
      section: { width: 300, height: 1200 },
      params: { lengths: [1960, 2000], joints: [{ turn: 75, heel: 0 }] }
    });
    const lengths = built!.fitting.straights.map(({ length }) => length);
    // The first ends 200 before 1960 − 479.6 − 200, not at 1180.
    expect(lengths[0]!).toBeCloseTo(1960 - 625 * Math.tan((37.5 * Math.PI) / 180) - 400, 6);
    expect(lengths[1]!).toBeCloseTo(200, 6);
    expect(Math.max(...lengths)).toBeLessThan(1180 + SAME);
  });
});
