import { describe, expect, it } from 'vitest';
import type { Point } from '../figures/figure.ts';
import { spreadPlaces } from './camera.ts';

const put = (at: Point, along: Point) => ({ at, along });

describe('handles of an offset seen along its roll', () => {
  it('that would lie over each other stand apart in their own directions', () => {
    expect(spreadPlaces([put([100, 50], [0, -2]), put([103, 50], [3, 0]), put([100, 52], [0, 0])])).toEqual([
      [100, 50],
      [131, 50],
      [100, 80]
    ]);
  });

  it('give way to what is there already', () => {
    expect(spreadPlaces([put([100, 50], [0, -2]), put([40, 50], [1, 0])], [[104, 50]])).toEqual([
      [100, 22],
      [40, 50]
    ]);
  });

  it('stay where they are when they can be told apart', () => {
    const places: Point[] = [
      [0, 0],
      [20, 0],
      [0, 300]
    ];
    expect(spreadPlaces(places.map((at) => put(at, [1, 0])))).toEqual(places);
  });
});
