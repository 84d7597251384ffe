import type { Job } from './document/job.ts';
import { resolveBoard, resolveShop } from './document/resolve.ts';
import { evaluateFitting } from './evaluate.ts';
import type { Family } from './families/family.ts';
import { FAMILIES } from './families/index.ts';
import type { Setting } from './fitting/fitting.ts';
import type { RouteEnd, RouteForm, RouteTask } from './fitting/route.ts';
import { toRadians } from './geometry/angle.ts';
import { wrapBall } from './geometry/convex.ts';
import { SAME_LENGTH } from './geometry/tolerance.ts';
import { norm, subtract } from './geometry/vector.ts';
import { findNearest, measureClearances } from './site/clearance.ts';
import type { Aim, Giving } from './site/conditions.ts';
import { followStart, type Found } from './site/search.ts';
import { slide } from './site/slide.ts';
import { findWanted, placeObstacle, straightenEnd, type Site } from './site/site.ts';
import { END_MET } from './site/standing.ts';
import type { Answer, Refusal } from './solve-answer.ts';
import { rankProposals, USUAL_RANKING, type Criterion, type Ranked } from './solve-ranking.ts';
import { listMakeUps } from './straight/blank.ts';
import { findBlade } from './straight/board.ts';
import { measureBevels } from './straight/cut.ts';

export interface SolveOptions {
  readonly ranking?: readonly Criterion[];
  /** The longest straight there is, mm, where it is shorter than what one board yields. */
  readonly longest?: number;
  /** What stands there: its family sets out from it, and searches only where that leads nowhere. */
  readonly near?: { readonly family: string; readonly params: Readonly<Record<string, unknown>> };
  /** Names of the families that are asked; all that lay routes where it is left out. */
  readonly families?: readonly string[];
}

