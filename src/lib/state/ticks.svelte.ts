import type { CuttingChoice } from '../kernel/assembly/choice.ts';
import { loadWork, saveWork } from './storage.ts';
import { tickStep, UNTOUCHED, type WorkLog } from './ticks.ts';

/** The work on the fitting in sight; never in the document, never in the history. */
export interface Work {
  readonly choice: CuttingChoice;
  readonly ticked: ReadonlySet<string>;
  /** Whether what was kept has been read; before that nothing can be changed. */
  readonly ready: boolean;
  /** Whether the browser keeps it. */
  readonly kept: boolean;
  choose(choice: CuttingChoice): void;
  tick(step: string, done: boolean): void;
}

/** Keeps the work on a fitting in the browser, by the job's name and the fitting's tag; call it while a component is made. */
export function keepWork(job: () => string, tag: () => string | undefined): Work {
  let log = $state.raw<WorkLog>(UNTOUCHED);
  let ready = $state(false);
  let kept = $state(true);
  // eslint-disable-next-line svelte/prefer-svelte-reactivity -- replaced as a whole, never changed
  const ticked = $derived<ReadonlySet<string>>(new Set(log.ticked));
  // A text that stays the same while the job is edited, so that it is read once.
  const place = $derived(JSON.stringify([job(), tag()]));

  $effect(() => {
    const [name, fitting] = JSON.parse(place) as [string, string | null];
    log = UNTOUCHED;
    ready = false;
    if (fitting === null) return;
    let left = false;
    loadWork(name, fitting).then(
      (found) => {
        if (left) return;
        log = found;
        ready = true;
      },
      () => {
        if (left) return;
        kept = false;
        ready = true;
      }
    );
    return () => (left = true);
  });

  function change(next: WorkLog): void {
    const fitting = tag();
    if (!ready || fitting === undefined) return;
    log = next;
    saveWork(job(), fitting, next).then(
      () => (kept = true),
      () => (kept = false)
    );
  }

  return {
    get choice() {
      return log.choice;
    },
    get ticked() {
      return ticked;
    },
    get ready() {
      return ready;
    },
    get kept() {
      return kept;
    },
    choose: (choice) => change({ ...log, choice }),
    tick: (step, done) => change(tickStep(log, step, done))
  };
}
