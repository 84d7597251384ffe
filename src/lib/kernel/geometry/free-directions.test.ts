import { describe, expect, it } from 'vitest';
import { findFreeDirections } from './free-directions.ts';

describe('the directions that rows leave free', () => {
  it('are all of them where there is no row, and none where there are as many as parts', () => {
    expect(findFreeDirections([], 2)).toEqual([
      [1, 0],
      [0, 1]
    ]);
    const both = [
      [1, 2],
      [3, 4]
    ];
    expect(findFreeDirections(both, 2)).toEqual([]);
  });

  it('change no row, also where one row says what others say already', () => {
    const rows = [
      [1, 2, 3, 4],
      [2, 0, 1, -1],
      [3, 2, 4, 3]
    ];
    const directions = findFreeDirections(rows, 4);
    expect(directions).toHaveLength(2);
    for (const direction of directions)
      for (const row of rows)
        expect(row.reduce((sum, entry, k) => sum + entry * direction[k]!, 0)).toBeCloseTo(0, 12);
  });
});
