import { describe, expect, it } from 'vitest';
import {
  EXAMPLES,
  evaluateJob,
  findExport,
  loadFont,
  PARTED_EXAMPLES,
  printPages
} from '../../../tests/paper.ts';
import { measure, type ReadPage } from '../../../tests/pdf.ts';
import { listOutlineLines, outlineOpening, outlinePanel } from '../figures/cut-outline.ts';
import type { Box, Figure, Point, Stroke } from '../figures/figure.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import type { Side } from '../figures/manner.ts';
import { composeTemplates, type TemplateOptions } from '../figures/paper-template.ts';
import { findBody, PAPER_NAMES, PAPERS, ROLLS, type Page, type PaperName } from '../figures/paper.ts';
import { checkPrinter } from '../figures/printer.ts';
import { findOverlaps } from '../figures/room.ts';
import { tileLines, type Line } from '../figures/tiles.ts';
import { unrollCut, unrollFaces, unrollInside } from '../figures/unroll.ts';
import { unrollPoint } from '../figures/unroll-point.ts';
import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { ExportId } from '../words/print.ts';

/** One fitting of every family; of those made in several ways the ways that differ on templates. */
const MODELS = Object.entries({
  ...EXAMPLES,
  'a large straight': {
    family: 'straight',
    section: { width: 900, height: 900 },
    params: { length: 1180 },
    lay: 'along'
  },
  ...PARTED_EXAMPLES
}).map(([what, said]) => ({ what, said }));
const INCHES = { show: { length: 'in/16' } };
const find = (what: string): Model => evaluateJob([MODELS.find((one) => one.what === what)!.said]);
const builtOf = (model: Model): Fitting => model.fittings[0]!.built!.fitting;

/** Of few pages, where it is papers that are looked at. */
const SMALL = { width: 150, height: 100 };
const SMALL_BEND = evaluateJob([
  {
    family: 'bend',
    section: SMALL,
    params: { turn: 60, pieces: 2, heel: 'right', throatIn: 200, throatOut: 200 }
  }
]);
const SMALL_OPENING = evaluateJob([
  {
    family: 'opening',
    section: SMALL,
    params: { length: 330, wall: 'top', station: 150, shape: 'round', diameter: 60 }
  }
]);

/** Either kind with either side up, on sheets and on a roll; every other one in inches. */
const SAMPLES: readonly { of: NonNullable<TemplateOptions['of']>; side: Side; paper: PaperName }[] = [
  { of: 'strips', side: 'outside', paper: 'a4' },
  { of: 'strips', side: 'inside', paper: 'letter' },
  { of: 'strips', side: 'outside', paper: 'roll-914' },
  { of: 'wholes', side: 'inside', paper: 'a4' },
  { of: 'wholes', side: 'outside', paper: 'a1' },
  { of: 'wholes', side: 'inside', paper: 'roll-610' }
];

/** The pages of templates, every one composed once. */
function compose(model: Model, paper: PaperName, options: TemplateOptions = {}): Page[] {
  return composeTemplates(model, 0, paper, options).map((page) => ({ ...page }));
}

/** The pages of one template, by what their titles begin with: `C1 1/7`. */
function listOwn(pages: readonly Page[], name: string): Page[] {
  return pages.filter(({ parts }) => {
    const [title] = parts[0]!.figure.layers[0]!.items.filter((item) => item.kind === 'text');
    return title!.text.startsWith(`${name} `);
  });
}

