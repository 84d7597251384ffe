import { describe, expect, it } from 'vitest';
import { evaluateOne, FOLDED, SECTION, writeSheetOfFitting } from '../../../../tests/duct.ts';
import { checkWays } from '../checks/ways.ts';
import type { Fitting } from '../fitting/fitting.ts';

/** Area of the walls of 400 × 250 from board of 25 mm, mm². */
const WALLS = 450 * 300 - 400 * 250;

const sheetOf = (family: string, params: object, section = SECTION) =>
  writeSheetOfFitting({ family, section, params: params as Record<string, unknown> });

describe('a folded reducer of 400 × 250 that drops 100 over 400', () => {
  const { params } = FOLDED;

  it('holds 22 873 105.6 mm³ of board, its gap closed with a strip or its other walls trimmed', () => {
    for (const finish of ['strip', 'trim']) {
      expect(sheetOf('reducer', { ...params, finish }).volume).toBeCloseTo(22_873_105.626, 2);
    }
  });

  it('comes from a straight of 700, or 718.466 where it is trimmed by what the wall comes up short', () => {
    // e = 400·(1/cos δ − 1) + 50·tan(δ/2), tan δ = 1/4.
    expect(sheetOf('reducer', params).straights[0]!.length).toBe(700);
    const [trimmed] = sheetOf('reducer', { ...params, finish: 'trim' }).straights;
    expect(trimmed!.length).toBe(718.466);
    expect(
      trimmed!.marks.filter(({ kind }) => kind === 'trim').map(({ face, from }) => [face, from[0]])
    ).toEqual([
      ['bottom', 700],
      ['right', 700],
      ['left', 700]
    ]);
  });

  it('is marked with slits, a groove, a wedge of 6.155 on the facing and slopes on both cheeks', () => {
    const { marks } = sheetOf('reducer', params).straights[0]!;
    const across = marks.filter(({ face, from, to }) => face === 'top' && from[0] === to[0]);
    expect(across.map(({ kind, from, bevel, lean }) => [kind, from[0], bevel, lean])).toEqual([
      ['groove', 150, 7.018, undefined],
      ['cut', 562.311, 7.018, 'upstream'],
      ['cut', 568.466, 7.018, 'downstream']
    ]);
    const slopes = marks.filter(({ face, from, to }) => face !== 'top' && from[1] !== to[1]);
    expect(slopes.map(({ face, from, to, bevel }) => [face, from, to, bevel])).toEqual([
      ['right', [150, 0], [550, 100], 45],
      ['left', [150, 0], [550, 100], 45]
    ]);
  });

  it('turned round is the same body, its datum at the larger outlet, male downstream', () => {
    const up = sheetOf(
      'reducer',
      { ...params, outlet: { width: 400, height: 250 } },
      { width: 400, height: 150 }
    );
    expect(up.volume).toBeCloseTo(22_873_105.626, 2);
    expect(up.ports.map(({ name, at, end }) => [name, at, end])).toEqual([
      ['inlet', [0, 0, 0], 'plain'],
      ['outlet', [700, 50, 0], 'male']
    ]);
  });

  it('keeps its seam off the sloping wall', () => {
    expect(sheetOf('reducer', params).straights[0]!.pieces[0]!.seam).toBe('bottom-right');
  });

  it('is made of panels where two walls slope', () => {
    const { buildable, findings } = sheetOf('reducer', { ...params, outlet: { width: 300, height: 150 } });
    expect(buildable).toBe(false);
    expect(findings.map(({ code, param, would }) => [code, param, would])).toEqual([
      ['fold-one-wall', 'params.method', 'panels']
    ]);
  });
});

