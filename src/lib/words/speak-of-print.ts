import type { Language } from '../kernel/document/job.ts';
import { EN_PRINT } from './en-print.ts';
import type { PrintWords } from './print.ts';

const LANGUAGES: Readonly<Record<Language, PrintWords>> = { en: EN_PRINT };

/** What is said where something is written, in a language. */
export function speakOfPrint(language: Language): PrintWords {
  return LANGUAGES[language];
}
