import type { Language } from '../kernel/document/job.ts';
import { EN_LINK } from './en-link.ts';
import type { LinkWords } from './link.ts';

const LANGUAGES: Readonly<Record<Language, LinkWords>> = { en: EN_LINK };

/** The words of links in a language. */
export function speakOfLinks(language: Language): LinkWords {
  return LANGUAGES[language];
}
