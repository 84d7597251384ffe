import { SAME_LENGTH, WRITTEN_LENGTH } from '../geometry/tolerance.ts';

/**
 * The value of a parameter, mm, that has moved by at least so much: rounded away from where it was to the step in which
 * lengths are written, so that the suggestion still does what it promises when it is read in a sheet.
 */
export function suggestLength(value: number, by: number): number {
  const steps = (value + by) / WRITTEN_LENGTH;
  // A sum that is off by rounding only is not moved a whole step.
  const noise = SAME_LENGTH;
  return (by < 0 ? Math.floor(steps + noise) : Math.ceil(steps - noise)) / (1 / WRITTEN_LENGTH);
}
