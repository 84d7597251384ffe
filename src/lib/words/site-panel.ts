import type { Onward } from '../kernel/site/tape.ts';
import type { Criterion } from '../kernel/solve-ranking.ts';
import type { Speech } from './vocabulary.ts';

/** What the site panel says. It is fetched with the panel, not before the first handle can be dragged. */
export interface SitePanelWords {
  readonly none: string;
  /** How to begin without a card. */
  readonly begin: string;
  readonly duct: string;
  readonly ductHelp: string;
  readonly clearance: Named;
  readonly handRoom: Named;
  readonly standing: string;
  readonly nothingStands: string;
  readonly card: {
    readonly heading: string;
    readonly help: string;
    readonly onward: string;
    readonly groups: Readonly<Record<'along' | 'obstacle' | 'next' | 'end', string>>;
    readonly obstacleName: string;
    /** The name of an obstacle that was given none. */
    readonly unnamed: string;
    readonly place: string;
    readonly placed: string;
  };
  readonly obstacles: {
    readonly heading: (count: number) => string;
    readonly none: string;
    readonly name: string;
    readonly kind: string;
    readonly kinds: readonly string[];
    readonly numbered: (number: number) => string;
    /** From and to, by coordinate: along the flow, up, right. */
    readonly faces: readonly [FromTo, FromTo, FromTo];
    readonly clearance: Named;
    readonly turn: Named;
    /** Of a face that would lie beyond the opposite one. */
    readonly above: (length: string) => string;
    readonly below: (length: string) => string;
    readonly add: string;
    readonly remove: (name: string) => string;
    readonly clear: (value: string, wanted: string) => string;
    readonly deep: (value: string, wanted: string) => string;
  };
  readonly end: {
    readonly heading: string;
    readonly at: readonly [Named, Named, Named];
    readonly free: (coordinate: string) => string;
    readonly flow: string;
    readonly ways: Readonly<Record<Onward | 'back', string>>;
    readonly typed: string;
    readonly parts: readonly [string, string, string];
    readonly notANumber: string;
  };
  readonly proposals: {
    readonly heading: string;
    readonly find: string;
    readonly cancel: string;
    readonly searching: (family: string) => string;
    readonly failed: string;
    readonly ranking: string;
    readonly criteria: Readonly<Record<Criterion, string>>;
    readonly longest: Named;
    readonly none: string;
    readonly stale: string;
    readonly quick: (families: string) => string;
    readonly joints: (count: number) => string;
    readonly turn: (angle: string) => string;
    readonly straight: (length: string) => string;
    readonly clear: (length: string, obstacle: string) => string;
    readonly stands: string;
    readonly take: string;
    readonly takeOver: (name: string) => string;
    readonly others: string;
    readonly follow: (tag: string) => string;
    readonly followHelp: string;
    readonly lost: (tag: string, why: string) => string;
    /** What a fitting does, by its family and its parameters. */
    readonly tell: (
      family: string,
      params: Readonly<Record<string, unknown>>,
      joints: number,
      say: Speech
    ) => string | null;
  };
  readonly asMade: {
    readonly heading: (tag: string) => string;
    readonly help: string;
    readonly apply: string;
    readonly applyToOne: string;
    /** What a joint may turn, where more or nothing was said. */
    readonly turns: (most: string) => string;
  };
}

interface Named {
  readonly label: string;
  readonly help: string;
}

interface FromTo {
  readonly from: string;
  readonly to: string;
  readonly help: string;
}
