/** What is said on figures, on the screen and on paper, and in the mark table. */
export interface PaperWords {
  /** What is written on the side of a piece that is up in the fitting. */
  readonly top: string;
  readonly marks: {
    readonly seam: string;
    readonly flap: string;
    readonly flow: string;
    readonly square: string;
    line(angle: string): string;
    setback(figure: string): string;
    readonly reading: string;
    readonly leftOut: string;
    legend(unit: string): string;
  };
  /** Headings and entries of the tables; `of` adds the unit. */
  readonly table: {
    readonly straight: string;
    readonly cut: string;
    readonly face: string;
    readonly start: string;
    readonly end: string;
    readonly line: string;
    readonly bevel: string;
    readonly lean: string;
    readonly setback: string;
    readonly depth: string;
    readonly piece: string;
    readonly axis: string;
    readonly shortest: string;
    readonly longest: string;
    readonly at: string;
    readonly everyCorner: string;
    readonly inFitting: string;
    readonly upright: string;
    readonly rolled: string;
    readonly stays: string;
    readonly startsAt: string;
    of(heading: string, unit: string): string;
  };
  /** What is counted. */
  panels(count: number): string;
}
