/** What is said of links that hold a job. */
export interface LinkWords {
  /** Why a link cannot be opened, as the end of a sentence. */
  readonly broken: Readonly<Record<'long' | 'newer' | 'damaged' | 'large', string>>;
  /** What a link holds, and what to do with it. */
  readonly holds: {
    readonly title: string;
    readonly unnamed: string;
    fittings(count: number): string;
    more(count: number): string;
    readonly site: string;
    /** What becomes of the open job. */
    instead(name: string): string;
    readonly open: string;
    readonly saveFirst: string;
    readonly leave: string;
  };
  /** A link that was made, and where it is. */
  readonly made: {
    readonly ofJob: string;
    ofFitting(tag: string): string;
    readonly link: string;
    readonly copied: string;
    readonly notCopied: string;
    readonly copy: string;
    readonly holdsAll: string;
    /** Why there is none, by what it would have too much of. */
    readonly over: Readonly<Record<'characters' | 'bytes', (has: number, most: number) => string>>;
    readonly fileInstead: string;
  };
}
