import type { Editor } from '$lib/state/editor.svelte.ts';
import type { SitePanelWords } from '$lib/words/site-panel.ts';
import type { Speech, Words } from '$lib/words/words.ts';

/** What every part of the site panel is given: the job it changes and how to say it. */
export interface SitePart {
  readonly editor: Editor;
  readonly words: Words;
  readonly own: SitePanelWords;
  readonly say: Speech;
}
