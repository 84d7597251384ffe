// Mass of a mitered duct: area of the walls times length of the centre line, for two cuts through the axis take as much as
// they give. Plain geometry, computed.
import { describe, expect, it } from 'vitest';
import { buildBend, buildPath } from '../duct.ts';

const SECTION = { width: 300, height: 300 };
const STOCK = { board: { thickness: 25, density: 75 } };

describe('a duct of 300 × 300 mm in board of 25, 75 kg/m³, one metre along its centre line', () => {
  it.each([
    ['straight', [1000], []],
    ['turned once', [500, 500], [{ turn: 45, heel: 90 }]],
    [
      'turned twice, compound',
      [300, 400, 300],
      [
        { turn: 30, heel: 33 },
        { turn: 20, heel: 250 }
      ]
    ]
  ])('weighs 2.4375 kg %s', (_how, lengths, joints) => {
    const { quantities } = buildPath(lengths, joints, SECTION, STOCK);
    expect(Math.abs(quantities.mass - 2.4375)).toBeLessThan(1e-6);
  });

  it('weighs 2.4375 kg as a gore between two cuts', () => {
    // A gore of 1000 on its axis: 1000 − 2·175·tan 22.5° at the throat.
    const { quantities } = buildBend(
      { turn: 90, pieces: 3, gore: 1000 - 350 * (Math.SQRT2 - 1) },
      SECTION,
      STOCK
    );
    expect(Math.abs(quantities.bodies[1]! * 1e-9 * 75 - 2.4375)).toBeLessThan(1e-6);
  });
});
