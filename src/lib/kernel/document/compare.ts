import type { ParamKind, Params } from '../families/family.ts';
import { isRecord } from './record.ts';
import type { ResolvedFitting, ResolvedJob } from './resolve.ts';

/** A number, a word, the angles of blades; undefined where nothing is said and nothing is usual. */
export type Value = number | string | readonly number[] | undefined;

/** A value that is another one now. */
export interface ValueChange {
  /** Of a fitting `family`, `quantity`, `section.width`, `lay`, `seam`, `ends.inlet`, `params.joints[1].turn`; else the field. */
  readonly path: string;
  readonly before: Value;
  readonly now: Value;
}

/** What is different between two states of a job; documents that mean the same differ in nothing. */
export interface JobChanges {
  /** Of the job's own fields: its name. */
  readonly job: readonly ValueChange[];
  readonly show: readonly ValueChange[];
  readonly board: readonly ValueChange[];
  readonly shop: readonly ValueChange[];
  /** Fittings are told apart by their tags. */
  readonly added: readonly ResolvedFitting[];
  readonly removed: readonly ResolvedFitting[];
  readonly changed: readonly FittingChange[];
  /** Whether those that are in both stand in another order. */
  readonly reordered: boolean;
  readonly site: boolean;
}

export interface FittingChange {
  readonly fitting: ResolvedFitting;
  /** At least one; of another family, `family` stands for all its parameters. */
  readonly values: readonly ValueChange[];
}

/** Compares two states of a job, fitting by fitting, with every default filled in. */
export function compareJobs(before: ResolvedJob, now: ResolvedJob): JobChanges {
  const [old, current] = [indexByTag(before), indexByTag(now)];
  const added = now.fittings.filter(({ tag }) => !old.has(tag));
  const removed = before.fittings.filter(({ tag }) => !current.has(tag));
  const kept = now.fittings.filter(({ tag }) => old.has(tag));
  const changed = kept
    .map((fitting) => ({ fitting, values: compareFittings(old.get(fitting.tag)!, fitting) }))
    .filter(({ values }) => values.length > 0);
  const order = before.fittings.filter(({ tag }) => current.has(tag));
  return {
    job: compareValues({ name: before.name }, { name: now.name }),
    show: compareValues({ ...before.show }, { ...now.show }),
    board: compareValues({ ...before.board }, { ...now.board }),
    shop: compareValues(listShop(before), listShop(now)),
    added,
    removed,
    changed,
    reordered: order.some(({ tag }, i) => tag !== kept[i]!.tag),
    site: !isSame(before.site, now.site)
  };
}

type Values = Readonly<Record<string, Value>>;

function indexByTag({ fittings }: ResolvedJob): Map<string, ResolvedFitting> {
  return new Map(fittings.map((fitting) => [fitting.tag, fitting]));
}

function compareFittings(before: ResolvedFitting, now: ResolvedFitting): ValueChange[] {
  const isOther = before.family !== now.family;
  const list = (fitting: ResolvedFitting): Values => ({
    family: fitting.family.name,
    ...listSetting(fitting),
    ...(isOther ? {} : listGroup(fitting.family.params, fitting.values, 'params.'))
  });
  return compareValues(list(before), list(now));
}

function listSetting({ quantity, setting: { section, lay, seam, ends } }: ResolvedFitting): Values {
  return {
    quantity,
    'section.width': section.width,
    'section.height': section.height,
    lay,
    seam,
    'ends.inlet': ends.inlet,
    'ends.outlet': ends.outlet
  };
}

/** Every single value of parameters by its path, in the order in which the family describes them. */
function listGroup(params: Params, values: unknown, path: string): Values {
  const said = isRecord(values) ? values : {};
  return Object.assign(
    {},
    ...Object.entries(params).map(([name, { of }]) => listKind(of, said[name], `${path}${name}`))
  ) as Values;
}

function listKind(of: ParamKind, value: unknown, path: string): Values {
  if (of.kind === 'group') return listGroup(of.fields, value, `${path}.`);
  if (of.kind !== 'list') return { [path]: value as number | string | undefined };
  const entries = (value ?? []) as readonly unknown[];
  return Object.assign({}, ...entries.map((entry, i) => listKind(of.item, entry, `${path}[${i}]`))) as Values;
}

function listShop({ shop: { blades, ...minima } }: ResolvedJob): Values {
  return { ...minima, blades: blades.map(({ angle }) => angle) };
}

function compareValues(before: Values, now: Values): ValueChange[] {
  const paths = [...new Set([...Object.keys(now), ...Object.keys(before)])];
  return paths
    .filter((path) => !isSame(before[path], now[path]))
    .map((path) => ({ path, before: before[path], now: now[path] }));
}

/** Whether two values of documents say the same: what is undefined counts as left out. */
function isSame(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((item, i) => isSame(item, b[i]));
  if (isRecord(a) && isRecord(b))
    return [...new Set([...Object.keys(a), ...Object.keys(b)])].every((key) => isSame(a[key], b[key]));
  return a === b;
}
