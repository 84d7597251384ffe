import { describe, expect, it } from 'vitest';
import { writeSheetOfFitting } from '../../../../tests/duct.ts';

const straight = (length: number, more: object = {}, section = { width: 400, height: 250 }) =>
  writeSheetOfFitting({ family: 'straight', section, params: { length }, ...more });

describe('ends of a straight', () => {
  it('of 1180, the board less its spigot, are female at the datum and male at the far end', () => {
    const sheet = straight(1180);
    expect(sheet.straights[0]!.ends).toEqual(['female', 'male']);
    expect(sheet.findings).toEqual([]);
    expect(sheet.straights[0]).toMatchObject({ lay: 'across', make: 'one piece', length: 1180, cuts: [] });
  });

  it('that is shorter are female and plain, for the far profile is cut off', () => {
    const sheet = straight(900);
    expect(sheet.straights[0]!.ends).toEqual(['female', 'plain']);
    expect(sheet.findings.map(({ level, code }) => [level, code])).toEqual([['note', 'end-plain']]);
  });

  it('a plain end that must join is a warning, one that is wanted plain is nothing', () => {
    const wanted = straight(900, { ends: { outlet: 'male' } });
    expect(wanted.findings).toMatchObject([
      { level: 'warning', code: 'end-plain', param: 'ends.outlet', would: 'plain' }
    ]);
    expect(straight(900, { ends: { outlet: 'plain' } }).findings).toEqual([]);
  });

  it('turned round, male at the inlet leaves the female profile at the outlet', () => {
    expect(straight(1180, { ends: { inlet: 'male' } }).straights[0]!.ends).toEqual(['male', 'female']);
    expect(straight(1180, { ends: { outlet: 'female' } }).straights[0]!.ends).toEqual(['male', 'female']);
  });

  it('of the same kind cannot both be moulded on one board', () => {
    const sheet = straight(1180, { ends: { inlet: 'female', outlet: 'female' } });
    expect(sheet.straights[0]!.ends).toEqual(['female', 'plain']);
    expect(sheet.findings).toMatchObject([{ level: 'warning', code: 'end-plain', param: 'ends.outlet' }]);
  });

  it('laid along the board are both plain, and every plain end gets a step that makes it ready', () => {
    const sheet = straight(1180, { lay: 'along' }, { width: 200, height: 150 });
    expect(sheet.straights[0]!.ends).toEqual(['plain', 'plain']);
    expect(sheet.steps.filter(({ kind }) => kind === 'seal')).toHaveLength(2);
    expect(sheet.openEdges).toBe(0);
  });
});

describe('how a straight lies on the board', () => {
  it('long and narrow lies along it: 2500 of 200 × 150 in one piece', () => {
    // 2·(250 + 200) + 40 is 940, less than the 1200 of the board's width.
    const sheet = straight(2500, {}, { width: 200, height: 150 });
    expect(sheet.straights[0]).toMatchObject({ lay: 'along', make: 'one piece', length: 2500 });
    expect(sheet.findings.map(({ code }) => code)).toEqual(['end-plain', 'end-plain']);
  });

  it('short and narrow lies across it, where its ends are moulded', () => {
    expect(straight(1000, {}, { width: 200, height: 150 }).straights[0]!.lay).toBe('across');
  });

  it('too wide for one piece is two angles or more', () => {
    // 2·(850 + 750) + 40 is 3240, more than 3000; half of it fits.
    expect(straight(1180, {}, { width: 800, height: 700 }).straights[0]).toMatchObject({
      make: 'two angles',
      lay: 'across'
    });
    // Two seams, each along the whole.
    expect(straight(1180, {}, { width: 800, height: 700 }).quantities.seam).toBe(2360);
  });

  it('longer than any board is divided, the first straights as long as a board yields', () => {
    // Across one board yields 1180; along, 2·(450 + 300) + 40 is wider than the board, and two angles make it 3000.
    const { straights, findings } = straight(4000);
    expect(straights.map(({ name, length, make, lay }) => ({ name, length, make, lay }))).toEqual([
      { name: 'F1-A', length: 3000, make: 'two angles', lay: 'along' },
      { name: 'F1-B', length: 1000, make: 'two angles', lay: 'along' }
    ]);
    expect(straights.flatMap(({ pieces }) => pieces.map(({ name }) => name))).toEqual(['P1a', 'P1b']);
    expect(findings.map(({ code }) => code)).toContain('ends-apart');
  });

  it('wider than the board however it is folded is an error', () => {
    const sheet = straight(1000, {}, { width: 4000, height: 4000 });
    expect(sheet.buildable).toBe(false);
    expect(sheet.findings).toMatchObject([{ level: 'error', code: 'board-small', param: 'section' }]);
  });
});

describe('quantities of a straight', () => {
  it('are those of four walls mitered at the corners', () => {
    const { quantities, volume } = straight(1180);
    // (450·300 − 400·250)·1180 mm³; 1500·1180 outside and 1300·1180 inside.
    expect(volume).toBe(41_300_000);
    expect(quantities).toEqual({
      outside: 1.77,
      inside: 1.534,
      mass: 2.891,
      seam: 1180,
      joints: 0,
      jointOutline: 0,
      glue: 0
    });
  });
});
