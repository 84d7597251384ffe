import type { Editor } from './editor.svelte.ts';
import { saveJob } from './storage.ts';

/** How long the document has to be still before it is saved, ms. */
const STILL = 250;

export interface Saving {
  readonly state: 'saved' | 'saving' | 'notSaved';
  /** Saves what there is at once, and all that was to be saved before it; whether the browser has taken it. */
  save(): Promise<boolean>;
}

/** Keeps the editor's document saved in the browser while `allowed`; call it while a component is made. */
export function keepSaved(editor: Editor, allowed: () => boolean): Saving {
  let state = $state<'saved' | 'saving' | 'notSaved'>('saved');

  $effect(() => {
    const { job, dragging } = editor;
    if (dragging || !allowed()) return;
    state = 'saving';
    let overtaken = false;
    const timer = setTimeout(() => {
      saveJob(job).then(
        () => {
          if (!overtaken) state = 'saved';
        },
        () => (state = 'notSaved')
      );
    }, STILL);
    return () => {
      overtaken = true;
      clearTimeout(timer);
    };
  });

  return {
    get state() {
      return state;
    },
    async save() {
      // The database takes one after another what is kept of a job.
      if (!allowed()) return false;
      try {
        await saveJob(editor.job);
        return true;
      } catch {
        state = 'notSaved';
        return false;
      }
    }
  };
}