describe('a take-off of 200 × 150 from 400 × 250', () => {
  const params = { length: 900, wall: 'right', station: 450, branch: { across: 150, along: 200 }, neck: 250 };
  const stubWalls = 250 * 200 - 200 * 150;

  it('square and butted takes its opening out of the main and adds a stub without a cut', () => {
    const { volume, straights, ports } = sheetOf('takeoff', params);
    expect(volume).toBeCloseTo(WALLS * 900 - 200 * 150 * 25 + stubWalls * 250, 2);
    expect(straights.map(({ name, length, cuts }) => [name, length, cuts.length])).toEqual([
      ['F1-A', 900, 0],
      ['F1-B', 250, 0]
    ]);
    expect(ports.map(({ name, at }) => [name, at])).toEqual([
      ['inlet', [0, 0, 0]],
      ['outlet', [900, 0, 0]],
      ['branch', [450, 0, 475]]
    ]);
  });

  it('at 45° is cut at (along/2 + t)/tan g, the opening along/sin g, its inside upstream by t/tan g', () => {
    const { straights, volume } = sheetOf('takeoff', { ...params, angle: 45 });
    const [main, stub] = straights;
    expect(stub!.length).toBe(500);
    expect(stub!.cuts.map(({ station, miter, heel }) => [station, miter, heel])).toEqual([[125, 45, 270]]);
    expect(stub!.pieces.map(({ axis, shortest }) => [axis, shortest])).toEqual([[375, 250]]);
    const [opening] = main!.openings;
    expect([opening!.outer[0]![0], opening!.outer[1]![0]]).toEqual([308.579, 591.421]);
    expect([opening!.inner[0]![0], opening!.inner[1]![0]]).toEqual([283.579, 566.421]);
    expect(opening!.edges.map(({ bevel }) => bevel)).toEqual([0, 45, 0, 45]);
    expect(volume).toBeCloseTo(WALLS * 900 - 200 * Math.SQRT2 * 150 * 25 + stubWalls * 375, 2);
  });

  it('let in goes on to the inside of the wall, through an opening with a millimetre of play', () => {
    const entered = { ...params, branch: { across: 120, along: 200 }, angle: 45, fit: 'enter' };
    const [main, stub] = sheetOf('takeoff', entered).straights;
    // t/sin 45° longer; the cut stays where it is, and the neck still counts from the outside.
    expect([stub!.length, stub!.pieces[0]!.axis]).toEqual([535.355, 410.355]);
    const [opening] = main!.openings;
    expect(opening!.outer[1]![0] - opening!.outer[0]![0]).toBeCloseTo(250 * Math.SQRT2 + 2, 2);
    expect(opening!.outer[2]![1] - opening!.outer[1]![1]).toBeCloseTo(172, 9);
  });

  it('with a shoe holds its profiles: outer × (across + 2t) less inner × across', () => {
    const [shoe, t, along, across, neck] = [100, 25, 200, 120, 250];
    const { volume, panels } = sheetOf('takeoff', {
      ...params,
      branch: { across, along },
      entry: 'shoe'
    });
    const outer = (along + 2 * t) * neck + (shoe + t * (Math.SQRT2 - 1)) ** 2 / 2;
    const inner = along * neck + shoe ** 2 / 2;
    const opening = ((along + shoe + (along + shoe + t)) / 2) * across * t;
    expect(volume).toBeCloseTo(WALLS * 900 - opening + outer * (across + 2 * t) - inner * across, 2);
    expect(panels.map(({ name, outer: points }) => [name, points.length])).toEqual([
      ['W1', 4],
      ['W2', 4],
      ['W3', 4],
      ['W4', 5],
      ['W5', 5]
    ]);
  });

  it.each([
    ['off the end', { station: 100 }, 'opening-end', 'params.station', 126],
    ['off the far end', { station: 850 }, 'opening-end', 'params.station', 774],
    ['over the corner of its wall', { aside: 60 }, 'opening-edge', 'params.aside', 25],
    [
      'as wide as its wall',
      { branch: { across: 230, along: 200 } },
      'opening-large',
      'params.branch.across',
      200
    ],
    ['over a joint of a long main', { length: 4000, station: 2950 }, 'opening-joint', 'params.station', 2874]
  ])('%s is refused with the value that would do', (_what, change, code, param, would) => {
    const { buildable, findings } = sheetOf('takeoff', { ...params, ...change });
    expect(buildable).toBe(false);
    expect(findings.map((finding) => [finding.code, finding.param, finding.would])).toEqual([
      [code, param, would]
    ]);
    // The branch fits there: what remains can be built.
    const path = param.slice('params.'.length);
    const mended = path.startsWith('branch')
      ? { ...params, branch: { across: would, along: 200 } }
      : { ...params, ...change, [path]: would };
    expect(sheetOf('takeoff', mended).buildable).toBe(true);
  });
});

