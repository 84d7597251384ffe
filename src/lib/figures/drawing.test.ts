import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { build, buildBend, buildPath, ENDLESS } from '../../../tests/duct.ts';
import { writeSvg } from '../exports/svg.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { makeSpeech } from '../words/words.ts';
import { drawFitting } from './drawing.ts';
import type { Item } from './figure.ts';
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
          const layers = figure.layers.filter(({ name }) => name === 'dimensions');
          expect(findOverlaps({ layers }, scale)).toEqual([]);
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
