import { describe, expect, it } from 'vitest';
import { build, FOLDED, SECTION } from '../../../../tests/duct.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { measureClearances, type Clearance } from './clearance.ts';

/** Without collars: four panels and two open ends, from 0 to 500. */
const REDUCER = {
  family: 'reducer',
  params: { outlet: { width: 300, height: 200 }, length: 500, collarIn: 0, collarOut: 0, method: 'panels' }
};

/** The clearance of a fitting of 25 mm board from one box. */
function measure(said: { family: string; params: object }, min: Vec3, max: Vec3): Clearance {
  const { fitting } = build({ ...said, section: SECTION, params: { ...said.params } });
  const site = {
    section: SECTION,
    end: { at: [null, null, null], flow: [1, 0, 0], up: [0, 1, 0] },
    clearance: 25,
    obstacles: [{ name: 'box', kind: 'box', min, max }]
  } as const;
  return measureClearances(fitting, site, 25)[0]!;
}

describe.each([
  ['panels', REDUCER, 500],
  ['folded walls', FOLDED, 700]
] as const)('the clearance of %s', (_, said, length) => {
  it('is measured from the open ends', () => {
    const before = measure(said, [-40, -5, -5], [-30, 5, 5]);
    expect(before.value).toBeCloseTo(30, 9);
    expect(before.from[0]).toBeCloseTo(0, 9);
    expect(before.to[0]).toBeCloseTo(-30, 9);
    const behind = measure(said, [length + 30, -60, -5], [length + 40, -50, 5]);
    expect(behind.value).toBeCloseTo(30, 9);
  });

  it('is how deep a box reaches through an end', () => {
    expect(measure(said, [-8, -5, -5], [2, 5, 5]).value).toBeCloseTo(-2, 9);
  });

  it('is the way out of the whole where a box lies in the air way, free or against a wall', () => {
    expect(measure(said, [100, -5, -5], [110, 5, 5]).value).toBeCloseTo(-110, 9);
    expect(measure(said, [30, -5, 190], [40, 5, 200]).value).toBeLessThan(-25);
  });
});

describe('the clearance of a fold', () => {
  it('is that of its slope where a box stands in the hollow at its foot', () => {
    // Outside the slope falls from (150, 150) to (550, 50): at 540 it is 52.5 up, the box's near edge 7.5 over it, and the box
    // is under the straight line from (150, 150) to the outlet.
    const over = measure(FOLDED, [540, 60, -5], [550, 70, 5]);
    expect(over.value).toBeCloseTo((7.5 * 4) / Math.sqrt(17), 9);
  });
});
