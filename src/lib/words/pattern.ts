/** What is said on the flat pattern at full size. */
export interface PatternWords {
  title(fitting: string): string;
  /** Which side of the board lies up, and whether that is the mirror image. */
  readonly sides: Readonly<Record<'outside' | 'inside', string>>;
  /** Units and lines. */
  readonly reading: string;
  straight(name: string): string;
  panel(name: string, face: string | null): string;
  /** The blade at a cut: its bevel and where its top leans, null where it is upright. */
  blade(cut: string, held: { readonly bevel: string; readonly lean: string } | null): string;
  /** The blade along a round opening. */
  round(diameter: string, bevel: string): string;
}
