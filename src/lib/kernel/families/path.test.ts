import { describe, expect, it } from 'vitest';
import { buildPath, evaluateOne, writeSheetOfFitting } from '../../../../tests/duct.ts';

const path = (lengths: number[], joints: object[], section = { width: 300, height: 300 }) => ({
  family: 'path',
  section,
  params: { lengths, joints }
});

describe('a free path', () => {
  it('without a joint is a straight', () => {
    const sheet = writeSheetOfFitting(path([700], []));
    const straight = writeSheetOfFitting({
      family: 'straight',
      section: { width: 300, height: 300 },
      params: { length: 700 }
    });
    expect(sheet.straights).toEqual(straight.straights);
    expect(sheet.ports).toEqual(straight.ports);
    expect(sheet.quantities).toEqual(straight.quantities);
  });

  it('of equal heels is a bend: cuts \\ / on the straight', () => {
    const joints = [90, 90].map((heel) => ({ turn: 45, heel }));
    expect(buildPath([500, 500, 500], joints).fitting.straights[0]!.cuts.map(({ heel }) => heel)).toEqual([
      90, 270
    ]);
  });

  it('of opposite heels is an offset: parallel cuts / /', () => {
    const joints = [33, 213].map((heel) => ({ turn: 45, heel }));
    const { cuts } = buildPath([700, 800, 700], joints).fitting.straights[0]!;
    expect(cuts.map(({ heel }) => heel)).toEqual([33, 33]);
    expect(cuts.map(({ miter }) => miter)).toEqual([22.5, 22.5]);
  });

  it('the edges of a piece between parallel cuts are all as long as its axis', () => {
    const joints = [33, 213].map((heel) => ({ turn: 45, heel }));
    const piece = writeSheetOfFitting(path([700, 800, 700], joints)).straights[0]!.pieces[1]!;
    expect([piece.shortest, piece.axis, piece.longest]).toEqual([800, 800, 800]);
  });

  it('a compound cut is shortest at a single corner, which the finding names', () => {
    // Heel at 33 degrees, top and right: the throat's corner is bottom left. Outside 350 square.
    // 350/2·(cos 33° + sin 33°)·tan 20° is 88.110 less than the axis of 200.
    const sheet = writeSheetOfFitting(path([200, 600], [{ turn: 40, heel: 33 }]));
    expect(sheet.straights[0]!.pieces[0]!.shortest).toBe(111.89);
    const short = sheet.findings.find(({ code }) => code === 'throat-short')!;
    expect(short.param).toBe('params.lengths[0]');
    expect(short.message).toContain('bottom left');
    expect(short.would).toBe(288.11);
  });

  it('a leg too short for its two cuts vanishes, and no shape is shown', () => {
    const sheet = writeSheetOfFitting(
      path(
        [500, 60, 500],
        [0, 0].map((heel) => ({ turn: 90, heel }))
      )
    );
    expect(sheet.buildable).toBe(false);
    expect(sheet.findings.map(({ code, param }) => [code, param])).toEqual([
      ['edge-vanishes', 'params.lengths[1]']
    ]);
  });

  it('that runs into itself is an error at a leg between', () => {
    const joints = [90, 90, 90, 90].map((heel) => ({ turn: 90, heel }));
    const sheet = writeSheetOfFitting(path([900, 800, 800, 800, 900], joints));
    expect(sheet.buildable).toBe(false);
    expect(sheet.findings[0]).toMatchObject({ level: 'error', code: 'pieces-collide' });
    expect(sheet.findings[0]!.param).toMatch(/^params\.lengths\[\d\]$/);
    // Stepped aside by a wide margin it passes itself.
    const aside = [
      { turn: 90, heel: 90 },
      { turn: 90, heel: 90 },
      { turn: 45, heel: 0 },
      { turn: 45, heel: 180 },
      { turn: 90, heel: 90 },
      { turn: 90, heel: 90 }
    ];
    expect(evaluateOne(path([900, 800, 900, 1200, 900, 800, 900], aside)).built).not.toBeNull();
  });

  it('of 200 joints is built', () => {
    // A gentle screw: every joint a little further round.
    const joints = Array.from({ length: 200 }, (_, i) => ({ turn: 3, heel: 10 * i }));
    const built = buildPath(
      Array.from({ length: 201 }, () => 250),
      joints
    );
    expect(built.fitting.bodies).toHaveLength(201);
    expect(built.openEdges).toBe(0);
  });
});
