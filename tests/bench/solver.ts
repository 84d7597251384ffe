// How long the solver takes to answer a site, beside two grid searches of the kinds of route that its answer is about, in
// steps of 5 mm and 2.5 degrees: a plain one over every measure, and one that leaves out the measures that the end settles
// (of a straight all, so it is no grid). A grid's time is its number of nodes times what a node takes, measured on nodes
// drawn at random with the same placement and the same distances: none but the smallest grids end.
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../../src/lib/kernel/document/job.ts';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import type { RouteForm, RouteTask, Variable } from '../../src/lib/kernel/fitting/route.ts';
import { followStart } from '../../src/lib/kernel/site/search.ts';
import { describeTask, solveSite } from '../../src/lib/kernel/solve.ts';
import type { Answer } from '../../src/lib/kernel/solve-answer.ts';
import { makeRandom } from '../oracle/generated-paths.ts';
import { generateSite, KINDS, type PlantedSite } from '../properties/sites.ts';

const SITES = 20;
const NODES = 400;
const STEP = { mm: 5, degree: 2.5 };

/** How many measures the end leaves free: of a detour and an offset all but a throat, of a path all but what keeps up up. */
const FREE: Readonly<Record<string, (form: RouteForm) => number>> = {
  straight: () => 0,
  bend: ({ joints }) => (joints === 1 ? 0 : 1),
  offset: ({ variables }) => variables.length - 1,
  'double-offset': ({ variables }) => variables.length - 1,
  path: ({ joints, variables }) => (joints === 1 ? 0 : variables.length - 1)
};

/** The kinds of route that an answer is about: those of a family up to the most joints it proposes, all of one it refuses. */
function listAnswered(
  task: RouteTask,
  { proposals, refused }: Answer
): { family: string; form: RouteForm }[] {
  return FAMILIES.flatMap(({ name, listRoutes }) => {
    const joints = proposals.filter(({ fitting }) => fitting.family === name).map((one) => one.joints);
    const most = refused.some(({ family }) => family === name) ? Infinity : Math.max(...joints);
    return (listRoutes?.(task) ?? [])
      .filter((form) => form.joints <= most)
      .map((form) => ({ family: name, form }));
  });
}

/** The times of the two grids for one site, ms. */
function reckonGrids({ job }: PlantedSite, answer: Answer): { plain: number; settled: number } {
  const task = describeTask(job, job.site);
  const random = makeRandom(1);
  const shop = { ...DEFAULT_SHOP, ...job.shop };
  const span = ({ low, unit }: Variable): [number, number] =>
    unit === 'degree'
      ? [low < 0 ? 0 : STEP.degree, low < 0 ? 360 : 90]
      : [low < 0 ? -task.longest / 2 : shop.minGore, low < 0 ? task.longest / 2 : task.longest];
  const times = { plain: 0, settled: 0 };
  for (const { family, form } of listAnswered(task, answer)) {
    const spans = form.variables.map(span);
    const counts = form.variables.map(({ unit }, i) => (spans[i]![1] - spans[i]![0]) / STEP[unit]);
    counts.sort((a, b) => a - b);
    const multiply = (some: readonly number[]): number => some.reduce((all, one) => all * one, 1);
    const drawn = Array.from({ length: NODES }, () =>
      spans.map(([low, high]) => low + (high - low) * random())
    );
    const from = performance.now();
    for (const measures of drawn)
      followStart(form, measures, { task, margin: 0, giving: null }, { steps: 0 });
    const node = (performance.now() - from) / NODES;
    times.plain += multiply(counts) * node;
    // What the end settles is the finest of the measures.
    const free = FREE[family]!(form);
    if (free > 0) times.settled += multiply(counts.slice(0, free)) * node;
  }
  return times;
}

/** Prints median and 95th percentile of every kind of planted site, and the ratio to the grid. */
export function benchSolver(): void {
  console.log(
    `Solver: ${SITES} planted sites of each kind, every family asked, beside a grid of 5 mm and 2.5 degrees over the kinds of route that the answer is about (board ${DEFAULT_BOARD.length} mm where the site says no other)`
  );
  for (const kind of KINDS) {
    const sites = Array.from({ length: SITES }, (_, seed) => generateSite(makeRandom(5000 + seed), kind));
    solveSite(sites[0]!.job);
    const timed = sites.map((site) => {
      const from = performance.now();
      const answer = solveSite(site.job);
      return { site, answer, time: performance.now() - from };
    });
    const times = timed.map(({ time }) => time);
    const grids = timed.map(({ site, answer, time }) => {
      const { plain, settled } = reckonGrids(site, answer);
      return { plain: plain / time, settled: settled / time };
    });
    const [plain, settled] = [grids.map((one) => one.plain), grids.map((one) => one.settled)];
    console.log(
      `${kind.padEnd(20)} median ${at(times, 0.5).toFixed(0).padStart(4)} ms, p95 ${at(times, 0.95).toFixed(0).padStart(4)} ms; the plain grid takes ${at(plain, 0.5).toPrecision(2)} times as long (goal: 50), at least ${at(plain, 0).toPrecision(2)}; the settled one ${at(settled, 0.5).toPrecision(2)} times`
    );
  }
}

/** The value that so great a share of a list does not exceed. */
function at(list: readonly number[], share: number): number {
  return [...list].sort((a, b) => a - b)[Math.floor(share * (list.length - 1))]!;
}
