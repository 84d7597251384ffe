import type { Language } from '../kernel/document/job.ts';
import { EN_SET } from './en-set.ts';
import type { SetWords } from './set.ts';

const LANGUAGES: Readonly<Record<Language, SetWords>> = { en: EN_SET };

/** The words of a set of mark-outs in a language. */
export function speakOfSet(language: Language): SetWords {
  return LANGUAGES[language];
}
