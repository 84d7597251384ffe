/** What the first page of templates explains: kinds of line and what is drawn beside them. */
export type LegendId =
  'mark' | 'through' | 'corner' | 'end' | 'axis' | 'flap' | 'blade' | 'tick' | 'cross' | 'trim';

/** Which side of the board lies up. */
type Side = 'outside' | 'inside';

/** What is said on templates at full size. */
export interface TemplateWords {
  /** Of a cut or an opening of a straight, or of a panel, which is of none. */
  title(what: string, straight: string | null): string;
  whole(straight: string): string;
  face(name: string): string;
  corner(name: string): string;
  upstream(piece: string): string;
  downstream(piece: string): string;
  readonly flow: string;
  readonly datumEnd: string;
  readonly farEnd: string;
  readonly offcut: string;
  readonly up: Readonly<Record<Side, string>>;
  /** The same where it must not be missed. */
  readonly headed: Readonly<Record<Side, string>>;
  /** Where a page lies among those of its template. */
  place(row: number, column: number): string;
  /** Of which state of the job a page is. */
  stamp(digest: string | null, revision: string): string;
  corrected(printed: string): string;
  map(what: string, straight: string | null, pages: number): string;
  /** How to lay templates of cuts or of whole straights, and those of panels and openings. */
  readonly howTo: Readonly<Record<Side, readonly string[]>>;
  readonly howToOutlines: Readonly<Record<Side, readonly string[]>>;
  /** Pages that belong together, on sheets. */
  readonly join: string;
  readonly legend: string;
  readonly legends: Readonly<Record<LegendId, string>>;
  bevel(angle: string): string;
  station(length: string): string;
  across(length: string, face: string): string;
  diameter(length: string): string;
  faces(names: readonly string[]): string;
}
