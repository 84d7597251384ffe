import type { Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import type { Family, Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_TURN } from './limits.ts';
import { findKind, readParam, writeParam, type SingleKind } from './param-path.ts';
import { ANGLE_SNAP, LENGTH_SNAP, snap, type SnapReason } from './snap.ts';

/** What a drag or a key press asks for: the parameters to say, the value that is driven, and why it sits there. */
export interface Steered {
  readonly params: Readonly<Record<string, unknown>>;
  readonly value: number;
  readonly reason: SnapReason | null;
}

type Values = Readonly<Record<string, unknown>>;

/** Drags a handle to a point of the fitting's frame, with or without snapping. `values` are those at the drag's start. */
export function steerTo(
  family: Family,
  values: Values,
  handle: Handle,
  point: Vec3,
  setting: Setting,
  snapping: boolean
): Steered {
  const raw = family.drag(values as never, handle.id, point, setting);
  const value = readParam(raw, handle.id);
  if (typeof value !== 'number') return { params: {}, value: handle.value, reason: null };
  if (handle.kind === 'count' || !snapping) return { params: raw, value, reason: null };
  const snapped =
    handle.kind === 'angle'
      ? snap(value, { ...ANGLE_SNAP, blades: family.bladeValues(values as never, handle.id, setting.shop) })
      : snap(value, { ...LENGTH_SNAP, blades: [] });
  const limited = limit(snapped.value, findKind(family, handle.id));
  return { params: writeParam(raw, handle.id, limited), value: limited, reason: snapped.reason };
}

/** The step by which an arrow key moves a parameter. */
export function findStep(kind: SingleKind): number {
  return kind.kind === 'count' ? 1 : kind.kind === 'angle' ? ANGLE_SNAP.step : LENGTH_SNAP.step;
}

/** A parameter's value moved by so many steps, inside its limits. */
export function stepBy(family: Family, path: string, value: number, steps: number): number {
  const kind = findKind(family, path);
  return limit(value + steps * findStep(kind), kind);
}

function limit(value: number, kind: SingleKind): number {
  if (kind.kind === 'choice') throw new Error('a choice has no limits');
  const above = kind.kind === 'angle' ? LEAST_DRAGGED_TURN : findStep(kind);
  const least = kind.above === undefined ? (kind.min ?? -Infinity) : kind.above + above;
  return clamp(value, least, kind.max ?? Infinity);
}
