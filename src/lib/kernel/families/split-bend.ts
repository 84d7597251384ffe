import { defineFamily } from './family.ts';
import { serveParts } from './divided-family.ts';
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
import { mirrorFace } from './hand.ts';
import { findOppositeFace, FACES, type Face } from '../straight/section.ts';

interface Values {
  readonly divide: Divide;
  readonly toward: Face;
  readonly turned: TurnedValues;
  readonly straight: StraightValues;
}

const SIDES: Record<Divide, readonly Face[]> = { width: ['left', 'right'], height: ['top', 'bottom'] };

/** A duct of which one part turns to a side and the rest goes straight on. */
export const splitBend = defineFamily({
  name: 'split-bend',
  group: 'divide',
  params: {
    divide: DIVIDE,
    toward: { of: { kind: 'choice', of: FACES }, required: true },
    turned: TURNED,
    straight: STRAIGHT_ON
  },
  rules: [
    {
      check({ divide = 'width', toward }) {
        if (divide !== 'width' && divide !== 'height') return null;
        const sides = SIDES[divide];
        if (!FACES.includes(toward as Face) || sides.includes(toward as Face)) return null;
        return { path: ['toward'], expected: `${sides.join(' or ')} where the ${divide} is divided` };
      },
      json: {
        if: { required: ['divide'], properties: { divide: { const: 'height' } } },
        then: { properties: { toward: { enum: SIDES.height } } },
        else: { properties: { toward: { enum: SIDES.width } } }
      }
    },
    limitTurned('turned')
  ],
  example: {
    divide: 'width',
    toward: 'left',
    turned: { inside: 180, turn: 90, pieces: 3, throatIn: 200, gore: 150, throatOut: 200 },
    straight: { length: 600 }
  },
  ...serveParts(listParts),
  settle(said, path) {
    const { divide = 'width', toward } = said as { divide?: Divide; toward: Face };
    if (SIDES[divide].includes(toward)) return said;
    const other = divide === 'width' ? 'height' : 'width';
    if (path === 'toward') return { ...said, divide: other };
    return { ...said, toward: SIDES[divide][SIDES[other].indexOf(toward)] };
  },
  mirror: ({ toward }) => ({ toward: mirrorFace(toward as Face) })
});

/** The turning part lies on the side it turns to, its heel on the dividing side. */
function listParts(values: unknown): Part[] {
  const { toward, turned, straight } = values as Values;
  const turning: Part = { name: 'turned', turned, heel: findOppositeFace(toward) };
  const on: Part = { name: 'straight', straight };
  return toward === 'left' || toward === 'top' ? [turning, on] : [on, turning];
}
