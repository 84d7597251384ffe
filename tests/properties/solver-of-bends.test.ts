// A hundred sites in which chance has planted a fitting: the solver finds one that is as good, and none that is wrong.
import { describe, expect, it } from 'vitest';
import { judgeSites, PLENTY, SITES } from './solver-runs.ts';

describe('sites in which a fitting of the kind straight or bend is planted', () => {
  it(
    'are solved with no more joints and hardly more turn, by fittings that keep all they must',
    { timeout: PLENTY },
    () => {
      const { unsolved, wrong, worse } = judgeSites('straight or bend', 0, SITES);
      expect(wrong).toEqual([]);
      expect(worse).toEqual([]);
      expect(unsolved).toEqual([]);
    }
  );
});
