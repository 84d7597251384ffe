// The compound-angle setting chart printed in manuals of compound miter saws: sides of a box at a pitch from the ground,
// mitered at the corners, with the miter gauge M from square and the blade's bevel B. A reducer whose four walls slope alike
// is such a box: a wall at a pitch p slopes by δ = 90 − p from the duct. All figures were read in the chart.
import { describe, expect, it } from 'vitest';
import { listPanelBodies } from '../../src/lib/kernel/fitting/fitting.ts';
import { build } from '../duct.ts';

/** The chart is rounded to a hundredth. */
const ROUNDING = 0.0051;

const RADIANS = Math.PI / 180;

/** Panels of a reducer whose walls all slope by so much, closing in or opening, whatever their sizes. */
function buildSplayed(slope: number, { closes, width, height }: Case) {
  const length = Math.min(120 / Math.tan(slope * RADIANS), 900);
  const drop = length * Math.tan(slope * RADIANS);
  const far = { width: width + 2 * drop, height: height + 2 * drop };
  const near = { width, height };
  const { fitting } = build(
    {
      family: 'reducer',
      section: closes ? far : near,
      params: { outlet: closes ? near : far, length, collarIn: 0, collarOut: 0 }
    },
    { board: { thickness: 25 } }
  );
  return listPanelBodies(fitting).map(({ panel }) => panel);
}

interface Case {
  readonly closes: boolean;
  readonly width: number;
  readonly height: number;
}

const CASES: readonly Case[] = [
  { closes: true, width: 300, height: 300 },
  { closes: false, width: 300, height: 300 },
  { closes: true, width: 400, height: 150 },
  { closes: false, width: 150, height: 400 }
];

describe('a reducer whose walls slope alike has the corners of a splayed box', () => {
  // Four sides: pitch of side, M, B: read.
  it.each([
    [5, 44.89, 3.53],
    [10, 44.56, 7.05],
    [15, 44.01, 10.55],
    [20, 43.22, 14.0],
    [25, 42.19, 17.39],
    [30, 40.89, 20.7],
    [35, 39.32, 23.93],
    [40, 37.45, 27.03],
    [45, 35.26, 30.0],
    [50, 32.73, 32.8],
    [55, 29.84, 35.4],
    [60, 26.57, 37.76],
    [65, 22.91, 39.86],
    [70, 18.88, 41.64],
    [75, 14.51, 43.08],
    [80, 9.85, 44.14],
    [85, 4.98, 44.78]
  ])('sides at a pitch of %d: miter %d, bevel %d', (pitch, miter, bevel) => {
    for (const one of CASES) {
      const panels = buildSplayed(90 - pitch, one);
      expect(panels).toHaveLength(4);
      for (const { outer, edges } of panels) {
        for (const [edge, from, to] of [
          [1, 1, 2],
          [3, 0, 3]
        ] as const) {
          const [clockwise, downstream] = [outer[to]![0] - outer[from]![0], outer[to]![1] - outer[from]![1]];
          const angle = Math.atan2(Math.abs(clockwise), downstream) / RADIANS;
          expect(Math.abs(angle - miter)).toBeLessThan(ROUNDING);
          expect(Math.abs(edges[edge]!.bevel - bevel)).toBeLessThan(ROUNDING);
        }
      }
    }
  });

  it('sides 15 from upright, butted instead of mitered: blade 3.84, miter 14.51', () => {
    // Read in a maker's notes on boxes with sloping sides; a butted side turns by what two mitered ones lack of a right angle.
    for (const { outer, edges } of buildSplayed(15, CASES[0]!)) {
      expect(Math.abs(90 - 2 * edges[1]!.bevel - 3.84)).toBeLessThan(ROUNDING);
      const angle = Math.atan2(outer[1]![0] - outer[2]![0], outer[2]![1] - outer[1]![1]) / RADIANS;
      expect(Math.abs(angle - 14.51)).toBeLessThan(ROUNDING);
    }
  });
});
