import type { Language } from '../kernel/document/job.ts';
import { EN_EXPORTING } from './en-exporting.ts';
import type { ExportingWords } from './exporting.ts';

const LANGUAGES: Readonly<Record<Language, ExportingWords>> = { en: EN_EXPORTING };

/** The words of the panel of exports in a language. */
export function speakOfExporting(language: Language): ExportingWords {
  return LANGUAGES[language];
}
