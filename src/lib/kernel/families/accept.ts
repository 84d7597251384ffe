import type { Family } from './family.ts';
import { findKind, splitPath } from './param-path.ts';

/**
 * Whether a document may give a parameter this number. The path is inside the fitting, `params.gore`,
 * `params.joints[1].turn`; one that is no parameter of the family may be anything.
 */
export function acceptsNumber(family: Family, path: string, value: number): boolean {
  if (splitPath(path)[0] !== 'params') return true;
  const kind = findKind(family, path.slice('params.'.length));
  if (kind.kind === 'choice') return false;
  const { min = -Infinity, above = -Infinity, max = Infinity } = kind;
  return Number.isFinite(value) && value >= min && value > above && value <= max;
}
