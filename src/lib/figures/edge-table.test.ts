import { describe, expect, it } from 'vitest';
import { buildBend } from '../../../tests/duct.ts';
import { speak } from '../words/words.ts';
import { tabulateEdges } from './edge-table.ts';

describe('what closes the edges of a bend', () => {
  const { columns, rows } = tabulateEdges(buildBend({ turn: 90, pieces: 3 }), speak('en'));

  it('is told for the four edges of every wall', () => {
    expect(rows).toHaveLength(3 * 4);
    for (const { cells } of rows) expect(cells).toHaveLength(columns.length);
  });

  it('is a joint at a cut, a fold or the seam at a corner, what it mates with or a seal at an end', () => {
    // The inlet's end is moulded, the outlet's is cut off; the seam is at the top left corner.
    expect(rows[0]!.cells).toEqual([
      'P1',
      'top',
      'mates with the next duct',
      'folded',
      'glued and taped (C1)',
      'seam, stapled and taped'
    ]);
    expect(rows[9]!.cells).toEqual([
      'P3',
      'right',
      'glued and taped (C2)',
      'folded',
      'joined or sealed',
      'folded'
    ]);
  });
});
