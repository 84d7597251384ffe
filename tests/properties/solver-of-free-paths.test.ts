// A hundred sites in which chance has planted a free path: the solver finds a way in at least ninety, and none that is wrong.
import { describe, expect, it } from 'vitest';
import { judgeSites, PLENTY, SITES } from './solver-runs.ts';

describe('sites in which a free path of three or four joints is planted', () => {
  it('are solved nine times in ten, by fittings that keep all they must', { timeout: PLENTY }, () => {
    const { unsolved, wrong } = judgeSites('free path', 0, SITES);
    expect(wrong).toEqual([]);
    expect(unsolved.length, `seeds ${unsolved.join()}`).toBeLessThanOrEqual(SITES / 10);
  });
});
