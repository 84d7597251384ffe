import { defineFamily } from './family.ts';
import { buildDivided } from './divided.ts';
import { deriveDivided, dragDivided, listBladeTurns, placeDividedHandles } from './divided-handles.ts';
import {
  DIVIDE,
  limitTurned,
  STRAIGHT_ON,
  TURNED,
  type Divide,
  type Part,
  type StraightValues,
  type TurnedValues
} from './divided-parts.ts';

interface Values {
  readonly divide: Divide;
  readonly first: TurnedValues;
  readonly middle: StraightValues;
  readonly second: TurnedValues;
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
  build: (values, setting) => buildDivided(listParts(values), values.divide as Divide, setting),
  handles: (values, setting) => placeDividedHandles(listParts(values), values.divide as Divide, setting),
  drag: (values, id, point, setting) =>
    dragDivided(listParts(values), values.divide as Divide, id, point, setting),
  derive: (values, setting) => deriveDivided(listParts(values), values.divide as Divide, setting),
  bladeValues: (values, param, shop) => listBladeTurns(listParts(values), param, shop.blades),
  mirror(values) {
    const { divide, first, second } = values as unknown as Values;
    return divide === 'width' ? { first: second, second: first } : {};
  }
});

function listParts(values: unknown): Part[] {
  const { divide, first, middle, second } = values as Values;
  return [
    { name: 'first', turned: first, heel: divide === 'width' ? 'right' : 'bottom' },
    { name: 'middle', straight: middle },
    { name: 'second', turned: second, heel: divide === 'width' ? 'left' : 'top' }
  ];
}
