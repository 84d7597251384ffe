import type { Family, Param, Params } from '$lib/kernel/families/family.ts';
import { findKind, readParam, writeParam, type SingleKind } from '$lib/kernel/families/param-path.ts';
import { nameParam, type Words } from '$lib/words/words.ts';

/** One value of a family's parameters, as a field shows it. */
export interface ParamRow {
  /** Path inside params, `branch.across`, `openings[0].wall`. */
  readonly path: string;
  /** The same without places in lists: the key of its words. */
  readonly key: string;
  readonly label: string;
  readonly help: string;
  readonly kind: SingleKind;
  /** Whether it may be left out and then follows from the others; a driver is another thing. */
  readonly mayFollow: boolean;
}

/** Rows that stand together; those of a group or of an entry of a list under its name. */
export interface ParamBlock {
  readonly heading: string | null;
  readonly rows: readonly ParamRow[];
}

/**
 * Every single value of a family's parameters in their order, groups and the entries of lists one after another. What
 * is neither said nor follows, such as the diameter of a rectangular opening, has no row.
 */
export function listParamBlocks(
  family: Family,
  values: Readonly<Record<string, unknown>>,
  following: Readonly<Record<string, number>>,
  words: Words
): ParamBlock[] {
  const name = (key: string) => nameParam(words, family.name, key);
  const row = (path: string, key: string, number: string, param: Param): ParamRow[] => {
    const isDriver = family.drivers?.names.includes(path) ?? false;
    const isOptional = !param.required && param.default === undefined && !isDriver;
    if (isOptional && readParam(values, path) === undefined && following[path] === undefined) return [];
    const without = writeParam(values, path, undefined);
    const mayFollow = isOptional && family.rules.every((rule) => rule.check(without) === null);
    const { label, help } = name(key);
    return [{ path, key, label: `${label}${number}`, help, kind: findKind(family, path), mayFollow }];
  };
  const rowsOf = (fields: Params, path: string, key: string, number: string): ParamRow[] =>
    Object.entries(fields).flatMap(([field, param]) =>
      row(`${path}.${field}`, `${key}.${field}`, number, param)
    );
  const blocks = Object.entries(family.params).flatMap(([key, param]): ParamBlock[] => {
    const { of } = param;
    if (of.kind === 'group') return [{ heading: name(key).label, rows: rowsOf(of.fields, key, key, '') }];
    if (of.kind !== 'list') return [{ heading: null, rows: row(key, key, '', param) }];
    const { item } = of;
    return (readParam(values, key) as readonly unknown[]).map((_, i): ParamBlock => {
      const [path, number] = [`${key}[${i}]`, ` ${i + 1}`];
      return item.kind === 'group'
        ? { heading: `${name(key).label}${number}`, rows: rowsOf(item.fields, path, key, number) }
        : { heading: null, rows: row(path, key, number, { of: item, required: true }) };
    });
  });
  return blocks.filter(({ rows }) => rows.length > 0);
}

/** Whether blocks show the same rows in the same words; what the values are is no matter. */
export function areSameBlocks(before: readonly ParamBlock[], after: readonly ParamBlock[]): boolean {
  const isSameRow = (a: ParamRow, b: ParamRow | undefined): boolean =>
    a.path === b?.path && a.label === b.label && a.kind === b.kind && a.mayFollow === b.mayFollow;
  return (
    before.length === after.length &&
    before.every(({ heading, rows }, i) => {
      const other = after[i]!;
      return (
        heading === other.heading &&
        rows.length === other.rows.length &&
        rows.every((row, k) => isSameRow(row, other.rows[k]))
      );
    })
  );
}
