import type { Fault } from '../kernel/document/read.ts';
import type { Site } from '../kernel/site/site.ts';
import { checkDraft, identifyPlaced } from './beside-job.ts';
import type { Editor } from './editor.svelte.ts';
import { loadSiteDraft, saveSiteDraft } from './storage.ts';

/** What is said of the site and not in the job yet; never in the history. */
export interface Drafting {
  /** null: nothing. Another job, or a card that is placed, taken back or brought again, ends it. */
  readonly site: Site | null;
  /** Says it, of a site where no fitting stands; the fault where no document could say it, which changes nothing. */
  say(site: Site): Fault | null;
}

/** Keeps the draft of the editor's job in the browser; call it while a component is made. */
export function keepSiteDraft(editor: Editor): Drafting {
  // A text that stays the same while the rest of the job is edited.
  const placed = $derived(identifyPlaced(editor.job));
  let site = $derived.by<Site | null>(() => {
    void [placed, editor.opened];
    return null;
  });
  let ready = $state(false);

  loadSiteDraft()
    .then((kept) => {
      if (site === null && kept?.of === placed) site = kept.site;
    })
    // Where the browser keeps nothing, the job's own state says so.
    .catch(() => null)
    .finally(() => (ready = true));

  $effect(() => {
    if (ready) saveSiteDraft(site && { of: placed, site }).catch(() => null);
  });

  return {
    get site() {
      return site;
    },
    say(next) {
      const fault = checkDraft(next);
      if (!fault) site = next;
      return fault;
    }
  };
}
