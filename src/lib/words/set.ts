import type { Board, Shop } from '../kernel/straight/board.ts';
import type { Show } from '../kernel/document/job.ts';

/** What only a set of mark-outs says: its cover, its list and what changed. */
export interface SetWords {
  readonly title: string;
  readonly unnamed: string;
  readonly fittings: string;
  /** How many fittings there are, and how many are to be made of them. */
  count(fittings: number, pieces: number): string;
  readonly pages: string;
  readonly paper: string;
  readonly board: string;
  readonly list: string;
  readonly columns: Readonly<
    Record<'tag' | 'family' | 'inside' | 'quantity' | 'straights' | 'panels' | 'findings' | 'page', string>
  >;
  readonly notBuildable: string;
  /** Heading of what changed; of an issue without a revision, the empty text. */
  since(revision: string): string;
  readonly changes: string;
  readonly first: string;
  readonly unchanged: string;
  added(what: string): string;
  readonly removed: string;
  readonly reordered: string;
  readonly site: string;
  /** A value that is another one now. */
  change(label: string, before: string, now: string): string;
  /** An entry of a list, by its place from 1. */
  entry(label: string, place: number): string;
  /** What is left out, and an empty list. */
  readonly unsaid: string;
  readonly none: string;
  readonly units: Readonly<Record<'density' | 'conductivity', string>>;
  readonly of: Readonly<Record<'job' | 'show' | 'board' | 'shop', string>>;
  /** Labels of values that are no parameters of a family. */
  readonly fitting: Readonly<
    Record<
      | 'family'
      | 'quantity'
      | 'section.width'
      | 'section.height'
      | 'lay'
      | 'seam'
      | 'ends.inlet'
      | 'ends.outlet',
      string
    >
  >;
  readonly job: Readonly<Record<'name', string>>;
  readonly show: Readonly<Record<keyof Show, string>>;
  readonly boardFields: Readonly<Record<keyof Board, string>>;
  readonly shop: Readonly<Record<keyof Shop, string>>;
  /** Words of the board's and the show's own choices. */
  readonly choices: Readonly<Record<string, string>>;
}
