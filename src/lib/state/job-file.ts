import { findFamily } from '../kernel/families/index.ts';
import type { ParamKind } from '../kernel/families/family.ts';
import {
  DEFAULT_BOARD,
  DEFAULT_SHOP,
  DEFAULT_SHOW,
  type Job,
  type SaidFitting
} from '../kernel/document/job.ts';
import type { Site } from '../kernel/site/site.ts';
import { MEASURES, type Tape } from '../kernel/site/tape.ts';

/** File systems take 255 bytes; a letter may need four. */
const LONGEST_NAME = 50;

/** Bytes of a file that is opened: a thousand fittings take half a million. */
export const LARGEST_FILE = 2 * 1024 * 1024;

/**
 * The text of a job's file: indented JSON with its fields in one order, so that the same document gives the same bytes
 * however it came about.
 */
export function writeJobFile(job: Job): string {
  const { format, version, name, show, board, shop, fittings, site } = job;
  const ordered = {
    format,
    version,
    name,
    show: show && order(show, Object.keys(DEFAULT_SHOW)),
    board: board && order(board, Object.keys(DEFAULT_BOARD)),
    shop: shop && order(shop, Object.keys(DEFAULT_SHOP)),
    fittings: fittings?.map(orderFitting),
    site: site && orderSite(site)
  };
  return `${JSON.stringify(ordered, null, 2)}\n`;
}

/** What the file is called: the job's name, safe in every file system. */
export function nameJobFile({ name = '' }: Job): string {
  const safe = name
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '')
    .slice(0, LONGEST_NAME);
  return `${safe || 'job'}.gorewright.json`;
}

/** A job without a fitting. */
export function makeEmptyJob(): Job {
  return { format: 'gorewright-job', version: 1, fittings: [] };
}

function orderFitting({ tag, quantity, family, section, params, lay, seam, ends }: SaidFitting): object {
  const kinds = findFamily(family).params;
  const said = Object.keys(kinds).map((param) => [param, orderParam(params[param], kinds[param]!.of)]);
  return {
    tag,
    quantity,
    family,
    section: order(section, ['width', 'height']),
    params: Object.fromEntries(said),
    lay,
    seam,
    ends: ends && order(ends, ['inlet', 'outlet'])
  };
}

function orderSite({ fitting, section, end, clearance, obstacles, handRoom, tape }: Site): object {
  return {
    fitting,
    section: order(section, ['width', 'height']),
    end: order(end, ['at', 'flow', 'up']),
    clearance,
    obstacles: obstacles.map((obstacle) =>
      order(obstacle, ['name', 'kind', 'min', 'max', 'clearance', 'turn'])
    ),
    handRoom,
    tape: tape && orderTape(tape)
  };
}

function orderTape({ goesOn, obstacle, measures }: Tape): object {
  const said = MEASURES.map((name) => {
    const measured = measures[name];
    return [name, measured && order(measured, ['value', 'uncertainty'])];
  });
  return { goesOn, obstacle: order(obstacle, ['name', 'kind']), measures: Object.fromEntries(said) };
}

/** Groups, and the entries of lists that are groups, in the order of their fields. */
function orderParam(value: unknown, of: ParamKind): unknown {
  if (of.kind === 'list') return (value as unknown[] | undefined)?.map((entry) => orderParam(entry, of.item));
  if (of.kind === 'group' && value !== undefined) return order(value as object, Object.keys(of.fields));
  return value;
}

/** The fields in this order; JSON leaves out those that are not said. */
function order(record: object, fields: readonly string[]): object {
  return Object.fromEntries(fields.map((field) => [field, (record as Record<string, unknown>)[field]]));
}
