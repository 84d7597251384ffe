// Worked rolling offsets of pipe-fitting handbooks solved backwards: the end lies where the handbook's run and offset put it,
// with the shop's least throats at both ends, so the handbook's angle is the least that leads there. Handbook figures in
// inches or for an offset of one; what they stand for in mm is chosen so that the shop's minima are kept.
import { describe, expect, it } from 'vitest';
import { DEFAULT_SHOP, type Job } from '../../src/lib/kernel/document/job.ts';
import { solveSite } from '../../src/lib/kernel/solve.ts';
import { layOutLegs, reachOut } from '../properties/legs.ts';
import { TRAVEL_AND_RUN } from './travel-and-run.ts';

const INCH = 25.4;
/** A small duct, so that its cuts hardly count beside the run. */
const SECTION = { width: 40, height: 40 };
const OUTSIDE = { width: 60, height: 60 };
const THICKNESS = 10;
const RADIANS = Math.PI / 180;

/** What the solver proposes first for a shift by rise and roll over a run, mm, when two turns of `angle` just fit. */
function solveOffset(rise: number, roll: number, run: number, angle: number) {
  const heel = Math.atan2(-roll, -rise) / RADIANS;
  const throats = 2 * (DEFAULT_SHOP.minThroat + reachOut({ turn: angle, heel }, OUTSIDE));
  const job: Job = {
    format: 'gorewright-job',
    version: 1,
    board: { thickness: THICKNESS },
    // Without a blade for bevels no turn is taken for its blade.
    shop: { blades: [{ angle: 0 }] },
    site: {
      section: SECTION,
      end: { at: [throats + run, rise, roll], flow: [1, 0, 0], up: [0, 1, 0] },
      clearance: 25,
      obstacles: []
    }
  };
  const [best] = solveSite(job).proposals;
  expect(best?.fitting.family).toBe('offset');
  const { params } = best!.fitting;
  const { lengths } = layOutLegs(best!.fitting, THICKNESS);
  const [turn, travel] = [params['turn'] as number, lengths[1]!];
  return {
    turn,
    travel,
    run: travel * Math.cos(turn * RADIANS),
    offset: Math.hypot(params['rise'] as number, params['roll'] as number),
    roll: Math.atan2(params['roll'] as number, params['rise'] as number) / RADIANS
  };
}

describe('the offset that is proposed where a worked example ends', () => {
  it('rises 12 and rolls 16 inches over a run of 20 by 45 degrees: offset 20, travel 28.284, roll angle 53.130', () => {
    // Computed: csc, cot, atan.
    const { turn, travel, offset, run, roll } = solveOffset(12 * INCH, 16 * INCH, 20 * INCH, 45);
    expect(Math.abs(turn - 45)).toBeLessThan(1e-4);
    expect(Math.abs(travel / INCH - 28.284)).toBeLessThan(0.001);
    expect(Math.abs(offset / INCH - 20)).toBeLessThan(0.001);
    expect(Math.abs(run / INCH - 20)).toBeLessThan(0.001);
    expect(Math.abs(roll - 53.13)).toBeLessThan(0.001);
  });

  it('rises 30 5/8 and rolls 17 5/8 inches by 45 degrees: true offset 35.3346, travel 50.02 from 35 3/8', () => {
    // Worked example of an apprentice pipe-fitting course: read. Its travel is of 35 3/8, which it takes for 35.3346; at 45
    // degrees the run is the true offset.
    const { turn, travel, offset } = solveOffset(30.625 * INCH, 17.625 * INCH, 35.3346 * INCH, 45);
    expect(Math.abs(offset / INCH - 35.3346)).toBeLessThan(0.0005);
    expect(Math.abs(turn - 45)).toBeLessThan(1e-3);
    expect(Math.abs(travel / INCH - 50.02)).toBeLessThan(1.415 * (35.375 - 35.3346));
  });

  it.each(TRAVEL_AND_RUN)(
    'turns by %d degrees, with a travel of %d, where the run is %d for an offset of one',
    (angle, travel, run) => {
      const unit = 250;
      for (const roll of [0, 33, 90, 217.4]) {
        const [up, right] = [unit * Math.cos(roll * RADIANS), unit * Math.sin(roll * RADIANS)];
        const solved = solveOffset(up, right, run * unit, angle);
        // The turn that the last of the four decimals of the run stands for.
        const printed = 1e-4 * Math.sin(angle * RADIANS) ** 2;
        expect(Math.abs(solved.turn - angle)).toBeLessThan(printed / RADIANS);
        expect(Math.abs(solved.travel / unit - travel)).toBeLessThan(1.5e-4);
        expect(Math.abs(solved.run / unit - run)).toBeLessThan(1.5e-4);
      }
    }
  );
});
