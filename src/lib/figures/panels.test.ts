import { describe, expect, it } from 'vitest';
import { build, buildBend } from '../../../tests/duct.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Figure, Fill, Point, Stroke } from './figure.ts';
import { tabulatePanels } from './flat-table.ts';
import type { Manner } from './manner.ts';
import { drawPanels } from './panels.ts';
import { findOverlaps } from './room.ts';

const words = speak('en');
const say = makeSpeech(DEFAULT_SHOW);
const at = (over: number, show = DEFAULT_SHOW): Manner => ({ scale: 1 / over, words, say: makeSpeech(show) });

/** The documented example: a taper flat below, without collars. */
const TAPER = build({
  family: 'reducer',
  section: { width: 400, height: 250 },
  params: {
    outlet: { width: 300, height: 150 },
    alignY: 'bottom',
    length: 400,
    collarIn: 0,
    collarOut: 0
  }
}).fitting;
const SHOE = build({
  family: 'takeoff',
  section: { width: 400, height: 250 },
  params: {
    length: 1000,
    wall: 'right',
    station: 500,
    branch: { across: 150, along: 200 },
    entry: 'shoe',
    fit: 'butt'
  }
}).fitting;

const listRings = (figure: Figure, layer: string): (Fill | Stroke)[] =>
  figure.layers
    .find(({ name }) => name === layer)!
    .items.filter((item): item is Fill | Stroke => item.kind !== 'text' && item.points.length > 2);
const listTexts = (figure: Figure): string[] =>
  figure.layers.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])));

function measureSides(points: readonly Point[]): number[] {
  return points.map(([x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return Math.hypot(nextX - x, nextY - y);
  });
}

/** Twice the signed area, positive where the outline runs clockwise on paper, y down. */
function turn(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
}

describe('the panels of a fitting, flat', () => {
  it.each([
    ['a taper', TAPER],
    ['a branch with a shoe', SHOE]
  ])('of %s are each drawn once in their true size, all the same way round', (_, fitting) => {
    const bodies = listPanelBodies(fitting);
    const figure = drawPanels(fitting, at(10));
    for (const [layer, side] of [
      ['outline', 'outer'],
      ['inside', 'inner']
    ] as const) {
      const rings = listRings(figure, layer);
      expect(rings.map(({ about }) => about?.piece)).toEqual(bodies.map(({ name }) => name));
      rings.forEach(({ points }, i) => {
        const sides = measureSides(bodies[i]!.panel[side]);
        measureSides(points).forEach((length, k) => expect(length).toBeCloseTo(sides[k]!, 9));
        // Outside up and downstream to the right, clockwise round the duct runs down: the outline runs against the clock.
        expect(turn(points)).toBeLessThan(0);
      });
    }
  });

  it('lie apart from each other', () => {
    for (const fitting of [TAPER, SHOE]) {
      const boxes = listRings(drawPanels(fitting, at(10)), 'outline').map(({ points }) => {
        const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
        return {
          left: Math.min(...xs),
          right: Math.max(...xs),
          top: Math.min(...ys),
          bottom: Math.max(...ys)
        };
      });
      boxes.forEach((a, i) =>
        boxes.slice(i + 1).forEach((b) => {
          const gap = Math.max(a.left - b.right, b.left - a.right, a.top - b.bottom, b.top - a.bottom);
          expect(gap).toBeGreaterThan(100);
        })
      );
    }
  });

  it('say at every edge its length, bevel and set-back, in the unit shown', () => {
    const mm = listTexts(drawPanels(TAPER, at(8)));
    for (const figure of ['450', '14° · 6', '415', '44.1° · 24', '0°']) expect(mm).toContain(figure);
    const inches = listTexts(drawPanels(TAPER, at(5, { ...DEFAULT_SHOW, length: 'in/16' })));
    for (const figure of ['17 3/4', '14° · 1/4']) expect(inches).toContain(figure);
  });

  it('lie in one row where there is width for it, in one column where there is not', () => {
    const count = (wider: number): number => {
      const rings = listRings(drawPanels(TAPER, at(10), { wider }), 'outline');
      const middles = rings.map(({ points }) => points.reduce((sum, [x]) => sum + x, 0) / points.length);
      return new Set(middles.map((x) => Math.round(x / 100))).size;
    };
    expect([count(5), count(0.2)]).toEqual([4, 1]);
  });

  it('have their names and the faces they make', () => {
    const texts = listTexts(drawPanels(TAPER, at(8)));
    for (const text of ['W1', 'top', 'W2', 'right', 'W3', 'bottom', 'W4', 'left'])
      expect(texts).toContain(text);
  });

  it('never have texts over each other, however small, and say so when they say less than all', () => {
    for (const fitting of [TAPER, SHOE]) {
      for (const over of [2, 5, 10, 20, 50, 100]) {
        expect(findOverlaps(drawPanels(fitting, at(over)), 1 / over)).toEqual([]);
      }
      const says = (over: number) =>
        listTexts(drawPanels(fitting, at(over)))
          .join(' ')
          .includes('left out');
      expect([says(2), says(100)]).toEqual([false, true]);
    }
  });

  it('are none where a fitting has only pieces', () => {
    const { fitting } = buildBend({ turn: 90 });
    expect(drawPanels(fitting, at(10)).layers.flatMap(({ items }) => items)).toEqual([]);
    expect(tabulatePanels(fitting, words, say).rows).toEqual([]);
  });

  it('of every family can be drawn from its example', () => {
    let panels = 0;
    for (const { name, example } of FAMILIES) {
      const fitting: Fitting = build({
        family: name,
        section: { width: 400, height: 250 },
        params: example
      }).fitting;
      const rings = listRings(drawPanels(fitting, at(10)), 'outline');
      expect(rings).toHaveLength(listPanelBodies(fitting).length);
      for (const { points } of rings) expect(points.flat().every(Number.isFinite)).toBe(true);
      panels += rings.length;
    }
    expect(panels).toBeGreaterThan(4);
  });
});

describe('the table of panels', () => {
  it('has a row for every edge, with the side on which its line on the inside lies', () => {
    const { columns, rows } = tabulatePanels(TAPER, words, say);
    expect(columns.map(({ heading }) => heading)).toEqual([
      'Panel',
      'Face',
      'Edge',
      'Kind',
      'Length, mm',
      'Bevel',
      'Set-back, mm',
      'Line on the inside'
    ]);
    expect(rows).toHaveLength(16);
    // The upstream edge is undercut, the downstream one stands out: the wall slopes inward.
    expect(rows.slice(0, 4).map(({ cells }) => cells.join(' '))).toEqual([
      'W1 top 1 plain 450 14° 6 further in',
      'W1 top 2 corner, taped 415 44.1° 24 further in',
      'W1 top 3 plain 350 14° 6 further out',
      'W1 top 4 corner, taped 415 44.1° 24 further in'
    ]);
  });
});
