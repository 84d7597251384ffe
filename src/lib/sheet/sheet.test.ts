import { describe, expect, it } from 'vitest';
import { FOLDED, writeSheetOf, writeSheetOfFitting } from '../../../tests/duct.ts';
import { round, roundClock, roundDirection } from './round.ts';

/** The documented example of a job: a bend, an offset is left to its own family, and a free path. */
const BEND = {
  tag: 'F1',
  quantity: 1,
  family: 'bend',
  section: { width: 400, height: 250 },
  params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
};
const PATH = {
  tag: 'F4',
  quantity: 1,
  family: 'path',
  section: { width: 300, height: 300 },
  params: {
    lengths: [420, 500, 460],
    joints: [
      { turn: 40, heel: 33 },
      { turn: 25, heel: 213 }
    ]
  }
};
const JOB = {
  format: 'gorewright-job',
  version: 1,
  name: 'Reading room supply',
  show: { length: 'mm', precision: 0, language: 'en' },
  board: {
    thickness: 25,
    length: 3000,
    width: 1200,
    profile: 'long',
    spigot: 20,
    corner: 'miter',
    flap: 40,
    density: 70,
    conductivity: 0.034
  },
  shop: { minThroat: 200, minGore: 150, blades: [{ angle: 0 }, { angle: 22.5 }, { angle: 45 }] },
  fittings: [BEND, PATH]
};

describe('the sheet of the documented example, a bend of 400 × 250', () => {
  const sheet = writeSheetOf(JOB);
  const [bend, path] = sheet.fittings;
  const [straight] = bend!.straights;

  it('is headed by its format, version and the name of the job', () => {
    expect([sheet.format, sheet.version, sheet.name]).toEqual(['gorewright-sheet', 1, 'Reading room supply']);
    expect(sheet.fittings.map(({ tag }) => tag)).toEqual(['F1', 'F4']);
  });

  it('holds 32 297 727.215 mm³ of board in one straight of 922.792', () => {
    expect({ ...bend, straights: [], ports: [], steps: [], findings: [], quantities: {} }).toEqual({
      tag: 'F1',
      quantity: 1,
      family: 'bend',
      buildable: true,
      volume: 32297727.215,
      openEdges: 0,
      straights: [],
      panels: [],
      ports: [],
      steps: [],
      findings: [],
      quantities: {}
    });
    expect({ ...straight, cuts: [], pieces: [] }).toEqual({
      name: 'F1-A',
      section: { width: 400, height: 250 },
      thickness: 25,
      length: 922.792,
      lay: 'across',
      make: 'one piece',
      ends: ['female', 'plain'],
      cuts: [],
      marks: [],
      openings: [],
      pieces: []
    });
  });

  it('cuts C1 at 293.198 with the marks of all four faces', () => {
    const cheek = { start: 200, end: 386.396, line: 22.5, bevel: 0, setback: 0, depth: 25 };
    const square = { line: 0, bevel: 22.5, setback: 10.355, depth: 27.06 };
    expect(straight!.cuts[0]).toEqual({
      name: 'C1',
      station: 293.198,
      miter: 22.5,
      heel: 90,
      faces: {
        top: cheek,
        right: { start: 386.396, end: 386.396, ...square, lean: 'downstream' },
        bottom: cheek,
        left: { start: 200, end: 200, ...square, lean: 'upstream' }
      }
    });
  });

  it('cuts C2 the other way round, its heel on the left of the straight', () => {
    // Σ of the axes so far: 293.198 and a gore of 150 + 2·93.198. Heel left: the throat is on the right.
    const cut = straight!.cuts[1]!;
    expect(straight!.cuts).toHaveLength(2);
    expect([cut.name, cut.station, cut.miter, cut.heel]).toEqual(['C2', 629.594, 22.5, 270]);
    expect([cut.faces.left.start, cut.faces.right.start]).toEqual([722.792, 536.396]);
    expect([cut.faces.top.start, cut.faces.top.end]).toEqual([722.792, 536.396]);
    expect([cut.faces.left.lean, cut.faces.right.lean]).toEqual(['downstream', 'upstream']);
  });

  it('lists its three pieces, the gore rolled over', () => {
    expect(straight!.pieces).toEqual([
      {
        name: 'P1',
        flipped: false,
        seam: 'top-left',
        axis: 293.198,
        shortest: 200,
        longest: 386.396,
        volume: 10261931.804
      },
      {
        name: 'P2',
        flipped: true,
        seam: 'bottom-right',
        axis: 336.396,
        shortest: 150,
        longest: 522.792,
        // The same area of wall, 35 000 mm², times the axis.
        volume: 11773863.607
      },
      {
        name: 'P3',
        flipped: false,
        seam: 'top-left',
        axis: 293.198,
        shortest: 200,
        longest: 386.396,
        volume: 10261931.804
      }
    ]);
  });

  it('has its inlet at the origin and its outlet at 531.066 and −531.066, flowing left', () => {
    const section = { width: 400, height: 250 };
    expect(bend!.ports).toEqual([
      { name: 'inlet', at: [0, 0, 0], flow: [1, 0, 0], up: [0, 1, 0], section, end: 'female' },
      { name: 'outlet', at: [531.066, 0, -531.066], flow: [0, 0, -1], up: [0, 1, 0], section, end: 'plain' }
    ]);
  });

  it('counts areas, mass, seam, outlines and glue', () => {
    expect(bend!.quantities).toEqual({
      outside: 1.384,
      inside: 1.2,
      mass: 2.261,
      seam: 922.792,
      joints: 2,
      jointOutline: 3148.306,
      glue: 2731.828
    });
  });

  it('begins its steps with the making of the straight and ends with the inspection', () => {
    const kinds = bend!.steps.map(({ kind }) => kind);
    expect(kinds.slice(0, 9)).toEqual([
      'check',
      'groove',
      'strip',
      'fold',
      'square',
      'staple',
      'tape',
      'mark',
      'label'
    ]);
    expect(kinds.at(-1)).toBe('inspect');
    const firstCut = bend!.steps.find(({ kind }) => kind === 'cut')!;
    expect([firstCut.straight, firstCut.face]).toEqual(['F1-A', 'top']);
    expect(bend!.steps.every(({ text }) => /^\S.*\. \S/.test(text))).toBe(true);
  });

  it('can build the path of 300 × 300 at 33 degrees, without an error', () => {
    expect(path!.buildable).toBe(true);
    expect(path!.findings.filter(({ level }) => level === 'error')).toEqual([]);
    expect(path!.straights[0]!.length).toBe(1380);
    expect(path!.straights[0]!.cuts.map(({ station, miter, heel }) => [station, miter, heel])).toEqual([
      [420, 20, 33],
      [920, 12.5, 33]
    ]);
    // 32 500 mm² of wall along 1380: opposite heels make parallel cuts, the volume is that of the straight.
    expect(path!.volume).toBe(44850000);
  });
});

