import { untrack } from 'svelte';

/**
 * What is read; while `held`, only as it was at most `frames` animation frames ago, renewed that seldom: for what takes
 * too long to be drawn at every move of a drag. Call it while a component is made.
 */
export function lagBehind<T>(read: () => T, held: () => boolean, frames: number): { readonly current: T } {
  let late = $state.raw<{ readonly value: T } | null>(null);
  let waiting = 0;

  function renewIn(left: number): void {
    waiting = requestAnimationFrame(() => {
      if (left > 1) return renewIn(left - 1);
      waiting = 0;
      late = { value: read() };
    });
  }

  function stop(): void {
    cancelAnimationFrame(waiting);
    waiting = 0;
  }

  $effect.pre(() => {
    const value = read();
    if (!held()) {
      stop();
      late = null;
    } else if (untrack(() => late === null)) late = { value };
    else if (waiting === 0) renewIn(frames);
  });
  $effect.pre(() => stop);

  return {
    get current() {
      return late ? late.value : read();
    }
  };
}
