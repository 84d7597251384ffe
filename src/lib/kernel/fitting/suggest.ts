import { SAME_LENGTH, WRITTEN_LENGTH } from '../geometry/tolerance.ts';

/**
 * The value that a parameter should move to, mm or degrees: rounded away from where it is to the step in which figures
 * are written, so that the suggestion still does what it promises when it is read in a sheet.
 */
export function suggestValue(from: number, to: number): number {
  const steps = to / WRITTEN_LENGTH;
  // A sum that is off by rounding only is not moved a whole step.
  const noise = SAME_LENGTH;
  return (to < from ? Math.floor(steps + noise) : Math.ceil(steps - noise)) / (1 / WRITTEN_LENGTH);
}
