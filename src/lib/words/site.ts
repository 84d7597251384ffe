import type { Changed } from '../kernel/remake.ts';
import type { FreeMeasure, Measure, Onward } from '../kernel/site/tape.ts';

/** What is said of the site and of the measures that a tape gives there. */
export interface SiteWords {
  /** Each measure by its name, and from where to where it is taken. */
  readonly measures: Readonly<Record<Measure, { readonly label: string; readonly help: string }>>;
  /** What the next thing on each side of the duct is called among the obstacles. */
  readonly next: Readonly<Record<FreeMeasure, string>>;
  readonly onward: Readonly<Record<Onward, string>>;
  readonly ends: Readonly<Record<'near' | 'other', string>>;
  readonly uncertainty: { readonly label: string; readonly help: string };
  /** The measure that decides; `room` as a length with its unit, null where nothing bounds the duct. */
  readonly deciding: (measure: string, room: string | null) => string;
  readonly closing: (length: string) => string;
  readonly checkHolds: (differs: string, allowed: string) => string;
  /** What is asked of a piece or a cut that is made, and what follows for the others. */
  readonly asMade: {
    readonly made: string;
    readonly length: { readonly label: string; readonly help: string };
    readonly turn: { readonly label: string; readonly help: string };
    /** Figures with their units. */
    readonly changed: Readonly<Record<Changed['kind'], (name: string, from: string, to: string) => string>>;
    readonly unchanged: string;
  };
}
