import type { Section } from './straight/section.ts';

/** What the solver answers: the fittings that would do, best first, and why other families do not. */
export interface Answer {
  readonly proposals: readonly Proposal[];
  readonly refused: readonly Refusal[];
}

/** A fitting that goes from the origin to the end of the site, clear of every obstacle. */
export interface Proposal {
  /** Every parameter of the family is written, unrounded. */
  readonly fitting: ProposedFitting;
  readonly joints: number;
  /** All that it turns, degrees: the sum over its joints. */
  readonly turn: number;
  /** Length of the straight it is cut from, mm. */
  readonly straight: number;
  /** The obstacle that is nearest, and how near, mm; null without obstacles. */
  readonly clearance: { readonly value: number; readonly obstacle: string } | null;
}

export interface ProposedFitting {
  readonly tag: string;
  readonly family: string;
  readonly section: Section;
  readonly params: Readonly<Record<string, unknown>>;
}

/**
 * Which limit a family fails by: its shape does not lead to the end at all, the least length of an end piece or of a
 * piece between two cuts, the longest straight one board yields, the clearance; an obstacle that stands in the way whatever
 * the clearance, by as much as it would have to yield on every side; several when no one of them alone would let it through.
 */
export type RefusalLimit =
  'end' | 'minThroat' | 'minGore' | 'straight' | 'clearance' | 'obstacle' | 'several';

export interface Refusal {
  readonly family: string;
  readonly limit: RefusalLimit;
  /** By how much the limit would have to give way, mm; null where no length says it. */
  readonly short: number | null;
  readonly data: Readonly<Record<string, number | string>>;
}
