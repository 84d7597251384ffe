import { describe, expect, it } from 'vitest';
import { breakLines, measureText } from '../figures/lettering.ts';
import { bindFigures } from './words.ts';

describe('a sentence about a duct that is broken into lines', () => {
  it('keeps a length with its fraction and its unit, and the two sides of a board', () => {
    expect(bindFigures('Groove at 17 11/16 in, 2 of 3, board 3000 × 1200 mm')).toBe(
      'Groove at 17\u00A011/16\u00A0in, 2 of 3, board 3000\u00A0×\u00A01200\u00A0mm'
    );
  });

  it('is printed with common spaces, broken before the whole length', () => {
    expect(breakLines('Straight 36 5/16 in', 2.5, 26)).toEqual(['Straight', '36 5/16 in']);
  });

  it('has a word that is longer than a line broken where the line ends, and every word whole that fits exactly', () => {
    const lines = breakLines(`F1: ${'W'.repeat(25)} is new`, 2.5, 20);
    expect(lines.join(' ').replaceAll('W W', 'WW')).toBe(`F1: ${'W'.repeat(25)} is new`);
    for (const line of lines) expect(measureText(line, 2.5)).toBeLessThanOrEqual(20);
    for (const word of ['Set-back', 'Quantity', 'Zuschnitt'])
      expect(breakLines(word, 2.5, measureText(word, 2.5))).toEqual([word]);
    expect(breakLines('ab', 2.5, 0)).toEqual(['a', 'b']);
    // Half of a length would be another length.
    expect(breakLines('Gore 36 5/16 in', 2.5, 12)).toEqual(['Gore', '36 5/16 in']);
  });
});
