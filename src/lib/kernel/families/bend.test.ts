import { describe, expect, it } from 'vitest';
import { buildBend, evaluateOne, SECTION, writeSheetOfFitting } from '../../../../tests/duct.ts';

const bend = (params: object, more: object = {}) => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, pieces: 3, heel: 'right', ...params },
  ...more
});

/** The findings by code; a code that occurs more often only once. */
function listCodes(said: object): string[] {
  return [...new Set(writeSheetOfFitting(said).findings.map(({ code }) => code))];
}

describe('what drives a bend, 450 deep outside in its plane', () => {
  it('by gore: the straight is both throats, the gores, and what four half cuts take', () => {
    // 200 + 200 + 150 + 4·225·tan 22.5°.
    expect(writeSheetOfFitting(bend({ gore: 150 })).straights[0]!.length).toBe(922.792);
  });

  it('by radius: a radius of 600 about the axis has a gore of 2·tan 22.5°·(600 − 225)', () => {
    const { straights } = writeSheetOfFitting(bend({ radius: 600 }));
    expect(straights[0]!.pieces[1]!.shortest).toBe(310.66);
    // The axis of a gore is the side of a polygon about a circle of the radius: 2·600·tan 22.5°.
    expect(straights[0]!.pieces[1]!.axis).toBe(497.056);
  });

  it('by radius: 225, where the throats of all cuts meet in one point, is just too small', () => {
    expect(listCodes(bend({ radius: 225 }))).toContain('edge-vanishes');
    expect(evaluateOne(bend({ radius: 225.01 })).built).not.toBeNull();
  });

  it('by setback: the axes of inlet and outlet cross that far from the inlet', () => {
    const { ports, straights } = writeSheetOfFitting(bend({ setback: 700 }));
    // The outlet flows along −z at x = 700.
    expect(ports[1]!.at[0]).toBe(700);
    // R = (700 − 200 − 93.198)/(1 − tan 22.5°) = 694.450; gore = 2·tan 22.5°·(694.450 − 225).
    expect(straights[0]!.pieces[1]!.shortest).toBe(388.909);
  });

  it('by setback: a bend of 60 degrees crosses where it was told, too', () => {
    const [, outlet] = buildBend({ turn: 60, pieces: 4, setback: 800, throatOut: 300 }).fitting.ports;
    // Back along the outlet's flow to the inlet's axis, z = 0.
    const back = outlet!.at[2] / outlet!.flow[2];
    expect(Math.abs(outlet!.at[0] - back * outlet!.flow[0] - 800)).toBeLessThan(1e-9);
  });

  it('one driver follows from another: gore, radius and setback of one bend give the same bend', () => {
    const { values, setting, family } = evaluateOne(bend({ gore: 260 })).resolved;
    const derived = family.derive(values as never, setting);
    const reference = writeSheetOfFitting(bend({ gore: 260 }));
    for (const driver of ['gore', 'radius', 'setback']) {
      const same = writeSheetOfFitting(bend({ [driver]: derived[driver] }));
      expect(same.straights).toEqual(reference.straights);
      expect(same.ports).toEqual(reference.ports);
    }
  });

  it('nothing said: the gore is the least the shop wants', () => {
    const stock = { shop: { minThroat: 180, minGore: 120 } };
    const { pieces } = writeSheetOfFitting(bend({}), stock).straights[0]!;
    expect(pieces.map(({ shortest }) => shortest)).toEqual([180, 120, 180]);
  });
});

