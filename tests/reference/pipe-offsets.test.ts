// Rolling-offset constants of pipe-fitting handbooks: true offset √(rise² + roll²), travel = offset · csc of the turn,
// run = offset · cot of the turn, roll angle atan(roll/rise). The duct is a path of two equal turns with opposite heels,
// made from one straight by two parallel cuts. Inches where the handbook has them.
import { describe, expect, it } from 'vitest';
import { norm, subtract } from '../../src/lib/kernel/geometry/vector.ts';
import { buildPath } from '../duct.ts';
import { TRAVEL_AND_RUN } from './travel-and-run.ts';

const INCH = 25.4;
const END = 40 * INCH;
const DEGREES = 180 / Math.PI;

/** An offset in the direction up and right given by its roll angle from the vertical, with the given travel, mm. */
function buildOffset(travel: number, turn: number, rollAngle: number) {
  // The duct leaves away from its heel, so the heel is opposite the way it goes.
  const { fitting } = buildPath(
    [END, travel, END],
    [
      { turn, heel: rollAngle + 180 },
      { turn, heel: rollAngle }
    ],
    { width: 100, height: 100 }
  );
  const outlet = fitting.ports[1]!;
  // A long one is made from several straights, which meet in joints of their own.
  const [first, second] = fitting.joints.filter(({ closing }) => closing.kind === 'miter');
  const between = subtract(second!.at, first!.at);
  return {
    outlet,
    rise: outlet.at[1],
    roll: outlet.at[2],
    offset: Math.hypot(outlet.at[1], outlet.at[2]),
    run: between[0],
    travel: norm(between)
  };
}

describe('rolling offsets', () => {
  it('rise 30 5/8 and roll 17 5/8 inches are a true offset of 35.3346 inches', () => {
    // Worked example of an apprentice pipe-fitting course: read.
    const { rise, roll, offset } = buildOffset(35.3346 * Math.SQRT2 * INCH, 45, 29.9204);
    expect(Math.abs(offset / INCH - 35.3346)).toBeLessThan(0.0005);
    expect(Math.abs(rise / INCH - 30.625)).toBeLessThan(0.0005);
    expect(Math.abs(roll / INCH - 17.625)).toBeLessThan(0.0005);
  });

  it('its travel of 50.02 inches, which the example takes from 35 3/8 times 1.414, gives 35 3/8', () => {
    expect(Math.abs(buildOffset(50.02 * INCH, 45, 29.92).offset / INCH - 35.375)).toBeLessThan(0.01);
  });

  it('rise 12 and roll 16 at 45 degrees: offset 20, travel 28.284, run 20, rolled by 53.130 degrees', () => {
    const { rise, roll, offset, run } = buildOffset(28.284 * INCH, 45, 53.13); // Computed: csc, cot, atan.
    expect(Math.abs(offset / INCH - 20)).toBeLessThan(0.001);
    expect(Math.abs(run / INCH - 20)).toBeLessThan(0.001);
    expect(Math.abs(rise / INCH - 12)).toBeLessThan(0.001);
    expect(Math.abs(roll / INCH - 16)).toBeLessThan(0.001);
    expect(Math.abs(Math.atan2(roll, rise) * DEGREES - 53.13)).toBeLessThan(0.001);
  });

  // Travel per unit of offset as the handbooks and the trade press print it: read.
  it.each([
    [22.5, 2.613, 0.0005],
    [22.5, 2.6, 0.02],
    [45, 1.414, 0.0005],
    [60, 1.15, 0.005],
    [30, 2.0, 0.0005],
    [10, 5.76, 0.005]
  ])('at %d degrees the travel is %d times the offset', (turn, multiplier, tolerance) => {
    const { offset, travel } = buildOffset(2000, turn, 33);
    expect(Math.abs(travel / offset - multiplier)).toBeLessThan(tolerance);
  });

  it.each(TRAVEL_AND_RUN)(
    'at %d degrees travel is %d and run %d for an offset of one',
    (turn, travel, run) => {
      const built = buildOffset(3000, turn, 210);
      expect(Math.abs(built.travel / built.offset - travel)).toBeLessThan(1e-4);
      expect(Math.abs(built.run / built.offset - run)).toBeLessThan(1e-4);
    }
  );

  it('400 between two parallel cuts at 30 degrees shifts the duct by 200 over 346.41, without twist', () => {
    // Computed: L sin and L cos of the turn; the piece between the cuts is turned by 180 degrees.
    for (const rollAngle of [0, 90, 33, 217.4]) {
      const { offset, run, outlet } = buildOffset(400, 30, rollAngle);
      expect(Math.abs(offset - 200)).toBeLessThan(0.01);
      expect(Math.abs(run - 346.41)).toBeLessThan(0.01);
      expect(norm(subtract(outlet.flow, [1, 0, 0]))).toBeLessThan(1e-12);
      expect(norm(subtract(outlet.up, [0, 1, 0]))).toBeLessThan(1e-12);
    }
  });
});
