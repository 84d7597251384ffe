import { describe, expect, it } from 'vitest';
import { buildBend, ENDLESS, SECTION } from '../../../tests/duct.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Item } from './figure.ts';
import { findTextRoom } from './lettering.ts';
import { tabulateMarks, tabulatePieces } from './mark-table.ts';
import { findBody } from './paper.ts';
import { flowBlocks, headBlock, writeParagraph, writeTable, type Block } from './text-flow.ts';

const words = speak('en');
const say = makeSpeech(DEFAULT_SHOW);
const BODY = findBody('a4', false);
const WIDTH = BODY.right - BODY.left;
const STRAIGHT = buildBend({ turn: 180, pieces: 9 }, SECTION, { board: ENDLESS }).fitting.straights[0]!;

const read = (items: readonly Item[]): string[] =>
  items.filter((item) => item.kind === 'text').map(({ text }) => text);

describe('the text of a mark-out', () => {
  const steps: Block[] = Array.from({ length: 60 }, (_, i) =>
    writeParagraph(
      'From 200 mm to 386 mm, line 22.5°; blade upright, depth 25 mm. Cut away from the body. '
        .repeat(1 + (i % 3))
        .trim(),
      WIDTH,
      { mark: String(i + 1), title: `Cut C${i + 1} on the top face`, boxed: true }
    )
  );
  const blocks = [
    headBlock('Mark table'),
    writeTable(tabulateMarks(STRAIGHT, words, say)),
    headBlock('Pieces'),
    writeTable(tabulatePieces(STRAIGHT, words, say)),
    headBlock('Order of work'),
    writeParagraph('Half a turn.', WIDTH, { mark: '0', title: `Roll ${'P2, '.repeat(40)}over`, boxed: true }),
    ...steps
  ];
  const pages = flowBlocks(blocks, { ...BODY, top: 150 }, BODY);

  it('loses nothing and stays within its page', () => {
    expect(pages.length).toBeGreaterThan(3);
    const all = pages.flatMap(read);
    for (let i = 1; i <= 60; i++) expect(all).toContain(`Cut C${i} on the top face`);
    // 8 cuts of 4 faces; the word top also begins corner names, so only cells of their own count.
    expect(all.filter((text) => text === 'bottom')).toHaveLength(8);
    for (const items of pages) {
      for (const item of items) {
        const points = item.kind === 'text' ? findTextRoom(item, 1) : item.points;
        for (const [x, y] of points) {
          expect(x, JSON.stringify(item)).toBeGreaterThanOrEqual(BODY.left - 0.1);
          expect(x, JSON.stringify(item)).toBeLessThanOrEqual(BODY.right);
          expect(y, JSON.stringify(item)).toBeGreaterThanOrEqual(BODY.top - 0.1);
          expect(y, JSON.stringify(item)).toBeLessThanOrEqual(BODY.bottom);
        }
      }
    }
  });

  it('never ends a page with a heading, and repeats the head of a broken table', () => {
    for (const items of pages) {
      const last = read(items).at(-1);
      expect(['Mark table', 'Pieces', 'Order of work']).not.toContain(last);
    }
    const headed = pages.filter((items) => read(items).includes('Set-back'));
    expect(headed).toHaveLength(2);
  });

  it('keeps a step on one page with its title', () => {
    for (const items of pages) {
      const texts = read(items);
      const first = texts.find((text) => text.startsWith('From 200 mm') || text.startsWith('Cut C'));
      if (first) expect(first).toMatch(/^Cut C/);
    }
  });
});
