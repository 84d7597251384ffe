import type { Language } from '../kernel/document/job.ts';
import { EN_SITE_PANEL } from './en-site-panel.ts';
import type { SitePanelWords } from './site-panel.ts';

const LANGUAGES: Readonly<Record<Language, SitePanelWords>> = { en: EN_SITE_PANEL };

/** The words of the site panel in a language. */
export function speakOfSite(language: Language): SitePanelWords {
  return LANGUAGES[language];
}