/** What has to be cut or marked, each line once, outside up as the kernel has it: of strips and wholes alike. */
function listWanted(
  fitting: Fitting,
  of: TemplateOptions['of']
): { name: string; height: number; lines: Line[] }[] {
  const ofStraights = fitting.straights.flatMap((straight) => {
    const { edges } = unrollFaces(straight);
    const height = edges[edges.length - 1]!;
    const cuts = straight.cuts.map((cut) => {
      const mark = unrollCut(straight, cut);
      const outer = mark.slice(1).map((point, i): Line => [mark[i]!, point]);
      return { name: cut.name, height, lines: [...outer, ...unrollInside(straight, cut)] };
    });
    const openings = straight.openings.map((opening) => ({
      name: opening.name,
      height: 0,
      lines: listOutlineLines(outlineOpening(opening, straight))
    }));
    if (of === 'strips') return [...cuts, ...openings];
    const rest = [
      ...edges.map((y): Line => [
        [0, y],
        [straight.length, y]
      ]),
      ...[0, straight.length].map((x): Line => [
        [x, 0],
        [x, height]
      ]),
      ...straight.marks.map(({ face, from, to }): Line => [
        unrollPoint(straight, face, from),
        unrollPoint(straight, face, to)
      ])
    ];
    return [
      {
        name: straight.name,
        height,
        lines: [...[...cuts, ...openings].flatMap(({ lines }) => lines), ...rest]
      }
    ];
  });
  const panels = listPanelBodies(fitting).map((body) => ({
    name: body.name,
    height: 0,
    lines: listOutlineLines(outlinePanel(body))
  }));
  return [...ofStraights, ...panels];
}

/** The strokes of a page's template where they lie on what is laid out, not on the page. */
function listDrawn({ parts }: Page): { window: Box; lines: Line[] } {
  const [drawing, frame] = parts.slice(1) as [Page['parts'][number], Page['parts'][number]];
  const back = ([x, y]: Point): Point => [x - drawing.at[0], y - drawing.at[1]];
  const [left, top, right, bottom] = findFrame(frame.figure);
  const [from, to] = [back([left, top]), back([right, bottom])];
  const layers = drawing.figure.layers.filter(({ name }) => ['outline', 'inside', 'cuts'].includes(name));
  const strokes = layers.flatMap(({ items }) =>
    items.filter((item): item is Stroke => item.kind === 'stroke')
  );
  return {
    window: { left: from[0], top: from[1], right: to[0], bottom: to[1] },
    lines: strokes.flatMap(({ points, closed }) => {
      const ring = closed ? [...points, points[0]!] : points;
      return ring.slice(1).map((point, i): Line => [ring[i]!, point]);
    })
  };
}

function findFrame(figure: Figure): [number, number, number, number] {
  const { points } = figure.layers[0]!.items[0] as Stroke;
  return [...points[0]!, ...points[2]!] as [number, number, number, number];
}

const distance = ([x, y]: Point, [[ax, ay], [bx, by]]: Line): number => {
  const square = (bx - ax) ** 2 + (by - ay) ** 2;
  const along = square === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square;
  const at = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - at * (bx - ax), y - ay - at * (by - ay));
};
const isIn = ([x, y]: Point, { left, right, top, bottom }: Box): boolean =>
  x >= left && x <= right && y >= top && y <= bottom;

/** From where to where of a line a window shows, as shares of it; null where it shows nothing. */
function findShown([from, to]: Line, { left, right, top, bottom }: Box): [number, number] | null {
  let [first, last] = [0, 1];
  for (const [axis, low, high] of [
    [0, left, right],
    [1, top, bottom]
  ] as const) {
    const run = to[axis] - from[axis];
    if (run === 0 && (from[axis] < low || from[axis] > high)) return null;
    if (run === 0) continue;
    const ends = [(low - from[axis]) / run, (high - from[axis]) / run].sort((a, b) => a - b);
    [first, last] = [Math.max(first, ends[0]!), Math.min(last, ends[1]!)];
  }
  return first < last ? [first, last] : null;
}

const NEAR = 0.05;

/**
 * What is wrong with pages as a picture of lines: a part of a line that is on no page, or that a page does not show where
 * it should. What a page shows of a line is straight, so it is drawn where both its ends lie on one stroke.
 */
