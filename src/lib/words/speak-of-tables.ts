import type { Language } from '../kernel/document/job.ts';
import { EN_TABLES } from './en-tables.ts';
import type { TableWords } from './tables.ts';

const LANGUAGES: Readonly<Record<Language, TableWords>> = { en: EN_TABLES };

/** The words of the tables for spreadsheets in a language. */
export function speakOfTables(language: Language): TableWords {
  return LANGUAGES[language];
}
