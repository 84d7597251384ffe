import { describe, expect, it } from 'vitest';
import { evaluateJob, findExport, loadFont, PARTED_EXAMPLES, printPages } from '../../../tests/paper.ts';
import { measure, type ReadLine, type ReadPage } from '../../../tests/pdf.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import { composeCard } from '../figures/paper-card.ts';
import { composeMarkOut } from '../figures/paper-mark-out.ts';
import { composeTemplates } from '../figures/paper-template.ts';
import { PAPERS, type Page } from '../figures/paper.ts';
import { findOverlaps } from '../figures/room.ts';
import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type PanelPoint } from '../kernel/fitting/fitting.ts';
import { EXPORTS } from './index.ts';

const MODELS = Object.entries(PARTED_EXAMPLES).map(([what, said]) => ({
  what,
  model: evaluateJob([said])
}));
const find = (what: keyof typeof PARTED_EXAMPLES): Model => evaluateJob([PARTED_EXAMPLES[what]]);
const say = (pages: readonly ReadPage[]): string =>
  pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');

const offered = (model: Model): string[] =>
  EXPORTS.filter((one) => one.applies(model, 0)).map(({ id }) => id);

describe.each(MODELS)('of $what', ({ model }) => {
  it('all that is printed lies on its page', () => {
    for (const paper of ['a4', 'letter'] as const) {
      const entries = { digest: null };
      const documents: Page[][] = [composeMarkOut(model, 0, paper, entries)];
      if (offered(model).includes('templates')) documents.push(composeTemplates(model, 0, paper));
      if (offered(model).includes('card-model')) documents.push(composeCard(model, 0, paper));
      for (const { width, height, parts } of documents.flat()) {
        expect(Math.min(width, height)).toBe(PAPERS[paper].width);
        for (const { figure, scale, at } of parts) {
          const box = measureOnPaper(figure, scale);
          if (!box) continue;
          expect(at[0] + box.left).toBeGreaterThanOrEqual(0);
          expect(at[1] + box.top).toBeGreaterThanOrEqual(0);
          expect(at[0] + box.right).toBeLessThanOrEqual(width - 10);
          expect(at[1] + box.bottom).toBeLessThanOrEqual(height);
        }
      }
    }
  });

  it('no text of a template lies over another', () => {
    if (!offered(model).includes('templates')) return;
    for (const { parts } of composeTemplates(model, 0, 'a4').slice(1)) {
      for (const { figure, scale } of parts) expect(findOverlaps(figure, scale)).toEqual([]);
    }
  });
});

