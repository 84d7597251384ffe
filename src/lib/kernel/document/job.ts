import type { Board, Shop } from '../straight/board.ts';
import type { End, Lay } from '../straight/blank.ts';
import type { Corner, Section } from '../straight/section.ts';
import type { Site } from '../site/site.ts';

/** The document as it is said: only what the user chose. Lengths mm, angles degrees, whatever units are shown. */
export interface Job {
  readonly format: 'gorewright-job';
  readonly version: 1;
  readonly name?: string;
  readonly show?: Partial<Show>;
  readonly board?: Partial<Board>;
  readonly shop?: Partial<Shop>;
  readonly fittings?: readonly SaidFitting[];
  readonly site?: Site;
}

/** How the fragment of an address begins that holds a job. */
export const LINK_PREFIX = '#job=';

export interface SaidFitting {
  readonly tag?: string;
  readonly quantity?: number;
  readonly family: string;
  readonly section: Section;
  readonly params: Readonly<Record<string, unknown>>;
  readonly lay?: Lay;
  readonly seam?: Corner;
  readonly ends?: { readonly inlet?: End; readonly outlet?: End };
}

/** How figures are shown; the document's own figures stay in mm and degrees. */
export interface Show {
  readonly length: 'mm' | 'in' | 'in/16';
  /** Decimals of lengths. */
  readonly precision: number;
  readonly language: Language;
}

export const LANGUAGES = ['en'] as const;
export type Language = (typeof LANGUAGES)[number];

export const DEFAULT_SHOW: Show = { length: 'mm', precision: 0, language: 'en' };

export const DEFAULT_BOARD: Board = {
  thickness: 25,
  length: 3000,
  width: 1200,
  profile: 'long',
  spigot: 20,
  corner: 'miter',
  flap: 40,
  density: 70,
  conductivity: 0.034
};

/** Minima and blades are common practice, no source. */
export const DEFAULT_SHOP: Shop = {
  minThroat: 200,
  minGore: 150,
  blades: [{ angle: 0 }, { angle: 22.5 }, { angle: 45 }]
};
