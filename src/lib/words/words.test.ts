import { describe, expect, it } from 'vitest';
import { breakLines } from '../figures/lettering.ts';
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
});
