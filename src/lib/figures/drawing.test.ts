import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { build, buildBend, buildPath, ENDLESS } from '../../../tests/duct.ts';
import { writeSvg } from '../exports/svg.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { makeSpeech } from '../words/words.ts';
import { drawFitting } from './drawing.ts';
import type { Item, Point } from './figure.ts';
import { findOverlaps } from './room.ts';
import { findView, nameView, project, unproject, type ViewName } from './view.ts';

const say = makeSpeech(DEFAULT_SHOW);
const SCALES = [1 / 20, 1 / 10, 1 / 5, 1 / 2];
const VIEWS: readonly ViewName[] = ['true', 'elevation', 'plan', 'end'];

const EXAMPLES = FAMILIES.map((family) => ({
  name: family.name,
  fitting: build({ family: family.name, section: { width: 400, height: 250 }, params: family.example })
    .fitting
}));

const draw = (fitting: Fitting, view: ViewName = 'true', scale = 1 / 10) =>
  drawFitting(fitting, findView(view, fitting), scale, say);

function listItems(fitting: Fitting, layer: string, view: ViewName = 'true'): readonly Item[] {
  return draw(fitting, view).layers.find(({ name }) => name === layer)!.items;
}

function listTexts(fitting: Fitting, layer: string, view: ViewName = 'true'): string[] {
  return listItems(fitting, layer, view).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
}

function listFills(fitting: Fitting, view: ViewName): (readonly Point[])[] {
  return listItems(fitting, 'pieces', view).flatMap((item) => (item.kind === 'fill' ? [item.points] : []));
}

/** Area of a simple polygon, mm² (shoelace). */
function measureArea(points: readonly Point[]): number {
  const twice = points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}

describe('the true view', () => {
  it('of a bend lies in its plane: plan for one to the side, elevation for one up or down', () => {
    for (const [heel, name] of [
      ['right', 'plan'],
      ['left', 'plan'],
      ['top', 'elevation'],
      ['bottom', 'elevation']
    ] as const) {
      expect(nameView(findView('true', buildBend({ turn: 90, heel }).fitting))).toBe(name);
    }
  });

  it('of a rolling offset lies between, with up on paper still up in the room', () => {
    const { fitting } = buildPath(
      [400, 500, 400],
      [33, 213].map((heel) => ({ turn: 40, heel }))
    );
    const view = findView('true', fitting);
    expect(nameView(view)).toBe('true');
    expect(view.down[1]).toBeLessThan(0);
    // It looks square at the plane: no flow has a part toward the eye.
    for (const { flow } of fitting.ports) {
      expect(Math.abs(flow[0] * view.eye[0] + flow[1] * view.eye[1] + flow[2] * view.eye[2])).toBeLessThan(
        1e-12
      );
    }
  });

  it('takes a point of the paper back to where it came from, as deep as it was', () => {
    const { fitting } = buildPath(
      [400, 500, 400],
      [33, 213].map((heel) => ({ turn: 40, heel }))
    );
    for (const name of VIEWS) {
      const view = findView(name, fitting);
      const back = unproject(view, project(view, [120, -70, 45]), [120, -70, 45]);
      back.forEach((value, i) => expect(Math.abs(value - [120, -70, 45][i]!)).toBeLessThan(1e-9));
    }
  });
});

describe('the drawing of a bend', () => {
  const { fitting } = buildBend({ turn: 90, pieces: 3 });

  it('has a rim under every piece, the throats and the gore dimensioned, and every turn', () => {
    expect(draw(fitting).layers[0]!.name).toBe('outline');
    expect(listItems(fitting, 'outline').map((item) => item.kind === 'stroke' && item.line)).toEqual(
      Array(3).fill('rim')
    );
    expect(listTexts(fitting, 'dimensions').sort()).toEqual(['150', '200', '200', '45°', '45°']);
    expect(listTexts(fitting, 'names')).toEqual(['P1', 'P2', 'P3']);
  });

  it('square on from another side dimensions only what is seen in its true size', () => {
    // Seen from the side the gore is foreshortened and the second throat is a point.
    expect(listTexts(fitting, 'dimensions', 'elevation')).toEqual(['200']);
  });

  it('has the lines of its cuts, which can be pointed at', () => {
    const cuts = listItems(fitting, 'cuts').map(({ about }) => about?.cut);
    expect(cuts).toEqual(['C1', 'C2']);
  });
});