describe('ducts that divide', () => {
  it('one side turning left at 180 inside leaves 170 to the part straight on', () => {
    const { straights, ports, findings } = sheetOf('split-bend', {
      divide: 'width',
      toward: 'left',
      turned: { inside: 180, turn: 90 },
      straight: { length: 600 }
    });
    expect(straights.map(({ name, section }) => [name, section.width])).toEqual([
      ['F1-A', 180],
      ['F1-B', 170]
    ]);
    expect(straights[0]!.cuts.map(({ name, heel }) => [name, heel])).toEqual([
      ['C1', 90],
      ['C2', 270]
    ]);
    expect(ports.map(({ name, at }) => [name, at])).toEqual([
      ['inlet', [0, 0, 0]],
      ['straight', [600, 0, 115]],
      // Width 230 outside: axis at −110, c = 115·tan 22.5°, then as a bend.
      ['turned', [421.066, 0, -531.066]]
    ]);
    // 50 of 400 are lost to the dividing walls.
    const lost = findings.find(({ code }) => code === 'area-lost')!;
    expect(lost.message).toContain('12.5 %');
    expect(lost.message).toContain('1.14 times');
  });

  it('shares that do not add up are refused with the one that would', () => {
    const { findings } = sheetOf('wye', {
      first: { inside: 200, turn: 45 },
      second: { inside: 160, turn: 45 }
    });
    expect(findings.map(({ code, param, would }) => [code, param, would])).toEqual([
      ['shares-differ', 'params.second.inside', 150]
    ]);
  });

  it('three ways leave the middle what the outer ones do not take', () => {
    const outer = { inside: 150, turn: 60 };
    const params = { first: outer, middle: { length: 700 }, second: outer };
    const { straights } = sheetOf('three-way', params, { width: 700, height: 250 });
    expect(straights.map(({ section }) => section.width)).toEqual([150, 300, 150]);
    expect(straights.flatMap(({ pieces }) => pieces.map(({ name }) => name))).toEqual([
      'P1',
      'P2',
      'P3',
      'P4',
      'P5',
      'P6',
      'P7'
    ]);
  });

  it('noses their dividing walls, without which those edges stay open', () => {
    const { built } = evaluateOne({
      family: 'wye',
      section: SECTION,
      params: { first: { inside: 200, turn: 45 }, second: { turn: 45 } }
    });
    expect(built!.openEdges).toBe(0);
    expect(built!.steps.map(({ kind }) => kind)).toContain('nose');
  });

  it('are told where two of their ducts would cross further on', () => {
    const { built } = evaluateOne({
      family: 'takeoff',
      section: SECTION,
      params: { length: 900, wall: 'right', station: 450, branch: { across: 150, along: 200 } }
    });
    const { fitting } = built!;
    expect(checkWays(fitting)).toEqual([]);
    const crossing: Fitting = {
      ...fitting,
      ports: fitting.ports.map((port) => (port.name === 'branch' ? { ...port, flow: [0.8, 0, -0.6] } : port))
    };
    expect(checkWays(crossing).map(({ code, data }) => [code, data['first'], data['second']])).toEqual([
      ['ways-cross', 'outlet', 'branch']
    ]);
  });
});

describe('ends that are closed, and holes', () => {
  it('a cap set in adds its inside by the thickness, one set on its outside', () => {
    expect(sheetOf('cap', { set: 'in', length: 200 }).volume).toBe(WALLS * 200 + 400 * 250 * 25);
    expect(sheetOf('cap', { set: 'on', length: 200 }).volume).toBe(WALLS * 200 + 450 * 300 * 25);
  });

  it('a round opening takes out its circle, told as a circle', () => {
    const { volume, straights } = sheetOf('opening', {
      length: 800,
      wall: 'top',
      station: 400,
      shape: 'round',
      diameter: 160
    });
    expect(volume).toBeCloseTo(WALLS * 800 - Math.PI * 80 ** 2 * 25, 2);
    const [opening] = straights[0]!.openings;
    for (const [x, u] of opening!.outer) expect(Math.hypot(x - 400, u - 225)).toBeCloseTo(80, 2);
  });

  it('a box is closed at both ends; its openings are its ports, the air coming in by the first', () => {
    const { volume, ports, panels } = sheetOf('box', {
      length: 600,
      openings: [
        { wall: 'top', station: 300, shape: 'round', diameter: 160 },
        { wall: 'bottom', station: 300, shape: 'rectangular', along: 400, across: 250 }
      ]
    });
    expect(volume).toBeCloseTo(WALLS * 600 + 2 * 400 * 250 * 25 - Math.PI * 80 ** 2 * 25 - 400 * 250 * 25, 2);
    expect(panels.map(({ name }) => name)).toEqual(['W1', 'W2']);
    expect(ports.map(({ name, flow, section }) => [name, flow, section])).toEqual([
      ['O1', [0, -1, 0], { width: 160, height: 160 }],
      ['O2', [0, -1, 0], { width: 250, height: 400 }]
    ]);
  });
});
