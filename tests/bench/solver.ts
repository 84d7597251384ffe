// How long the solver takes to answer a site, beside a grid search of the same kinds of route: steps of 5 mm and 2.5
// degrees in every measure that the end leaves free. The grid's time is its number of nodes times what a node takes,
// measured on nodes drawn at random with the same placement and the same distances: none but the smallest grids end.
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../../src/lib/kernel/document/job.ts';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import type { RouteForm, Variable } from '../../src/lib/kernel/fitting/route.ts';
import { followStart } from '../../src/lib/kernel/site/search.ts';
import { describeTask, solveSite } from '../../src/lib/kernel/solve.ts';
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

/** The grid's time for one site, ms. */
function reckonGrid({ job, planted }: PlantedSite): number {
  const task = describeTask(job, job.site);
  const random = makeRandom(1);
  const shop = { ...DEFAULT_SHOP, ...job.shop };
  const span = ({ low, unit }: Variable): [number, number] =>
    unit === 'degree'
      ? [low < 0 ? 0 : STEP.degree, low < 0 ? 360 : 90]
      : [low < 0 ? -task.longest / 2 : shop.minGore, low < 0 ? task.longest / 2 : task.longest];
  let total = 0;
  for (const family of FAMILIES) {
    for (const form of family.listRoutes?.(task) ?? []) {
      if (form.joints > planted.joints) continue;
      const spans = form.variables.map(span);
      const counts = form.variables.map(({ unit }, i) => (spans[i]![1] - spans[i]![0]) / STEP[unit]);
      // What the end settles is the finest of the measures.
      const nodes = [...counts]
        .sort((a, b) => a - b)
        .slice(0, FREE[family.name]!(form))
        .reduce((all, one) => all * one, 1);
      const drawn = Array.from({ length: NODES }, () =>
        spans.map(([low, high]) => low + (high - low) * random())
      );
      const from = performance.now();
      for (const measures of drawn)
        followStart(form, measures, { task, margin: 0, giving: null }, { steps: 0 });
      total += (nodes * (performance.now() - from)) / NODES;
    }
  }
  return total;
}

/** Prints median and 95th percentile of every kind of planted site, and the ratio to the grid. */
export function benchSolver(): void {
  console.log(
    `Solver: ${SITES} planted sites of each kind, every family asked, beside a grid of 5 mm and 2.5 degrees over the kinds of route with no more joints (board ${DEFAULT_BOARD.length} mm where the site says no other)`
  );
  for (const kind of KINDS) {
    const sites = Array.from({ length: SITES }, (_, seed) => generateSite(makeRandom(5000 + seed), kind));
    solveSite(sites[0]!.job);
    const times = sites.map(({ job }) => {
      const from = performance.now();
      solveSite(job);
      return performance.now() - from;
    });
    const ratios = sites.map((site, i) => reckonGrid(site) / times[i]!).sort((a, b) => a - b);
    times.sort((a, b) => a - b);
    const at = (list: readonly number[], share: number): number => list[Math.floor(share * (SITES - 1))]!;
    console.log(
      `${kind.padEnd(20)} median ${at(times, 0.5).toFixed(0).padStart(6)} ms, p95 ${at(times, 0.95).toFixed(0).padStart(6)} ms; the grid takes ${at(ratios, 0.5).toPrecision(2)} times as long, at least ${ratios[0]!.toPrecision(2)} (goal: 50)`
    );
  }
}
