// The part of the order of work that the user may change, and what it costs.
import { describe, expect, it } from 'vitest';
import { buildBend, buildPath } from '../../../../tests/duct.ts';
import type { BuiltModel } from '../evaluate.ts';
import { findSequenceFault, USUAL, type CuttingChoice } from './choice.ts';
import { countEffort } from './effort.ts';
import { orderWork } from './order.ts';

function work({ fitting, setting }: BuiltModel, choice: Partial<CuttingChoice>) {
  return orderWork(fitting, setting, { ...USUAL, ...choice });
}

function listCuts(built: BuiltModel, choice: Partial<CuttingChoice>): string[] {
  return work(built, choice).flatMap(({ kind, cuts, face }) =>
    kind === 'cut' ? [`${cuts[0]} ${face}`] : []
  );
}

function listFreed(built: BuiltModel, choice: Partial<CuttingChoice>): string[] {
  return work(built, choice).flatMap(({ kind, pieces }) => (kind === 'separate' ? [pieces.join(' ')] : []));
}

const three = buildBend({ turn: 90, pieces: 3 });
const five = buildBend({ turn: 90, pieces: 5 });

describe('the cutting of a bend', () => {
  it('without a choice is as the sheet lists it', () => {
    expect(work(five, {})).toEqual(five.steps);
  });

  it('face by face brings all cuts of a face together', () => {
    expect(listCuts(five, { grouping: 'face by face' })).toEqual(
      ['top', 'right', 'left', 'bottom'].flatMap((face) =>
        ['C4', 'C3', 'C2', 'C1'].map((cut) => `${cut} ${face}`)
      )
    );
  });

  it('cut by cut goes round with one cut after another, each from where the last one left the straight', () => {
    expect(listCuts(three, { grouping: 'cut by cut' })).toEqual([
      ...['top', 'right', 'left', 'bottom'].map((face) => `C2 ${face}`),
      ...['bottom', 'left', 'right', 'top'].map((face) => `C1 ${face}`)
    ]);
  });

  it('from the datum end frees the first piece first', () => {
    const sequence = ['C1', 'C2', 'C3', 'C4'];
    expect(findSequenceFault(five.fitting, { ...USUAL, sequence })).toBeNull();
    expect(listFreed(five, { sequence })).toEqual(['P1', 'P2', 'P3', 'P5 P4']);
    expect(listFreed(five, {})).toEqual(['P5', 'P4', 'P3', 'P2 P1']);
  });

  it('from both ends in turn frees a piece at each', () => {
    const sequence = ['C4', 'C1', 'C3', 'C2'];
    expect(findSequenceFault(five.fitting, { ...USUAL, sequence })).toBeNull();
    expect(listFreed(five, { sequence })).toEqual(['P5', 'P1', 'P4', 'P3 P2']);
  });

  it.each([
    ['leaves a cut out', ['C1', 'C2', 'C3'], { kind: 'not-each-once', cut: 'C4' }],
    ['makes a cut twice', ['C1', 'C2', 'C3', 'C4', 'C1'], { kind: 'not-each-once', cut: 'C1' }],
    ['begins in the middle', ['C2', 'C1', 'C3', 'C4'], { kind: 'not-at-an-end', cut: 'C2' }]
  ] as const)('that %s is told, and the usual sequence is kept', (_title, sequence, fault) => {
    expect(findSequenceFault(five.fitting, { ...USUAL, sequence })).toEqual({ straight: 'F1-A', ...fault });
    expect(work(five, { sequence })).toEqual(five.steps);
  });
});

describe('cuts that begin on different faces', () => {
  // The cheeks of the first and last joint are top and bottom, those of the middle two right and left.
  const built = buildPath(
    [600, 700, 700, 700, 600],
    [90, 0, 0, 90].map((heel) => ({ turn: 30, heel })),
    { width: 300, height: 300 },
    { board: { length: 100_000, width: 100_000 } }
  );

  it('are brought together only where they follow one another', () => {
    const begins = listCuts(built, { grouping: 'face by face' }).slice(0, 8);
    expect(begins.map((cut) => cut.slice(0, 2))).toEqual(['C4', 'C4', 'C4', 'C4', 'C3', 'C2', 'C3', 'C2']);
  });
});

describe('the effort of an order', () => {
  it('counts half a turn as two quarters, and every other bevel as a blade change', () => {
    // Top, a quarter to the right, half a turn to the left, a quarter to the bottom; upright, tilted, upright.
    expect(countEffort(three.steps)).toEqual({ turns: 4, bladeChanges: 2 });
    // Once more round for the second cut, which begins on the face that is up.
    expect(countEffort(work(three, { grouping: 'cut by cut' }))).toEqual({ turns: 8, bladeChanges: 4 });
  });

  it('is never more face by face than cut by cut where all cheeks are the same', () => {
    for (const pieces of [2, 3, 4, 5, 6]) {
      const built = buildBend({ turn: 90, pieces });
      const [together, apart] = (['face by face', 'cut by cut'] as const).map((grouping) =>
        countEffort(work(built, { grouping }))
      );
      expect(together).toEqual({ turns: 4, bladeChanges: 2 });
      expect(apart).toEqual({ turns: 4 * (pieces - 1), bladeChanges: 2 * (pieces - 1) });
    }
  });

  it('of a straight duct is none', () => {
    const { steps } = buildPath([900, 900], [{ turn: 20, heel: 90 }]);
    expect(countEffort(steps.filter(({ kind }) => kind !== 'cut' && kind !== 'turn'))).toEqual({
      turns: 0,
      bladeChanges: 0
    });
  });
});
