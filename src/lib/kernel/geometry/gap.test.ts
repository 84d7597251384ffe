import { describe, expect, it } from 'vitest';
import { placeObstacle } from '../site/site.ts';
import { measureGap } from './gap.ts';
import type { Vec3 } from './vector.ts';

const box = (min: Vec3, max: Vec3, turn = 0): readonly Vec3[] =>
  placeObstacle({ name: 'box', kind: 'box', min, max, turn }).corners;

describe('the distance of two boxes', () => {
  const duct = box([0, 0, 0], [100, 100, 100]);

  it('is what lies between their faces, their edges or their corners', () => {
    expect(measureGap(duct, box([130, 20, 20], [200, 80, 80])).distance).toBeCloseTo(30, 12);
    expect(measureGap(duct, box([130, 140, 20], [200, 180, 80])).distance).toBeCloseTo(50, 12);
    expect(measureGap(duct, box([120, 130, 160], [200, 200, 200])).distance).toBeCloseTo(70, 12);
  });

  it('names the two nearest points, the first as a mean of corners', () => {
    const gap = measureGap(duct, box([120, 130, 160], [200, 200, 200]));
    expect(gap.from).toEqual([100, 100, 100]);
    expect(gap.to).toEqual([120, 130, 160]);
    expect(gap.corners.map((corner) => duct[corner])).toEqual([[100, 100, 100]]);
    expect(gap.shares).toEqual([1]);
  });

  it('is nothing where they touch, share an edge or stand in each other', () => {
    expect(measureGap(duct, box([100, 0, 0], [200, 100, 100])).distance).toBe(0);
    expect(measureGap(duct, box([100, 100, 20], [200, 200, 80])).distance).toBe(0);
    expect(measureGap(duct, box([40, 40, 40], [60, 60, 60])).distance).toBe(0);
  });

  it('follows a box that is turned: the corner of one turned by 45 degrees stands out by half its diagonal', () => {
    const turned = box([200, 0, 0], [300, 100, 100], 45);
    expect(measureGap(duct, turned).distance).toBeCloseTo(150 - 50 * Math.SQRT2, 10);
  });
});
