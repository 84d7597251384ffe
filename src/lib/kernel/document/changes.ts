import { findFamily } from '../families/index.ts';
import { splitPath, writeParam } from '../families/param-path.ts';
import type { Site } from '../site/site.ts';
import type { End, Lay } from '../straight/blank.ts';
import type { Corner, Section } from '../straight/section.ts';
import { mirrorFitting, reverseFitting } from './hand.ts';
import type { Job, SaidFitting, Show } from './job.ts';
import { findStanding, resolveTag } from './resolve.ts';
import { changeSite, type SiteChange } from './site-changes.ts';

/** How the straights of a fitting are made; undefined takes a wish back. */
export interface Making {
  readonly lay?: Lay | undefined;
  readonly seam?: Corner | undefined;
  readonly ends?: { readonly inlet?: End | undefined; readonly outlet?: End | undefined };
}

/** Everything that can be done to a document. `fitting` is its place in the list, from 0. */
export type Change =
  | { readonly kind: 'open-job'; readonly job: Job }
  /** An empty name takes it back. */
  | { readonly kind: 'set-name'; readonly name: string }
  | { readonly kind: 'set-show'; readonly show: Partial<Show> }
  /** A family's example at the end of the list, under the first free tag. */
  | { readonly kind: 'add-fitting'; readonly family: string; readonly section: Section }
  /** The same again under the first free tag, right behind. */
  | { readonly kind: 'duplicate-fitting'; readonly fitting: number }
  | { readonly kind: 'remove-fitting'; readonly fitting: number }
  /** To another place in the list, which it has afterwards. */
  | { readonly kind: 'move-fitting'; readonly fitting: number; readonly to: number }
  | { readonly kind: 'set-tag'; readonly fitting: number; readonly tag: string }
  | { readonly kind: 'set-quantity'; readonly fitting: number; readonly quantity: number }
  | { readonly kind: 'set-section'; readonly fitting: number; readonly section: Section }
  /** Says parameters; undefined takes a parameter back, so that its default or another driver holds. */
  | {
      readonly kind: 'set-params';
      readonly fitting: number;
      readonly params: Readonly<Record<string, unknown>>;
    }
  /** Another family and all its parameters; everything else of the fitting stays. */
  | {
      readonly kind: 'set-shape';
      readonly fitting: number;
      readonly family: string;
      readonly params: Readonly<Record<string, unknown>>;
    }
  | { readonly kind: 'set-making'; readonly fitting: number; readonly making: Making }
  /** The other hand; a family that has none stays as it is. */
  | { readonly kind: 'mirror-fitting'; readonly fitting: number }
  /** Seen from the other end; a family that has none stays as it is. */
  | { readonly kind: 'reverse-fitting'; readonly fitting: number }
  /** Undefined takes it away. */
  | { readonly kind: 'set-site'; readonly site: Site | undefined }
  /**
   * The fitting stands in the site from now on: in place of the one that stands there, with its tag, quantity, seam and
   * ends, laid as the board yields most; or at the end of the list, under its own tag if that is free.
   */
  | { readonly kind: 'take-proposal'; readonly fitting: SaidFitting }
  | SiteChange;

/** The document after a change; what is not changed stays the same object. */
export function changeJob(job: Job, change: Change): Job {
  switch (change.kind) {
    case 'open-job':
      return change.job;
    case 'set-name':
      return withoutUndefined({ ...job, name: change.name === '' ? undefined : change.name });
    case 'set-show':
      return { ...job, show: { ...job.show, ...change.show } };
    case 'add-fitting':
      return changeList(job, (fittings) => [
        ...fittings,
        {
          tag: findFreeTag(fittings),
          family: change.family,
          section: change.section,
          params: findFamily(change.family).example
        }
      ]);
    case 'duplicate-fitting': {
      const said = findFitting(job, change.fitting);
      return changeList(job, (fittings) =>
        insertAt(fittings, change.fitting + 1, { ...said, tag: findFreeTag(fittings) })
      );
    }
    case 'remove-fitting':
      findFitting(job, change.fitting);
      return renameStanding(
        changeList(job, (fittings) => removeAt(fittings, change.fitting)),
        findTag(job, change.fitting),
        undefined
      );
    case 'move-fitting':
      findFitting(job, change.fitting);
      return changeList(job, (fittings) =>
        insertAt(removeAt(fittings, change.fitting), change.to, fittings[change.fitting]!)
      );
    case 'set-tag':
      return renameStanding(
        changeFitting(job, change.fitting, (said) => ({ ...said, tag: change.tag })),
        findTag(job, change.fitting),
        change.tag
      );
    case 'set-quantity':
      return changeFitting(job, change.fitting, (said) => ({ ...said, quantity: change.quantity }));
    case 'set-section':
      return changeFitting(job, change.fitting, (said) => ({ ...said, section: change.section }));
    case 'set-params':
      return changeFitting(job, change.fitting, (said) => ({
        ...said,
        params: withoutUndefined({ ...said.params, ...change.params })
      }));
    case 'set-shape':
      return changeFitting(job, change.fitting, (said) => ({
        ...said,
        family: change.family,
        params: change.params
      }));
    case 'set-making':
      return changeFitting(job, change.fitting, (said) => sayMaking(said, change.making));
    case 'mirror-fitting':
      return changeFitting(job, change.fitting, (said) => mirrorFitting(job, change.fitting) ?? said);
    case 'reverse-fitting':
      return changeFitting(job, change.fitting, (said) => reverseFitting(job, change.fitting) ?? said);
    case 'set-site':
      return withoutUndefined({ ...job, site: change.site });
    case 'take-proposal':
      return takeProposal(job, change.fitting);
    default:
      return { ...job, site: changeSite(findSite(job), change) };
  }
}

