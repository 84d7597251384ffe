import { describe, expect, it } from 'vitest';
import { DEFAULT_SHOW, type Job, type SaidFitting } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import type { Obstacle, SiteEnd } from '../kernel/site/site.ts';
import { speakSite } from '../words/site-drawing.ts';
import { makeSpeech } from '../words/words.ts';
import { pairViews } from './first-angle.ts';
import type { Figure, Item, Point, Stroke, Text } from './figure.ts';
import { findOverlaps } from './room.ts';
import { drawInSite } from './site.ts';
import { listFar, type Far } from './site-far.ts';
import { findView, type ViewName } from './view.ts';

const say = makeSpeech(DEFAULT_SHOW);
const words = speakSite('en');
const SCALES = [1 / 60, 1 / 40, 1 / 20, 1 / 10];
const VIEWS: readonly ViewName[] = ['true', 'elevation', 'plan', 'end'];

// 450 × 300 outside: the top is 150 above the axis, the right side 225 from it.
const SECTION = { width: 400, height: 250 };
const STRAIGHT: SaidFitting = { family: 'straight', section: SECTION, params: { length: 1000 } };
const END: SiteEnd = { at: [1000, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] };

const beamAt = (underside: number, more: Partial<Obstacle> = {}): Obstacle => ({
  name: 'beam',
  kind: 'beam',
  min: [400, underside, -3000],
  max: [600, underside + 400, 3000],
  ...more
});

interface Scene {
  readonly said?: SaidFitting;
  readonly obstacles?: readonly Obstacle[];
  readonly end?: SiteEnd;
  readonly view?: ViewName;
  readonly scale?: number;
  readonly driven?: number | null;
  readonly reached?: number | null;
}

function draw({
  said = STRAIGHT,
  obstacles = [],
  end = END,
  view = 'elevation',
  scale = 1 / 20,
  driven = null,
  reached = null
}: Scene): Figure {
  const job: Job = {
    format: 'gorewright-job',
    version: 1,
    fittings: [{ ...said, tag: 'stands' }],
    site: { fitting: 'stands', section: SECTION, end, clearance: 25, obstacles }
  };
  const { fittings, site, board } = evaluate(job);
  const { fitting } = fittings[0]!.built!;
  const picture = { site: site!, thickness: board.thickness, driven, reached, words };
  return drawInSite(fitting, picture, findView(view, fitting), scale, say);
}

function listItems(figure: Figure, layer: string): readonly Item[] {
  return figure.layers.find(({ name }) => name === layer)!.items;
}

const listTexts = (items: readonly Item[]): Text[] =>
  items.flatMap((item) => (item.kind === 'text' ? [item] : []));

const listLines = (items: readonly Item[]): Stroke[] =>
  items.flatMap((item) => (item.kind === 'stroke' ? [item] : []));

const tellTexts = (figure: Figure, layer: string): string[] =>
  listTexts(listItems(figure, layer)).map(({ text }) => text);

function findExtent(items: readonly Item[]): { x: [number, number]; y: [number, number] } {
  const points = items.flatMap((item): readonly Point[] => (item.kind === 'text' ? [] : item.points));
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}

