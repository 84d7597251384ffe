import { resolveSite } from '../kernel/document/resolve.ts';
import type { FittingModel, Model } from '../kernel/evaluate.ts';

/** Hexadecimal digits that are printed: enough to tell any two jobs of a shop apart. */
const DIGITS = 12;

/**
 * The job of a model as one line of JSON: every default written out, the keys of every object in order, no spaces (as
 * RFC 8785 has it, from memory). Documents that mean the same give the same line.
 */
export function writeCanonicalJob({ name, show, board, shop, fittings, site }: Model): string {
  const job = {
    format: 'gorewright-job',
    version: 1,
    name,
    show,
    board,
    shop,
    fittings: fittings.map(sayAgain),
    ...(site && { site: resolveSite(site.site) })
  };
  return writeCanonical(job);
}

/** A value as one line of JSON, the keys of every object in order. */
export function writeCanonical(value: object): string {
  return JSON.stringify(value, (_, part: unknown) => orderKeys(part));
}

/**
 * The first hexadecimal digits of the SHA-256 of the job, to compare papers with: the same for the same job, another
 * for any other. Null where the browser computes none, which is on pages that do not come over a secure connection.
 */
export async function digestJob(model: Model): Promise<string | null> {
  const subtle = globalThis.crypto?.subtle as SubtleCrypto | undefined;
  if (!subtle) return null;
  const hash = await subtle.digest('SHA-256', new TextEncoder().encode(writeCanonicalJob(model)));
  const digits = Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0'));
  return digits.join('').slice(0, DIGITS);
}

function sayAgain({ resolved: { tag, quantity, family, values, setting } }: FittingModel): object {
  const { section, lay, seam, ends } = setting;
  return { tag, quantity, family: family.name, section, params: values, lay, seam, ends };
}

function orderKeys(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