function findFaults(pages: readonly ReturnType<typeof listDrawn>[], wanted: readonly Line[]): string[] {
  return wanted.flatMap((line) => {
    const at = (share: number): Point => [
      line[0][0] + share * (line[1][0] - line[0][0]),
      line[0][1] + share * (line[1][1] - line[0][1])
    ];
    const shown = pages.flatMap(({ window, lines }) => {
      const part = findShown(line, window);
      return part ? [{ part, lines }] : [];
    });
    const missing = shown
      .filter(
        ({ part, lines }) => !lines.some((other) => part.every((share) => distance(at(share), other) < NEAR))
      )
      .map(({ part }) => `not drawn from ${at(part[0])} to ${at(part[1])}`);
    const reached = shown
      .map(({ part }) => part)
      .sort(([a], [b]) => a - b)
      .reduce((end, [from, to]) => (from <= end ? Math.max(end, to) : end), 0);
    return reached < 1 ? [...missing, `on no page at ${at(reached)}`] : missing;
  });
}

/** What pages show beside the lines: upright and level ones are corners, ends and flaps. */
function findMore(pages: readonly ReturnType<typeof listDrawn>[], wanted: readonly Line[]): string[] {
  return pages
    .flatMap(({ lines }) => lines)
    .filter(([from, to]) => from[0] !== to[0] && from[1] !== to[1])
    .filter((line) => !wanted.some((other) => line.every((end) => distance(end, other) < NEAR)))
    .map(([from, to]) => `drawn from ${from} to ${to}`);
}

const turnLines = (lines: readonly Line[], side: Side, height: number): Line[] => {
  const turn = ([x, y]: Point): Point => (side === 'inside' ? [x, height - y] : [x, y]);
  return lines.map(([from, to]) => [turn(from), turn(to)]);
};

/** Nothing is nearer to the edge of the paper, mm. */
const MARGIN = 9;

/** Fills are cut out on a grid of so many mm. */
const SNAP = 1e-3;

/** No text lies over another, what is drawn stays in the frame of the page, all else off the edges of the paper. */
function expectApart({ width, height, parts }: Page): void {
  const frame = parts[2]?.figure;
  const body = frame?.layers[0]!.name === 'frame' ? findFrame(frame) : null;
  parts.forEach(({ figure, scale, at }, n) => {
    expect(findOverlaps(figure, scale)).toEqual([]);
    const box = measureOnPaper(figure, scale);
    if (!box) return;
    const [left, top, right, bottom] = body && n === 1 ? body : [MARGIN, 10, width - 10, height - MARGIN];
    expect(at[0] + box.left).toBeGreaterThan(left - SNAP);
    expect(at[1] + box.top).toBeGreaterThan(top - SNAP);
    expect(at[0] + box.right).toBeLessThan(right + SNAP);
    expect(at[1] + box.bottom).toBeLessThan(bottom + SNAP);
  });
}

describe('the pages of a template put together', () => {
  it.each(MODELS)('are the untiled figure, and each has its texts apart within it, of $what', ({ said }) => {
    let compared = 0;
    for (const [i, { of, side, paper }] of SAMPLES.entries()) {
      const model = evaluateJob([said], i % 2 === 1 ? INCHES : {});
      const pages = compose(model, paper, { of, side });
      for (const { name, height, lines } of listWanted(builtOf(model), of)) {
        const wanted = turnLines(lines, side, height);
        const drawn = listOwn(pages, name).map(listDrawn);
        expect(findFaults(drawn, wanted), `${name}, ${paper}`).toEqual([]);
        expect(findMore(drawn, wanted), `${name}, ${paper}`).toEqual([]);
        compared += wanted.length;
      }
      for (const page of pages) expectApart(page);
    }
    expect(compared).toBeGreaterThan(20);
  });

  it('leave out pages on which nothing lies', () => {
    const model = find('a large straight');
    const own = listOwn(compose(model, 'a4', { of: 'wholes' }), 'F1-A').map(listDrawn);
    for (const { window, lines } of own) expect(lines.some(([from]) => isIn(from, window))).toBe(true);
    const [rows, columns] = [0, 1].map(
      (k) => new Set(own.map(({ window }) => (k === 0 ? window.top : window.left).toFixed(3))).size
    );
    expect(own.length).toBeLessThan(rows! * columns!);
  });
});

