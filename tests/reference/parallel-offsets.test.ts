// Shift constants of the electricians' parallel-offset table, tan(turn/2), read to nine decimals. Parallel runs bent by
// the same turn are set out along a miter line; a duct's two edges are such runs, so the mark on its cheek shifts by it.
import { describe, expect, it } from 'vitest';
import { buildPath } from '../duct.ts';
import { markCut } from '../../src/lib/kernel/straight/cut.ts';
import { growSection } from '../../src/lib/kernel/straight/section.ts';

const SECTION = { width: 950, height: 250 };

describe('parallel edges of a duct', () => {
  it.each([
    [45, 0.414213562],
    [30, 0.267949192],
    [22.5, 0.198912367]
  ])('in a turn of %d degrees shift by %d of the distance between them', (turn, constant) => {
    const { fitting } = buildPath([900, 900], [{ turn, heel: 90 }], SECTION);
    const [straight] = fitting.straights;
    const [top] = markCut(straight!.cuts[0]!, growSection(SECTION, 25), 25);
    // 950 inside and 25 of board on either side are 1000 apart.
    expect(Math.abs((top!.end - top!.start) / 1000 - constant)).toBeLessThan(1e-9);
  });
});
