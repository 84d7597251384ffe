// Half of a hundred sites in which chance has planted a detour: the solver finds one that is as good, and none that is wrong.
import { describe, expect, it } from 'vitest';
import { judgeSites, PLENTY, SITES } from './solver-runs.ts';

describe('the first half of the sites in which a double offset is planted', () => {
  it(
    'are solved with no more joints and hardly more turn, by fittings that keep all they must',
    { timeout: PLENTY },
    () => {
      const { unsolved, wrong, worse } = judgeSites('double offset', 0, SITES / 2);
      expect(wrong).toEqual([]);
      expect(worse).toEqual([]);
      expect(unsolved).toEqual([]);
    }
  );
});
