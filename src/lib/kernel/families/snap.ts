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

/** How lengths snap: no blade attracts them. */
export type LengthSnap = Omit<SnapRule, 'blades' | 'bladeReach'>;

/** Degrees: blades within 2, multiples of 5 within 0.75, else half degrees. */
export const ANGLE_SNAP: Omit<SnapRule, 'blades'> = { bladeReach: 2, round: 5, roundReach: 0.75, step: 0.5 };

const INCH = 25.4;

/** Whole inches within 3/16, else quarters. */
const INCH_SNAP: LengthSnap = { round: INCH, roundReach: (3 * INCH) / 16, step: INCH / 4 };

/** By the unit in which lengths are shown, mm: multiples of 50 within 8, else steps of 5; inches as they are read off a tape. */
export const LENGTH_SNAP: Readonly<Record<'mm' | 'in' | 'in/16', LengthSnap>> = {
  mm: { round: 50, roundReach: 8, step: 5 },
  in: INCH_SNAP,
  'in/16': INCH_SNAP
};

/** Snaps a value: the nearest blade within reach, else the nearest round number within reach, else the nearest step. */
export function snap(value: number, rule: SnapRule): Snapped {
  const blade = nearest(value, rule.blades);
  if (blade !== null && Math.abs(blade - value) <= rule.bladeReach) return { value: blade, reason: 'blade' };
  const round = Math.round(value / rule.round) * rule.round;
  if (Math.abs(round - value) <= rule.roundReach) return { value: round, reason: 'round' };
  return { value: Math.round(value / rule.step) * rule.step, reason: null };
}

/** So many steps up, or down, on the grid of a step: a value between two lines of it goes to the next line first. */
export function stepOnGrid(value: number, steps: number, step: number): number {
  const lines = value / step;
  const nearest = Math.round(lines);
  const from =
    Math.abs(lines - nearest) < ON_GRID ? nearest : steps > 0 ? Math.floor(lines) : Math.ceil(lines);
  return (from + steps) * step;
}

/** Values closer to a line of the grid than this part of a step lie on it. */
const ON_GRID = 1e-6;

function nearest(value: number, candidates: readonly number[]): number | null {
  return candidates.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one - value) < Math.abs(best - value) ? one : best),
    null
  );
}
