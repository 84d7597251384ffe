// A double offset under a beam as it was set out by hand, and the pipe fitters' worked rolling offset as a duct.
import { describe, expect, it } from 'vitest';
import { build, writeSheetOfFitting } from '../duct.ts';

const UNDER_THE_BEAM = {
  tag: 'F3',
  family: 'double-offset',
  section: { width: 300, height: 150 },
  params: { rise: -300, roll: 0, turn: 45, level: 150, piecesPerTurn: 2, throatIn: 205, throatOut: 205 }
};

describe('300 × 150 going 300 under a beam at 45 degrees, level 150, throats 205, board of 25', () => {
  const [straight] = writeSheetOfFitting(UNDER_THE_BEAM).straights;

  // Computed by hand: 205 + 100·tan 22.5° = 246.421, travel 300·√2 = 424.264, level 150 + 200·tan 22.5° = 232.843.
  it('is one straight of 1574.214 with cuts at 246.421, 670.685, 903.528 and 1327.792', () => {
    expect(straight!.length).toBe(1574.214);
    expect(straight!.cuts.map(({ station }) => station)).toEqual([246.421, 670.685, 903.528, 1327.792]);
    expect(straight!.cuts.map(({ miter }) => miter)).toEqual([22.5, 22.5, 22.5, 22.5]);
    expect(straight!.pieces.map(({ axis }) => axis)).toEqual([246.421, 424.264, 232.843, 424.264, 246.421]);
  });

  it('is marked on top at 288, 712, 862 and 1286, at the bottom at 205, 629, 945 and 1369, square across', () => {
    const read = (face: 'top' | 'bottom') => straight!.cuts.map(({ faces }) => faces[face]);
    expect(read('top').map(({ start }) => Math.round(start))).toEqual([288, 712, 862, 1286]);
    expect(read('bottom').map(({ start }) => Math.round(start))).toEqual([205, 629, 945, 1369]);
    for (const { start, end, line, bevel } of [...read('top'), ...read('bottom')]) {
      expect(end).toBe(start);
      expect(line).toBe(0);
      expect(bevel).toBe(22.5);
    }
    // The cheeks carry the same stations slantwise, cut upright.
    for (const { right, left, top, bottom } of straight!.cuts.map(({ faces }) => faces)) {
      for (const cheek of [right, left]) {
        expect([cheek.start, cheek.end]).toEqual([top.start, bottom.start]);
        expect([cheek.line, cheek.bevel]).toEqual([22.5, 0]);
      }
    }
  });

  it('runs 1326 from end to end, with a glue line of 925 at every joint', () => {
    const sheet = writeSheetOfFitting(UNDER_THE_BEAM);
    const [inlet, outlet] = sheet.ports;
    expect(Math.round(outlet!.at[0]! - inlet!.at[0]!)).toBe(1326);
    expect(Math.round(sheet.quantities!.glue / 4)).toBe(925);
  });
});

describe('the rolling offset of an apprentice pipe-fitting course, rise 30 5/8 and roll 17 5/8 inches at 45 degrees', () => {
  const INCH = 25.4;
  const asked = { rise: 30.625 * INCH, roll: 17.625 * INCH, throatIn: 400, throatOut: 400 };
  const measure = (driver: Readonly<Record<string, number>>) => {
    const { fitting } = build({
      family: 'offset',
      section: { width: 100, height: 100 },
      params: { ...asked, ...driver }
    });
    const [first, second] = fitting.joints.filter(({ closing }) => closing.kind === 'miter');
    const [a, b] = [first!.at, second!.at];
    const miters = fitting.straights.flatMap(({ cuts }) => cuts.map(({ miter }) => miter));
    return {
      along: (b[0] - a[0]) / INCH,
      offset: Math.hypot(b[1] - a[1], b[2] - a[2]) / INCH,
      travel: Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]) / INCH,
      turn: 2 * Math.max(...miters),
      turns: miters.length
    };
  };

  it('has a true offset of 35.3346 inches, as long along the duct, and a travel near the 50.02 of the course', () => {
    const { offset, along, travel, turns } = measure({ turn: 45 });
    expect(Math.abs(offset - 35.3346)).toBeLessThan(0.0005);
    expect(Math.abs(along - 35.3346)).toBeLessThan(0.0005);
    // The course rounds the offset up to 35 3/8 and multiplies it by 1.414: 0.06 inch more.
    expect(Math.abs(travel - 50.02)).toBeLessThan(0.06);
    expect(Math.abs(travel - 35.3346 * Math.SQRT2)).toBeLessThan(0.0005);
    expect(turns).toBe(2);
  });

  it('by the travel of 50.02 inches, or by the advance of 35.3346, turns by about 45 degrees', () => {
    expect(Math.abs(measure({ travel: 50.02 * INCH }).turn - 45)).toBeLessThan(0.1);
    expect(Math.abs(measure({ advance: 35.3346 * INCH }).turn - 45)).toBeLessThan(0.0001);
  });
});
