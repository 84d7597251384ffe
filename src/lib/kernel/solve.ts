import type { Job } from './document/job.ts';
import { resolveBoard, resolveShop } from './document/resolve.ts';
import { FAMILIES } from './families/index.ts';
import type { Setting } from './fitting/fitting.ts';
import type { RouteTask } from './fitting/route.ts';
import { wrapBall } from './geometry/convex.ts';
import { followStart, type Found } from './site/search.ts';
import { findWanted, placeObstacle, straightenEnd, type Site } from './site/site.ts';
import type { Answer, Refusal } from './solve-answer.ts';
import { rankProposals, USUAL_RANKING, type Criterion, type Ranked } from './solve-ranking.ts';
import { explain } from './solve-refusal.ts';
import {
  aimAt,
  buildProposal,
  followStarts,
  pickProposal,
  type Asked,
  type Progress
} from './solve-routes.ts';
import { listMakeUps } from './straight/blank.ts';

export type { Progress };

export interface SolveOptions {
  readonly ranking?: readonly Criterion[];
  /** The longest straight there is, mm, where it is shorter than what one board yields. */
  readonly longest?: number;
  /** What stands there: its family sets out from it, and searches only where that leads nowhere. */
  readonly near?: { readonly family: string; readonly params: Readonly<Record<string, unknown>> };
  /** Names of the families that are asked; all that lay routes where it is left out. */
  readonly families?: readonly string[];
}

/** The fittings that lead from the origin to the end of the job's site, best first. The job must have a site. */
export function solveSite(job: Job, options: SolveOptions = {}): Answer {
  const search = trySite(job, options);
  for (;;) {
    const step = search.next();
    if (step.done) return step.value;
  }
}

/** As solveSite, in small steps, so that it can report, and be left at any of them. */
export function* trySite(job: Job, options: SolveOptions = {}): Generator<Progress, Answer> {
  const { site } = job;
  if (!site) throw new Error('a job without a site has nothing to solve');
  const task = describeTask(job, site, options.longest);
  const proposals: Ranked[] = [];
  const refused: Refusal[] = [];
  for (const family of FAMILIES) {
    const isAsked = options.families?.includes(family.name) ?? true;
    if (!isAsked || !family.listRoutes) continue;
    const asked: Asked = { site, task, family, forms: family.listRoutes(task) };
    const near = options.near?.family === family.name ? followNear(asked, options.near.params) : null;
    if (near) {
      proposals.push(near);
      continue;
    }
    const fewest = Math.min(Infinity, ...proposals.map(({ proposal }) => proposal.joints));
    const { found, refusal } = yield* askFamily(asked, fewest);
    proposals.push(...found);
    if (refusal) refused.push(refusal);
  }
  return { proposals: rankProposals(job, proposals, options.ranking ?? USUAL_RANKING), refused };
}

/**
 * What a family proposes, or why it does not; neither where all its kinds are needless beside fittings with `fewest`
 * joints, or with as few as its own kinds before.
 */
function* askFamily(
  asked: Asked,
  fewest: number
): Generator<Progress, { readonly found: readonly Ranked[]; readonly refusal: Refusal | null }> {
  const forms = asked.forms.filter(({ needlessAfter = -1 }) => fewest > needlessAfter);
  const found: Ranked[] = [];
  const ends: Found[] = [];
  for (const form of forms) {
    if (found.some(({ proposal }) => proposal.joints <= (form.needlessAfter ?? -1))) continue;
    const followed = yield* followStarts(asked.family, form, aimAt(asked.task));
    ends.push(...followed);
    const ranked = pickProposal(asked, followed);
    if (ranked) found.push(ranked);
  }
  const isRefused = found.length === 0 && (forms.length > 0 || asked.forms.length === 0);
  if (!isRefused) return { found, refusal: null };
  const outcome = yield* explain({ ...asked, forms }, ends);
  return 'limit' in outcome ? { found, refusal: outcome } : { found: [outcome], refusal: null };
}

/** What the families are asked: the site as routes see it. */
export function describeTask(job: Job, site: Site, longest = Infinity): RouteTask {
  const board = resolveBoard(job);
  const setting: Setting = {
    tag: '',
    section: site.section,
    board,
    shop: resolveShop(job),
    lay: undefined,
    seam: 'top-left',
    ends: { inlet: undefined, outlet: undefined }
  };
  const yields = [...listMakeUps(site.section, board, setting.seam)].map((makeUp) => makeUp.yield);
  return {
    setting,
    end: straightenEnd(site.end),
    boxes: site.obstacles.map((obstacle) => {
      const solid = placeObstacle(obstacle);
      return { solid, wanted: findWanted(obstacle, site), ball: wrapBall(solid.corners) };
    }),
    longest: Math.min(longest, Math.max(0, ...yields))
  };
}

/** What parameters lead to that are of one of the kinds already; null where that is nowhere. */
function followNear(asked: Asked, params: Readonly<Record<string, unknown>>): Ranked | null {
  for (const form of asked.forms) {
    const measures = form.readParams(params);
    const found = measures && followStart(form, measures, aimAt(asked.task));
    if (found?.kept) return buildProposal(asked, found);
  }
  return null;
}
