/** What is said of the page where there is no network, and of its newer version. */
export interface OfflineWords {
  readonly carry: string;
  readonly help: string;
  fetching(done: number, of: number): string;
  readonly ready: string;
  /** Why not everything could be fetched. */
  readonly faults: Readonly<Record<'full' | 'unreachable' | 'refused', string>>;
  readonly impossible: string;
  readonly newVersion: string;
  readonly loadAnew: string;
  readonly notSaved: string;
}