describe('the drawing of a reducer', () => {
  const reducer = (params: Readonly<Record<string, unknown>>): Fitting =>
    build({ family: 'reducer', section: { width: 400, height: 250 }, params: { length: 400, ...params } })
      .fitting;
  const folded = reducer({
    outlet: { width: 400, height: 150 },
    alignY: 'bottom',
    collarIn: 150,
    collarOut: 150,
    method: 'fold'
  });
  const bare = reducer({ outlet: { width: 300, height: 150 }, collarIn: 0, collarOut: 0 });

  it('looks at its slope: elevation where top or bottom slope, plan where the sides do', () => {
    expect(nameView(findView('true', folded))).toBe('elevation');
    const sideways = reducer({ outlet: { width: 300, height: 250 }, alignZ: 'left', method: 'fold' });
    expect(nameView(findView('true', sideways))).toBe('plan');
    // Straight on, the sides come in by 50 each and top and bottom by 20.
    const tapering = reducer({ outlet: { width: 300, height: 210 } });
    expect(nameView(findView('true', tapering))).toBe('plan');
  });

  it('folded from one straight covers what it is, not what lies in the angle of its slope', () => {
    // Outside 300 deep for 150, to 200 deep over 400, 200 deep for 150.
    const depth = 150 * 300 + 400 * 250 + 150 * 200;
    const cheek = listFills(folded, 'elevation').filter((points) => points.length > 4);
    expect(cheek.length).toBeGreaterThan(0);
    for (const points of cheek) expect(measureArea(points)).toBeCloseTo(depth, 6);
    expect(listTexts(folded, 'dimensions').sort()).toEqual(['150', '150', '400', '700']);
  });

  it('of panels alone shows its board round the air way at an end that faces the eye', () => {
    const end = listItems(bare, 'pieces', 'end').filter((item) => item.kind === 'fill');
    const [board, air] = ['board', 'air'].map((fill) => end.filter((item) => item.fill === fill));
    expect(air!.map(({ points }) => Math.round(measureArea(points)))).toEqual([400 * 250]);
    // Sloping walls are thicker square to the duct: 25/cos of the slope.
    const [wide, high] = [50, 50].map((drop) => (25 * Math.hypot(400, drop)) / 400);
    expect(measureArea(board![0]!.points)).toBeCloseTo((400 + 2 * wide!) * (250 + 2 * high!), 6);
  });

  it('dashes the smaller end behind the larger one', () => {
    const dashed = listItems(bare, 'inside', 'end').filter(
      (item) => item.kind === 'stroke' && item.closed === true
    );
    expect(dashed.map((item) => item.kind === 'stroke' && Math.round(measureArea(item.points)))).toEqual([
      300 * 150
    ]);
  });

  it('names the panels that face the eye', () => {
    expect(listTexts(bare, 'names', 'elevation')).toEqual(['W2']);
    expect(listTexts(bare, 'names', 'plan')).toEqual(['W1']);
  });
});

