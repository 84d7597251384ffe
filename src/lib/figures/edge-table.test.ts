import { describe, expect, it } from 'vitest';
import { build, buildBend } from '../../../tests/duct.ts';
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

describe('what closes the edges of a reducer', () => {
  it('is told of every panel and collar, each wall once', () => {
    const reducer = build({
      family: 'reducer',
      section: { width: 400, height: 250 },
      params: { outlet: { width: 300, height: 150 }, length: 400 }
    });
    const { columns, rows } = tabulateEdges(reducer, speak('en'));
    expect(rows).toHaveLength(4 + 4 + 4);
    const panels = rows.filter(({ cells }) => cells[0]!.startsWith('W'));
    expect(panels.map(({ cells }) => cells.slice(0, 2))).toEqual([
      ['W1', 'top'],
      ['W2', 'right'],
      ['W3', 'bottom'],
      ['W4', 'left']
    ]);
    for (const { cells } of rows) {
      expect(cells).toHaveLength(columns.length);
      expect(cells.every((cell) => cell !== '' && !cell.includes('OPEN'))).toBe(true);
    }
  });

  it('folded from one straight is told a wall at a time, however many parts that has', () => {
    const folded = build({
      family: 'reducer',
      section: { width: 400, height: 250 },
      params: { outlet: { width: 400, height: 150 }, alignY: 'bottom', length: 400, method: 'fold' }
    });
    const { rows } = tabulateEdges(folded, speak('en'));
    expect(rows.map(({ cells }) => cells[1])).toEqual(['top', 'right', 'bottom', 'left']);
  });
});
