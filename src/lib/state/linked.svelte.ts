import type { Job } from '../kernel/document/job.ts';
import type { Editor } from './editor.svelte.ts';

/** A job that came by a link and waits to be opened: nothing but `open` touches the one that is open. */
export interface Linked {
  readonly offered: Job | null;
  /** What came last is what is offered. */
  offer(job: Job): void;
  /** Opens what is offered as a step of the history; whether there was anything to open. */
  open(): boolean;
  leave(): void;
}

export function createLinked(editor: Editor): Linked {
  let offered = $state.raw<Job | null>(null);

  return {
    get offered() {
      return offered;
    },
    offer(job) {
      offered = job;
    },
    open() {
      const job = offered;
      offered = null;
      return job !== null && editor.do({ kind: 'open-job', job }) === null;
    },
    leave() {
      offered = null;
    }
  };
}
