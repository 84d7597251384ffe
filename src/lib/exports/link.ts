import { deflateSync, Inflate } from 'fflate';
import {
  DEFAULT_BOARD,
  DEFAULT_SHOP,
  DEFAULT_SHOW,
  LINK_PREFIX,
  type Job,
  type SaidFitting
} from '../kernel/document/job.ts';
import { readJob, type ReadResult } from '../kernel/document/read.ts';
import { resolveTag } from '../kernel/document/resolve.ts';
import type { Model } from '../kernel/evaluate.ts';
import { writeCanonical, writeCanonicalJob } from './digest.ts';

/**
 * Characters of a link with its address: what everyone who takes a request line is asked to take (8000 octets, RFC 9112,
 * section 3). A fragment is never sent to a server; that messengers and mail take as much is common practice, no source.
 */
export const LONGEST_LINK = 8000;

/** Bytes of the document in a link: about what a thousand fittings take, which is the most a job has; read in no time. */
export const LARGEST_DOCUMENT = 256 * 1024;

/** Of the way in which the rest is written: canonical JSON, deflated (RFC 1951), in base64url (RFC 4648). */
const VERSION = '1';

/** Compressed bytes that are looked at before it is asked how much came out: a byte gives 1032 at most (RFC 1951). */
const STEP = 32;

/** A link, or of what it would have more than a link may. */
export type MadeLink = { readonly link: string } | LinkExcess;

export interface LinkExcess {
  /** Characters of the link, or bytes of the document in it. */
  readonly over: 'characters' | 'bytes';
  readonly has: number;
  readonly most: number;
}

/** What is wrong with a link before its document is read: too long, of a newer product, damaged, or holding too much. */
export type BrokenLink = 'long' | 'newer' | 'damaged' | 'large';

export type LinkResult = ReadResult | { readonly broken: BrokenLink };

/**
 * The link to a job, all of it in the fragment of the page's address. Jobs that mean the same and say the same have the
 * same link; what is opened from it has the digest of the job.
 */
export function writeLink(job: Job, address: string): MadeLink {
  const document = new TextEncoder().encode(writeCanonical(leaveOutUsual(job)));
  const packed = deflateSync(document, { level: 9 });
  const length = `${address}${LINK_PREFIX}${VERSION}`.length + Math.ceil((packed.length * 4) / 3);
  if (document.length > LARGEST_DOCUMENT)
    return { over: 'bytes', has: document.length, most: LARGEST_DOCUMENT };
  if (length > LONGEST_LINK) return { over: 'characters', has: length, most: LONGEST_LINK };
  const text = btoa(String.fromCharCode(...packed));
  const safe = text.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
  return { link: `${address}${LINK_PREFIX}${VERSION}${safe}` };
}

/** One fitting of a job as a job of its own, under the same tag, with board, shop and units; it stands in no site. */
export function pickFitting(job: Job, at: number): Job {
  const said = job.fittings?.[at];
  if (!said) throw new Error(`no fitting ${at} among ${job.fittings?.length ?? 0}`);
  return drop({ ...job, site: undefined, fittings: [{ ...said, tag: resolveTag(said, at) }] }) as Job;
}

/** The same of a model, which knows no more what was said and what was left out: the fitting with all its values. */
export function pickModelled(model: Model, at: number): Job {
  const fitting = model.fittings[at];
  if (!fitting) throw new Error(`no fitting ${at} among ${model.fittings.length}`);
  return JSON.parse(writeCanonicalJob({ ...model, fittings: [fitting], site: null })) as Job;
}

/**
 * Reads the fragment of an address, `#` included; null where it is none of a job. Takes no more than so many characters
 * and inflates no more than so many bytes, and never throws: what is wrong is answered.
 */
export function readLink(fragment: string): LinkResult | null {
  if (!fragment.startsWith(LINK_PREFIX)) return null;
  if (fragment.length > LONGEST_LINK) return { broken: 'long' };
  const version = fragment.charAt(LINK_PREFIX.length);
  const text = fragment.slice(LINK_PREFIX.length + 1);
  if (version !== VERSION) return { broken: /[2-9]/.test(version) ? 'newer' : 'damaged' };
  if (!/^[\w-]+$/.test(text) || text.length % 4 === 1) return { broken: 'damaged' };
  const packed = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  try {
    const document = inflate(Uint8Array.from(packed, (character) => character.charCodeAt(0)));
    return document
      ? readJob(new TextDecoder('utf-8', { fatal: true }).decode(document))
      : { broken: 'large' };
  } catch {
    return { broken: 'damaged' };
  }
}

/** The bytes inflated; null as soon as they are too many. Throws where they are not deflated, or not to their end. */
function inflate(packed: Uint8Array): Uint8Array | null {
  const document = new Uint8Array(LARGEST_DOCUMENT + STEP * 1032);
  let size = 0;
  const inflating = new Inflate((part) => {
    document.set(part, size);
    size += part.length;
  });
  for (let at = 0; at < packed.length; at += STEP) {
    inflating.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
    if (size > LARGEST_DOCUMENT) return null;
  }
  return document.subarray(0, size);
}

/** The job without what is said as it would be anyway: under version 1 of the document that is the same for ever. */
function leaveOutUsual({ format, version, name, show, board, shop, fittings, site }: Job): object {
  return drop({
    format,
    version,
    name: name === '' ? undefined : name,
    show: without(show, DEFAULT_SHOW),
    board: without(board, DEFAULT_BOARD),
    shop: without(shop, DEFAULT_SHOP),
    fittings: fittings?.map((said, at) => leaveOutUsualOf(said, at)),
    site
  });
}

function leaveOutUsualOf(said: SaidFitting, at: number): object {
  const { ends } = said;
  return {
    ...without(said, { tag: resolveTag({}, at), quantity: 1, seam: 'top-left' }),
    ends: ends && without(ends, {})
  };
}

/** The fields that are said and other than usual; undefined where none is. */
function without(said: object | undefined, usual: object): object | undefined {
  const rest = Object.entries(said ?? {}).filter(
    ([field, value]) =>
      value !== undefined &&
      JSON.stringify(value) !== JSON.stringify((usual as Readonly<Record<string, unknown>>)[field])
  );
  return rest.length > 0 ? Object.fromEntries(rest) : undefined;
}

function drop(record: object): object {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}
