import { GROUPINGS, USUAL, type CuttingChoice } from '../kernel/assembly/choice.ts';
import type { Step } from '../kernel/fitting/step.ts';

/** What is kept beside a job of the work on one of its fittings: the order that was chosen and the steps that are done. */
export interface WorkLog {
  readonly choice: CuttingChoice;
  /** Steps that are ticked off, as {@link identifySteps} calls them. */
  readonly ticked: readonly string[];
}

/** Nothing chosen, nothing done. */
export const UNTOUCHED: WorkLog = { choice: USUAL, ticked: [] };

/** Figures that differ by less are the same for the shop: tenths of a millimetre or of a degree. */
const TENTHS = 10;

/**
 * What each step says, in a form that can be kept: a step has the same name as long as it says the same, wherever it
 * stands in the order. Of steps that say the same the second is `… 2`, and so on.
 */
export function identifySteps(steps: readonly Step[]): string[] {
  const seen = new Map<string, number>();
  return steps.map(({ sentence, straight, cuts, face, pieces, data }) => {
    const text = JSON.stringify([sentence, straight, cuts, face, pieces, data], (_, value: unknown) =>
      typeof value === 'number' ? Math.round(value * TENTHS) / TENTHS : value
    );
    const count = (seen.get(text) ?? 0) + 1;
    seen.set(text, count);
    return count === 1 ? text : `${text} ${count}`;
  });
}

/** The log with one step ticked or no longer ticked. */
export function tickStep(log: WorkLog, step: string, done: boolean): WorkLog {
  const others = log.ticked.filter((one) => one !== step);
  return { ...log, ticked: done ? [...others, step] : others };
}

/** A log as it was kept; what cannot be read of it is as if untouched. */
export function readWorkLog(kept: unknown): WorkLog {
  const { choice, ticked } = readRecord(kept);
  const { grouping, sequence } = readRecord(choice);
  const known = GROUPINGS.find((one) => one === grouping);
  return {
    choice: { grouping: known ?? 'rule', sequence: isTexts(sequence) ? sequence : null },
    ticked: isTexts(ticked) ? ticked : []
  };
}

function readRecord(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

function isTexts(value: unknown): value is string[] {
  return Array.isArray(value) && value.every((one) => typeof one === 'string');
}
