import { SAME_BEVEL } from '../straight/board.ts';
import type { Step } from '../fitting/step.ts';

/** What an order of work costs beside the cuts themselves. */
export interface Effort {
  /** Quarter turns of straights; half a turn is two. */
  readonly turns: number;
  /** How often the next cut needs another bevel than the one before it. */
  readonly bladeChanges: number;
}

/** Counts the turns and the blade changes of an order of work. */
export function countEffort(steps: readonly Step[]): Effort {
  const turns = steps.reduce(
    (sum, { kind, data }) => sum + (kind === 'turn' ? Number(data['quarters']) : 0),
    0
  );
  const bevels = steps.flatMap(({ kind, data }) => (kind === 'cut' ? [Number(data['bevel'])] : []));
  const changes = bevels.filter((bevel, i) => i > 0 && Math.abs(bevel - bevels[i - 1]!) >= SAME_BEVEL);
  return { turns, bladeChanges: changes.length };
}
