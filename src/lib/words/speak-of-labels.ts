import type { Language } from '../kernel/document/job.ts';
import { EN_LABEL } from './en-label.ts';
import type { LabelWords } from './label.ts';

const LANGUAGES: Readonly<Record<Language, LabelWords>> = { en: EN_LABEL };

/** The words of labels in a language. */
export function speakOfLabels(language: Language): LabelWords {
  return LANGUAGES[language];
}
