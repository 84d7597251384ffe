import type { Family, ParamKind } from './family.ts';

/** The kinds that hold one value. */
export type SingleKind = Exclude<ParamKind, { kind: 'list' | 'group' }>;

/** `joints[0].turn` → joints, 0, turn. */
export function splitPath(path: string): string[] {
  return path.split(/[.[\]]+/).filter((segment) => segment !== '');
}

/** The value at a path inside a family's parameters; undefined where there is none. */
export function readParam(params: unknown, path: string): unknown {
  return splitPath(path).reduce<unknown>(
    (node, segment) =>
      typeof node === 'object' && node !== null ? (node as Record<string, unknown>)[segment] : undefined,
    params
  );
}

/** The parameters with the value at a path replaced; everything beside the path stays the same object. */
export function writeParam(
  params: Readonly<Record<string, unknown>>,
  path: string,
  value: unknown
): Readonly<Record<string, unknown>> {
  return replaceIn(params, splitPath(path), value) as Readonly<Record<string, unknown>>;
}

/** How the value at a path is described: `lengths[2]` is a length, `joints[0].turn` an angle. */
export function findKind(family: Family, path: string): SingleKind {
  const [name, ...rest] = splitPath(path);
  let kind: ParamKind | undefined = family.params[name!]?.of;
  for (const segment of rest) {
    if (kind?.kind === 'list') kind = kind.item;
    else if (kind?.kind === 'group') kind = kind.fields[segment]?.of;
  }
  if (!kind || kind.kind === 'list' || kind.kind === 'group') {
    throw new Error(`${family.name} has no single parameter ${path}`);
  }
  return kind;
}

function replaceIn(node: unknown, path: readonly string[], value: unknown): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return value;
  if (Array.isArray(node)) {
    return node.map((item: unknown, i) => (i === Number(first) ? replaceIn(item, rest, value) : item));
  }
  const record = node as Readonly<Record<string, unknown>> | undefined;
  return { ...record, [first]: replaceIn(record?.[first], rest, value) };
}
