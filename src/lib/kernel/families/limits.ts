/** The longest length a document may say, mm. */
export const LONGEST = 100_000;

export { SHARPEST_TURN } from '../straight/cut.ts';

/** The shortest length a drag gives where nothing is no length, mm; a document may say any above 0. */
export const LEAST_DRAGGED_LENGTH = 1;

/** The smallest turn a drag gives, degrees; a document may say any turn above 0. */
export const LEAST_DRAGGED_TURN = 1;

/** Brings a dragged value inside its limits. */
export function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

/** Pieces of a bend. */
export const LEAST_PIECES = 2;
export const MOST_PIECES = 9;
