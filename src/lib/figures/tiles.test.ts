import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildBend, buildPath, ENDLESS } from '../../../tests/duct.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { measureFigure, type Box, type Point } from './figure.ts';
import { findOverlaps } from './room.ts';
import { layStraight, listLaidLines } from './laid-straight.ts';
import { drawTemplate } from './template.ts';
import { tileLines } from './tiles.ts';

const PAGE = { width: 174, height: 244 };
const inside = ([x, y]: Point, { left, right, top, bottom }: Box, by = 0): boolean =>
  x >= left + by && x <= right - by && y >= top + by && y <= bottom - by;

function listStraights(): Straight[] {
  return [
    buildBend({ turn: 90, pieces: 3 }),
    buildBend({ turn: 90, pieces: 2 }, { width: 1200, height: 600 }, { board: ENDLESS }),
    buildPath(
      [420, 500, 460],
      [
        { turn: 40, heel: 33 },
        { turn: 25, heel: 213 }
      ],
      { width: 300, height: 300 }
    )
  ].map(({ fitting }) => fitting.straights[0]!);
}

describe('the pages of a template', () => {
  it('together show the whole of every mark with paper around it, whatever the cut', () => {
    let points = 0;
    for (const straight of listStraights()) {
      for (const cut of straight.cuts) {
        const lines = listLaidLines(layStraight(straight, cut));
        const tiles = tileLines(lines, PAGE);
        for (const [[ax, ay], [bx, by]] of lines) {
          for (let part = 0; part <= 1; part += 1 / 64) {
            const point: Point = [ax + part * (bx - ax), ay + part * (by - ay)];
            expect(tiles.some(({ window }) => inside(point, window, 5))).toBe(true);
            points++;
          }
        }
        for (const { window } of tiles) {
          expect(window.right - window.left).toBeCloseTo(PAGE.width, 9);
          expect(window.bottom - window.top).toBeCloseTo(PAGE.height, 9);
        }
      }
    }
    expect(points).toBeGreaterThan(1000);
  });

  it('hang together: from every page crosses lead to all others', () => {
    const slanting = fc.tuple(fc.integer({ min: -900, max: 900 }), fc.integer({ min: 300, max: 2000 }));
    fc.assert(
      fc.property(slanting, ([across, down]) => {
        const tiles = tileLines(
          [
            [
              [0, 0],
              [across, down]
            ]
          ],
          PAGE
        );
        const reached = new Set([0]);
        for (const i of reached) {
          tiles.forEach(({ window }, k) => {
            if (tiles[i]!.crosses.some((cross) => inside(cross, window))) reached.add(k);
          });
        }
        expect(reached.size).toBe(tiles.length);
        for (const { window, crosses } of tiles)
          for (const cross of crosses) expect(inside(cross, window)).toBe(true);
      })
    );
  });

  it('of a plain bend take one page a row', () => {
    const straight = listStraights()[0]!;
    const tiles = tileLines(listLaidLines(layStraight(straight, straight.cuts[0]!)), PAGE);
    // 1500 mm round the duct and 15 mm beyond either edge, pages of 244 mm with at least 12 mm overlap.
    expect(tiles).toHaveLength(Math.ceil((1530 - 12) / (244 - 12)));
  });

  it('show nothing beyond their edges, and their texts never meet', () => {
    const manner = { scale: 1, words: speak('en'), say: makeSpeech(DEFAULT_SHOW) };
    let pages = 0;
    for (const straight of listStraights()) {
      for (const cut of straight.cuts) {
        const laid = layStraight(straight, cut);
        for (const tile of tileLines(listLaidLines(laid), PAGE)) {
          const figure = drawTemplate(laid, manner, tile);
          const box = measureFigure(figure)!;
          expect(inside([box.left, box.top], tile.window, -1e-3)).toBe(true);
          expect(inside([box.right, box.bottom], tile.window, -1e-3)).toBe(true);
          expect(findOverlaps(figure, 1)).toEqual([]);
          pages++;
        }
      }
    }
    expect(pages).toBeGreaterThan(30);
  });
});
