/** What is said on the labels that are stuck on pieces, straights and panels. */
export interface LabelWords {
  /** How many are on the pages. */
  count(labels: number): string;
  /** What to do with a sheet; how often it is wanted. */
  howTo(quantity: number): string;
  revision(revision: string): string;
  /** What stands where pieces have TOP. */
  readonly straight: string;
  face(face: string): string;
  /** Where it is stuck. */
  readonly on: {
    /** A piece, on the face by its name; one that will be rolled over. */
    piece(face: string): string;
    rolled(face: string): string;
    /** A straight, and which pieces it becomes. */
    straight(face: string, pieces: string): string;
    /** A panel that is a wall of a duct, and one that is none. */
    readonly wall: string;
    readonly panel: string;
  };
  /** Why there is no code. */
  readonly noCode: Readonly<Record<'address' | 'long', string>>;
}