describe('exports of a fitting of several parts', () => {
  it('are those that make sense of it', () => {
    const all = EXPORTS.map(({ id }) => id);
    const without = (...ids: string[]): string[] => all.filter((id) => !ids.includes(id));
    expect(offered(find('one side that turns'))).toEqual(all);
    expect(offered(find('a reducer without collars'))).toEqual(without('whole', 'card-model', 'piece-table'));
    expect(offered(find('a folded reducer'))).toEqual(without('templates', 'card-model'));
    expect(offered(find('a round opening'))).toEqual(without('gauges'));
  });

  it('have in the mark-out what is marked on single faces, openings and panels', async () => {
    const tell = async (what: keyof typeof PARTED_EXAMPLES): Promise<string> =>
      say(await printPages('mark-out', find(what)));
    const shoe = await tell('a take-off with a shoe');
    for (const wanted of ['O1', 'Openings', 'W1', 'W5', 'Panels', 'Order of work'])
      expect(shoe).toContain(wanted);
    expect(await tell('a folded reducer')).toContain('Marks on single faces');
    const bare = await tell('a reducer without collars');
    expect(bare).toContain('Panels');
    expect(bare).not.toContain('Mark table');
  });

  it('have the marks of every straight and the panels in one SVG, at one scale', async () => {
    const write = async (what: keyof typeof PARTED_EXAMPLES): Promise<string> =>
      (await findExport('marks-figure').write(find(what), 0, { paper: 'a4', loadFont })) as string;
    const reducer = await write('a reducer of panels');
    expect(reducer).toContain('<title>F1-A, F1-B, Panels, 1:10</title>');
    for (const group of ['F1-A-outline', 'F1-B-outline', 'Panels-outline'])
      expect(reducer).toContain(`<g id="${group}">`);
    const ids = [...reducer.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(await write('a take-off')).toContain('<title>F1-A, F1-B, 1:10</title>');
  });

  it('have gauges of the bevels of openings and panels, and of marks on single faces', async () => {
    const tell = async (what: keyof typeof PARTED_EXAMPLES): Promise<string> =>
      say(await printPages('gauges', find(what)));
    const panels = await tell('a reducer of panels');
    expect(panels).toContain('Bevel 14° from upright');
    expect(panels).toContain('F1 W1: top');
    expect(panels).toContain('Bevel 44.1° from upright');
    expect(await tell('a slanting take-off let in')).toContain('F1 O1: bottom');
    // The slope on the cheeks is 14° from the edge.
    expect(await tell('a folded reducer')).toContain('Line 76° from square');
  });

  it('say in the card model what it has not', async () => {
    const shoe = say(await printPages('card-model', find('a take-off with a shoe')));
    expect(shoe).toContain('Cut the openings out (O1).');
    expect(shoe).toContain('Panels (W1, W2, W3, W4, W5) are not in this model');
  });
});

/** The strokes of a page that are wide, or that are dashed: the outline on the facing, or that on the inside. */
function listOutlines({ lines }: ReadPage, dashed: boolean): ReadLine[] {
  return lines.filter((line) =>
    dashed ? line.dashed && line.width < 0.4 : !line.dashed && line.width > 0.4
  );
}

/** Lengths of the edges of an outline, mm. */
function measureOutline(points: readonly PanelPoint[]): number[] {
  return points.map(([x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return Math.hypot(nextX - x, nextY - y);
  });
}

describe('the templates of panels and openings', () => {
  // So small that every panel is on one page.
  const small = evaluateJob([
    {
      family: 'reducer',
      section: { width: 90, height: 70 },
      params: {
        outlet: { width: 60, height: 40 },
        alignY: 'bottom',
        length: 120,
        collarIn: 0,
        collarOut: 0
      }
    }
  ]);

  it.each(['a4', 'letter'] as const)(
    'have every edge of both outlines within 0.2 mm on %s',
    async (paper) => {
      const pages = await printPages('templates', small, { paper });
      const panels = listPanelBodies(small.fittings[0]!.built!.fitting);
      expect(panels).toHaveLength(4);
      for (const { name, panel } of panels) {
        const own = pages.filter(({ texts }) => texts.some(({ text }) => text.startsWith(`${name} 1/1`)));
        expect(own, name).toHaveLength(1);
        for (const [points, dashed] of [
          [panel.outer, false],
          [panel.inner, true]
        ] as const) {
          const drawn = listOutlines(own[0]!, dashed).map(measure);
          for (const length of measureOutline(points)) {
            const nearest = drawn.reduce((a, b) => (Math.abs(b - length) < Math.abs(a - length) ? b : a));
            expect(Math.abs(nearest - length), `${name}: ${length}`).toBeLessThan(0.2);
          }
        }
      }
    }
  );

  it('have the outline of a larger panel in parts that add up to it over the pages, each overlap twice', async () => {
    const model = find('a reducer of panels');
    const pages = await printPages('templates', model);
    const [w1] = listPanelBodies(model.fittings[0]!.built!.fitting);
    const own = pages.filter(({ texts }) => texts.some(({ text }) => /^W1 \d\/\d/.test(text)));
    expect(own.length).toBeGreaterThan(1);
    // The two slanting edges run 412.3 along and 50 across: a part of them on a page has that direction.
    const slanting = own
      .flatMap((page) => listOutlines(page, false))
      .filter((line) => measure(line) > 12 && line.from[0] !== line.to[0] && line.from[1] !== line.to[1]);
    expect(slanting.length).toBeGreaterThan(3);
    const [[cross0, down0], , , [cross3, down3]] = w1!.panel.outer as [
      PanelPoint,
      PanelPoint,
      PanelPoint,
      PanelPoint
    ];
    const wanted = (cross3 - cross0) / (down3 - down0);
    for (const { from, to } of slanting) {
      expect(Math.abs((to[1] - from[1]) / (to[0] - from[0]))).toBeCloseTo(Math.abs(wanted), 3);
    }
    const total = slanting.reduce((sum, line) => sum + measure(line), 0);
    expect(total).toBeGreaterThan(2 * Math.hypot(412.311, 50) - 0.4);
  });

  it('say name, face, flow, length and bevel of every edge, and that the outside is up', async () => {
    const told = say(await printPages('templates', find('a reducer of panels')));
    for (const wanted of ['W1', 'top face, outside up', 'flow', 'bevel 44.1°', 'bevel 14°', 'set-back 24']) {
      expect(told).toContain(wanted);
    }
  });

  it('of a round opening are a circle of its diameter, laid by its station', async () => {
    const pages = await printPages('templates', find('a round opening'));
    const [, page] = pages;
    expect(pages).toHaveLength(2);
    const ends = listOutlines(page!, false)
      .filter((line) => measure(line) < 5)
      .flatMap(({ from, to }) => [from, to]);
    const [xs, ys] = [ends.map(([x]) => x), ends.map(([, y]) => y)];
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - 160)).toBeLessThan(0.2);
    expect(Math.abs(Math.max(...ys) - Math.min(...ys) - 160)).toBeLessThan(0.2);
    const told = say([page!]);
    expect(told).toContain('station 400 mm');
    expect(told).toContain('225 mm from the edge to the left face');
    expect(told).toContain('diameter 160 mm');
  });
});
