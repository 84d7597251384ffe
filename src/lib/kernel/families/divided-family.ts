import { buildDivided } from './divided.ts';
import { deriveDivided, dragDivided, listBladeTurns, placeDividedHandles } from './divided-handles.ts';
import type { Divide, Part, TurnedValues } from './divided-parts.ts';
import type { Family } from './family.ts';

/** What every family of parts side by side does alike, once it says which parts its values mean. */
export function serveParts(
  listParts: (values: unknown) => readonly Part[]
): Pick<Family, 'build' | 'handles' | 'drag' | 'derive' | 'bladeValues'> {
  const readDivide = (values: unknown): Divide => (values as { readonly divide: Divide }).divide;
  return {
    build: (values, setting) => buildDivided(listParts(values), readDivide(values), setting),
    handles: (values, setting) => placeDividedHandles(listParts(values), readDivide(values), setting),
    drag: (values, id, point, setting) =>
      dragDivided(listParts(values), readDivide(values), id, point, setting),
    derive: (values, setting) => deriveDivided(listParts(values), readDivide(values), setting),
    bladeValues: (values, param, shop) => listBladeTurns(listParts(values), param, shop.blades)
  };
}

/** A first part on the left or top and a second on the right or bottom, which turn away from each other. */
export interface OuterParts {
  readonly divide: Divide;
  readonly first: TurnedValues;
  readonly second: TurnedValues;
}

/** The two outer parts, their heels on the dividing side. */
export function listOuterParts({ divide, first, second }: OuterParts): [Part, Part] {
  const [towardSecond, towardFirst] =
    divide === 'width' ? (['right', 'left'] as const) : (['bottom', 'top'] as const);
  return [
    { name: 'first', turned: first, heel: towardSecond },
    { name: 'second', turned: second, heel: towardFirst }
  ];
}

/** In the mirror the outer parts change places where they lie side by side. */
export function mirrorOuterParts(values: unknown): Readonly<Record<string, unknown>> {
  const { divide, first, second } = values as OuterParts;
  return divide === 'width' ? { first: second, second: first } : {};
}
