import type { RouteEnd, RouteTask } from './fitting/route.ts';
import { toRadians } from './geometry/angle.ts';
import { SAME_LENGTH } from './geometry/tolerance.ts';
import { norm, subtract } from './geometry/vector.ts';
import type { Giving } from './site/conditions.ts';
import { followStart, type Found } from './site/search.ts';
import { END_MET } from './site/standing.ts';
import type { Refusal } from './solve-answer.ts';
import type { Ranked } from './solve-ranking.ts';
import { aimAt, buildProposal, followStarts, MARGIN, type Asked, type Progress } from './solve-routes.ts';

/** Of the places where a search ended in vain so many, the nearest, are set out from again with a limit that gives way. */
const TRIED_AGAIN = 10;

const LIMITS: readonly Giving[] = ['minThroat', 'minGore', 'straight', 'clearance'];

/** A limit that gives way, and a route that then leads there. */
interface Given {
  readonly limit: Giving;
  readonly found: Found;
}

/** Which limit a family fails by, and by how much: the one that would have to give way least. */
export function* explain(asked: Asked, ends: readonly Found[]): Generator<Progress, Refusal | Ranked> {
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
