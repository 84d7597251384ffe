import type { StepSentence } from '../kernel/assembly/step.ts';
import type { Language, Show } from '../kernel/document/job.ts';
import type { Finding, FindingCode, Level } from '../kernel/fitting/finding.ts';
import type { Step } from '../kernel/assembly/step.ts';
import type { End, Lay, Make } from '../kernel/straight/blank.ts';
import type { Lean } from '../kernel/straight/cut.ts';
import type { Corner, Face } from '../kernel/straight/section.ts';
import { formatAngle } from '../quantity/angle.ts';
import { formatLength, nameUnit } from '../quantity/length.ts';
import { EN } from './en.ts';
import type { PaperWords } from './paper.ts';
import type { PageWords } from './page.ts';

/** Figures as the reader wants them. */
export interface Speech {
  /** The unit of lengths. */
  readonly unit: string;
  /** A length in mm as a figure without its unit, where a heading says the unit. */
  figure(mm: number): string;
  /** A length in mm, with its unit. */
  length(mm: number): string;
  /** An angle in degrees, with its sign. */
  angle(degrees: number): string;
  /** Names one after another. */
  list(names: readonly (string | number)[]): string;
  lengths(mm: readonly number[]): string;
}

/** The figures and names of a finding or a step, read by name; a missing one is a fault of the kernel. */
export interface Facts {
  number(name: string): number;
  text(name: string): string;
  numbers(name: string): number[];
  texts(name: string): string[];
  has(name: string): boolean;
}

export type Sentence = (facts: Facts, say: Speech, words: Words) => string;

/** Everything that is said in one language. */
export interface Words {
  readonly language: Language;
  readonly findings: Readonly<Record<FindingCode, Sentence>>;
  readonly steps: Readonly<Record<StepSentence, { readonly title: Sentence; readonly text: Sentence }>>;
  readonly levels: Readonly<Record<Level, string>>;
  readonly families: Readonly<Record<string, string>>;
  /** By family, then by parameter: label and help. `*` holds for every family that does not say its own. */
  readonly params: Readonly<
    Record<string, Readonly<Record<string, { readonly label: string; readonly help: string }>>>
  >;
  readonly faces: Readonly<Record<Face, string>>;
  readonly corners: Readonly<Record<Corner, string>>;
  readonly leans: Readonly<Record<Lean, string>>;
  readonly lays: Readonly<Record<Lay, string>>;
  readonly makes: Readonly<Record<Make, string>>;
  readonly ends: Readonly<Record<End, string>>;
  readonly ports: Readonly<Record<string, string>>;
  /** Choices of a parameter, by family and parameter, as the site says them. */
  readonly choices: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly page: PageWords;
  readonly paper: PaperWords;
}

const LANGUAGES: Readonly<Record<Language, Words>> = { en: EN };

/** The words of a language. */
export function speak(language: Language): Words {
  return LANGUAGES[language];
}

/** How figures are said under the given settings. */
export function makeSpeech({ length, precision }: Show): Speech {
  const figure = (mm: number): string => formatLength(mm, length, precision);
  return {
    unit: nameUnit(length),
    figure,
    length: (mm) => `${figure(mm)} ${nameUnit(length)}`,
    angle: (degrees) => formatAngle(degrees),
    list: (names) => names.join(', '),
    lengths: (mm) => `${mm.map(figure).join(', ')} ${nameUnit(length)}`
  };
}

/** The sentence of a finding. */
export function tellFinding(finding: Finding, words: Words, say: Speech): string {
  return words.findings[finding.code](readFacts(finding.data), say, words);
}

/** The sentence of a step, and its title of a few words. */
export function tellStep(step: Step, words: Words, say: Speech): { title: string; text: string } {
  const { title, text } = words.steps[step.sentence];
  const facts = readFacts(step.data);
  return { title: title(facts, say, words), text: text(facts, say, words) };
}

/** Label and help of a family's parameter; of a list's entry, by the list's name. */
export function nameParam(words: Words, family: string, param: string): { label: string; help: string } {
  const own = words.params[family]?.[param] ?? words.params['*']?.[param];
  if (!own) throw new Error(`no words for the parameter ${param} of ${family}`);
  return own;
}

function readFacts(data: Readonly<Record<string, unknown>>): Facts {
  const read = <T>(name: string, isRight: (value: unknown) => value is T): T => {
    const value = data[name];
    if (!isRight(value)) throw new Error(`the sentence needs ${name}, which is ${JSON.stringify(value)}`);
    return value;
  };
  return {
    number: (name) => read(name, (value) => typeof value === 'number'),
    text: (name) => read(name, (value) => typeof value === 'string'),
    numbers: (name) => read(name, (value): value is number[] => Array.isArray(value)),
    texts: (name) => read(name, (value): value is string[] => Array.isArray(value)),
    has: (name) => data[name] !== undefined
  };
}
