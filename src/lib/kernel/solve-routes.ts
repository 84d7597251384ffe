import { evaluateFitting } from './evaluate.ts';
import type { Family } from './families/family.ts';
import type { RouteForm, RouteTask } from './fitting/route.ts';
import { SAME_LENGTH } from './geometry/tolerance.ts';
import { findNearest, measureClearances } from './site/clearance.ts';
import type { Aim } from './site/conditions.ts';
import { followStart, type Found } from './site/search.ts';
import type { Site } from './site/site.ts';
import { slide } from './site/slide.ts';
import type { Ranked } from './solve-ranking.ts';
import { findBlade } from './straight/board.ts';
import { measureBevels } from './straight/cut.ts';

/** How far the solver has come. */
export interface Progress {
  readonly family: string;
  /** Starts that were followed, and all that will be for this family as far as is known. */
  readonly done: number;
  readonly of: number;
}

/** A family that is asked for its ways to the end of a site. */
export interface Asked {
  readonly site: Site;
  readonly task: RouteTask;
  readonly family: Family;
  readonly forms: readonly RouteForm[];
}

/** All conditions kept, and clearances by a little more. */
export const aimAt = (task: RouteTask): Aim => ({ task, margin: MARGIN, giving: null });

/** Added to clearances that are wanted, so that one that was found is never short of it for rounding, mm. */
export const MARGIN = 1e-4;

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
export function* followStarts(family: Family, form: RouteForm, aim: Aim): Generator<Progress, Found[]> {
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
export function pickProposal(asked: Asked, followed: readonly Found[]): Ranked | null {
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
export function buildProposal(
  { site, task, family }: Asked,
  { form, measures, trace }: Found
): Ranked | null {
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