describe('a throat that rests', () => {
  it.each(['throatIn', 'throatOut'])('%s takes what is left of 1180, and both ends are moulded', (throat) => {
    const { straights, ports } = writeSheetOfFitting(bend({ [throat]: 'rest' }));
    const [straight] = straights;
    expect(straight!.length).toBe(1180);
    expect(straight!.lay).toBe('across');
    expect(straight!.ends).toEqual(['female', 'male']);
    expect(ports.map(({ end }) => end)).toEqual(['female', 'male']);
    // 1180 − 200 − 150 − 4·93.198.
    const rests = straight!.pieces[throat === 'throatIn' ? 0 : 2]!;
    expect(rests.shortest).toBe(457.208);
    expect(straight!.pieces.map(({ shortest }) => shortest).sort((a, b) => a - b)).toEqual([
      150, 200, 457.208
    ]);
  });

  it.each(['radius', 'setback'])(
    'at the inlet, with a bend driven by %s, still makes the straight 1180',
    (driver) => {
      const said = bend({ throatIn: 'rest', [driver]: driver === 'radius' ? 500 : 760 });
      expect(writeSheetOfFitting(said).straights[0]!.length).toBe(1180);
      if (driver === 'setback') expect(writeSheetOfFitting(said).ports[1]!.at[0]).toBe(760);
    }
  );

  it('follows the board: 1000 wide with a spigot of 25 leaves 975', () => {
    const sheet = writeSheetOfFitting(bend({ throatOut: 'rest' }), { board: { width: 1000, spigot: 25 } });
    expect(sheet.straights[0]!.length).toBe(975);
  });

  it('is an error where the others use the straight up, and says how much is missing', () => {
    const sheet = writeSheetOfFitting(bend({ throatIn: 700, throatOut: 'rest' }));
    expect(sheet.buildable).toBe(false);
    // 1180 − 700 − 150 − 372.792 is −42.792: 242.792 short of a throat of 200.
    expect(sheet.findings[0]).toMatchObject({ code: 'rest-spent', param: 'params.throatOut', would: 200 });
    expect(sheet.findings[0]!.message).toContain('243 mm');
  });

  it('is a warning where something is left, but less than the shop wants', () => {
    const sheet = writeSheetOfFitting(bend({ throatIn: 600, throatOut: 'rest' }));
    expect(sheet.buildable).toBe(true);
    expect(sheet.findings).toContainEqual(
      expect.objectContaining({
        level: 'warning',
        code: 'throat-short',
        param: 'params.throatOut',
        would: 200
      })
    );
  });
});

describe('pieces of a bend', () => {
  it.each([2, 3, 4, 5, 6, 7, 8, 9])(
    'a right angle in %d pieces has one cut fewer, equal, turn about turn',
    (pieces) => {
      const { straights, ports } = writeSheetOfFitting(
        bend({ pieces, radius: pieces > 2 ? 900 : undefined })
      );
      const [straight] = straights;
      expect(straight!.pieces).toHaveLength(pieces);
      expect(straight!.pieces.map(({ flipped }) => flipped)).toEqual(
        Array.from({ length: pieces }, (_, k) => k % 2 === 1)
      );
      expect(straight!.cuts.map(({ heel }) => heel)).toEqual(
        Array.from({ length: pieces - 1 }, (_, i) => (i % 2 === 0 ? 90 : 270))
      );
      for (const { miter } of straight!.cuts) expect(miter).toBeCloseTo(45 / (pieces - 1), 3);
      expect(ports[1]!.flow).toEqual([0, 0, -1]);
    }
  );

  it('two for a right angle are allowed and advised against', () => {
    const sheet = writeSheetOfFitting(bend({ pieces: 2 }));
    expect(sheet.buildable).toBe(true);
    expect(sheet.findings).toContainEqual(
      expect.objectContaining({ level: 'note', code: 'two-piece-bend', param: 'params.pieces', would: 3 })
    );
    expect(listCodes(bend({ pieces: 2, turn: 89 }))).not.toContain('two-piece-bend');
    expect(listCodes(bend({ pieces: 3 }))).not.toContain('two-piece-bend');
  });

  it('two have no gore: a radius changes nothing, a setback must be what it is', () => {
    expect(listCodes(bend({ pieces: 2, turn: 60, radius: 900 }))).toContain('radius-idle');
    const wrong = writeSheetOfFitting(bend({ pieces: 2, turn: 60, setback: 500 }));
    expect(wrong.buildable).toBe(false);
    // 200 + 225·tan 30°.
    expect(wrong.findings[0]).toMatchObject({
      code: 'setback-fixed',
      param: 'params.setback',
      would: 329.904
    });
    expect(writeSheetOfFitting(bend({ pieces: 2, turn: 60, setback: 329.904 })).buildable).toBe(true);
  });

  it('three turn by half a circle: the outlet flows back beside the inlet', () => {
    const { ports, straights } = writeSheetOfFitting(bend({ turn: 180, gore: 150 }));
    expect(straights[0]!.cuts.map(({ miter }) => miter)).toEqual([45, 45]);
    expect(ports[1]!.flow).toEqual([-1, 0, 0]);
    // The gore's axis, 150 + 450, is how far the two legs lie apart; equal throats end in one plane.
    expect(ports[1]!.at).toEqual([0, 0, -600]);
    expect(ports[1]!.up).toEqual([0, 1, 0]);
  });

  it('half a circle has no setback, and says so', () => {
    const sheet = writeSheetOfFitting(bend({ turn: 180, setback: 900 }));
    expect(sheet.findings[0]).toMatchObject({
      code: 'setback-endless',
      param: 'params.setback',
      level: 'error'
    });
  });

  it('far enough apart the legs of half a circle pass, whatever the gore', () => {
    // The throats of the two legs are the gore apart; it cannot vanish, so they cannot meet.
    expect(evaluateOne(bend({ turn: 180, gore: 0.01, throatIn: 900 })).built).not.toBeNull();
  });
});

