import type { ClosureKind } from '../kernel/fitting/wall.ts';
import type { StepSentence } from '../kernel/fitting/step.ts';
import type { Language } from '../kernel/document/job.ts';
import type { FindingCode, Level } from '../kernel/fitting/finding.ts';
import type { RefusalLimit } from '../kernel/solve-answer.ts';
import type { End, Lay, Make } from '../kernel/straight/blank.ts';
import type { Lean } from '../kernel/straight/cut.ts';
import type { Corner, Face } from '../kernel/straight/section.ts';
import type { OfflineWords } from './offline.ts';
import type { PageWords } from './page.ts';
import type { PaperWords } from './paper.ts';
import type { SiteWords } from './site.ts';

/** Figures as the reader wants them. */
export interface Speech {
  /** The unit of lengths. */
  readonly unit: string;
  /** A length in mm as a figure without its unit, where a heading says the unit. */
  figure(mm: number): string;
  /** A length in mm, with its unit. */
  length(mm: number): string;
  /** An angle in degrees, with its sign. */
  angle(degrees: number): string;
  /** Names one after another. */
  list(names: readonly (string | number)[]): string;
  lengths(mm: readonly number[]): string;
}

/** The figures and names of a finding or a step, read by name; a missing one is a fault of the kernel. */
export interface Facts {
  number(name: string): number;
  text(name: string): string;
  numbers(name: string): number[];
  texts(name: string): string[];
  has(name: string): boolean;
}

export type Sentence = (facts: Facts, say: Speech, words: Words) => string;

/** Everything that is said in one language. */
export interface Words {
  readonly language: Language;
  readonly findings: Readonly<Record<FindingCode, Sentence>>;
  readonly steps: Readonly<Record<StepSentence, { readonly title: Sentence; readonly text: Sentence }>>;
  readonly levels: Readonly<Record<Level, string>>;
  readonly families: Readonly<Record<string, string>>;
  /** By family, then by parameter: label and help. `*` holds for every family that does not say its own. */
  readonly params: Readonly<
    Record<string, Readonly<Record<string, { readonly label: string; readonly help: string }>>>
  >;
  readonly faces: Readonly<Record<Face, string>>;
  readonly corners: Readonly<Record<Corner, string>>;
  readonly leans: Readonly<Record<Lean, string>>;
  readonly lays: Readonly<Record<Lay, string>>;
  readonly makes: Readonly<Record<Make, string>>;
  readonly ends: Readonly<Record<End, string>>;
  readonly ports: Readonly<Record<string, string>>;
  /** What closes an edge of a wall, and the heads of the table that tells it. */
  readonly closures: {
    readonly by: Readonly<Record<ClosureKind, string>>;
    readonly open: string;
    readonly caption: string;
    readonly columns: {
      readonly piece: string;
      readonly wall: string;
      /** Near end, clockwise corner, far end, other corner. */
      readonly edges: readonly [string, string, string, string];
    };
  };
  /** Choices of a parameter, by family and parameter, as the site says them. */
  readonly choices: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly site: SiteWords;
  /** Why a family leads nowhere on a site, by the limit it fails by; `short` is in the facts where a length says it, mm. */
  readonly refusals: Readonly<Record<RefusalLimit, Sentence>>;
  readonly page: PageWords;
  readonly offline: OfflineWords;
  readonly paper: PaperWords;
}
