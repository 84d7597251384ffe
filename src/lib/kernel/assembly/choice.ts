import type { Fitting } from '../fitting/fitting.ts';
import type { Cut } from '../straight/cut.ts';
import type { Straight } from '../straight/straight.ts';

/** How the cuts of a straight are gathered: all of them on one face before it is turned, or one all round after another. */
export const GROUPINGS = ['face by face', 'cut by cut'] as const;

export type Grouping = (typeof GROUPINGS)[number];

/** What the user may change in the order of work. */
export interface CuttingChoice {
  /** `rule`: face by face up to so many cuts as PRACTICE says, else cut by cut. */
  readonly grouping: Grouping | 'rule';
  /** Names of all cuts of the fitting in the order they are made; null: every straight from its far end. */
  readonly sequence: readonly string[] | null;
}

/** The usual order of work: the one the sheet lists. */
export const USUAL: CuttingChoice = { grouping: 'rule', sequence: null };

/** Why a sequence is not followed: a cut of the straight is left out or named twice, or one is made between others to come. */
export interface SequenceFault {
  readonly kind: 'not-each-once' | 'not-at-an-end';
  readonly straight: string;
  readonly cut: string;
}

/** The first fault of a sequence of cuts; null where it can be followed. */
export function findSequenceFault({ straights }: Fitting, { sequence }: CuttingChoice): SequenceFault | null {
  if (!sequence) return null;
  for (const straight of straights) {
    const fault = findFault(straight, sequence);
    if (fault) return { ...fault, straight: straight.name };
  }
  return null;
}

/** The cuts of a straight in the order they are made: as chosen, or from the far end where the choice cannot be followed. */
export function sequenceCuts(straight: Straight, { sequence }: CuttingChoice): Cut[] {
  const fromFarEnd = [...straight.cuts].reverse();
  if (!sequence || findFault(straight, sequence)) return fromFarEnd;
  return [...straight.cuts].sort((a, b) => sequence.indexOf(a.name) - sequence.indexOf(b.name));
}

/** Every cut once, and each the first or the last of those to come: so the rest stays one part, turned as a whole. */
function findFault({ cuts }: Straight, sequence: readonly string[]): Omit<SequenceFault, 'straight'> | null {
  const wanted = cuts.map(({ name }) => name);
  const twiceOrNever = wanted.find((cut) => sequence.filter((name) => name === cut).length !== 1);
  if (twiceOrNever !== undefined) return { kind: 'not-each-once', cut: twiceOrNever };
  let rest = wanted;
  for (const cut of sequence.filter((name) => wanted.includes(name))) {
    if (cut !== rest[0] && cut !== rest[rest.length - 1]) return { kind: 'not-at-an-end', cut };
    rest = rest.filter((name) => name !== cut);
  }
  return null;
}
