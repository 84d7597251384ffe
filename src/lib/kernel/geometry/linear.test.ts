import { describe, expect, it } from 'vitest';
import { findStep } from './linear.ts';

const FREE: [number, number][] = [
  [-1, 1],
  [-1, 1]
];

describe('the step of a linear model', () => {
  it('goes down the slope as far as it reaches', () => {
    expect(findStep([1, -2], [], FREE, 10)).toEqual([-1, 1]);
  });

  it('stops at a row that it would miss', () => {
    // x + y must not exceed 0.5, and y is worth more.
    const step = findStep([-1, -2], [{ value: 0.5, gradient: [-1, -1] }], FREE, 10)!;
    expect(step[0]).toBeCloseTo(-0.5, 12);
    expect(step[1]).toBeCloseTo(1, 12);
  });

  it('misses two rows that exclude each other by as little as can be', () => {
    const rows = [
      { value: -0.6, gradient: [1, 0] },
      { value: -0.2, gradient: [-1, 0] }
    ];
    expect(findStep([0, 0], rows, FREE, 10)![0]).toBeCloseTo(0.2, 12);
  });

  it('stays where it is when no part may move', () => {
    const still: [number, number][] = [
      [0, 0],
      [0, 0]
    ];
    expect(findStep([1, 1], [{ value: -3, gradient: [1, 1] }], still, 10)).toEqual([0, 0]);
  });
});