describe('the panels of a taper of 400 × 250 to 300 × 150, flat below, 400 long', () => {
  const sheet = writeSheetOfFitting({
    tag: 'F1',
    family: 'reducer',
    section: { width: 400, height: 250 },
    params: {
      outlet: { width: 300, height: 150 },
      alignY: 'bottom',
      alignZ: 'center',
      length: 400,
      collarIn: 0,
      collarOut: 0
    }
  });

  it('are one a face, the top one with the outlines and bevels of the documented example', () => {
    expect(sheet.straights).toEqual([]);
    expect(sheet.panels.map(({ name, face }) => `${name} ${face}`)).toEqual([
      'W1 top',
      'W2 right',
      'W3 bottom',
      'W4 left'
    ]);
    const { outer, inner, edges } = sheet.panels[0]!;
    expect(outer).toEqual([
      [0, 0],
      [450.389, 0],
      [400.389, 412.311],
      [50, 412.311]
    ]);
    expect(inner).toEqual([
      [25.195, 6.25],
      [425.195, 6.25],
      [375.195, 418.561],
      [75.195, 418.561]
    ]);
    expect(edges.map(({ bevel }) => bevel)).toEqual([14.036, 44.138, 14.036, 44.138]);
  });

  it('end in neighbours as long as themselves: every corner edge is on two of them', () => {
    const lengths = sheet.panels.map(({ outer }) =>
      outer.map(([x, y], i) => {
        const [nextX, nextY] = outer[(i + 1) % 4]!;
        return Math.hypot(nextX - x, nextY - y);
      })
    );
    lengths.forEach((edges, i) => expect(edges[1]).toBeCloseTo(lengths[(i + 1) % 4]![3]!, 2));
  });
});