describe('a page of a template', () => {
  it('says which side is up, of which fitting and which state of the job it is, and its place in the stack', async () => {
    for (const [side, said] of [
      ['outside', 'OUTSIDE UP'],
      ['inside', 'INSIDE UP, mirrored']
    ] as const) {
      const pages = await printPages('templates', SMALL_BEND, { side, title: { revision: 'C' } });
      expect(pages.length).toBeGreaterThan(3);
      const stamps = pages.map(({ texts }, i) => {
        const all = texts.map(({ text }) => text);
        expect(all.filter((text) => text.startsWith(said)).length).toBeGreaterThan(0);
        expect(all.filter((text) => text.includes('F1 bend · Reading room supply'))).toHaveLength(1);
        expect(all).toContain(`Page ${i + 1} of ${pages.length}`);
        return all.filter((text) => /^job [0-9a-f]{12}, revision C$/.test(text));
      });
      expect(new Set(stamps.flat()).size).toBe(1);
      expect(stamps.every((found) => found.length === 1)).toBe(true);
      const titles = pages.slice(1).map(({ texts }) => texts[0]!.text.split(' · ')[0]);
      expect(new Set(titles).size).toBe(pages.length - 1);
    }
  });

  it('explains on the first one every kind of line, each drawn as it is', async () => {
    const [first] = await printPages('whole', find('a slanted opening on the left'));
    const { lines, texts } = first!;
    for (const [said, width, dashed] of [
      ['01.2 continuous wide: what is cut', 0.5, false],
      ['02.1 dashed narrow', 0.25, true],
      ['01.1 continuous narrow', 0.25, false],
      ['04.1 long-dashed dotted narrow', 0.25, true]
    ] as const) {
      const text = texts.find((one) => one.text.startsWith(said))!;
      const sample = lines.find(
        (line) => Math.abs(measure(line) - 20) < 0.01 && Math.abs(line.from[1] - text.y - 0.9) < 1
      )!;
      expect(Math.abs(sample.width - width), said).toBeLessThan(0.01);
      expect(sample.dashed, said).toBe(dashed);
    }
  });

  it('leans the blade the other way where the inside is up', () => {
    const lean = (side: Side): number[] => {
      const [page] = listOwn(compose(find('a slanting take-off let in'), 'a2', { side }), 'O1');
      const blades = page!.parts[1]!.figure.layers.find(({ name }) => name === 'blades')!.items as Stroke[];
      return blades.filter(({ line }) => line === 'cut').map(({ points }) => points[1]![0] - points[0]![0]);
    };
    const [outside, inside] = [lean('outside'), lean('inside')];
    expect(outside).toHaveLength(2);
    // Both ends of the opening are cut by blades that lean downstream, seen from outside.
    expect(outside.map(Math.sign)).toEqual(inside.map((run) => -Math.sign(run)));
  });
});

/** Lengths of strokes on a page, to find one in. */
const findLength = ({ lines }: ReadPage, wanted: number, within: number): boolean =>
  lines.some((line) => Math.abs(measure(line) - wanted) < within);

