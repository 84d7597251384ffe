import type { Step, StepKind } from '../kernel/fitting/step.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import type { PageView, Pointed } from './view.svelte.ts';

/** Going through the order of work of the fitting in sight. */
export interface Stepping {
  readonly playing: boolean;
  /** Shows the fitting after a step; null: finished. */
  goTo(step: number | null): void;
  back(): void;
  next(): void;
  /** Plays from the step after the one in sight, from the first where the fitting is finished; does so to the end. */
  play(): void;
  pause(): void;
}

/** How long a step is shown while playing, ms; turning the straight is quickly seen. */
const STEP_TIME = 1600;
const TURN_TIME = 900;

/** The steps in which something goes from one place to another, and the share of their time in which it does. */
const MOVES: readonly StepKind[] = ['turn', 'separate', 'flip', 'join'];
const MOVING = 0.6;

/** Steps through the work of a fitting: the page follows. `isStill` tells whether the user wants no motion. */
export function createStepping(
  page: PageView,
  work: () => { readonly fitting: Fitting; readonly steps: readonly Step[] } | null,
  isStill: () => boolean
): Stepping {
  let playing = $state(false);
  let frame = 0;
  let begun = 0;

  function show(step: number | null, progress: number): void {
    const { fitting, steps } = work() ?? { fitting: null, steps: [] };
    const shown = step === null ? undefined : steps[step];
    page.step = shown ? step : null;
    page.progress = shown ? progress : 1;
    page.subject = shown ? findSubject(shown) : null;
    const straight = fitting?.straights.findIndex(({ name }) => name === shown?.straight) ?? -1;
    if (straight >= 0) page.straight = straight;
  }

  function goTo(step: number | null): void {
    pause();
    show(step, 1);
  }

  function pause(): void {
    cancelAnimationFrame(frame);
    playing = false;
    page.progress = 1;
  }

  function play(): void {
    if (!work()) return;
    playing = true;
    begin(page.step === null ? 0 : page.step + 1);
  }

  function begin(step: number): void {
    const steps = work()?.steps ?? [];
    if (step >= steps.length) return goTo(null);
    show(step, findProgress(steps[step]!, 0));
    begun = performance.now();
    frame = requestAnimationFrame(advance);
  }

  function advance(now: number): void {
    const at = page.step;
    const step = at === null ? undefined : work()?.steps[at];
    if (at === null || !step) return pause();
    const part = (now - begun) / findTime(step.kind);
    if (part >= 1) return begin(at + 1);
    page.progress = findProgress(step, part);
    frame = requestAnimationFrame(advance);
  }

  function findProgress({ kind }: Step, part: number): number {
    return isStill() || !MOVES.includes(kind) ? 1 : ease(part / MOVING);
  }

  return {
    get playing() {
      return playing;
    },
    goTo,
    back() {
      const last = (work()?.steps.length ?? 0) - 1;
      goTo(Math.max(0, page.step === null ? last : Math.min(page.step, last) - 1));
    },
    next: () => goTo(page.step === null ? null : page.step + 1),
    play,
    pause
  };
}

function findTime(kind: StepKind): number {
  return kind === 'turn' ? TURN_TIME : STEP_TIME;
}

/** Gently off and gently in: 0 … 1. */
function ease(part: number): number {
  const share = Math.min(1, Math.max(0, part));
  return share * share * (3 - 2 * share);
}

/** What a step is about: a cut on a face, a face that is turned up, one piece; a step about all points at nothing. */
function findSubject({ cuts, face, pieces }: Step): Pointed | null {
  if (cuts.length === 1) return { cut: cuts[0]!, ...(face ? { face } : {}) };
  if (face) return { face };
  return pieces.length === 1 ? { piece: pieces[0]! } : null;
}
