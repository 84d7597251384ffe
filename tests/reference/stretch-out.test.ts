// Stretch-out of a folded duct: 2 (W + H) + 8 t over the facing, plus the stapling flap. The inside dimension governs the
// blank (US Navy manual 14259, table 13-4, read); the sum itself is plain geometry, exact.
import { describe, expect, it } from 'vitest';
import { DEFAULT_BOARD } from '../../src/lib/kernel/document/job.ts';
import { listMakeUps, type Make } from '../../src/lib/kernel/straight/blank.ts';

function widthWithoutFlaps(
  make: Make,
  section: { width: number; height: number },
  thickness: number
): number {
  const board = { ...DEFAULT_BOARD, thickness, length: 6000, width: 6000 };
  const makeUp = [...listMakeUps(section, board, 'top-left')].find((one) => one.make === make)!;
  return makeUp.blanks.reduce((sum, { width, flaps }) => sum + width - flaps * board.flap, 0);
}

describe('the blank of a duct', () => {
  const MAKES: Make[] = ['one piece', 'two angles', 'trough and lid', 'four panels'];

  it.each(MAKES)('of 400 × 300 mm in board of 25 is 1600 round the facing: %s', (make) => {
    expect(widthWithoutFlaps(make, { width: 400, height: 300 }, 25)).toBe(1600); // Computed, exact.
  });

  it('of 40 inches round the inside in 1-inch board is 48 inches round the outside', () => {
    // The allowance of 8 inches quoted with the fibrous-glass construction standard (NAIMA AH116): from memory.
    const width = widthWithoutFlaps('one piece', { width: 12 * 25.4, height: 8 * 25.4 }, 25.4);
    expect(Math.abs(width / 25.4 - 48)).toBeLessThan(1e-9);
  });

  // Allowances of 12 and 16 inches for 1 1/2 and 2-inch board: from memory; they agree with eight thicknesses.
  it.each([
    [1.5, 12],
    [2, 16]
  ])('in %d-inch board is %d inches more than round the inside', (thickness, allowance) => {
    const width = widthWithoutFlaps('one piece', { width: 508, height: 254 }, thickness * 25.4);
    expect(Math.abs(width / 25.4 - 60 - allowance)).toBeLessThan(1e-9);
  });

  it('carries one flap in one piece and four in four panels, so the board is never short of it', () => {
    const makeUps = [...listMakeUps({ width: 400, height: 300 }, DEFAULT_BOARD, 'top-left')];
    const flaps = (make: Make) =>
      makeUps
        .filter((one) => one.make === make && one.lay === 'across')
        .map(({ blanks }) => blanks.reduce((sum, blank) => sum + blank.flaps, 0));
    expect(MAKES.map(flaps)).toEqual([[1], [2], [2], [4]]);
  });
});
