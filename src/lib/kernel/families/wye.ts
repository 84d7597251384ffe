import { defineFamily } from './family.ts';
import { buildDivided } from './divided.ts';
import { deriveDivided, dragDivided, listBladeTurns, placeDividedHandles } from './divided-handles.ts';
import { DIVIDE, limitTurned, TURNED, type Divide, type Part, type TurnedValues } from './divided-parts.ts';

interface Values {
  readonly divide: Divide;
  readonly first: TurnedValues;
  readonly second: TurnedValues;
}

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
  const { divide, first, second } = values as Values;
  return [
    { name: 'first', turned: first, heel: divide === 'width' ? 'right' : 'bottom' },
    { name: 'second', turned: second, heel: divide === 'width' ? 'left' : 'top' }
  ];
}
