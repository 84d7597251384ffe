// The order of work, done step by step by an abstract shop that shares no code with what orders it.
import { describe, expect, it } from 'vitest';
import { GROUPINGS, type CuttingChoice } from '../../src/lib/kernel/assembly/choice.ts';
import type { Step } from '../../src/lib/kernel/fitting/step.ts';
import { reorder, type BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import { buildBend, buildPath } from '../duct.ts';
import { GENERATED, listBuildableFittings } from './generated-fittings.ts';
import { makeRandom, PLENTY } from './generated-paths.ts';
import { doTheWork } from './workshop.ts';

/** How many fittings are made. */
const WANTED = 300;

/** Cuts taken from either end of what is left, straight by straight, as chance has it. */
function drawSequence({ fitting }: BuiltModel, random: () => number): string[] {
  let rest = [...new Set(fitting.straights.flatMap(({ cuts }) => cuts.map(({ name }) => name)))];
  const sequence: string[] = [];
  while (rest.length > 0) {
    const cut = random() < 0.5 ? rest[0]! : rest[rest.length - 1]!;
    sequence.push(cut);
    rest = rest.filter((name) => name !== cut);
  }
  return sequence;
}

describe('an order of work', () => {
  it('ends with the fitting, whole and closed, however the cuts are ordered', { timeout: PLENTY }, () => {
    const random = makeRandom(27_182);
    const seen = { cuts: 0, divided: 0, shared: 0, compound: 0, endJoints: 0, changed: 0 };
    const families = new Set<string>();
    for (const { drawn, built } of listBuildableFittings(31_415, WANTED)) {
      const { straights, joints } = built.fitting;
      const choices: CuttingChoice[] = [
        ...GROUPINGS.map((grouping) => ({ grouping, sequence: null })),
        ...GROUPINGS.map((grouping) => ({ grouping, sequence: drawSequence(built, random) }))
      ];
      expect([drawn, doTheWork(built.fitting, built.steps)]).toEqual([drawn, []]);
      for (const choice of choices) {
        const { steps } = reorder(built, choice);
        expect([drawn, choice, doTheWork(built.fitting, steps)]).toEqual([drawn, choice, []]);
        seen.changed += tellCuts(steps) === tellCuts(built.steps) ? 0 : 1;
      }
      families.add(drawn.said.family);
      seen.cuts += straights.reduce((sum, { cuts }) => sum + cuts.length, 0);
      seen.divided += straights.length > 1 ? 1 : 0;
      seen.shared += straights.filter(({ ends }) => ends.includes('miter')).length;
      seen.endJoints += joints.filter(({ closing }) => closing.kind === 'ends').length;
      seen.compound += straights.flatMap(({ cuts }) => cuts).filter(({ heel }) => heel % 90 !== 0).length;
    }
    expect([...families].sort()).toEqual([...GENERATED].sort());
    expect(seen.cuts).toBeGreaterThan(WANTED);
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(20);
  });

  function tellCuts(steps: readonly Step[]): string {
    return steps.map(({ kind, cuts, face }) => (kind === 'cut' ? `${cuts[0]} ${face}` : '')).join();
  }
});

describe('the shop that tries an order of work', () => {
  const examples = {
    'a bend of three pieces': buildBend({ turn: 90, pieces: 3 }),
    'a path of two straights': buildPath(
      [1500, 700, 900],
      [45, 30].map((turn) => ({ turn, heel: 70 })),
      undefined,
      {
        board: { length: 3000, width: 1200 }
      }
    )
  };

  describe.each(Object.entries(examples))('on %s', (_name, { fitting, steps }) => {
    const without = (i: number): Step[] => steps.filter((_, k) => k !== i);

    it('finds nothing wrong with the usual order', () => {
      expect(doTheWork(fitting, steps)).toEqual([]);
    });

    it('finds every step that is left out', () => {
      const unnoticed = steps.filter((_, i) => doTheWork(fitting, without(i)).length === 0);
      expect(unnoticed).toEqual([]);
    });

    it('finds every step that comes too late', () => {
      // Last of all, after the inspection, nothing may be done; before it only an end may still be sealed.
      const unnoticed = steps.filter((step, i) => {
        const late = [...without(i).slice(0, -1), step, steps[steps.length - 1]!];
        return i < steps.length - 1 && doTheWork(fitting, late).length === 0;
      });
      expect(new Set(unnoticed.map(({ kind }) => kind))).toEqual(new Set(['tape', 'seal']));
      expect(unnoticed.filter(({ kind }) => kind === 'tape').map(({ sentence }) => sentence)).not.toContain(
        'tape-seam'
      );
    });

    it('finds every step but a seal that is done twice', () => {
      const unnoticed = steps.filter((step, i) => {
        const twice = [...steps.slice(0, i), step, ...steps.slice(i)];
        return doTheWork(fitting, twice).length === 0;
      });
      expect(new Set(unnoticed.map(({ kind }) => kind))).toEqual(new Set(['seal']));
    });

    it('finds a mark, a blade and a glue line that are wrong', () => {
      for (const [kind, fact] of [
        ['cut', 'start'],
        ['cut', 'bevel'],
        ['glue', 'length'],
        ['tape', 'outline']
      ] as const) {
        const at = steps.findIndex((step) => step.kind === kind && fact in step.data);
        const wrong = {
          ...steps[at]!,
          data: { ...steps[at]!.data, [fact]: Number(steps[at]!.data[fact]) + 0.01 }
        };
        expect(doTheWork(fitting, [...steps.slice(0, at), wrong, ...steps.slice(at + 1)])).toHaveLength(
          kind === 'cut' ? 2 : 1
        );
      }
    });
  });
});
