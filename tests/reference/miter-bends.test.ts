// Miter angles and lengths of evenly spaced miter bends: ASME B31.3, 304.2.3, and the B31 practice around it
// (a miter of half the turn; R = S / (2 tan of the miter); crotch length B = S (1 − r/R)). Figures marked 'computed'
// follow from these formulas.
import { describe, expect, it } from 'vitest';
import { measureEdges } from '../../src/lib/kernel/straight/straight.ts';
import { buildBend } from '../duct.ts';

/** 300 inside and board of 25 mm: 350 deep in the plane of the bend. */
const SECTION = { width: 300, height: 300 };

function measurePieces(params: Readonly<Record<string, unknown>>) {
  const { fitting } = buildBend(params, SECTION);
  const [straight] = fitting.straights;
  return straight!.pieces.map((piece) => {
    const edges = measureEdges(piece, SECTION, 25).map(({ length }) => length);
    return { axis: piece.axis, shortest: Math.min(...edges), longest: Math.max(...edges) };
  });
}

describe('miter of an evenly spaced bend', () => {
  // Formula read in ASME B31.3, 304.2.3; turn, pieces, miter computed.
  it.each([
    [90, 2, 45],
    [90, 3, 22.5],
    [90, 4, 15],
    [90, 5, 11.25],
    [90, 7, 7.5],
    [60, 3, 15],
    [45, 2, 22.5],
    [45, 3, 11.25],
    [30, 2, 15]
  ])('a turn of %d degrees in %d pieces is mitered by %d', (turn, pieces, miter) => {
    const { cuts } = buildBend({ turn, pieces }, SECTION).fitting.straights[0]!;
    expect(cuts).toHaveLength(pieces - 1);
    for (const cut of cuts) expect(Math.abs(cut.miter - miter)).toBeLessThan(1e-9);
  });
});

describe('a right-angle bend of three pieces about a radius of 600 mm, 350 deep', () => {
  const pieces = measurePieces({ turn: 90, pieces: 3, radius: 600 });

  it('has 497.06 on the centre line between its cuts', () => {
    expect(Math.abs(pieces[1]!.axis - 497.056)).toBeLessThan(0.01); // R = S/(2 tan 22.5°), computed
  });

  it('has a throat of 352.08 and a heel of 642.03 on its gore', () => {
    expect(Math.abs(pieces[1]!.shortest - 352.08)).toBeLessThan(0.02); // B = S (1 − r/R), computed
    expect(Math.abs(pieces[1]!.longest - 642.03)).toBeLessThan(0.02);
    expect(Math.abs(pieces[1]!.longest - pieces[1]!.shortest - 289.94)).toBeLessThan(0.02);
  });

  it('has end pieces of at least half a segment, 248.53, once their throat is half the gore', () => {
    const ends = measurePieces({
      turn: 90,
      pieces: 3,
      radius: 600,
      throatIn: 352.08 / 2,
      throatOut: 352.08 / 2
    });
    expect(Math.abs(ends[0]!.axis - 248.53)).toBeLessThan(0.01); // S/2, computed
    expect(Math.abs(ends[2]!.axis - 248.53)).toBeLessThan(0.01);
  });

  it('read the other way round, 497.056 between the cuts is a radius of 600', () => {
    const [, gore] = measurePieces({ turn: 90, pieces: 3, gore: 497.056 - 350 * Math.SQRT2 + 350 });
    // 350·(√2 − 1) is what both cuts take from the gore's throat: 2·175·tan 22.5°.
    expect(Math.abs(gore!.axis - 497.056)).toBeLessThan(1e-9);
    const back = measurePieces({ turn: 90, pieces: 3, radius: 600.0 });
    expect(Math.abs(back[1]!.axis - gore!.axis)).toBeLessThan(0.01);
  });
});

describe('how much one cut shifts the mark from throat to heel, 350 deep', () => {
  // D·tan of the miter, computed.
  it.each([
    [2, 350.0],
    [3, 144.97],
    [4, 93.78],
    [5, 69.62]
  ])('in a right-angle bend of %d pieces by %d mm', (pieces, shift) => {
    const [end] = measurePieces({ turn: 90, pieces });
    expect(Math.abs(end!.longest - end!.shortest - shift)).toBeLessThan(0.01);
  });
});
