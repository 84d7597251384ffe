import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { build, buildBend, buildPath, evaluateOne } from '../../../tests/duct.ts';
import { PARTED_EXAMPLES } from '../../../tests/paper.ts';
import { drawParams } from '../../../tests/properties/documents.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import type { Step, StepSentence } from '../kernel/fitting/step.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Figure, Item, Point, Stroke } from './figure.ts';
import { findTextRoom } from './lettering.ts';
import { findOverlaps } from './room.ts';
import { traceFigure } from './shapes.ts';
import { drawStep, PICTURE } from './step-picture.ts';

const words = speak('en');
const say = makeSpeech(DEFAULT_SHOW);
const section = { width: 400, height: 250 };

const BEND = buildBend({ turn: 90, pieces: 3 });
const COMPOUND = buildPath(
  [420, 500, 460],
  [
    { turn: 40, heel: 33 },
    { turn: 25, heel: 213 }
  ],
  { width: 300, height: 300 }
);
const FITTINGS: Record<string, BuiltModel> = {
  'a bend': BEND,
  'compound cuts': COMPOUND,
  'a rolling offset': build({ family: 'offset', section, params: { rise: 220, roll: 140 } }),
  'a bend of nine pieces': buildBend({ turn: 180, pieces: 9 }),
  'a flat bend with shiplap corners': buildBend(
    { turn: 30, pieces: 2 },
    { width: 600, height: 60 },
    {
      board: { corner: 'shiplap' }
    }
  ),
  'a bend of panels': buildBend({ turn: 60, pieces: 2 }, { width: 1000, height: 900 }),
  'a path over several straights': buildPath(
    [1500, 2500, 2000],
    [
      { turn: 40, heel: 33 },
      { turn: 25, heel: 213 }
    ]
  ),
  'a straight over several': build({
    family: 'straight',
    section,
    lay: 'across',
    params: { length: 3000 }
  }),
  'a straight': build({ family: 'straight', section, params: { length: 1000 } }),
  ...Object.fromEntries(Object.entries(PARTED_EXAMPLES).map(([what, said]) => [what, build(said)]))
};

const SENTENCES: Record<StepSentence, true> = {
  check: true,
  mark: true,
  label: true,
  groove: true,
  strip: true,
  fold: true,
  square: true,
  staple: true,
  turn: true,
  support: true,
  cut: true,
  separate: true,
  flip: true,
  fit: true,
  glue: true,
  join: true,
  tab: true,
  seal: true,
  nose: true,
  inspect: true,
  'tape-seam': true,
  'tape-joint': true,
  'tape-ends': true,
  'glue-ends': true,
  'join-ends': true,
  'join-plain': true,
  'check-panels': true,
  'cut-panel': true,
  'label-panels': true,
  'join-corners': true,
  'tape-corners': true,
  'glue-panels': true,
  'join-panels': true,
  'tape-panels': true,
  'cut-opening': true,
  'seal-opening': true,
  'turn-out-flap': true,
  'join-stub': true,
  'glue-stub': true,
  'enter-stub': true,
  'staple-stub': true,
  'tape-stub': true,
  'seal-stub': true,
  'join-parts': true,
  'tape-parts': true,
  'cut-slits': true,
  'groove-slope': true,
  'cut-slope': true,
  'cut-wall': true,
  trim: true,
  'fold-slope': true,
  'fill-gap': true,
  'tape-slope': true,
  'glue-cap': true,
  'join-cap': true,
  'tape-cap': true
};

interface Pictured {
  readonly what: string;
  readonly step: Step;
  readonly figure: Figure;
}

const PICTURES: Pictured[] = Object.entries(FITTINGS).flatMap(([what, built]) =>
  built.steps.map((step) => ({ what, step, figure: drawStep(step, built, words, say) }))
);

const listItems = ({ layers }: Figure): Item[] => layers.flatMap(({ items }) => [...items]);
const listStrokes = (figure: Figure): Stroke[] =>
  listItems(figure).filter((item): item is Stroke => item.kind === 'stroke');
