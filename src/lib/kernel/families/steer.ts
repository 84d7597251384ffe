import type { Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import type { Family, Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_TURN } from './limits.ts';
import { findKind, readParam, writeParam, type SingleKind } from './param-path.ts';
import { ANGLE_SNAP, snap, stepOnGrid, type LengthSnap, type SnapReason } from './snap.ts';

/** What a drag or a key press asks for: the parameters to say, the value that is driven, and why it sits there. */
export interface Steered {
  readonly params: Readonly<Record<string, unknown>>;
  readonly value: number;
  readonly reason: SnapReason | null;
}

type Values = Readonly<Record<string, unknown>>;

/**
 * Drags a handle to a point of the fitting's frame. `snapping` is how lengths snap; null frees angles as well. `values`
 * are those at the drag's start.
 */
export function steerTo(
  family: Family,
  values: Values,
  handle: Handle,
  point: Vec3,
  setting: Setting,
  snapping: LengthSnap | null
): Steered {
  const raw = family.drag(values as never, handle.id, point, setting);
  const value = readParam(raw, handle.id);
  if (typeof value !== 'number') return { params: {}, value: handle.value, reason: null };
  if (handle.kind === 'count' || snapping === null) return { params: raw, value, reason: null };
  const snapped =
    handle.kind === 'angle'
      ? snap(value, { ...ANGLE_SNAP, blades: family.bladeValues(values as never, handle.id, setting.shop) })
      : snap(value, { ...snapping, bladeReach: 0, blades: [] });
  const kind = findKind(family, handle.id);
  const limited = limit(snapped.value, kind, findStep(kind, snapping));
  return { params: writeParam(raw, handle.id, limited), value: limited, reason: snapped.reason };
}

/** A parameter's value moved by so many steps of an arrow key, inside its limits. */
export function stepBy(
  family: Family,
  path: string,
  value: number,
  steps: number,
  lengths: LengthSnap
): number {
  const kind = findKind(family, path);
  const step = findStep(kind, lengths);
  return limit(stepOnGrid(value, steps, step), kind, step);
}

function findStep(kind: SingleKind, lengths: LengthSnap): number {
  return kind.kind === 'count' ? 1 : kind.kind === 'angle' ? ANGLE_SNAP.step : lengths.step;
}

function limit(value: number, kind: SingleKind, step: number): number {
  if (kind.kind === 'choice') throw new Error('a choice has no limits');
  const above = kind.kind === 'angle' ? LEAST_DRAGGED_TURN : step;
  const least = kind.above === undefined ? (kind.min ?? -Infinity) : kind.above + above;
  return clamp(value, least, kind.max ?? Infinity);
}
