import { describe, expect, it } from 'vitest';
import { buildBend } from '../../../tests/duct.ts';
import { USUAL } from '../kernel/assembly/choice.ts';
import { reorder } from '../kernel/evaluate.ts';
import { identifySteps, readWorkLog, tickStep, UNTOUCHED } from './ticks.ts';

const bend = { turn: 90, pieces: 3, throatIn: 200, gore: 150, throatOut: 200 };
const built = buildBend(bend);
const names = identifySteps(built.steps);

describe('the ticks of a fitting', () => {
  it('tell all its steps apart, those that say the same too', () => {
    expect(new Set(names).size).toBe(built.steps.length);
    const twice = identifySteps([...built.steps, ...built.steps]);
    expect(new Set(twice).size).toBe(2 * built.steps.length);
    expect(twice.slice(0, names.length)).toEqual(names);
  });

  it('stay with the steps that say the same when the gore is lengthened', () => {
    const changed = identifySteps(buildBend({ ...bend, gore: 160 }).steps);
    const lost = built.steps.filter((_, i) => !changed.includes(names[i]!));
    const stay = built.steps.filter((_, i) => changed.includes(names[i]!));
    // The first cut lies where it was, the second further on; only one blank and seam are longer.
    expect(stay.filter(({ kind }) => kind === 'cut').map(({ cuts }) => cuts[0])).toEqual([
      'C1',
      'C1',
      'C1',
      'C1'
    ]);
    expect(lost.filter(({ kind }) => kind === 'cut').map(({ cuts }) => cuts[0])).toEqual([
      'C2',
      'C2',
      'C2',
      'C2'
    ]);
    expect(lost.map(({ kind }) => kind).filter((kind) => kind !== 'cut')).toEqual([
      'check',
      'tape',
      'inspect'
    ]);
  });

  it('stay when the straight is marked a hundredth of a millimetre further', () => {
    expect(identifySteps(buildBend({ ...bend, throatIn: 200.01 }).steps)).toEqual(names);
  });

  it('stay with the cuts in another order', () => {
    const other = identifySteps(reorder(built, { grouping: 'cut by cut', sequence: ['C1', 'C2'] }).steps);
    const cuts = built.steps.flatMap(({ kind }, i) => (kind === 'cut' ? [names[i]!] : []));
    expect(cuts).toHaveLength(8);
    for (const cut of cuts) expect(other).toContain(cut);
  });

  it('are set and taken back one by one', () => {
    const one = tickStep(UNTOUCHED, names[3]!, true);
    const two = tickStep(tickStep(one, names[5]!, true), names[5]!, true);
    expect(two.ticked).toEqual([names[3], names[5]]);
    expect(tickStep(two, names[3]!, false).ticked).toEqual([names[5]]);
  });
});

describe('the work that is kept', () => {
  it('is read back as it was', () => {
    const log = { choice: { grouping: 'face by face', sequence: ['C1', 'C2'] }, ticked: names } as const;
    expect(readWorkLog(structuredClone(log))).toEqual(log);
  });

  it.each([
    undefined,
    null,
    7,
    'done',
    [],
    { ticked: [1] },
    { choice: { grouping: 'as I like', sequence: 'C1' } }
  ])('and that cannot be read is as if untouched: %j', (kept) => {
    expect(readWorkLog(kept)).toEqual(UNTOUCHED);
    expect(readWorkLog(kept).choice).toEqual(USUAL);
  });
});