describe('openings and marks in the sheet', () => {
  const section = { width: 400, height: 250 };

  it('of a round opening have its circle, and corners on it', () => {
    const params = { length: 800, wall: 'left', station: 300, aside: 20, shape: 'round', diameter: 160 };
    const [straight] = writeSheetOfFitting({ family: 'opening', section, params }).straights;
    const { outer, inner, edges, ...rest } = straight!.openings[0]!;
    // 20 up on a side wall of 300 outside: 130 from the edge to the top face.
    expect(rest).toEqual({ name: 'O1', face: 'left', circle: { at: [300, 130], outer: 80, inner: 80 } });
    expect(edges).toHaveLength(outer.length);
    for (const [station, across] of [...outer, ...inner]) {
      expect(Math.hypot(station - 300, across - 130)).toBeCloseTo(80, 2);
    }
  });

  it('of a slanting branch have both outlines, the inside one further upstream by t/tan of the angle', () => {
    const branch = { across: 100, along: 200 };
    const params = { length: 900, wall: 'top', station: 450, branch, angle: 60, fit: 'butt' };
    const [main] = writeSheetOfFitting({ family: 'takeoff', section, params }).straights;
    const { name, face, outer, inner, edges, circle } = main!.openings[0]!;
    expect([name, face, circle]).toEqual(['O1', 'top', undefined]);
    // 200/sin 60° = 230.940 long about 450, 100 wide about 225; 25/tan 60° = 14.434.
    const span = (points: readonly (readonly number[])[], axis: number): number[] =>
      [Math.min, Math.max].map((pick) => pick(...points.map((point) => point[axis]!)));
    expect([span(outer, 0), span(outer, 1)]).toEqual([
      [334.53, 565.47],
      [175, 275]
    ]);
    expect([span(inner, 0), span(inner, 1)]).toEqual([
      [320.096, 551.036],
      [175, 275]
    ]);
    expect(edges.map(({ bevel }) => bevel).sort()).toEqual([0, 0, 30, 30]);
  });

  it('of a reducer folded from one straight are its slits, its groove, its slopes and its wedge', () => {
    const sheet = writeSheetOfFitting(FOLDED);
    const [straight] = sheet.straights;
    expect([straight!.length, sheet.panels]).toEqual([700, []]);
    const told = straight!.marks.map(({ kind, face, from, to }) => [kind, face, ...from, ...to].join(' '));
    // Δ 100 over 400 from 150 on: 400/cos δ = 412.311; the wedge takes 2·25·tan(δ/2) = 6.155.
    expect(told).toContain('slit top 150 0 700 0');
    expect(told).toContain('groove top 150 0 150 450');
    expect(told).toContain('cut right 150 0 550 100');
    expect(told).toContain('cut left 150 0 550 100');
    expect(told).toContain('cut top 562.311 0 562.311 450');
    expect(told).toContain('cut top 568.466 0 568.466 450');
    // The documented volume of this reducer.
    expect(sheet.volume).toBeCloseTo(22873105.6, 1);
  });
});

describe('a sheet of a duct that cannot be built', () => {
  const sheet = writeSheetOfFitting({ ...BEND, params: { ...BEND.params, gore: 0 } });

  it('has nothing in it but the findings, and each names a parameter and its cure', () => {
    expect(sheet).toMatchObject({
      buildable: false,
      volume: 0,
      openEdges: 0,
      straights: [],
      panels: [],
      ports: [],
      steps: []
    });
    expect(Object.values(sheet.quantities)).toEqual([0, 0, 0, 0, 0, 0, 0]);
    expect(sheet.findings).toHaveLength(1);
    expect(sheet.findings[0]).toMatchObject({
      level: 'error',
      code: 'edge-vanishes',
      param: 'params.gore',
      would: 150
    });
  });
});

describe('rounding in the sheet', () => {
  it('is to a thousandth, a millionth for directions, and never minus zero', () => {
    expect(round(293.19805)).toBe(293.198);
    expect(round(0.0005)).toBe(0.001);
    expect(Object.is(round(-0.0001), 0)).toBe(true);
    expect(roundDirection(0.12345678)).toBe(0.123457);
    expect(Object.is(roundDirection(-1e-9), 0)).toBe(true);
  });

  it('takes a clock angle that rounds up to a whole turn as none', () => {
    expect(roundClock(359.9996)).toBe(0);
    expect(roundClock(359.9994)).toBe(359.999);
  });

  it.each([NaN, Infinity, -Infinity, 1e306])('refuses %d, which JSON could not hold', (value) => {
    expect(() => round(value)).toThrow(/cannot hold/);
  });
});

describe('the language and the units of a sheet', () => {
  it('change its sentences and not its figures', () => {
    const say = (show: object) => writeSheetOfFitting(BEND, { show });
    const [mm, inches] = [say({ length: 'mm' }), say({ length: 'in/16' })];
    expect(inches.straights).toEqual(mm.straights);
    expect(inches.quantities).toEqual(mm.quantities);
    expect(inches.steps.map(({ kind }) => kind)).toEqual(mm.steps.map(({ kind }) => kind));
    // 922.792 mm of tape on the seam are 36 5/16 inches.
    const tape = (sheet: typeof mm) => sheet.steps.find(({ kind }) => kind === 'tape')!.text;
    expect(tape(mm)).toContain('923 mm');
    expect(tape(inches)).toContain('36 5/16 in');
  });
});
