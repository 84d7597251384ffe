import { changeJob, type Change } from '../kernel/document/changes.ts';
import type { Job } from '../kernel/document/job.ts';
import { checkJob, type Fault } from '../kernel/document/read.ts';
import { evaluate, reevaluate, type BuiltModel, type Model } from '../kernel/evaluate.ts';
import { NO_SHAPES, rememberShapes } from './shapes.ts';

/** The document, its model, its history and the gesture under way. */
export interface Editor {
  readonly job: Job;
  readonly model: Model;
  /** How many jobs were opened in place of the first: another is another, even one of the same name. */
  readonly opened: number;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Whether a gesture is under way: begun, not yet committed or cancelled. */
  readonly dragging: boolean;
  /** The last shape of a fitting that could be built; null when there never was one. */
  lastBuilt(fitting: number): BuiltModel | null;
  /** Begins a gesture: all that is applied until it is committed is one entry of the history. */
  begin(): void;
  /** Applies a change inside a gesture; the fault where the document would become unreadable, which changes nothing. */
  apply(change: Change): Fault | null;
  commit(): void;
  /** Puts the document back to where the gesture began. */
  cancel(): void;
  /** One change as an entry of its own. */
  do(change: Change): Fault | null;
  undo(): void;
  redo(): void;
}

/** An editor over a document; history is a list of documents. */
export function createEditor(initial: Job): Editor {
  let job = $state.raw(initial);
  const first = evaluate(initial);
  let model = $state.raw(first);
  let past = $state.raw<readonly Job[]>([]);
  let future = $state.raw<readonly Job[]>([]);
  let mark = $state.raw<Job | null>(null);
  let opened = $state(0);
  let shapes = $state.raw(rememberShapes(NO_SHAPES, first));

  function show(next: Job): void {
    if (next === job) return;
    model = reevaluate({ job, model }, next);
    shapes = rememberShapes(shapes, model);
    job = next;
  }

  function apply(change: Change): Fault | null {
    const next = changeJob(job, change);
    const read = checkJob(next);
    if ('fault' in read) return read.fault;
    // Tags of another job are other fittings.
    if (change.kind === 'open-job') {
      shapes = NO_SHAPES;
      opened++;
    }
    show(read.job);
    return null;
  }

  function commit(): void {
    if (mark && mark !== job) {
      past = [...past, mark];
      future = [];
    }
    mark = null;
  }

  function cancel(): void {
    if (mark) show(mark);
    mark = null;
  }

  return {
    get job() {
      return job;
    },
    get model() {
      return model;
    },
    get opened() {
      return opened;
    },
    get canUndo() {
      return past.length > 0;
    },
    get canRedo() {
      return future.length > 0;
    },
    get dragging() {
      return mark !== null;
    },
    lastBuilt(fitting) {
      const tag = model.fittings[fitting]?.resolved.tag;
      return (tag !== undefined && shapes.get(tag)) || null;
    },
    begin() {
      commit();
      mark = job;
    },
    apply,
    commit,
    cancel,
    do(change) {
      commit();
      mark = job;
      const fault = apply(change);
      commit();
      return fault;
    },
    undo() {
      cancel();
      const before = past[past.length - 1];
      if (!before) return;
      past = past.slice(0, -1);
      future = [job, ...future];
      show(before);
    },
    redo() {
      cancel();
      const after = future[0];
      if (!after) return;
      future = future.slice(1);
      past = [...past, job];
      show(after);
    }
  };
}
