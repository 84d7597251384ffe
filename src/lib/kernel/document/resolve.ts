import { findFamily } from '../families/index.ts';
import type { Default, Family, ParamKind, Params } from '../families/family.ts';
import type { Setting } from '../fitting/fitting.ts';
import type { Board, Shop } from '../straight/board.ts';
import { USUAL_HAND_ROOM, type Site } from '../site/site.ts';
import { DEFAULT_BOARD, DEFAULT_SHOP, DEFAULT_SHOW, type Job, type SaidFitting, type Show } from './job.ts';

/** A fitting of the document with everything that was left out filled in. */
export interface ResolvedFitting {
  readonly tag: string;
  readonly quantity: number;
  readonly family: Family;
  readonly values: Readonly<Record<string, unknown>>;
  readonly setting: Setting;
}

/** A job with everything that was left out filled in: documents that mean the same give the same. */
export interface ResolvedJob {
  readonly name: string;
  readonly show: Show;
  readonly board: Board;
  readonly shop: Shop;
  readonly fittings: readonly ResolvedFitting[];
  readonly site: Site | null;
}

export function resolveJob(job: Job): ResolvedJob {
  const [board, shop] = [resolveBoard(job), resolveShop(job)];
  return {
    name: job.name ?? '',
    show: resolveShow(job),
    board,
    shop,
    fittings: (job.fittings ?? []).map((said, position) => resolveFitting(said, position, board, shop)),
    site: job.site ? resolveSite(job.site) : null
  };
}

/** A site with what it leaves out; its tape stays as it is. */
export function resolveSite(site: Site): Site {
  return {
    handRoom: USUAL_HAND_ROOM,
    ...site,
    obstacles: site.obstacles.map((obstacle) => ({ clearance: site.clearance, turn: 0, ...obstacle }))
  };
}

/** Objects are filled field by field. */
export function resolveBoard(job: Job): Board {
  return { ...DEFAULT_BOARD, ...job.board };
}

export function resolveShop(job: Job): Shop {
  return { ...DEFAULT_SHOP, ...job.shop };
}

export function resolveShow(job: Job): Show {
  return { ...DEFAULT_SHOW, ...job.show };
}

/** A fitting without a tag is called F and its place in the list, from 1. */
export function resolveTag(said: Pick<SaidFitting, 'tag'>, position: number): string {
  return said.tag ?? `F${position + 1}`;
}

/** The place in the list of the fitting that stands in the job's site; null where none does. */
export function findStanding({ site, fittings = [] }: Job): number | null {
  const at = fittings.findIndex((said, position) => resolveTag(said, position) === site?.fitting);
  return at < 0 ? null : at;
}

/** Fills in what a fitting leaves out. `position` counts from 0. */
export function resolveFitting(
  said: SaidFitting,
  position: number,
  board: Board,
  shop: Shop
): ResolvedFitting {
  const family = findFamily(said.family);
  const tag = resolveTag(said, position);
  return {
    tag,
    quantity: said.quantity ?? 1,
    family,
    values: resolveParams(family, said.params, shop),
    setting: {
      tag,
      section: said.section,
      board,
      shop,
      lay: said.lay,
      seam: said.seam ?? 'top-left',
      ends: { inlet: said.ends?.inlet, outlet: said.ends?.outlet }
    }
  };
}

/** The values of a family's parameters: what is said, the defaults, and the usual driver where none is said. */
export function resolveParams(
  family: Family,
  said: Readonly<Record<string, unknown>>,
  shop: Shop
): Readonly<Record<string, unknown>> {
  const values = fillIn(family.params, said, shop);
  const { drivers } = family;
  if (drivers && !drivers.names.some((name) => values[name] !== undefined)) {
    values[drivers.usual] = resolveDefault(drivers.default, shop);
  }
  return values;
}

/** Every value that is said or has a default; groups and the entries of lists field by field. */
function fillIn(
  params: Params,
  said: Readonly<Record<string, unknown>>,
  shop: Shop
): Record<string, unknown> {
  const values: Record<string, unknown> = {};
  for (const [name, param] of Object.entries(params)) {
    if (said[name] !== undefined) values[name] = fillKind(param.of, said[name], shop);
    else if (param.default !== undefined) values[name] = resolveDefault(param.default, shop);
  }
  return values;
}

function fillKind(of: ParamKind, said: unknown, shop: Shop): unknown {
  if (of.kind === 'group') return fillIn(of.fields, said as Readonly<Record<string, unknown>>, shop);
  if (of.kind === 'list' && of.item.kind === 'group')
    return (said as readonly unknown[]).map((entry) => fillKind(of.item, entry, shop));
  if (of.kind === 'choice') return of.also?.[said as string] ?? said;
  return said;
}

function resolveDefault(value: Default, shop: Shop): number | string {
  return typeof value === 'object' ? shop[value.shop] : value;
}
