import { defineFamily } from './family.ts';
import { listOuterParts, mirrorOuterParts, serveParts, type OuterParts } from './divided-family.ts';
import { DIVIDE, limitTurned, TURNED } from './divided-parts.ts';

/** A duct of which both parts turn, away from each other: the first to the left or up, the second to the right or down. */
export const wye = defineFamily({
  name: 'wye',
  group: 'divide',
  params: { divide: DIVIDE, first: TURNED, second: TURNED },
  rules: [limitTurned('first'), limitTurned('second')],
  example: {
    divide: 'width',
    first: { inside: 200, turn: 45, pieces: 2 },
    second: { turn: 90, pieces: 3 }
  },
  ...serveParts((values) => listOuterParts(values as OuterParts)),
  mirror: mirrorOuterParts
});