describe('the drawing of a take-off', () => {
  const takeoff = (params: Readonly<Record<string, unknown>>): Fitting =>
    build({
      family: 'takeoff',
      section: { width: 400, height: 250 },
      params: { length: 900, station: 400, branch: { across: 100, along: 200 }, fit: 'butt', ...params }
    }).fitting;

  it.each([
    ['right', 'plan'],
    ['left', 'plan'],
    ['top', 'elevation'],
    ['bottom', 'elevation']
  ])('with the branch on the %s looks at it in its true length: %s', (wall, view) => {
    expect(nameView(findView('true', takeoff({ wall })))).toBe(view);
  });

  it('says how long the main is, where the branch stands on it, its neck and its angle', () => {
    // Square the neck of 200 is the stub; slanting it is the shortest of its edges.
    expect(listTexts(takeoff({ wall: 'right' }), 'dimensions').sort()).toEqual(['200', '400', '900']);
    const slanting = listTexts(takeoff({ wall: 'top', angle: 60 }), 'dimensions');
    expect(slanting.sort()).toEqual(['200', '400', '60°', '900']);
  });

  it('draws the branch over the main where it comes toward the eye, and hides it where it goes away', () => {
    const fills = (wall: string): unknown[] =>
      listItems(takeoff({ wall }), 'pieces', 'elevation').flatMap((item) =>
        item.kind === 'fill' && typeof item.fill === 'object' ? [item.about?.piece] : []
      );
    expect(fills('right')).toEqual(['P1', 'P2']);
    expect(fills('left')).toEqual(['P2', 'P1']);
    expect(listTexts(takeoff({ wall: 'left' }), 'names', 'elevation')).toEqual(['P1']);
  });

  it('dimensions the main on the side where the branch is not', () => {
    // Outside the main reaches from −150 to 150, y running down; its dimensions lie beyond.
    const levels = (wall: string): number[] =>
      listItems(takeoff({ wall }), 'dimensions').flatMap((item) =>
        item.kind === 'text' && ['900', '400'].includes(item.text) ? [Math.sign(item.at[1])] : []
      );
    expect([levels('top'), levels('bottom')]).toEqual([
      [1, 1],
      [-1, -1]
    ]);
  });
});

describe('the drawing of a duct with an opening', () => {
  const { fitting } = build({
    family: 'opening',
    section: { width: 400, height: 250 },
    params: {
      length: 800,
      wall: 'right',
      station: 300,
      aside: 20,
      shape: 'rectangle',
      along: 200,
      across: 120
    }
  });

  it('looks at the wall with the opening, and through it', () => {
    expect(nameView(findView('true', fitting))).toBe('elevation');
    const [opening] = listItems(fitting, 'pieces').filter(
      (item) => item.kind === 'fill' && item.fill === 'air'
    );
    if (opening?.kind !== 'fill') throw new Error('there is no opening');
    expect(opening.about).toEqual({ piece: 'P1', face: 'right', cut: 'O1' });
    const [xs, ys] = [0, 1].map((axis) => opening.points.map((point) => point[axis]!));
    // 20 up is 20 less on paper, where y runs down.
    expect([Math.min(...xs!), Math.max(...xs!), Math.min(...ys!), Math.max(...ys!)]).toEqual([
      200, 400, -80, 40
    ]);
  });

  it('dashes it where its wall is turned away', () => {
    const dashed = listItems(fitting, 'inside', 'plan').filter(({ about }) => about?.face === 'right');
    expect(dashed.map((item) => item.kind === 'stroke' && item.line)).toEqual(['hidden']);
    expect(
      listItems(fitting, 'pieces', 'plan').some((item) => item.kind === 'fill' && item.fill === 'air')
    ).toBe(false);
  });
});

describe('drawings of every family', () => {
  it('never have names or dimensions over each other, in any view at any scale', () => {
    let drawn = 0;
    const long = buildPath(
      [500, 400, 400, 400, 500],
      [0, 90, 180, 270].map((heel) => ({ turn: 30, heel })),
      { width: 200, height: 150 },
      { board: ENDLESS }
    ).fitting;
    for (const fitting of [...EXAMPLES.map((example) => example.fitting), long]) {
      for (const view of VIEWS) {
        for (const scale of SCALES) {
          const figure = draw(fitting, view, scale);
          expect(findOverlaps(figure, scale)).toEqual([]);
          drawn++;
        }
      }
    }
    expect(drawn).toBe((EXAMPLES.length + 1) * VIEWS.length * SCALES.length);
  });

  it.each(EXAMPLES)('of a $name look as they were approved', ({ name, fitting }) => {
    const file = new URL(`../../../tests/golden/drawing-of-${name}.svg`, import.meta.url);
    const svg = writeSvg(draw(fitting), 1 / 10, `${name}, 1:10`);
    if (process.env['GOLDEN'] === 'write') writeFileSync(file, svg);
    expect(svg).toBe(readFileSync(file, 'utf8'));
  });
});
