/** What the panel says from which papers and files are made. */
export interface ExportingWords {
  /** Headings over the exports, by what they are for. */
  readonly groups: Readonly<Record<'paper' | 'flat' | 'solid' | 'table', string>>;
  readonly paper: string;
  /** Sheets of paper, by their names. */
  readonly papers: Readonly<Partial<Record<string, string>>>;
  roll(width: string): string;
  readonly side: string;
  readonly sides: Readonly<Record<'outside' | 'inside', string>>;
  /** How figures are written in tables. */
  readonly decimal: string;
  readonly decimals: Readonly<Record<'point' | 'comma', string>>;
  readonly titleBlock: string;
  /** The field that says what the check bar of 100 mm, or 4 in, measures on paper. */
  readonly printer: {
    readonly heading: string;
    bar(length: string): string;
    readonly help: string;
    corrected(percent: string): string;
    refused(percent: string): string;
  };
  /** What is being written, and how far. */
  making(name: string): string;
  pages(done: number, of: number): string;
  readonly cancel: string;
  readonly cancelled: string;
  readonly failed: string;
  readonly again: string;
  readonly cannotPrint: string;
  readonly caution: string;
}
