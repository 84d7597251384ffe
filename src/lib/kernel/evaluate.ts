import { findOpenEdges } from './assembly/audit.ts';
import { USUAL, type CuttingChoice } from './assembly/choice.ts';
import { orderWork } from './assembly/order.ts';
import type { Step } from './fitting/step.ts';
import { checkFitting } from './checks/index.ts';
import type { Job, SaidFitting, Show } from './document/job.ts';
import {
  findStanding,
  resolveBoard,
  resolveFitting,
  resolveShop,
  resolveShow,
  type ResolvedFitting
} from './document/resolve.ts';
import { acceptsNumber } from './families/accept.ts';
import type { Family } from './families/family.ts';
import { isBuildable, type Finding } from './fitting/finding.ts';
import type { Fitting, Setting } from './fitting/fitting.ts';
import { countQuantities, type Quantities } from './fitting/quantities.ts';
import { findTightest, measureClearances, type Clearance } from './site/clearance.ts';
import type { Site } from './site/site.ts';
import { checkStanding } from './site/standing.ts';
import type { Board, Shop } from './straight/board.ts';

/** Everything the product knows of a job; every view, the sheet and every export read it. */
export interface Model {
  readonly name: string;
  readonly show: Show;
  readonly board: Board;
  readonly shop: Shop;
  readonly fittings: readonly FittingModel[];
  readonly site: SiteModel | null;
}

/** The place of a fitting, and how the one that stands there fits it. */
export interface SiteModel {
  readonly site: Site;
  /** Place of the fitting that stands there in the list, from 0; null where none does. */
  readonly standing: number | null;
  /** From every obstacle, in the site's order; empty where nothing stands or what stands there cannot be built. */
  readonly clearances: readonly Clearance[];
  readonly tightest: Clearance | null;
  /** Of the fitting that stands there; they are the last of its own findings too. */
  readonly findings: readonly Finding[];
}

export interface FittingModel {
  readonly resolved: ResolvedFitting;
  readonly findings: readonly Finding[];
  /** Null where a finding forbids building. */
  readonly built: BuiltModel | null;
}

/** A shape, and what follows from it; that is found when first asked for, which a drag seldom does. */
export interface BuiltModel {
  readonly fitting: Fitting;
  /** What it was built under. */
  readonly setting: Setting;
  readonly steps: readonly Step[];
  readonly quantities: Quantities;
  /** Edges that nothing closes. */
  readonly openEdges: number;
}

/** The whole pipeline: a readable document in, the model out. Pure; any readable document gives a model. */
export function evaluate(job: Job): Model {
  const board = resolveBoard(job);
  const shop = resolveShop(job);
  const alone = (job.fittings ?? []).map((said, position) => evaluateFitting(said, position, board, shop));
  return { name: job.name ?? '', show: resolveShow(job), board, shop, ...standInSite(job, alone) };
}

/** As evaluate, but takes over from an earlier model what cannot have changed: the same fitting under the same rules. */
export function reevaluate(before: { readonly job: Job; readonly model: Model }, job: Job): Model {
  if (before.job.board !== job.board || before.job.shop !== job.shop) return evaluate(job);
  const { board, shop, site } = before.model;
  const standing = findStanding(job);
  const isSame = (position: number): boolean => before.job.fittings?.[position] === job.fittings![position];
  const staysInSite =
    before.job.site === job.site &&
    standing === (site?.standing ?? null) &&
    (standing === null || isSame(standing));
  const fittings = (job.fittings ?? []).map((said, position) => {
    if (!isSame(position)) return evaluateFitting(said, position, board, shop);
    const kept = before.model.fittings[position]!;
    return staysInSite || !site || position !== site.standing ? kept : takeFromSite(kept, site);
  });
  return {
    name: job.name ?? '',
    show: before.job.show === job.show ? before.model.show : resolveShow(job),
    board,
    shop,
    ...(staysInSite ? { fittings, site } : standInSite(job, fittings))
  };
}

function standInSite(job: Job, alone: readonly FittingModel[]): Pick<Model, 'fittings' | 'site'> {
  if (!job.site) return { fittings: alone, site: null };
  const standing = findStanding(job);
  const site = evaluateSite(job.site, standing, standing === null ? null : alone[standing]!);
  return { fittings: alone.map((one, i) => (i === standing ? putInSite(one, site) : one)), site };
}

/** A site and the fitting that stands there, evaluated by itself; null where none does. */
export function evaluateSite(site: Site, standing: number | null, fitting: FittingModel | null): SiteModel {
  if (!fitting?.built) return { site, standing, clearances: [], tightest: null, findings: [] };
  const { thickness } = fitting.resolved.setting.board;
  const clearances = measureClearances(fitting.built.fitting, site, thickness);
  const findings = checkStanding(fitting.built.fitting, site, clearances);
  return { site, standing, clearances, tightest: findTightest(clearances), findings };
}

/** The fitting that stands in a site, with what is found of it there after what is found of it alone. */
export function putInSite(alone: FittingModel, { findings }: SiteModel): FittingModel {
  return { ...alone, findings: [...alone.findings, ...findings] };
}

/** The same fitting by itself again. */
function takeFromSite(standing: FittingModel, { findings }: SiteModel): FittingModel {
  return { ...standing, findings: standing.findings.slice(0, standing.findings.length - findings.length) };
}

/** The same fitting with its work in another order; the closure of its edges does not depend on it. */
export function reorder(built: BuiltModel, choice: CuttingChoice): BuiltModel {
  const isUsual = choice.grouping === USUAL.grouping && choice.sequence === USUAL.sequence;
  return isUsual ? built : describeBuilt(built.fitting, built.setting, choice);
}

/** One fitting by itself, wherever it may stand. */
export function evaluateFitting(said: SaidFitting, position: number, board: Board, shop: Shop): FittingModel {
  const resolved = resolveFitting(said, position, board, shop);
  const { fitting, findings: refusals } = resolved.family.build(resolved.values as never, resolved.setting);
  const found = fitting ? [...refusals, ...checkFitting(fitting, resolved.setting)] : refusals;
  const findings = found.map((finding) => keepLegal(finding, resolved.family));
  if (!fitting) return { resolved, findings, built: null };
  if (!isBuildable(findings)) return { resolved, findings, built: null };

  return { resolved, findings, built: describeBuilt(fitting, resolved.setting, USUAL) };
}

function describeBuilt(fitting: Fitting, setting: Setting, choice: CuttingChoice): BuiltModel {
  const steps = defer(() => orderWork(fitting, setting, choice));
  const quantities = defer(() => countQuantities(fitting, setting.board.density));
  const openEdges = defer(() => findOpenEdges(fitting, steps()).length);
  return {
    fitting,
    setting,
    get steps() {
      return steps();
    },
    get quantities() {
      return quantities();
    },
    get openEdges() {
      return openEdges();
    }
  };
}

/** Computes a value when it is first asked for, and once. */
function defer<T>(compute: () => T): () => T {
  let kept: { readonly value: T } | null = null;
  return () => (kept ??= { value: compute() }).value;
}

/** What would do by geometry may be more than a document may say; then there is no such value. */
function keepLegal(finding: Finding, family: Family): Finding {
  const { would, ...rest } = finding;
  if (typeof would !== 'number' || finding.param === undefined) return finding;
  return acceptsNumber(family, finding.param, would) ? finding : rest;
}