describe('the clearance of a duct from a beam is dimensioned where it is smallest', () => {
  it('with its true distance, from the underside of the beam to the top of the duct', () => {
    const items = listItems(draw({ obstacles: [beamAt(190)] }), 'clearance');
    expect(listTexts(items).map(({ text, tone }) => [text, tone])).toEqual([['40', undefined]]);
    const [line] = listLines(items);
    // Up on paper is less.
    expect(line!.points.map(([, y]) => y).sort((a, b) => a - b)).toEqual([-190, -150]);
    expect(line!.points[0]![0]).toBe(line!.points[1]![0]);
  });

  it('in the accent of what is wrong when it is too small, and the beam with it', () => {
    const figure = draw({ obstacles: [beamAt(168)] });
    expect(listTexts(listItems(figure, 'clearance')).map(({ text, tone }) => [text, tone])).toEqual([
      ['18', 'wrong']
    ]);
    expect(listLines(listItems(figure, 'clearance')).every(({ tone }) => tone === 'wrong')).toBe(true);
    expect(listLines(listItems(figure, 'site')).some(({ tone }) => tone === 'wrong')).toBe(true);
  });

  it('and an overlap is called one', () => {
    const figure = draw({ obstacles: [beamAt(138)] });
    expect(listTexts(listItems(figure, 'clearance')).map(({ text, tone }) => [text, tone])).toEqual([
      ['overlap 12', 'wrong']
    ]);
    // In the middle of what they have in common: 400 … 600 along, 138 … 150 up.
    const [cross] = listLines(listItems(figure, 'clearance'));
    const [a, b] = cross!.points;
    [(a![0] + b![0]) / 2 - 500, (a![1] + b![1]) / 2 + 144].forEach((differs) =>
      expect(Math.abs(differs)).toBeLessThan(1e-6)
    );
    // What runs into the duct is drawn over it.
    expect(listLines(listItems(figure, 'site over')).map(({ line, tone }) => [line, tone])).toContainEqual([
      'phantom',
      'wrong'
    ]);
  });

  it('which is marked in the duct, however the beam is turned', () => {
    for (const view of VIEWS) {
      const figure = draw({ obstacles: [beamAt(138, { turn: 25 })], view });
      const [cross] = listLines(listItems(figure, 'clearance'));
      const { x, y } = findExtent([cross!]);
      const duct = findExtent(listItems(figure, 'outline'));
      expect(x[0] >= duct.x[0] - 40 && x[1] <= duct.x[1] + 40).toBe(true);
      expect(y[0] >= duct.y[0] - 40 && y[1] <= duct.y[1] + 40).toBe(true);
    }
  });

  it('also where the view looks along it: a cross with the same figure', () => {
    const items = listItems(draw({ obstacles: [beamAt(168)], view: 'plan' }), 'clearance');
    expect(listTexts(items).map(({ text }) => text)).toEqual(['18']);
    expect(
      listLines(items)
        .slice(0, 2)
        .every(({ points }) => points.length === 2)
    ).toBe(true);
  });

  it('from the tightest, and from every other that is too near', () => {
    const pipe = (underside: number, name: string): Obstacle => ({
      name,
      kind: 'pipe',
      min: [700, underside, -100],
      max: [760, underside + 60, 100]
    });
    const told = (...obstacles: Obstacle[]): string[] => tellTexts(draw({ obstacles }), 'clearance').sort();
    expect(told(beamAt(190), pipe(200, 'pipe'))).toEqual(['40']);
    expect(told(beamAt(170), pipe(165, 'pipe'))).toEqual(['15', '20']);
  });
});