const listTexts = (figure: Figure): string[] =>
  listItems(figure).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
const write = (figure: Figure): string => JSON.stringify(traceFigure(figure, 1));

describe('the picture of a step', () => {
  it('is there for every sentence, and drawn', () => {
    expect(new Set(PICTURES.map(({ step }) => step.sentence))).toEqual(new Set(Object.keys(SENTENCES)));
    for (const { what, step, figure } of PICTURES) {
      expect(listStrokes(figure).length, `${step.sentence} of ${what}`).toBeGreaterThan(0);
    }
  });

  it('lies within its box, every coordinate a number, texts included', () => {
    for (const { what, step, figure } of PICTURES) {
      const points = listItems(figure).flatMap((item): readonly Point[] =>
        item.kind === 'text' ? findTextRoom(item, 1) : item.points
      );
      for (const [x, y] of points) {
        const inside = x >= 0 && y >= 0 && x <= PICTURE.width && y <= PICTURE.height;
        expect(inside, `${step.sentence} of ${what} at [${x}, ${y}]`).toBe(true);
      }
    }
  });

  it('is ink only: lines, board and air, no colours of pieces', () => {
    const fills = PICTURES.flatMap(({ figure }) => listItems(figure)).flatMap((item) =>
      item.kind === 'fill' ? [item.fill] : []
    );
    expect(new Set(fills)).toEqual(new Set(['board', 'air']));
  });

  it('never has a text over another or over a line', () => {
    let texts = 0;
    for (const { what, step, figure } of PICTURES) {
      expect(findOverlaps(figure, 1), `${step.sentence} of ${what}`).toEqual([]);
      for (const item of listItems(figure)) {
        if (item.kind !== 'text') continue;
        texts++;
        const room = findTextRoom(item, 1);
        const struck = listStrokes(figure).filter(({ points, closed }) =>
          (closed ? [...points, points[0]!] : points)
            .slice(1)
            .some((to, i) => walk(points[i]!, to).some((point) => isInside(point, room)))
        );
        expect(struck, `${item.text} in ${step.sentence} of ${what}`).toEqual([]);
      }
    }
    expect(texts).toBeGreaterThan(50);
  });

  it('of a cut shows the line as it lies on that face, outside up, the datum end on the left', () => {
    let shown = 0;
    for (const { what, step, figure } of PICTURES.filter(({ step }) => step.sentence === 'cut')) {
      const [top, bottom] = listStrokes(figure).find(({ line }) => line === 'cut')!.points as [Point, Point];
      const slope = (Math.atan2(top[0] - bottom[0], bottom[1] - top[1]) * 180) / Math.PI;
      const { start, end, line, face } = step.data as Record<string, number | string>;
      const further = face === 'top' || face === 'right' ? start! > end! : end! > start!;
      expect(slope, `${what}: ${step.cuts[0]} on the ${face}`).toBeCloseTo(
        Number(line) * (further ? 1 : -1),
        9
      );
      shown++;
    }
    expect(shown).toBeGreaterThan(40);
  });

  it('of a cut shows the blade tilted as it is held, its bevel in figures', () => {
    for (const { step, figure } of PICTURES.filter(({ step }) => step.sentence === 'cut')) {
      const [, blade] = listStrokes(figure).filter(({ line }) => line === 'cut');
      const [[x0, y0], [x1, y1]] = blade!.points as [Point, Point];
      const tilt = (Math.atan2(x1 - x0, y0 - y1) * 180) / Math.PI;
      const { bevel, lean } = step.data;
      expect(tilt).toBeCloseTo(Number(bevel) * (lean === 'upstream' ? -1 : 1), 9);
      const texts = listItems(figure).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
      expect(texts).toEqual([step.cuts[0], `${Number(Number(bevel).toFixed(1))}°`]);
    }
  });

  it('of a cut is another one for another line or another lean', () => {
    const [c2, c1] = BEND.steps.filter(({ kind, face }) => kind === 'cut' && face === 'right');
    const draw = (step: Step, data: Partial<Step['data']> = {}): string =>
      write(drawStep({ ...step, data: { ...step.data, ...data } as Step['data'] }, BEND, words, say));
    expect(draw(c1!)).not.toBe(draw(c2!));
    expect(draw(c1!, { lean: 'upstream' })).not.toBe(draw(c1!));
    expect(draw(c1!, { start: 300 })).not.toBe(draw(c1!));
    expect(draw(c1!, { start: 472.8 })).not.toBe(draw(c1!, { start: 300 }));
  });

  it('of a turn tells a quarter from a half, and one way from the other', () => {
    const turns = BEND.steps.filter(({ kind }) => kind === 'turn');
    expect(turns.map(({ data }) => data['quarters'])).toEqual([1, 2, 1]);
    const pictures = turns.map((step) => write(drawStep(step, BEND, words, say)));
    expect(new Set(pictures).size).toBe(3);
  });

  it('of the labels has TOP above the piece that stays and below the one that is rolled over', () => {
    const label = BEND.steps.find(({ kind }) => kind === 'label')!;
    const texts = listItems(drawStep(label, BEND, words, say)).filter((item) => item.kind === 'text');
    const level = (text: string): number => texts.find((item) => item.text === text)!.at[1];
    const tops = texts.filter(({ text }) => text === 'TOP').map(({ at }) => at[1]);
    expect(tops[0]!).toBeLessThan(level('P1'));
    expect(tops[1]!).toBeGreaterThan(level('P2'));
  });

  it('of a joint turns the second piece away from the heel by as much as the duct turns', () => {
    for (const built of [BEND, COMPOUND]) {
      for (const step of built.steps.filter(({ kind }) => kind === 'join')) {
        const arrows = listStrokes(drawStep(step, built, words, say)).filter(
          ({ line, points }) => line === 'narrow' && points.length === 2
        );
        const [first, second] = arrows.map(({ points }): Point => {
          const [[x0, y0], [x1, y1]] = points as [Point, Point];
          return [x1 - x0, y1 - y0];
        }) as [Point, Point];
        // They press against each other: the second one's arrow runs against its flow.
        const turned = Math.atan2(second[1], -second[0]) - Math.atan2(first[1], first[0]);
        expect((Math.abs(turned) * 180) / Math.PI).toBeCloseTo(Number(step.data['turn']), 9);
      }
    }
  });

  it('of a panel has its outline at one scale both ways, its size and every bevel in figures', () => {
    const built = FITTINGS['a reducer of panels']!;
    const steps = built.steps.filter(({ sentence }) => sentence === 'cut-panel');
    expect(steps).toHaveLength(4);
    for (const step of steps) {
      const figure = drawStep(step, built, words, say);
      const outline = listStrokes(figure).find(({ closed }) => closed)!.points;
      const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
      const ratio = (Math.max(...ys) - Math.min(...ys)) / (Math.max(...xs) - Math.min(...xs));
      expect(ratio).toBeCloseTo(Number(step.data['width']) / Number(step.data['length']), 9);
      const texts = listTexts(figure);
      expect(texts).toContain(step.pieces[0]);
      expect(texts).toContain(say.figure(Number(step.data['width'])));
      const odd = (step.data['bevels'] as number[]).filter((bevel) => bevel > 0);
      for (const bevel of odd) expect(texts).toContain(say.angle(bevel));
    }
  });

  it('of an opening has it as long and as wide as it is, its steepest bevel in figures', () => {
    const built = FITTINGS['a slanted opening on the left']!;
    const figure = drawStep(
      built.steps.find(({ sentence }) => sentence === 'cut-opening')!,
      built,
      words,
      say
    );
    const outline = listStrokes(figure).find(({ line, closed }) => line === 'cut' && closed)!.points;
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    const ratio = (Math.max(...xs) - Math.min(...xs)) / (Math.max(...ys) - Math.min(...ys));
    expect(ratio).toBeCloseTo(240 / 120, 9);
    expect(listTexts(figure)).toEqual(['O1', '30°']);
  });

  it('of a stub stands at the angle at which the branch leaves', () => {
    for (const [what, angle] of [
      ['a take-off', 90],
      ['a slanting take-off let in', 60]
    ] as const) {
      const built = FITTINGS[what]!;
      const figure = drawStep(
        built.steps.find(({ sentence }) => sentence === 'tape-stub')!,
        built,
        words,
        say
      );
      const walls = listStrokes(figure)
        .filter(({ line, closed }) => line === 'visible' && closed)
        .map(({ points: [a, b] }) => [a, b] as [Point, Point]);
      // The main's wall is drawn first, upstream and downstream of the opening.
      const leans = walls.slice(2).map(([[x0, y0], [x1, y1]]) => Math.atan2(y1 - y0, x0 - x1));
      expect(leans.map((lean) => (lean * 180) / Math.PI)).toEqual([
        expect.closeTo(angle, 9),
        expect.closeTo(angle, 9)
      ]);
    }
  });

  it('of a wall that is folded down slopes as the wall does', () => {
    const built = FITTINGS['a folded reducer']!;
    const figure = drawStep(
      built.steps.find(({ sentence }) => sentence === 'cut-slope')!,
      built,
      words,
      say
    );
    const [, [x0, y0], [x1, y1]] = listStrokes(figure).find(({ closed }) => closed)!.points as Point[] as [
      Point,
      Point,
      Point
    ];
    // 100 down over 400 along.
    expect((y1 - y0) / (x1 - x0)).toBeCloseTo(0.25, 9);
    expect(listTexts(figure)).toEqual(['45°']);
  });

  it('of two ends tells a male end in a female one from plain ends', () => {
    const [mating, plain] = (['join-ends', 'join-plain'] as const).map((sentence) =>
      PICTURES.find(({ step }) => step.sentence === sentence)!
    );
    expect(write(mating!.figure)).not.toBe(write(plain!.figure));
  });
});

