import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { writeSheetOfFitting } from '../../../../tests/duct.ts';
import { drawParams, drawSection, uniform, type Said } from '../../../../tests/properties/documents.ts';
import type { SheetFitting } from '../../sheet/schema.ts';
import { FAMILIES, findFamily } from '../families/index.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 1000;

interface Case {
  readonly family: string;
  readonly section: { readonly width: number; readonly height: number };
  readonly params: Said;
}

type Found = SheetFitting['findings'][number];

/** Every finding whose suggestion was applied as the sheet prints it and that was then gone, by its code. */
function applySuggestions(draw: fc.Arbitrary<Case>): Map<string, number> {
  const gone = new Map<string, number>();
  fc.assert(
    fc.property(draw, (said) => {
      const about = ({ code, param }: Found): string => `${code} ${param}`;
      for (const finding of writeSheetOfFitting(said).findings) {
        const { param, would, code } = finding;
        if (would === undefined || param === undefined) continue;
        const cured = writeSheetOfFitting(replaceAt(said, param, would));
        if (cured.findings.map(about).includes(about(finding))) {
          throw new Error(`${about(finding)} is still there at ${would}: ${finding.message}`);
        }
        gone.set(code, (gone.get(code) ?? 0) + 1);
      }
    }),
    { numRuns: RUNS, seed: 3 }
  );
  return gone;
}

function replaceAt(node: unknown, path: string, value: unknown): Case {
  const into = (at: unknown, [first, ...rest]: string[]): unknown => {
    if (first === undefined) return value;
    if (Array.isArray(at))
      return at.map((item: unknown, i) => (i === Number(first) ? into(item, rest) : item));
    return { ...(at as Said), [first]: into((at as Said | undefined)?.[first], rest) };
  };
  return into(
    node,
    path.split(/[.[\]]+/).filter((step) => step !== '')
  ) as Case;
}

/** A bend of a size that ducts have, driven one way or the other, often a little too short somewhere. */
const drawBend = fc
  .record({
    section: fc.record({ width: uniform(100, 900), height: uniform(100, 900) }),
    turn: fc.oneof(uniform(5, 180), fc.constantFrom(22.5, 30, 45, 60, 90, 120, 180)),
    pieces: fc.integer({ min: 2, max: 9 }),
    heel: fc.constantFrom('top', 'right', 'bottom', 'left'),
    throatIn: fc.oneof(uniform(0, 400), fc.constant('rest')),
    throatOut: fc.oneof(uniform(0, 400), fc.constant('rest')),
    driver: fc.constantFrom('gore', 'radius', 'setback', null),
    driven: uniform(0, 900)
  })
  .filter(({ throatIn, throatOut }) => throatIn !== 'rest' || throatOut !== 'rest')
  .filter(({ turn, pieces }) => turn <= 90 || pieces > 2)
  .map<Case>(({ section, driver, driven, ...params }) => ({
    family: 'bend',
    section,
    params: { ...params, ...(driver ? { [driver]: driven } : {}) }
  }));

/** An offset of a size that ducts have, often one that its turns have hardly room for. */
const drawOffset = fc
  .record({
    section: fc.record({ width: uniform(100, 600), height: uniform(100, 600) }),
    rise: fc.oneof(uniform(-600, 600), fc.constant(0)),
    roll: fc.oneof(uniform(-600, 600), fc.constantFrom(0, 5)),
    piecesPerTurn: fc.integer({ min: 2, max: 4 }),
    driver: fc.constantFrom('turn', 'advance', 'travel', null),
    turn: uniform(1, 90),
    driven: uniform(0, 1500)
  })
  .map<Case>(({ section, driver, turn, driven, ...params }) => ({
    family: 'offset',
    section,
    params: { ...params, ...(driver ? { [driver]: driver === 'turn' ? turn : driven } : {}) }
  }));

describe('what a finding says would do', () => {
  it('does on offsets of every driver', () => {
    const gone = applySuggestions(drawOffset);
    for (const code of ['edge-vanishes', 'gore-short', 'no-blade', 'advance-short', 'travel-short']) {
      expect([code, (gone.get(code) ?? 0) > 0]).toEqual([code, true]);
    }
  });

  it('does, as the sheet prints it: on bends of every driver', () => {
    const gone = applySuggestions(drawBend);
    for (const code of [
      'throat-short',
      'gore-short',
      'edge-vanishes',
      'no-blade',
      'setback-fixed',
      'rest-spent',
      'two-piece-bend'
    ]) {
      expect([code, (gone.get(code) ?? 0) > 0]).toEqual([code, true]);
    }
  });

  // A straight has nothing that another value would mend: what is too long is divided; a cap hardly anything.
  it.each(FAMILIES.map(({ name }) => name).filter((name) => name !== 'straight' && name !== 'cap'))(
    'does on any legal %s',
    (family) => {
      const draw = fc
        .tuple(drawParams(findFamily(family)), drawSection)
        .map<Case>(([params, section]) => ({ family, section, params }));
      expect([...applySuggestions(draw).values()].reduce((sum, count) => sum + count, 0)).toBeGreaterThan(
        100
      );
    }
  );

  it('a bend short of its gore is told a radius that is long enough, not one that rounding made too short', () => {
    const bend: Case = {
      family: 'bend',
      section: { width: 400, height: 300 },
      params: { turn: 80, pieces: 3, heel: 'top', radius: 300 }
    };
    const short = writeSheetOfFitting(bend).findings.find(({ code }) => code === 'gore-short')!;
    // 350/2 + 150/(2·tan 20°) is 381.0608…
    expect(short.would).toBe(381.061);
    expect(short.param).toBe('params.radius');
  });

  it('a bend by setback whose inlet takes the rest is told a smaller setback where that lengthens its gores', () => {
    const bend: Case = {
      family: 'bend',
      section: { width: 400, height: 250 },
      params: { turn: 90, pieces: 3, heel: 'right', throatIn: 'rest', throatOut: 200, setback: 803 }
    };
    const found = writeSheetOfFitting(bend).findings.find(({ param }) => param === 'params.setback')!;
    expect(found.code).toBe('gore-short');
    // Throat and gore share 1180 − 200 − 4·93.198; for a gore of 150 the throat is 457.208, the setback
    // 457.208 + 93.198 + (150 + 186.396)·(1 − tan 22.5°)/(2·tan 22.5°).
    expect(found.would).toBe(788.273);
  });
});
