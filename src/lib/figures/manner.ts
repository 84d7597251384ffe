import type { Speech, Words } from '../words/words.ts';

/** How a figure is drawn: its scale, mm on paper per mm of the thing, the language, and the units of its figures. */
export interface Manner {
  readonly scale: number;
  readonly words: Words;
  readonly say: Speech;
}