describe('on every paper', () => {
  it.each(PAPER_NAMES)('%s: pages have its size, and lengths are true within 0.1 mm', async (paper) => {
    const pages = await printPages('whole', SMALL_OPENING, { paper });
    const roll = (ROLLS as Readonly<Record<string, number>>)[paper];
    pages.forEach((page, i) => {
      const sides = [page.width, page.height].sort((a, b) => a - b);
      if (roll === undefined || i === 0) {
        const sheet = roll === undefined ? PAPERS[paper as keyof typeof PAPERS] : PAPERS.a4;
        expect(sides[0]).toBeCloseTo(sheet.width, 2);
        expect(sides[1]).toBeCloseTo(sheet.height, 2);
      } else {
        expect(Math.min(...sides.map((side) => Math.abs(side - roll)))).toBeLessThan(0.01);
        expect(Math.max(...sides)).toBeLessThanOrEqual(5000);
      }
      for (const bar of [100, 101.6]) expect(findLength(page, bar, 0.05)).toBe(true);
    });
    // Stations are ticked every 50 mm; of two that are apart by more, pages show the others.
    const ticks = pages.slice(1).flatMap(({ lines, texts }) => {
      const marks = lines.filter(
        ({ from, to, width }) =>
          width < 0.3 && from[0] === to[0] && Math.abs(measure({ from, to }) - 5) < 0.01
      );
      const xs = [...new Set(marks.map(({ from }) => from[0].toFixed(3)))].map(Number).sort((a, b) => a - b);
      expect(texts.length).toBeGreaterThan(0);
      return xs.slice(1).map((x, i) => x - xs[i]!);
    });
    expect(ticks.length).toBeGreaterThan(0);
    for (const pitch of ticks) expect(Math.abs(pitch / 50 - Math.round(pitch / 50)) * 50).toBeLessThan(0.1);
  });

  it.each(['a3', 'a1', 'ansi-e', 'roll-610', 'roll-914'] as const)(
    '%s: mark-out, gauges and card model are written, on a roll as on A4',
    async (paper) => {
      for (const id of ['mark-out', 'gauges', 'card-model'] as const satisfies readonly ExportId[]) {
        const pages = await printPages(id, SMALL_BEND, { paper });
        const { width, height } = paper in PAPERS ? PAPERS[paper as keyof typeof PAPERS] : PAPERS.a4;
        for (const page of pages) {
          expect(Math.min(page.width, page.height)).toBeCloseTo(width, 2);
          expect(Math.max(page.width, page.height)).toBeCloseTo(height, 2);
        }
      }
    }
  );

  it('a page of a roll is as long as what lies on it, and never too short for the check bars', () => {
    const [, straight] = composeTemplates(find('straight'), 0, 'roll-1067', { of: 'wholes' });
    // 1500 mm round, laid across the roll in two: of 1180 mm with 15 mm around, and margins of 36 mm.
    expect(Math.max(straight!.width, straight!.height)).toBeCloseTo(1180 + 30 + 36, 6);
    const [, opening] = composeTemplates(find('a round opening'), 0, 'roll-610');
    expect(Math.min(opening!.width, opening!.height)).toBe(297);
  });
});

describe('the way a template lies', () => {
  it('takes the fewest sheets of upright and across, whatever it is of', () => {
    const lying = { across: 0, upright: 0 };
    for (const what of [
      'offset',
      'path',
      'a reducer of panels',
      'three ways',
      'a slanted opening on the left'
    ]) {
      const model = find(what);
      for (const paper of ['a4', 'a2', 'ansi-d'] as const) {
        const pages = compose(model, paper);
        for (const { name, lines } of listWanted(builtOf(model), 'strips')) {
          const counts = [false, true].map((landscape) => {
            const { left, top, right, bottom } = findBody(paper, landscape);
            return tileLines(lines, { width: right - left, height: bottom - top }).length;
          });
          const own = listOwn(pages, name);
          expect(own.length, `${what} ${name}`).toBe(Math.min(...counts));
          lying[own[0]!.width > own[0]!.height ? 'across' : 'upright']++;
        }
      }
    }
    expect(Math.min(lying.across, lying.upright)).toBeGreaterThan(2);
  });
});

