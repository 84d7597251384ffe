import type { z } from 'zod';
import { FAMILIES } from '../families/index.ts';
import type { Job } from './job.ts';
import { isRecord } from './record.ts';
import { resolveTag } from './resolve.ts';
import { jobSchema, MOST_FITTINGS, unknownFamilySchema } from './schema.ts';
import { checkSite } from './site-rules.ts';

/** Why a document is unreadable: where, what is wrong, what was expected. */
export interface Fault {
  /** Path inside the document, `fittings[0].params.turn`; empty for the whole. */
  readonly path: string;
  readonly wrong: string;
  readonly expected: string;
}

export type ReadResult = { readonly job: Job } | { readonly fault: Fault };

type Path = readonly (string | number)[];
interface Located {
  readonly path: Path;
  readonly wrong: string;
  readonly expected: string;
}

/** Reads the text of a job document; the fault is the first one in document order. */
export function readJob(text: string): ReadResult {
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return {
      fault: { path: '', wrong: `is not JSON (${explainSyntax(text, error)})`, expected: 'a JSON document' }
    };
  }
  return checkJob(document);
}

/** Checks a document that is already parsed. */
export function checkJob(document: unknown): ReadResult {
  const newer = findNewerVersion(document);
  if (newer) return { fault: newer };
  const looked = leaveTooMany(document);
  const parsed = jobSchema.safeParse(looked);
  const located = [
    ...(parsed.success ? [] : parsed.error.issues.flatMap((issue) => locate(issue, looked))),
    ...checkUnknownFamilies(looked),
    ...checkFittingRules(looked),
    ...checkSiteRules(looked)
  ];
  const first = findFirst(located, looked);
  if (!first) return { job: document as Job };
  return { fault: { path: writePath(first.path), wrong: first.wrong, expected: first.expected } };
}

/** The fault as one line. */
export function tellFault({ path, wrong, expected }: Fault): string {
  return `${path === '' ? '' : `${path} `}${wrong}, expected ${expected}`;
}

function findNewerVersion(document: unknown): Fault | null {
  if (!isRecord(document) || document['format'] !== 'gorewright-job') return null;
  const version = document['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version <= 1) return null;
  return {
    path: 'version',
    wrong: `is ${version}, written by a newer Gorewright`,
    expected: 'version 1, or a newer Gorewright to open it'
  };
}

/** A list of too many fittings is at fault before any of them is: no more are looked at than it takes to say so. */
function leaveTooMany(document: unknown): unknown {
  if (!isRecord(document) || !Array.isArray(document['fittings'])) return document;
  const { fittings } = document;
  return fittings.length > MOST_FITTINGS
    ? { ...document, fittings: fittings.slice(0, MOST_FITTINGS + 1) }
    : document;
}

/** A fitting of no known family is not looked at further by the schema; its other fields may hold an earlier fault. */
function checkUnknownFamilies(document: unknown): Located[] {
  if (!isRecord(document) || !Array.isArray(document['fittings'])) return [];
  return document['fittings'].flatMap((said: unknown, position) => {
    if (!isRecord(said) || FAMILIES.some(({ name }) => name === said['family'])) return [];
    const { error } = unknownFamilySchema.safeParse(said);
    return (error?.issues ?? []).flatMap((issue) =>
      locate({ ...issue, path: ['fittings', position, ...issue.path] }, document)
    );
  });
}

/** Rules over several fields; each looks only at values whose types are right, so it also works in a faulty document. */
function checkFittingRules(document: unknown): Located[] {
  if (!isRecord(document) || !Array.isArray(document['fittings'])) return [];
  const faults: Located[] = [];
  const tags = new Map<string, number>();
  document['fittings'].forEach((said: unknown, position) => {
    if (!isRecord(said)) return;
    const tag = resolveTag(typeof said['tag'] === 'string' ? { tag: said['tag'] } : {}, position);
    const before = tags.get(tag);
    if (before === undefined) tags.set(tag, position);
    else {
      faults.push({
        path: ['fittings', position, 'tag'],
        wrong: `is ${JSON.stringify(tag)}, as fittings[${before}]${'tag' in said ? '' : ' (given by its place)'}`,
        expected: 'a tag of its own'
      });
    }
    const family = FAMILIES.find(({ name }) => name === said['family']);
    const params = said['params'];
    if (!family || !isRecord(params)) return;
    for (const rule of family.rules) {
      const fault = rule.check(params);
      if (!fault) continue;
      const path = ['fittings', position, 'params', ...fault.path];
      faults.push({ path, wrong: describeValue(valueAt(document, path)), expected: fault.expected });
    }
  });
  return faults;
}

function checkSiteRules(document: unknown): Located[] {
  if (!isRecord(document) || !isRecord(document['site'])) return [];
  return checkSite(document['site'], listTags(document['fittings'])).map(({ path, expected }) => ({
    path: ['site', ...path],
    wrong: describeValue(valueAt(document, ['site', ...path])),
    expected
  }));
}

/** The tags of the fittings, given or by their place; null where a fault in the list leaves some unknown. */
function listTags(fittings: unknown = []): string[] | null {
  if (!Array.isArray(fittings)) return null;
  const tags = fittings.map((said: unknown, position) => {
    const tag = isRecord(said) ? said['tag'] : null;
    if (tag === undefined) return resolveTag({}, position);
    return typeof tag === 'string' && tag !== '' ? tag : null;
  });
  return tags.every((tag) => tag !== null) ? tags : null;
}

function locate(issue: z.core.$ZodIssue, document: unknown): Located[] {
  const path = issue.path.map((segment) => (typeof segment === 'symbol' ? String(segment) : segment));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      path: [...path, key],
      wrong: 'is not a known field',
      expected: 'only fields of the published schema'
    }));
  }
  return [{ path, wrong: describeValue(valueAt(document, path)), expected: describeExpected(issue) }];
}

