import { describe, expect, it } from 'vitest';
import { build, evaluateOne, SECTION, writeSheetOfFitting, type Stock } from '../../../tests/duct.ts';
import { EN } from '../words/en.ts';
import { makeSpeech, tellFinding } from '../words/words.ts';
import { DEFAULT_BOARD, DEFAULT_SHOP, DEFAULT_SHOW, type SaidFitting } from './document/job.ts';
import type { Finding } from './fitting/finding.ts';
import { recomputeAsMade, type Made, type Remade } from './remake.ts';
import type { SiteEnd } from './site/site.ts';

const bend: SaidFitting = {
  family: 'bend',
  section: SECTION,
  params: { turn: 90, pieces: 3, heel: 'right', gore: 170, throatIn: 230, throatOut: 230 }
};
const offset: SaidFitting = {
  family: 'offset',
  section: SECTION,
  params: { rise: -300, roll: 0, turn: 45, throatIn: 230, throatOut: 230 }
};

function ask(said: SaidFitting, made: readonly Made[], target?: SiteEnd, { board, shop }: Stock = {}) {
  const setting = { board: { ...DEFAULT_BOARD, ...board }, shop: { ...DEFAULT_SHOP, ...shop } };
  return recomputeAsMade(said, setting, made, target);
}

function remake(...asked: Parameters<typeof ask>): Remade {
  const answer = ask(...asked);
  if ('code' in answer) throw new Error(JSON.stringify(answer));
  return answer;
}

function lose(...asked: Parameters<typeof ask>): Finding & { said: string } {
  const answer = ask(...asked);
  if (!('code' in answer)) throw new Error(`nothing is lost: ${JSON.stringify(answer.changed)}`);
  return { ...answer, said: tellFinding(answer, EN, makeSpeech({ ...DEFAULT_SHOW, precision: 1 })) };
}

const findOutlet = (said: SaidFitting) => build(said).fitting.ports[1]!;

function expectSameOutlet(remade: Remade, said: SaidFitting): void {
  const [is, was] = [findOutlet(remade.fitting), findOutlet(said)];
  for (const key of ['at', 'flow', 'up'] as const)
    is[key].forEach((value, i) => expect(value).toBeCloseTo(was[key][i]!, 9));
}

/** Changes of length by piece, to 0.001 mm. */
const listLengths = ({ changed }: Remade): Record<string, number> =>
  Object.fromEntries(
    changed
      .filter(({ kind }) => kind === 'length')
      .map(({ name, from, to }) => [name, Math.round((to - from) * 1000) / 1000])
  );

describe('a piece that was cut too short', () => {
  it('is made up for by the closing piece where that lies along it', () => {
    // The ends of an offset are parallel.
    const remade = remake(offset, [{ kind: 'piece', piece: 'P1', shortest: 228 }]);
    expect(listLengths(remade)).toEqual({ P1: -2, P3: 2 });
    expectSameOutlet(remade, offset);
  });

  it('in the middle of a bend is made up for by both its ends', () => {
    // 3 mm at 45 degrees is 3·cos 45° along each of the ends' axes.
    const remade = remake(bend, [{ kind: 'piece', piece: 'P2', shortest: 167 }]);
    expect(listLengths(remade)).toEqual({ P1: 2.121, P2: -3, P3: 2.121 });
    expectSameOutlet(remade, bend);
    expect(writeSheetOfFitting(remade.fitting).straights[0]!.pieces[1]!.shortest).toBe(167);
  });

  it('between the turns of an offset cannot be made up for: the ends run square to what is missing', () => {
    // 3·sin 45°; along the duct the closing piece takes it.
    const finding = lose(offset, [{ kind: 'piece', piece: 'P2', shortest: findTravel() - 3 }]);
    expect(finding).toMatchObject({ code: 'as-made-lost', data: { cause: 'aside', turn: 0 } });
    expect(finding.data['place']).toBeCloseTo(2.1213203, 6);
    expect(finding.said).toBe(
      'The other end is missed by 2.1 mm: no piece that is still to be made moves it that way.'
    );
  });

  it('on one slope of a detour is made up for by the other, since that one is still to be cut', () => {
    const detour: SaidFitting = {
      family: 'double-offset',
      section: SECTION,
      params: { rise: -300, turn: 45, level: 200, throatIn: 230, throatOut: 230 }
    };
    const remade = remake(detour, [
      { kind: 'piece', piece: 'P1' },
      { kind: 'piece', piece: 'P2', shortest: findTravel() - 3 }
    ]);
    // The same fall is missing on the way back; both slopes are 3·cos 45° shorter along the duct.
    const lengths = listLengths(remade);
    expect(lengths).toMatchObject({ P2: -3, P4: -3 });
    expect(lengths['P3']! + lengths['P5']!).toBeCloseTo(2 * 3 * Math.SQRT1_2, 2);
    expect(lengths['P1']).toBeUndefined();
    expectSameOutlet(remade, detour);
  });

  it('too long is not saved by a closing piece that is at the least of the shop already', () => {
    const short = { ...offset, params: { ...offset.params, throatOut: 200 } };
    const finding = lose(short, [
      { kind: 'piece', piece: 'P1', shortest: 232 },
      { kind: 'piece', piece: 'P2' }
    ]);
    expect(finding).toMatchObject({ data: { cause: 'short', held: 'P3' } });
    expect(finding.data['place']).toBeCloseTo(2, 9);
    expect(finding.said).toBe(
      "The other end is missed by 2.0 mm: P3 would have to be shorter than the shop's least."
    );
    // Where the shop wants less there is something to take off.
    const bold = { shop: { minThroat: 150 } };
    expect(
      listLengths(remake(short, [{ kind: 'piece', piece: 'P1', shortest: 232 }], undefined, bold))
    ).toEqual({ P1: 2, P3: -2 });
  });
});

