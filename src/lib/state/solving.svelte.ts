import type { Job } from '../kernel/document/job.ts';
import type { Progress, SolveOptions } from '../kernel/solve.ts';
import type { Answer } from '../kernel/solve-answer.ts';

/** A job whose site is to be solved. */
export interface SolveRequest {
  readonly job: Job;
  readonly options: SolveOptions;
}

/** Searches for fittings, one at a time, in a worker. */
export interface Solving {
  readonly running: boolean;
  /** How far the search under way has come. */
  readonly progress: Progress | null;
  /** Whether the last search ended without an answer. */
  readonly failed: boolean;
  /** Solves a site; while another is being solved, as soon as that is done, and only the newest of those that wait. */
  ask(request: SolveRequest): void;
  /** Ends the search under way, and forgets what waits. */
  cancel(): void;
}

/** A worker of its own, which begins with the first request. `onanswer` hears every answer, and of which request. */
export function createSolving(onanswer: (answer: Answer, request: SolveRequest) => void): Solving {
  let worker: Worker | null = null;
  let asked = $state.raw<SolveRequest | null>(null);
  let waiting: SolveRequest | null = null;
  let progress = $state.raw<Progress | null>(null);
  let failed = $state(false);

  function start(request: SolveRequest): void {
    asked = request;
    progress = null;
    failed = false;
    worker ??= hire();
    worker.postMessage(request);
  }

  function hire(): Worker {
    // The bundler finds the worker by this very expression; nothing on the page depends on the address.
    // eslint-disable-next-line svelte/prefer-svelte-reactivity
    const hired = new Worker(new URL('../workers/solve.ts', import.meta.url), { type: 'module' });
    hired.onmessage = ({ data: step }: MessageEvent<IteratorResult<Progress, Answer>>) => {
      if (!step.done) {
        progress = step.value;
        return;
      }
      const request = asked!;
      asked = null;
      const next = waiting;
      waiting = null;
      onanswer(step.value, request);
      if (next && !asked) start(next);
    };
    hired.onerror = () => {
      cancel();
      failed = true;
    };
    return hired;
  }

  function cancel(): void {
    worker?.terminate();
    worker = null;
    asked = null;
    waiting = null;
    progress = null;
  }

  return {
    get running() {
      return asked !== null;
    },
    get progress() {
      return progress;
    },
    get failed() {
      return failed;
    },
    ask(request) {
      if (asked) waiting = request;
      else start(request);
    },
    cancel
  };
}
