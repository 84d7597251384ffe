import type { Fault } from '$lib/kernel/document/read.ts';
import type { Speech, Words } from '$lib/words/words.ts';

/** What the document wants in place of a value; its figures are mm where that is a length, the reader's may be inches. */
export function tellFault({ expected }: Fault, isLength: boolean, words: Words, say: Speech): string {
  const inMm = /\d+(\.\d+)?/g;
  return words.page.expected(
    isLength ? expected.replace(inMm, (figure) => say.length(Number(figure))) : expected
  );
}