function describeExpected(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return describeType(issue.expected);
    case 'too_small':
      return issue.origin === 'array' || issue.origin === 'string'
        ? `at least ${issue.minimum} ${issue.origin === 'array' ? 'entries' : 'character'}`
        : `${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'array'
        ? `at most ${issue.maximum} entries`
        : `${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}`;
    case 'invalid_value':
      return listChoices(issue.values);
    case 'invalid_union':
      return issue.errors.length === 0
        ? listChoices(FAMILIES.map(({ name }) => name))
        : issue.errors.map(([inner]) => (inner ? describeExpected(inner) : '')).join(' or ');
    default:
      return issue.message;
  }
}

function describeType(expected: string): string {
  const names: Record<string, string> = {
    number: 'a finite number',
    int: 'a whole number',
    string: 'a text',
    object: 'an object',
    array: 'a list'
  };
  return names[expected] ?? expected;
}

function listChoices(values: readonly unknown[]): string {
  return values.map((value) => JSON.stringify(value)).join(' or ');
}

const LONGEST_QUOTE = 60;

function describeValue(value: unknown): string {
  if (value === undefined) return 'is missing';
  // JSON has no word for a number that overflowed while it was read.
  const text = typeof value === 'number' ? String(value) : quote(value);
  if (text.length <= LONGEST_QUOTE) return `is ${text}`;
  // Half of a surrogate pair is no character.
  return `is ${text.slice(0, LONGEST_QUOTE).replace(/[\uD800-\uDBFF]$/, '')}…`;
}

function quote(value: unknown): string {
  try {
    return JSON.stringify(value);
  } catch {
    // JSON can be read to any depth, but it is written by recursion.
    return Array.isArray(value) ? 'a list nested too deep to show' : 'an object nested too deep to show';
  }
}

/** The fault that comes first in the document as written; of faults at one place the first found. */
function findFirst(located: readonly Located[], document: unknown): Located | undefined {
  const placeField = startPlacing();
  let first: { readonly fault: Located; readonly place: readonly number[] } | undefined;
  for (const fault of located) {
    const place = findPlace(document, fault.path, placeField);
    if (!first || comparePlaces(place, first.place) < 0) first = { fault, place };
  }
  return first?.fault;
}

/** Where a path lies in the document as written: the place of each segment among its siblings, missing ones last. */
function findPlace(document: unknown, path: Path, placeField: PlaceField): number[] {
  let node: unknown = document;
  return path.map((segment) => {
    const at = isRecord(node)
      ? placeField(node, String(segment))
      : Array.isArray(node)
        ? Number(segment)
        : -1;
    node = child(node, segment);
    return at < 0 ? Infinity : at;
  });
}

type PlaceField = (record: object, name: string) => number;

/** The place of a field in its object, -1 where it has none; an object may have as many faults as fields, and is gone through once. */
function startPlacing(): PlaceField {
  const known = new Map<object, ReadonlyMap<string, number>>();
  return (record, name) => {
    let places = known.get(record);
    if (!places) known.set(record, (places = new Map(Object.keys(record).map((key, at) => [key, at]))));
    return places.get(name) ?? -1;
  };
}

function comparePlaces(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) if (a[i] !== b[i]) return a[i]! < b[i]! ? -1 : 1;
  return a.length - b.length;
}

function valueAt(document: unknown, path: Path): unknown {
  return path.reduce<unknown>((node, segment) => child(node, segment), document);
}

function child(node: unknown, segment: string | number): unknown {
  if (Array.isArray(node)) return node[Number(segment)];
  return isRecord(node) && Object.hasOwn(node, segment) ? node[String(segment)] : undefined;
}

function writePath(path: Path): string {
  return path.reduce<string>((text, segment) => {
    if (typeof segment === 'number') return `${text}[${segment}]`;
    const plain = /^[A-Za-z_$][\w$-]*$/.test(segment);
    if (!plain) return `${text}[${JSON.stringify(segment)}]`;
    return text === '' ? segment : `${text}.${segment}`;
  }, '');
}

function explainSyntax(text: string, error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const at = /position (\d+)/.exec(message)?.[1];
  const short = message.replace(/\s+/g, ' ').slice(0, 120);
  if (at === undefined || /line \d+/.test(message)) return short;
  const before = text.slice(0, Number(at)).split('\n');
  return `${short}, line ${before.length} column ${before[before.length - 1]!.length + 1}`;
}