describe('the heel of a bend', () => {
  // The duct leaves away from its heel. Up is carried: it leans back when the duct climbs.
  it.each([
    ['right', [531.066, 0, -531.066], [0, 0, -1], [0, 1, 0]],
    ['left', [531.066, 0, 531.066], [0, 0, 1], [0, 1, 0]]
  ])('%s', (heel, at, flow, up) => {
    expect(writeSheetOfFitting(bend({ heel })).ports[1]).toMatchObject({ at, flow, up });
  });

  // 300 deep: each axis is 200 + 150·tan 22.5°, the gore 150 + 300·tan 22.5°.
  it.each([
    ['top', [456.066, -456.066, 0], [0, -1, 0], [1, 0, 0]],
    ['bottom', [456.066, 456.066, 0], [0, 1, 0], [-1, 0, 0]]
  ])('%s', (heel, at, flow, up) => {
    expect(writeSheetOfFitting(bend({ heel })).ports[1]).toMatchObject({ at, flow, up });
  });

  it.each([
    ['top', 0, ['right', 'left'], ['top', 'bottom']],
    ['right', 90, ['top', 'bottom'], ['right', 'left']],
    ['bottom', 180, ['right', 'left'], ['top', 'bottom']],
    ['left', 270, ['top', 'bottom'], ['right', 'left']]
  ] as const)(
    'on the %s leaves two upright cheeks and bevels the other two faces',
    (heel, clock, cheeks, bevelled) => {
      const cut = writeSheetOfFitting(bend({ heel })).straights[0]!.cuts[0]!;
      expect(cut.heel).toBe(clock);
      for (const face of cheeks) {
        expect(cut.faces[face]).toMatchObject({ line: 22.5, bevel: 0, setback: 0, depth: 25 });
        expect(cut.faces[face]).not.toHaveProperty('lean');
      }
      for (const face of bevelled) expect(cut.faces[face]).toMatchObject({ line: 0, bevel: 22.5 });
      expect(cut.faces[heel].lean).toBe('downstream');
    }
  );
});

describe('what the shop is told of a bend', () => {
  it('nothing but the plain end, when lengths and blades are right', () => {
    expect(listCodes(bend({}))).toEqual(['end-plain']);
  });

  it('a throat and a gore below its minima, with the lengths that would do', () => {
    const { findings, buildable } = writeSheetOfFitting(bend({ throatIn: 120, gore: 100 }));
    expect(buildable).toBe(true);
    expect(findings.map(({ level, code, param, would }) => [level, code, param, would])).toEqual([
      ['warning', 'throat-short', 'params.throatIn', 200],
      ['warning', 'gore-short', 'params.gore', 150],
      ['note', 'end-plain', undefined, undefined]
    ]);
  });

  it('nothing of a length that is short by rounding only', () => {
    expect(listCodes(bend({ throatIn: 200 - 0.5e-6, gore: 150 - 0.5e-6 }))).toEqual(['end-plain']);
    expect(listCodes(bend({ throatIn: 200 - 2e-6 }))).toEqual(['throat-short', 'end-plain']);
  });

  it('a bevel that no blade makes, with its set-back and the turn of the nearest blade', () => {
    const [blade] = writeSheetOfFitting(bend({ turn: 80 })).findings;
    expect(blade).toMatchObject({ level: 'warning', code: 'no-blade', param: 'params.turn', would: 90 });
    expect(blade!.message).toContain('20°');
  });

  it('nothing of blades once the turn is one of those the blades make', () => {
    expect(listCodes(bend({ turn: 45, pieces: 2 }))).not.toContain('no-blade');
    expect(listCodes(bend({ turn: 180, pieces: 3 }))).not.toContain('no-blade');
    expect(listCodes(bend({ turn: 180, pieces: 5 }))).not.toContain('no-blade');
    expect(listCodes(bend({ turn: 90, pieces: 4 }))).toContain('no-blade');
  });
});