function takeProposal(job: Job, proposed: SaidFitting): Job {
  const site = findSite(job);
  const standing = findStanding(job);
  if (standing !== null) {
    const { family, section, params, lay } = proposed;
    return changeFitting(job, standing, (said) =>
      withoutUndefined({ ...said, family, section, params, lay })
    );
  }
  const tags = (job.fittings ?? []).map(resolveTag);
  const tag = proposed.tag !== undefined && !tags.includes(proposed.tag) ? proposed.tag : undefined;
  const added = changeList(job, (fittings) => [
    ...fittings,
    { ...proposed, tag: tag ?? findFreeTag(fittings) }
  ]);
  return { ...added, site: { ...site, fitting: added.fittings![added.fittings!.length - 1]!.tag! } };
}

function findSite(job: Job): Site {
  if (!job.site) throw new Error('the job has no site');
  return job.site;
}

/** The site goes on holding a fitting that is called otherwise from now on; undefined: that is there no more. */
function renameStanding(job: Job, tag: string, to: string | undefined): Job {
  if (job.site?.fitting !== tag) return job;
  return { ...job, site: withoutUndefined({ ...job.site, fitting: to }) };
}

function findTag(job: Job, at: number): string {
  return resolveTag(findFitting(job, at), at);
}

/**
 * The change that says one parameter, named by its path inside `params`: `gore`, `joints[1].turn`; undefined takes it
 * back. Saying a driver takes the others back, and what else follows by the family's rules is said or taken back with it.
 */
export function sayParam(job: Job, fitting: number, path: string, value: unknown): Change {
  const { family, params } = findFitting(job, fitting);
  const { drivers, settle } = findFamily(family);
  const written = writeParam(params, path, value);
  const settled = settle ? settle(written, path) : written;
  const others = drivers?.names.includes(splitPath(path)[0]!) ? drivers.names : [];
  const isOther = (name: string): boolean => others.includes(name) && name !== splitPath(path)[0];
  const names = [...new Set([...Object.keys(params), ...Object.keys(settled)])];
  const changed = names.flatMap((name) => {
    const next = isOther(name) ? undefined : withoutUnsaid(settled[name]);
    return next === params[name] ? [] : [[name, next] as const];
  });
  return { kind: 'set-params', fitting, params: Object.fromEntries(changed) };
}

/** A value without the fields that are not said, in itself, its groups and its lists; the same object where all are. */
function withoutUnsaid(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const entries = value.map(withoutUnsaid);
    return entries.every((entry, i) => entry === value[i]) ? value : entries;
  }
  const fields = Object.entries(value).map(([name, field]) => [name, withoutUnsaid(field)] as const);
  const isSame = fields.every(([name, field]) => field !== undefined && field === (value as Said)[name]);
  return isSame ? value : withoutUndefined(Object.fromEntries(fields));
}

type Said = Readonly<Record<string, unknown>>;

function findFitting(job: Job, at: number): SaidFitting {
  const said = job.fittings?.[at];
  if (!said) throw new Error(`no fitting ${at} among ${job.fittings?.length ?? 0}`);
  return said;
}

function changeFitting(job: Job, at: number, change: (said: SaidFitting) => SaidFitting): Job {
  findFitting(job, at);
  return { ...job, fittings: job.fittings!.map((said, i) => (i === at ? change(said) : said)) };
}

function sayMaking(said: SaidFitting, making: Making): SaidFitting {
  const ends = withoutUndefined({ ...said.ends, ...making.ends });
  const silent = Object.keys(ends).length === 0;
  return withoutUndefined({ ...said, ...making, ends: silent ? undefined : ends });
}

/** A fitting called by its place in the list says its tag first, so that it keeps it wherever it goes. */
function changeList(job: Job, change: (fittings: readonly SaidFitting[]) => readonly SaidFitting[]): Job {
  const tagged = (job.fittings ?? []).map((said, i) =>
    said.tag === undefined ? { tag: resolveTag(said, i), ...said } : said
  );
  return { ...job, fittings: change(tagged) };
}

function insertAt<T>(list: readonly T[], at: number, item: T): T[] {
  return [...list.slice(0, at), item, ...list.slice(at)];
}

function removeAt<T>(list: readonly T[], at: number): T[] {
  return list.filter((_, i) => i !== at);
}

function findFreeTag(fittings: readonly SaidFitting[]): string {
  for (let number = 1; ; number++) {
    const tag = `F${number}`;
    if (!fittings.some((said) => said.tag === tag)) return tag;
  }
}

type WithoutUndefined<T> = { [K in keyof T]: Exclude<T[K], undefined> };

function withoutUndefined<T extends object>(record: T): WithoutUndefined<T> {
  const said = Object.entries(record).filter(([, value]) => value !== undefined);
  return Object.fromEntries(said) as WithoutUndefined<T>;
}