const PARTED = new Set<string>(Object.values(PARTED_EXAMPLES).map(({ family }) => family));

describe.each(
  FAMILIES.filter(({ name }) => PARTED.has(name)).map((family) => ({ name: family.name, family }))
)('the pictures of any $name', ({ family }) => {
  it('lie within their box, and no text over another', () => {
    const side = fc.integer({ min: 50, max: 1500 });
    fc.assert(
      fc.property(drawParams(family), side, side, (params, width, height) => {
        const { built } = evaluateOne({ family: family.name, section: { width, height }, params });
        for (const step of built?.steps ?? []) {
          const figure = drawStep(step, built!, words, say);
          const points = listItems(figure).flatMap((item): readonly Point[] =>
            item.kind === 'text' ? findTextRoom(item, 1) : item.points
          );
          for (const [x, y] of points) {
            const inside = x >= 0 && y >= 0 && x <= PICTURE.width && y <= PICTURE.height;
            expect(inside, `${step.sentence} at [${x}, ${y}]`).toBe(true);
          }
          expect(findOverlaps(figure, 1), step.sentence).toEqual([]);
        }
      }),
      { numRuns: 30 }
    );
  });
});

function walk(from: Point, to: Point): Point[] {
  const steps = 200;
  return Array.from({ length: steps + 1 }, (_, i) => [
    from[0] + ((to[0] - from[0]) * i) / steps,
    from[1] + ((to[1] - from[1]) * i) / steps
  ]);
}

/** Whether a point lies inside a convex outline, on none of its sides. */
function isInside([x, y]: Point, outline: readonly Point[]): boolean {
  const sides = outline.map(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  });
  return sides.every((side) => side > 1e-9) || sides.every((side) => side < -1e-9);
}
