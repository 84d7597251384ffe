import type { Job } from '../kernel/document/job.ts';
import { trySite, type SolveOptions } from '../kernel/solve.ts';

/** How often at most the page hears how far the search has come, ms. */
const BETWEEN = 100;

/**
 * Solves the site of one job after another and posts the search's own steps: its progress, at last its answer. While a
 * search runs nothing can be heard here, so it is cancelled by ending the worker: it holds nothing that would be lost.
 */
addEventListener('message', ({ data }: MessageEvent<{ job: Job; options: SolveOptions }>) => {
  const search = trySite(data.job, data.options);
  let told = -Infinity;
  for (;;) {
    const step = search.next();
    const now = performance.now();
    if (!step.done && now - told < BETWEEN) continue;
    told = now;
    postMessage(step);
    if (step.done) return;
  }
});