describe('the boxes of a site', () => {
  it('say their name and what they want', () => {
    const texts = tellTexts(draw({ obstacles: [beamAt(190, { clearance: 30 })] }), 'site names');
    expect(texts).toEqual(['beam', '30 clear', 'end']);
  });

  it('are hatched outlines beside the duct and thin double-dot lines before it', () => {
    const lines = (view: ViewName, layer: string): string[] => [
      ...new Set(
        listLines(listItems(draw({ obstacles: [beamAt(190)], view }), layer)).map(({ line }) => line)
      )
    ];
    expect(lines('elevation', 'site')).toEqual(['narrow']);
    expect(lines('elevation', 'site over')).toEqual([]);
    // Seen from above the beam lies over the duct; its ends are broken off with narrow lines.
    expect(lines('plan', 'site')).toEqual([]);
    expect(lines('plan', 'site over').sort()).toEqual(['narrow', 'phantom']);
  });

  it('that go on are broken off 300 mm beyond the duct, and one that is dragged is not', () => {
    const extent = (driven: number | null): [number, number] =>
      findExtent(
        listItems(draw({ obstacles: [beamAt(190)], view: 'plan', scale: 1, driven }), 'site over').filter(
          (item) => item.kind === 'stroke' && item.line === 'phantom'
        )
      ).y;
    expect(extent(null)).toEqual([-525, 525]);
    expect(extent(0)).toEqual([-3000, 3000]);
  });

  it('that are out of reach are not drawn, and do not make the rest small', () => {
    const far: Obstacle = { name: 'far', kind: 'box', min: [5000, 0, 0], max: [5200, 200, 200] };
    const figure = draw({ obstacles: [far] });
    expect(tellTexts(figure, 'site names')).toEqual(['end']);
    expect(listItems(figure, 'site')).toEqual([]);
  });

  it('that are out of reach are drawn once they are reached for, to 300 mm beyond where they begin', () => {
    const far: Obstacle = { name: 'far', kind: 'box', min: [5000, 0, 0], max: [7000, 200, 200] };
    const figure = draw({ obstacles: [far], reached: 0 });
    expect(tellTexts(figure, 'site names')).toContain('far');
    const outline = listLines(listItems(figure, 'site')).filter(({ tone }) => tone === undefined);
    const own = outline.filter(({ points }) => points.length < 6);
    expect(findExtent(own)).toEqual({ x: [5000, 5300], y: [-200, 0] });
    expect(outline.length).toBeGreaterThan(own.length);
  });

  it('that are out of reach are told by the way to them, and none that is seen on edge is one', () => {
    const at = (x: number, y: number, wide = 200): Obstacle => ({
      name: `${x} ${y}`,
      kind: 'box',
      min: [x, y, 0],
      max: [x + wide, y + 200, 200]
    });
    const obstacles = [at(500, 160), at(500, -3000), at(4000, 0), at(-2500, 2000), at(500, 300, 0)];
    const job: Job = {
      format: 'gorewright-job',
      version: 1,
      fittings: [{ ...STRAIGHT, tag: 'stands' }],
      site: { fitting: 'stands', section: SECTION, end: END, clearance: 25, obstacles }
    };
    const { fittings, site, board } = evaluate(job);
    const { fitting } = fittings[0]!.built!;
    const list = (reached: number | null): Far[] =>
      listFar(fitting, site!.site, board.thickness, findView('elevation', fitting), reached);
    const below = { obstacle: 1, across: 0, down: 1 };
    const ahead = { obstacle: 2, across: 1, down: 0 };
    const above = { obstacle: 3, across: -1, down: -1 };
    expect(list(null)).toEqual([below, ahead, above]);
    // It can be let go again.
    expect(list(1)).toEqual([below, ahead, above]);
  });

  it('that are turned are reached for at the corner that is nearest', () => {
    // A square of 200 × 200 at 45° about (5100, 100): its near corner is 141.4 before its middle.
    const turned: Obstacle = {
      name: 'far',
      kind: 'box',
      min: [5000, 0, -100],
      max: [5200, 200, 100],
      turn: 45
    };
    const figure = draw({ obstacles: [turned], view: 'plan', reached: 0 });
    const outline = listLines(listItems(figure, 'site')).find(({ closed }) => closed)!;
    expect(outline.points).toHaveLength(4);
    expect(Math.min(...outline.points.map(([x]) => x))).toBeCloseTo(5100 - 100 * Math.SQRT2, 6);
  });

  it('that are turned show their outline as they stand', () => {
    // A square of 200 × 200 at 45° is 282.8 wide in plan.
    const column: Obstacle = {
      name: 'column',
      kind: 'column',
      min: [400, -300, 280],
      max: [600, 300, 480],
      turn: 45
    };
    const outline = listLines(listItems(draw({ obstacles: [column], view: 'plan' }), 'site')).find(
      ({ closed }) => closed
    )!;
    const { x, y } = findExtent([outline]);
    expect(outline.points.length).toBe(4);
    [x[0] - 358.5786, x[1] - 641.4214, y[0] - 238.5786, y[1] - 521.4214].forEach((differs) =>
      expect(Math.abs(differs)).toBeLessThan(1e-4)
    );
  });

  it('that stand behind the duct are dashed where it hides them', () => {
    const behind: Obstacle = { name: 'pipes', kind: 'pipes', min: [200, -400, -50], max: [800, -250, 50] };
    const lines = listLines(listItems(draw({ obstacles: [behind], view: 'plan' }), 'site over'));
    expect(lines.map(({ line }) => line)).toEqual(['hidden']);
  });
});

describe('the place where the duct has to end', () => {
  const outlineOf = (figure: Figure): Stroke =>
    listLines(listItems(figure, 'ends')).find(({ line }) => line === 'visible')!;

  it('is the outside of the duct there, and plain where the fitting meets it', () => {
    const outline = outlineOf(draw({ view: 'end' }));
    expect(findExtent([outline])).toEqual({ x: [-225, 225], y: [-150, 150] });
    expect(outline.tone).toBeUndefined();
  });

  it('is shown as wrong where the fitting misses it', () => {
    const outline = outlineOf(draw({ end: { ...END, at: [1200, -80, 0] } }));
    expect(outline.tone).toBe('wrong');
    expect(findExtent([outline])).toEqual({ x: [1200, 1200], y: [-70, 230] });
  });

  it('goes on beyond both ends as a thin duct that is broken off', () => {
    const stubs = listLines(listItems(draw({ scale: 1 / 10 }), 'ends')).filter(
      ({ line }) => line === 'phantom'
    );
    // 16 mm on paper.
    expect(findExtent(stubs)).toEqual({ x: [-160, 1160], y: [-150, 150] });
  });

  it('is a long chain line along a coordinate that is free', () => {
    const level = draw({ end: { ...END, at: [null, 0, null] } });
    const chains = listLines(listItems(level, 'ends')).filter(({ line }) => line === 'axis');
    // Across the drawing runs nothing: the other free way is the eye's.
    expect(chains.map(({ points }) => points)).toEqual([
      [
        [-300, 0],
        [1300, 0]
      ]
    ]);
    expect(tellTexts(level, 'site names')).toContain('level to reach');
    expect(tellTexts(draw({ end: { ...END, at: [1000, null, 0] } }), 'site names')).toContain(
      'line to reach'
    );
  });
});

