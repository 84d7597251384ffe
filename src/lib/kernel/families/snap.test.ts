import { describe, expect, it } from 'vitest';
import { build, evaluateOne, SECTION } from '../../../../tests/duct.ts';
import { add, scale } from '../geometry/vector.ts';
import { findFamily } from './index.ts';
import { ANGLE_SNAP, LENGTH_SNAP, snap, stepOnGrid } from './snap.ts';
import { steerTo, stepBy } from './steer.ts';

const INCH = 25.4;
const BLADES = [45, 90];

describe('a value that is dragged', () => {
  it.each([
    [43.4, 45, 'blade'],
    [31.6, 31.5, null],
    [59.4, 60, 'round'],
    [57.8, 58, null]
  ])('%d degrees sit at %d', (value, sits, reason) => {
    expect(snap(value, { ...ANGLE_SNAP, blades: BLADES })).toEqual({ value: sits, reason });
  });

  it.each([
    ['mm', 193, 200, 'round'],
    ['mm', 188, 190, null],
    ['in', 8.1 * INCH, 8 * INCH, 'round'],
    ['in', 8.3 * INCH, 8.25 * INCH, null],
    ['in/16', 7.55 * INCH, 7.5 * INCH, null],
    ['in/16', 7.85 * INCH, 8 * INCH, 'round']
  ] as const)('in %s, %d mm sit at %d mm', (unit, value, sits, reason) => {
    const snapped = snap(value, { ...LENGTH_SNAP[unit], bladeReach: 0, blades: [] });
    expect(snapped.value).toBeCloseTo(sits, 9);
    expect(snapped.reason).toBe(reason);
  });
});

describe('a step of an arrow key', () => {
  it.each([
    [200, 1, 5, 205],
    [200, -10, 5, 150],
    [203, 1, 5, 205],
    [203, -1, 5, 200],
    [-203, 1, 5, -200],
    [22.5, 1, 0.5, 23],
    [8 * INCH, 1, INCH / 4, 8.25 * INCH],
    [200, 1, INCH / 4, 8 * INCH],
    [200, -1, INCH / 4, 7.75 * INCH]
  ])('from %d by %d steps of %d comes to %d', (value, steps, step, there) => {
    expect(stepOnGrid(value, steps, step)).toBeCloseTo(there, 9);
  });

  it('moves a throat by a quarter of an inch, a turn by half a degree, the pieces by one', () => {
    const bend = findFamily('bend');
    expect(stepBy(bend, 'throatIn', 8 * INCH, 1, LENGTH_SNAP.in)).toBeCloseTo(8.25 * INCH, 9);
    expect(stepBy(bend, 'turn', 90, -1, LENGTH_SNAP.in)).toBe(89.5);
    expect(stepBy(bend, 'pieces', 3, 1, LENGTH_SNAP.in)).toBe(4);
    expect(stepBy(bend, 'pieces', 9, 1, LENGTH_SNAP.in)).toBe(9);
  });
});

it('a throat of a bend is dragged to whole inches where inches are shown, and anywhere when it is freed', () => {
  const said = { family: 'bend', section: SECTION, params: { turn: 90, heel: 'right' } };
  const { family, values, setting } = evaluateOne(said).resolved;
  const handle = family.handles(values as never, setting).find(({ id }) => id === 'throatIn')!;
  const steer = (by: number, snapping: Parameters<typeof steerTo>[5]): number =>
    steerTo(family, values, handle, add(handle.at, scale(handle.along, by)), setting, snapping).value;
  expect(build(said).fitting.joints).toHaveLength(2);
  expect(steer(4.9, LENGTH_SNAP.in)).toBeCloseTo(8 * INCH, 9);
  expect(steer(4.9, LENGTH_SNAP.mm)).toBe(200);
  expect(steer(4.9, null)).toBeCloseTo(204.9, 9);
});