describe('a cut that was made at another angle', () => {
  it('in an offset asks for the same angle at the other cut, and a longer slope', () => {
    const remade = remake(offset, [
      { kind: 'piece', piece: 'P1' },
      { kind: 'cut', cut: 'C1', turn: 44 }
    ]);
    expect(remade.changed.filter(({ kind }) => kind === 'turn').map(({ name, to }) => [name, to])).toEqual([
      ['C1', 44],
      ['C2', expect.closeTo(44, 9)]
    ]);
    // 300/sin 44° is 431.867, 300/sin 45° is 424.264.
    expect(listLengths(remade)['P2']).toBeCloseTo(431.867 - 424.264, 2);
    expectSameOutlet(remade, offset);
  });

  it('in a bend is made up for at the other cut', () => {
    const remade = remake(bend, [{ kind: 'cut', cut: 'C1', turn: 43.5 }]);
    const { joints } = remade.fitting.params as { joints: { turn: number; heel: number }[] };
    expect(joints.map(({ turn }) => turn)).toEqual([43.5, expect.closeTo(46.5, 9)]);
    expect(joints.map(({ heel }) => heel)).toEqual([90, 90]);
    expectSameOutlet(remade, bend);
  });

  it('in a path that winds is made up for by turns and heels of the cuts to come', () => {
    const path: SaidFitting = {
      family: 'path',
      section: SECTION,
      params: {
        lengths: [500, 600, 600, 600, 500],
        joints: [
          { turn: 40, heel: 10 },
          { turn: 35, heel: 120 },
          { turn: 50, heel: 250 },
          { turn: 30, heel: 60 }
        ]
      }
    };
    const remade = remake(path, [
      { kind: 'piece', piece: 'P1', shortest: 440 },
      { kind: 'cut', cut: 'C1', turn: 41 }
    ]);
    expectSameOutlet(remade, path);
  });

  it('is lost where no other cut is left to be made', () => {
    const single = { ...bend, params: { turn: 45, pieces: 2, heel: 'right', throatIn: 230, throatOut: 230 } };
    const finding = lose(single, [{ kind: 'cut', cut: 'C1', turn: 44 }]);
    expect(finding).toMatchObject({ code: 'as-made-lost', data: { cause: 'turned' } });
    expect(finding.data['turn']).toBeCloseTo(1, 9);
    expect(finding.said).toContain('stays turned by 1');
  });
});

describe('what was made, and the end of the site', () => {
  it('meets the end that the site wants instead of its own', () => {
    const { at, flow, up } = findOutlet(offset);
    const further = remake(offset, [{ kind: 'piece', piece: 'P1' }], {
      at: [at[0] + 12, at[1], at[2]],
      flow,
      up
    });
    expect(listLengths(further)).toEqual({ P3: 12 });
    // Turned over, the end of the duct is the same; a site may say directions in any length.
    const over: SiteEnd = { at, flow: [2, 0, 0], up: [0, -3, 0] };
    expect(remake(offset, [{ kind: 'piece', piece: 'P1' }], over).changed).toEqual([]);
  });

  it('leaves a coordinate free that the site does not want', () => {
    const { at, flow, up } = findOutlet(offset);
    const line: SiteEnd = { at: [null, at[1], at[2]], flow, up };
    expect(listLengths(remake(offset, [{ kind: 'piece', piece: 'P1', shortest: 228 }], line))).toEqual({
      P1: -2
    });
  });

  it('holds for a piece that was divided over two straights', () => {
    const long = { ...offset, lay: 'across' as const, params: { ...offset.params, throatIn: 1600 } };
    const names = evaluateOne(long).built!.fitting.bodies.map(({ name }) => name);
    expect(names.slice(0, 2)).toEqual(['P1a', 'P1b']);
    const [first] = writeSheetOfFitting(long).straights;
    const measured = first!.pieces[0]!.shortest - 2;
    const remade = remake(long, [{ kind: 'piece', piece: 'P1a', shortest: measured }]);
    expect(listLengths(remade)).toEqual({ P1: -2, P3: 2 });
    expectSameOutlet(remade, long);
  });

  it('refuses a length or a turn that there cannot be, and names the one that was said', () => {
    expect(ask(bend, [{ kind: 'piece', piece: 'P2', shortest: 0 }])).toMatchObject({
      code: 'as-made-length',
      would: expect.closeTo(170, 9)
    });
    expect(ask(bend, [{ kind: 'cut', cut: 'C2', turn: 95 }])).toMatchObject({
      code: 'as-made-turn',
      would: expect.closeTo(45, 9)
    });
    expect(() => ask(bend, [{ kind: 'piece', piece: 'P9' }])).toThrow('P9');
  });

  it('is told of a fitting that is more than a path', () => {
    const reducer = {
      family: 'reducer',
      section: SECTION,
      params: { outlet: { width: 300, height: 200 }, length: 400 }
    };
    expect(lose(reducer, []).said).toContain('two ends');
  });
});

function findTravel(): number {
  return 300 / Math.SQRT1_2;
}
