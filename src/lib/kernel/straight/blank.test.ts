import { describe, expect, it } from 'vitest';
import { DEFAULT_BOARD } from '../document/job.ts';
import { build } from '../../../../tests/duct.ts';
import { findYield, listMakeUps, type Lay } from './blank.ts';

const SECTION = { width: 400, height: 250 };

describe('what one board yields', () => {
  it('laid across: its width less the spigot, both ends moulded', () => {
    expect(findYield(DEFAULT_BOARD, 'across')).toEqual({ yield: 1180, moulded: true });
  });

  it('laid along: its whole length, both ends plain', () => {
    expect(findYield(DEFAULT_BOARD, 'along')).toEqual({ yield: 3000, moulded: false });
  });

  it('with the profile on its short edges it is the other way round', () => {
    const board = { ...DEFAULT_BOARD, profile: 'short' as const };
    expect(findYield(board, 'across')).toEqual({ yield: 1200, moulded: false });
    expect(findYield(board, 'along')).toEqual({ yield: 2980, moulded: true });
  });
});

describe('the blank of a duct of 400 × 250 in board of 25', () => {
  const [best] = listMakeUps(SECTION, DEFAULT_BOARD, 'top-left');

  it('is one piece across, 1500 and a flap of 40 wide', () => {
    expect(best).toMatchObject({ lay: 'across', make: 'one piece', yield: 1180, seams: ['top-left'] });
    expect(best!.blanks).toHaveLength(1);
    expect(best!.blanks[0]!.width).toBe(1540);
  });

  it('folds at the outside widths of its walls, clockwise from the seam', () => {
    expect(best!.blanks[0]!.walls).toEqual(['top', 'right', 'bottom', 'left']);
    expect(best!.blanks[0]!.folds).toEqual([450, 750, 1200]);
  });

  it.each([
    ['top-right', ['right', 'bottom', 'left', 'top'], [300, 750, 1050]],
    ['bottom-right', ['bottom', 'left', 'top', 'right'], [450, 750, 1200]],
    ['bottom-left', ['left', 'top', 'right', 'bottom'], [300, 750, 1050]]
  ] as const)('with its seam at the %s begins with the wall after it', (seam, walls, folds) => {
    const { blanks, seams } = [...listMakeUps(SECTION, DEFAULT_BOARD, seam)][0]!;
    expect(blanks[0]!.walls).toEqual(walls);
    expect(blanks[0]!.folds).toEqual(folds);
    expect(seams).toEqual([seam]);
  });
});

/** How the straights of a plain run are made and laid. */
function describeStraights(width: number, height: number, length: number, lay?: Lay): string[] {
  const said = {
    family: 'straight',
    section: { width, height },
    params: { length },
    ...(lay ? { lay } : {})
  };
  return build(said).fitting.straights.map(({ makeUp }) => `${makeUp.make} ${makeUp.lay}`);
}

describe('the choice of a make-up', () => {
  const choose = (width: number, height: number, length: number, lay?: 'across' | 'along') =>
    describeStraights(width, height, length, lay)[0];

  it('is one piece across wherever that is long enough', () => {
    expect(choose(400, 250, 1180)).toBe('one piece across');
    expect(choose(200, 150, 1180)).toBe('one piece across');
  });

  it('lies along for a straight that is too long across', () => {
    expect(choose(200, 150, 1181)).toBe('one piece along');
    expect(choose(200, 150, 3000)).toBe('one piece along');
  });

  it('takes two seams rather than two straights', () => {
    // Along: half the way round, 750 and a flap, fits into 1200; in one piece it does not.
    expect(choose(400, 250, 1500)).toBe('two angles along');
  });

  it('of a straight too long for any board needs fewest straights', () => {
    expect(describeStraights(200, 150, 3400)).toEqual(['one piece along', 'one piece along']);
  });

  it('across, when it is asked for, is kept however long the straight', () => {
    expect(describeStraights(200, 150, 2500, 'across')).toEqual(Array(3).fill('one piece across'));
  });

  it('fits exactly as wide as the board is long, and not a tenth of a millimetre more', () => {
    // 2·(A + B) + 40 = 3000: A + B = 1480.
    expect(choose(730, 650, 1000)).toBe('one piece across');
    expect(choose(730.05, 650, 1000)).not.toBe('one piece across');
  });

  it('is none where not even a single wall fits the board', () => {
    expect([...listMakeUps({ width: 3000, height: 200 }, DEFAULT_BOARD, 'top-left')]).toEqual([]);
  });

  it('covers the perimeter and has as many flaps as seams, whatever the make', () => {
    const makeUps = [...listMakeUps(SECTION, DEFAULT_BOARD, 'bottom-right')];
    expect(makeUps.length).toBeGreaterThan(4);
    for (const { blanks, seams } of makeUps) {
      expect(blanks.flatMap(({ walls }) => walls).sort()).toEqual(['bottom', 'left', 'right', 'top']);
      expect(blanks.reduce((sum, { flaps }) => sum + flaps, 0)).toBe(seams.length);
      expect(blanks.reduce((sum, { width, flaps }) => sum + width - 40 * flaps, 0)).toBe(1500);
      expect(new Set(seams).size).toBe(seams.length);
      expect(seams[0]).toBe('bottom-right');
    }
  });

  it('as trough and lid puts both flaps on the trough, for the lid lies in it', () => {
    const makeUps = [...listMakeUps(SECTION, DEFAULT_BOARD, 'top-left')];
    const { blanks, seams } = makeUps.find(({ make }) => make === 'trough and lid')!;
    // The lid is the wall after the seam, 450; the trough 300 + 450 + 300 and twice 40.
    expect(blanks.map(({ walls, width, flaps }) => [walls.join(' '), width, flaps])).toEqual([
      ['top', 450, 0],
      ['right bottom left', 1130, 2]
    ]);
    expect(blanks[1]!.folds).toEqual([300, 750]);
    expect(seams).toEqual(['top-left', 'top-right']);
  });
});
