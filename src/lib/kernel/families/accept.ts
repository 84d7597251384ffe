import type { AngleKind, CountKind, Family, GroupKind, LengthKind, ParamKind } from './family.ts';

/**
 * Whether a document may give a parameter this number. The path is inside the fitting, `params.gore`,
 * `params.joints[1].turn`; one that is no parameter of the family may be anything.
 */
export function acceptsNumber(family: Family, path: string, value: number): boolean {
  const [place, name = '', ...inside] = path.split(/[.[\]]+/);
  const of = family.params[name]?.of;
  return place !== 'params' || !of || isInside(findKind(of, inside), value);
}

/** The kind of a list's entry, or of a field of it; any other kind is its own. */
function findKind(of: ParamKind | GroupKind, inside: readonly string[]): ParamKind | GroupKind | undefined {
  const [first = '', ...rest] = inside;
  if (of.kind === 'list') return findKind(of.item, rest);
  return of.kind === 'group' ? of.fields[first] : of;
}

function isInside(of: ParamKind | GroupKind | undefined, value: number): boolean {
  if (!of || !('min' in of || 'max' in of || 'above' in of)) return Number.isFinite(value);
  const { min = -Infinity, above = -Infinity, max = Infinity } = of as LengthKind | AngleKind | CountKind;
  return Number.isFinite(value) && value >= min && value > above && value <= max;
}
