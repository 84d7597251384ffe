import { describe, expect, it } from 'vitest';
import { findStation, markCut, measureOutline, measureReach, type Cut } from './cut.ts';
import { growSection } from './section.ts';

/** 450 × 300 outside. */
const OUTSIDE = growSection({ width: 400, height: 250 }, 25);
const cut = (miter: number, heel: number): Cut => ({ name: 'C1', station: 1000, miter, heel });

describe('the plane of a cut', () => {
  it('lies further downstream on the heel side', () => {
    expect(findStation(cut(45, 0), 100, 0)).toBe(1100);
    expect(findStation(cut(45, 90), 0, 100)).toBe(1100);
    expect(findStation(cut(45, 180), 100, 0)).toBe(900);
    expect(findStation(cut(45, 270), 0, 100)).toBe(900);
    expect(findStation(cut(45, 90), 100, 0)).toBe(1000);
  });

  it('takes half the depth times the tangent of its miter from one side', () => {
    expect(measureReach(OUTSIDE, 45, 0)).toBe(150);
    expect(measureReach(OUTSIDE, 45, 90)).toBe(225);
    // At 45 degrees it takes from a corner: (150 + 225)/√2.
    expect(measureReach(OUTSIDE, 45, 45)).toBeCloseTo(375 / Math.SQRT2, 9);
  });
});

describe('marks of a square cut', () => {
  it('run square across all faces with an upright blade, whatever the heel', () => {
    for (const mark of markCut(cut(0, 37), OUTSIDE, 25)) {
      expect(mark).toMatchObject({
        start: 1000,
        end: 1000,
        line: 0,
        bevel: 0,
        lean: null,
        setback: 0,
        depth: 25
      });
    }
  });
});

describe('marks of a compound cut, heel at 45 degrees, miter 45', () => {
  const marks = markCut(cut(45, 45), OUTSIDE, 25);

  it('have a bevel of 30 and a line of 35.264 on every face', () => {
    for (const { line, bevel } of marks) {
      expect(line).toBeCloseTo(35.26438968, 8);
      expect(bevel).toBeCloseTo(30, 9);
    }
  });

  it('lean downstream on the two faces toward the heel and upstream on the other two', () => {
    expect(marks.map(({ face, lean }) => [face, lean])).toEqual([
      ['top', 'downstream'],
      ['right', 'downstream'],
      ['bottom', 'upstream'],
      ['left', 'upstream']
    ]);
  });

  it('reach 28.868 deep along the blade and stand 14.434 back inside', () => {
    // 25/cos 30° and 25·tan 30°.
    for (const { depth, setback } of marks) {
      expect(depth).toBeCloseTo(28.8675135, 6);
      expect(setback).toBeCloseTo(14.4337567, 6);
    }
  });

  it('run from edge to edge so that the marks of neighbouring faces meet', () => {
    const [top, right, bottom, left] = marks;
    expect(top!.end).toBe(right!.start);
    expect(right!.end).toBe(bottom!.end);
    expect(bottom!.start).toBe(left!.end);
    expect(left!.start).toBe(top!.start);
    // The highest station is at the top right corner: (150 + 225)/√2 past the middle.
    expect(top!.end).toBeCloseTo(1000 + 375 / Math.SQRT2, 9);
    expect(bottom!.start).toBeCloseTo(1000 - 375 / Math.SQRT2, 9);
  });
});

describe('the documented figures of a miter of 22.5 in board of 25', () => {
  it('are a set-back of 10.4 and a depth of 27.1', () => {
    const [, right] = markCut(cut(22.5, 90), OUTSIDE, 25);
    expect(right!.setback).toBeCloseTo(10.355, 3);
    expect(right!.depth).toBeCloseTo(27.06, 2);
  });
});

describe('the outline that a cut leaves', () => {
  it('is that of the section when it is square', () => {
    expect(measureOutline(cut(0, 0), OUTSIDE)).toBe(1500);
  });

  it('at 45 degrees has two cheeks longer by √2', () => {
    expect(measureOutline(cut(45, 90), OUTSIDE)).toBeCloseTo(2 * 300 + 2 * 450 * Math.SQRT2, 9);
    expect(measureOutline(cut(45, 0), OUTSIDE)).toBeCloseTo(2 * 450 + 2 * 300 * Math.SQRT2, 9);
  });
});
