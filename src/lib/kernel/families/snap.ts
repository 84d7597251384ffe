/** Why a dragged value sits where it does. */
export type SnapReason = 'blade' | 'round';

export interface Snapped {
  readonly value: number;
  /** Null where the value is just the step it was rounded to. */
  readonly reason: SnapReason | null;
}

export interface SnapRule {
  /** Values that attract first, from far. */
  readonly blades: readonly number[];
  readonly bladeReach: number;
  /** Round numbers attract next. */
  readonly round: number;
  readonly roundReach: number;
  /** Everything else lies on this step. */
  readonly step: number;
}

/** Degrees: blades within 2, multiples of 5 within 0.75, else half degrees. */
export const ANGLE_SNAP: Omit<SnapRule, 'blades'> = { bladeReach: 2, round: 5, roundReach: 0.75, step: 0.5 };

/** Millimetres: multiples of 50 within 8, else steps of 5. */
export const LENGTH_SNAP: Omit<SnapRule, 'blades'> = { bladeReach: 0, round: 50, roundReach: 8, step: 5 };

/** Snaps a value: the nearest blade within reach, else the nearest round number within reach, else the nearest step. */
export function snap(value: number, rule: SnapRule): Snapped {
  const blade = nearest(value, rule.blades);
  if (blade !== null && Math.abs(blade - value) <= rule.bladeReach) return { value: blade, reason: 'blade' };
  const round = Math.round(value / rule.round) * rule.round;
  if (Math.abs(round - value) <= rule.roundReach) return { value: round, reason: 'round' };
  return { value: Math.round(value / rule.step) * rule.step, reason: null };
}

function nearest(value: number, candidates: readonly number[]): number | null {
  return candidates.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one - value) < Math.abs(best - value) ? one : best),
    null
  );
}