describe('a printer', () => {
  it('is corrected up to 3 mm of 100, refused beyond, and where no length is given', () => {
    for (const printed of [97, 98.5, 100, 103])
      expect(checkPrinter(printed)).toEqual({ factor: 100 / printed });
    expect(checkPrinter(96.9)).toEqual({ refused: 'off', by: expect.closeTo(-3.1, 9) as number });
    expect(checkPrinter(103.1)).toEqual({ refused: 'off', by: expect.closeTo(3.1, 9) as number });
    for (const printed of [NaN, Infinity, 0, -100])
      expect(checkPrinter(printed)).toEqual({ refused: 'not-a-length' });
  });

  it.each([96.9, 103.1, NaN])('that prints 100 mm as %s gets no templates', async (printed) => {
    for (const id of ['templates', 'whole'] as const) {
      const written = findExport(id).write(find('bend'), 0, { paper: 'a4', loadFont, printed });
      await expect(written).rejects.toMatchObject({ code: 'printer-refused', printed });
    }
  });

  it.each([
    [98.5, 'a4'],
    [101.7, 'letter'],
    [97, 'roll-914'],
    [103, 'a1']
  ] as const)(
    'that prints 100 mm as %s gets all drawn so that it comes out true, on %s',
    async (printed, paper) => {
      const factor = 100 / printed;
      const pages = await printPages('templates', find('a reducer of panels'), { paper, printed });
      for (const { width, height, lines, texts } of pages) {
        for (const bar of [100, 101.6])
          expect(
            lines.filter((line) => Math.abs(measure(line) - bar * factor) < 0.02).length
          ).toBeGreaterThanOrEqual(2);
        expect(texts.map(({ text }) => text).join(' ')).toContain(`prints 100 mm as ${printed}.`);
        // What comes out lies within the paper by its margin: the printer shrinks or stretches about the middle.
        for (const [x, y] of lines.flatMap(({ from, to }) => [from, to])) {
          const [out, down] = [(x - width / 2) / factor + width / 2, (y - height / 2) / factor + height / 2];
          expect(Math.min(out, down, width - out, height - down)).toBeGreaterThan(MARGIN);
        }
      }
      const [w1] = listPanelBodies(builtOf(find('a reducer of panels')));
      const [[x0, y0], [x1, y1]] = w1!.panel.outer as unknown as [Point, Point];
      const first = Math.hypot(x1 - x0, y1 - y0);
      const own = pages.filter(({ texts }) => texts.some(({ text }) => text.startsWith('W1 ')));
      if (own.length === 1) expect(findLength(own[0]!, first * factor, 0.05)).toBe(true);
    }
  );

  it('that is corrected still gets every line', () => {
    const model = find('bend');
    for (const printed of [97, 103]) {
      const pages = compose(model, 'a4', { printed });
      for (const { name, lines } of listWanted(builtOf(model), 'strips'))
        expect(findFaults(listOwn(pages, name).map(listDrawn), lines), name).toEqual([]);
    }
  });
});

describe('while templates are written', () => {
  it('every page is told of when it is drawn, and composed no earlier', async () => {
    const pages = composeTemplates(find('bend'), 0, 'a4');
    const composed: number[] = [];
    const watched = pages.map((page, i): Page => ({
      width: page.width,
      height: page.height,
      get parts() {
        composed.push(i);
        return page.parts;
      }
    }));
    const { writePdf } = await import('./pdf.ts');
    const told: [number, number][] = [];
    await writePdf(watched, {
      font: await loadFont(),
      title: 'bend',
      tell: (done, of) => {
        told.push([done, of]);
        expect(composed).toHaveLength(done);
      }
    });
    expect(told).toEqual(pages.map((_, i) => [i + 1, pages.length]));
  });

  it('what the hearer throws ends it before the next page', async () => {
    const told: number[] = [];
    const written = findExport('whole').write(find('bend'), 0, {
      paper: 'a4',
      loadFont,
      tell: async (done) => {
        told.push(done);
        await Promise.resolve();
        if (done === 3) throw new Error('no more');
      }
    });
    await expect(written).rejects.toThrow('no more');
    expect(told).toEqual([1, 2, 3]);
  });
});
