import type { Speech, Words } from '../words/words.ts';

/** Which side of the board lies up in what is laid on it. */
export type Side = 'outside' | 'inside';

/** How a figure is drawn: its scale, mm on paper per mm of the thing, the language, and the units of its figures. */
export interface Manner {
  readonly scale: number;
  readonly words: Words;
  readonly say: Speech;
}