/** How far the solver has come. */
export interface Progress {
  readonly family: string;
  /** Starts that were followed, and all that will be for this family as far as is known. */
  readonly done: number;
  readonly of: number;
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

/** A family that is asked for its ways to the end of a site. */
interface Asked {
  readonly site: Site;
  readonly task: RouteTask;
  readonly family: Family;
  readonly forms: readonly RouteForm[];
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

/** All conditions kept, and clearances by a little more. */
const aimAt = (task: RouteTask): Aim => ({ task, margin: MARGIN, giving: null });

/** Added to clearances that are wanted, so that one that was found is never short of it for rounding, mm. */
const MARGIN = 1e-4;

/** Of the places where a search ended in vain so many, the nearest, are set out from again with a limit that gives way. */
const TRIED_AGAIN = 10;

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

/** After so many steps it is known which starts lead somewhere. */
const FIRST_STEPS = 3;

/** Where nothing is found from few starts, they are tried once more with strides that begin so much shorter. */
const CAREFUL = 0.1;

/** So many of the starts, the best by then, are followed to the end. */
const MOST_FOLLOWED = 14;

/**
 * Where the starts of a form lead; of many only the best are followed to the end. First the boxes are left out: what leads
 * past them all the same is the best there is, and what does not lead there without them never will where the turns are
 * fixed, for then all else is linear.
 */
function* followStarts(family: Family, form: RouteForm, aim: Aim): Generator<Progress, Found[]> {
  const isMany = form.starts.length > MOST_FOLLOWED;
  const of = 1 + form.starts.length + (isMany ? MOST_FOLLOWED : form.fixed ? 0 : form.starts.length);
  let done = 0;
  const tell = (): Progress => ({ family: family.name, done: ++done, of });
  const bare = followStart(form, form.starts[0]!, { ...aim, task: { ...aim.task, boxes: [] } });
  const first = followStart(form, bare.measures, aim, { steps: 0 });
  yield tell();
  if (first.kept || (form.fixed && !bare.kept)) return [first];
  const slid = form.fixed ? slide(form, bare, aim) : null;
  if (slid) return slid;
  const found: Found[] = [];
  for (const start of form.starts) {
    found.push(followStart(form, start, aim, isMany ? { steps: FIRST_STEPS } : {}));
    yield tell();
  }
  if (!isMany) {
    if (form.fixed || found.some(({ kept }) => kept)) return found;
    for (const start of form.starts) {
      found.push(followStart(form, start, aim, { stride: CAREFUL }));
      yield tell();
    }
    return found;
  }
  const ended: Found[] = [];
  for (const { measures } of found.sort((a, b) => a.merit - b.merit).slice(0, MOST_FOLLOWED)) {
    ended.push(followStart(form, measures, aim));
    yield tell();
    if (isSettled(ended)) break;
  }
  return ended;
}

/** Where so many starts lead to the best there is by then, within so much of its merit, others are not asked. */
const AGREED = { starts: 3, within: 0.01 };

function isSettled(ended: readonly Found[]): boolean {
  const kept = ended.filter(({ kept: isKept }) => isKept);
  const best = Math.min(...kept.map(({ merit }) => merit));
  return kept.filter(({ merit }) => merit < best + AGREED.within).length >= AGREED.starts;
}

/** What leads there, least turn and shortest straight first. */
function pickBest(found: readonly Found[]): Found[] {
  return found
    .filter(({ kept }) => kept)
    .sort((a, b) => a.trace.turn - b.trace.turn || a.trace.straight - b.trace.straight);
}

/** The best of what was found that the family builds as it was thought. */
function pickProposal(asked: Asked, followed: readonly Found[]): Ranked | null {
  const [best, ...others] = pickBest(followed);
  if (!best) return null;
  // A second run from where the best one ended goes on where that one ran out of steps.
  const again = best.form.fixed ? [] : [followStart(best.form, best.measures, aimAt(asked.task))];
  for (const candidate of pickBest([best, ...others, ...again])) {
    const ranked = buildProposal(asked, candidate);
    if (ranked) return ranked;
  }
  return null;
}

/** Builds it as the document would, and measures it; null where it is not what it was taken for. */
function buildProposal({ site, task, family }: Asked, { form, measures, trace }: Found): Ranked | null {
  const params = form.writeParams(measures);
  const said = { tag: 'S1', family: family.name, section: site.section, params };
  const { built, findings } = evaluateFitting(said, 0, task.setting.board, task.setting.shop);
  const isShort = findings.some(({ code }) => code === 'throat-short' || code === 'gore-short');
  if (!built || isShort || built.fitting.straights.length !== 1) return null;
  const clearances = measureClearances(built.fitting, site, task.setting.board.thickness);
  if (clearances.some(({ value, wanted }) => value < wanted - SAME_LENGTH)) return null;
  const nearest = findNearest(clearances);
  const proposal = {
    fitting: said,
    joints: form.joints,
    turn: trace.turn,
    straight: built.fitting.straights[0]!.length,
    clearance: nearest && { value: nearest.value, obstacle: nearest.obstacle.name }
  };
  const cuts = built.fitting.straights[0]!.cuts;
  const bladed = cuts.every((cut) =>
    measureBevels(cut).every((bevel) => findBlade(task.setting.shop, bevel) !== null)
  );
  return { proposal, bladed };
}

const LIMITS: readonly Giving[] = ['minThroat', 'minGore', 'straight', 'clearance'];

/** A limit that gives way, and a route that then leads there. */
interface Given {
  readonly limit: Giving;
  readonly found: Found;
}

/** Which limit a family fails by, and by how much: the one that would have to give way least. */
function* explain(asked: Asked, ends: readonly Found[]): Generator<Progress, Refusal | Ranked> {
  const { task, family } = asked;
  const refuse = (limit: Refusal['limit'], short: number | null): Refusal => ({
    family: family.name,
    limit,
    short,
    data: {}
  });
  let given = yield* findGiven(asked, ends);
  const shop = { ...task.setting.shop, minThroat: 0, minGore: 0 };
  const free: RouteTask = { ...task, boxes: [], longest: ENDLESS, setting: { ...task.setting, shop } };
  const freely = given ? [] : yield* followAll(asked, free);
  given ??= yield* findGiven(
    asked,
    freely.filter(({ kept }) => kept)
  );
  if (given) {
    const { limit, found } = yield* halve(asked, given);
    // What needs nothing to give way was only missed for the margin, or by the first search.
    const ranked = found.given <= MARGIN ? buildProposal(asked, found) : null;
    return ranked ?? refuse(limit, found.given);
  }
  const short = Math.min(Infinity, ...freely.map(({ trace }) => measureWorstMiss(trace, task.end)));
  if (freely.some(({ kept }) => kept) || short < END_MET.away) return refuse('several', null);
  return refuse('end', Number.isFinite(short) ? short : null);
}

/** Sets out again from where a search ended in vain, the nearest places first, with one limit after the other giving way. */
function* findGiven({ task, family }: Asked, ends: readonly Found[]): Generator<Progress, Given | null> {
  const nearest = [...ends].sort((a, b) => a.missed - b.missed).slice(0, TRIED_AGAIN);
  let best: Given | null = null;
  for (const limit of [...LIMITS, 'obstacle'] as const) {
    if (limit === 'obstacle' && best) break;
    for (const { form, measures } of nearest) {
      const found = followStart(form, measures, { task, margin: SAME_LENGTH, giving: limit });
      yield { family: family.name, done: ends.length, of: ends.length };
      if (found.kept && found.given < (best?.found.given ?? Infinity)) best = { limit, found };
    }
  }
  return best;
}

/** So often at most it is asked whether half of an amount would do. */
const MOST_HALVED = 8;

/** A limit that gives way by as little as it need: the whole search with half of the amount leads nowhere. */
function* halve(asked: Asked, given: Given): Generator<Progress, Given> {
  const { limit } = given;
  let { found } = given;
  for (let round = 0; round < MOST_HALVED && found.given > MARGIN; round++) {
    const followed = yield* followAll(asked, ease(asked.task, limit, found.given / 2));
    const less = followed
      .filter(({ kept }) => kept)
      .map(({ form, measures }) =>
        followStart(form, measures, { task: asked.task, margin: SAME_LENGTH, giving: limit })
      )
      .filter(({ kept, given: by }) => kept && by < found.given)
      .sort((a, b) => a.given - b.given)[0];
    if (!less) break;
    found = less;
  }
  return { limit, found };
}

/** Where the starts of all kinds lead that are asked, under another task. */
function* followAll({ family, forms }: Asked, task: RouteTask): Generator<Progress, Found[]> {
  const joints = new Set(forms.map((form) => form.joints));
  const followed: Found[] = [];
  for (const form of family.listRoutes!(task)) {
    if (joints.has(form.joints)) followed.push(...(yield* followStarts(family, form, aimAt(task))));
  }
  return followed;
}

/** A task with a limit eased by so much, mm. */
function ease(task: RouteTask, limit: Giving, by: number): RouteTask {
  const { setting, longest, boxes } = task;
  const { shop } = setting;
  switch (limit) {
    case 'minThroat':
    case 'minGore':
      return { ...task, setting: { ...setting, shop: { ...shop, [limit]: shop[limit] - by } } };
    case 'straight':
      return { ...task, longest: longest + by };
    case 'clearance':
      return { ...task, boxes: boxes.map((box) => ({ ...box, wanted: Math.max(0, box.wanted - by) })) };
    case 'obstacle':
      return { ...task, boxes: boxes.map((box) => ({ ...box, wanted: box.wanted - by })) };
  }
}

/** Longer than anything a document may say, mm. */
const ENDLESS = 1e7;

/** By how much a route misses the place of the end in the worst coordinate, mm; endless where it leads another way. */
function measureWorstMiss({ outlet }: Found['trace'], { at, flow }: RouteEnd): number {
  if (norm(subtract(outlet.x, flow)) > toRadians(END_MET.askew)) return Infinity;
  return Math.max(0, ...at.map((one, i) => (one === null ? 0 : Math.abs(outlet.t[i]! - one))));
}
