import { defineFamily } from './family.ts';
import { listOuterParts, mirrorOuterParts, serveParts, type OuterParts } from './divided-family.ts';
import { DIVIDE, limitTurned, STRAIGHT_ON, TURNED, type Part, type StraightValues } from './divided-parts.ts';

interface Values extends OuterParts {
  readonly middle: StraightValues;
}

/** A duct of which the two outer parts turn away from each other and the middle goes straight on. */
export const threeWay = defineFamily({
  name: 'three-way',
  group: 'divide',
  params: { divide: DIVIDE, first: TURNED, middle: STRAIGHT_ON, second: TURNED },
  rules: [limitTurned('first'), limitTurned('second')],
  example: {
    divide: 'width',
    first: { inside: 100, turn: 60, pieces: 3 },
    middle: { length: 700 },
    second: { inside: 100, turn: 60, pieces: 3 }
  },
  ...serveParts(listParts),
  mirror: mirrorOuterParts
});

function listParts(values: unknown): Part[] {
  const [first, second] = listOuterParts(values as Values);
  return [first, { name: 'middle', straight: (values as Values).middle }, second];
}