describe('a drawing of a site', () => {
  const DETOUR: SaidFitting = {
    family: 'double-offset',
    section: SECTION,
    params: { rise: -300, turn: 45, level: 320, throatIn: 450, throatOut: 400 }
  };
  const crowd = (underside: number): Obstacle[] => [
    { name: 'beam', kind: 'beam', min: [900, underside, -2500], max: [1150, 420, 2500], turn: 10 },
    { name: 'pipes', kind: 'pipes', min: [300, -620, -60], max: [1800, -510, 160] },
    { name: 'tray', kind: 'tray', min: [-1500, 190, 230], max: [3500, 250, 620] }
  ];

  it.each(VIEWS)('has no text over another, near or overlapping, in %s view', (view) => {
    for (const underside of [-110, -140, -200]) {
      for (const scale of SCALES) {
        const figure = draw({
          said: DETOUR,
          obstacles: crowd(underside),
          end: { ...END, at: [2000, null, 0] },
          view,
          scale
        });
        expect([underside, scale, ...findOverlaps(figure, scale)]).toEqual([underside, scale]);
      }
    }
  });

  it('interrupts its hatching where something is written', () => {
    const figure = draw({ obstacles: [beamAt(190)], scale: 1 / 5 });
    const [name] = listTexts(listItems(figure, 'site names'));
    const hatch = listLines(listItems(figure, 'site')).filter(({ tone }) => tone === 'around');
    const [x, y] = name!.at;
    const crossing = hatch.filter(({ points: [a, b] }) => {
      // At 45° upward to the right x + y is the same all along.
      const isLevel = Math.abs(a![0] + a![1] - (x + y)) < 5;
      return isLevel && Math.min(a![0], b![0]) < x && Math.max(a![0], b![0]) > x;
    });
    expect(hatch.length).toBeGreaterThan(10);
    expect(crossing).toEqual([]);
  });
});

describe('elevation and plan at once', () => {
  const drawOne =
    (underside: number) =>
    (view: Parameters<typeof drawInSite>[2], paperScale: number): Figure => {
      const name = view.eye[1] === 1 ? 'plan' : 'elevation';
      return draw({ obstacles: [beamAt(underside)], view: name, scale: paperScale });
    };

  it('lie under each other at one scale, every place along the duct under itself', () => {
    const last = { paperScale: 0, by: 0, split: 0 };
    const pair = pairViews(drawOne(190), last, false);
    const figure = pair.draw(1 / 20);
    const { by, split } = pair.findLowered(1 / 20);
    const upper = findExtent(listItems(figure, 'pieces'));
    const lower = findExtent(listItems(figure, 'pieces in plan'));
    expect(lower.x).toEqual(upper.x);
    expect(lower.y).toEqual([by - 225, by + 225]);
    expect(upper.y[1]).toBeLessThan(split);
    expect(split).toBeLessThan(by - 225);
    expect(findOverlaps(figure, 1 / 20)).toEqual([]);
  });

  it('keep their distance while something is dragged', () => {
    const last = { paperScale: 0, by: 0, split: 0 };
    const before = pairViews(drawOne(190), last, false).findLowered(1 / 20).by;
    const low = { ...beamAt(-600), max: [600, -500, 3000] as const };
    const drawLow = (view: Parameters<typeof drawInSite>[2], paperScale: number): Figure =>
      draw({ obstacles: [low], view: view.eye[1] === 1 ? 'plan' : 'elevation', scale: paperScale });
    expect(pairViews(drawLow, last, true).findLowered(1 / 20).by).toBe(before);
    expect(pairViews(drawLow, last, false).findLowered(1 / 20).by).not.toBe(before);
  });
});
