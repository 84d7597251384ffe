/** Headings and entries that only the tables for spreadsheets have. */
export interface TableWords {
  /** What is marked that is no line on a single face. */
  readonly kinds: Readonly<Record<'round' | 'opening' | 'circle' | 'panel', string>>;
  readonly startAcross: string;
  readonly endAcross: string;
  readonly radius: string;
  readonly seam: string;
  readonly volume: string;
  readonly mass: string;
  readonly fitting: string;
  readonly family: string;
  readonly part: string;
  readonly parts: Readonly<Record<'straight' | 'panel' | 'none', string>>;
  readonly quantity: string;
  readonly length: string;
  readonly lengthInAll: string;
  readonly width: string;
  readonly height: string;
  readonly thickness: string;
  readonly lay: string;
  readonly make: string;
  readonly datumEnd: string;
  readonly farEnd: string;
  readonly blanks: string;
  readonly blankWidth: string;
  readonly massInAll: string;
}
