import type { Step } from '../kernel/fitting/step.ts';
import type { Language, Show } from '../kernel/document/job.ts';
import type { Finding } from '../kernel/fitting/finding.ts';
import { listMiterJoints, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Refusal } from '../kernel/solve-answer.ts';
import { formatAngle } from '../quantity/angle.ts';
import { formatLength, nameUnit } from '../quantity/length.ts';
import { EN } from './en.ts';
import type { Facts, Speech, Words } from './vocabulary.ts';

export type { Facts, Sentence, Speech, Words } from './vocabulary.ts';

const LANGUAGES: Readonly<Record<Language, Words>> = { en: EN };

/** How many different miters a line of figures names. */
const MOST_MITERS = 3;

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

/** Why a family leads nowhere on a site. */
export function tellRefusal({ limit, short, data }: Refusal, words: Words, say: Speech): string {
  return words.refusals[limit](readFacts({ ...data, ...(short === null ? {} : { short }) }), say, words);
}

/** The sentence of a step, and its title of a few words. */
export function tellStep(step: Step, words: Words, say: Speech): { title: string; text: string } {
  const { title, text } = words.steps[step.sentence];
  const facts = readFacts(step.data);
  return { title: title(facts, say, words), text: text(facts, say, words) };
}

/** A sentence whose figures stay on one line with their fraction and their unit, for whoever breaks lines. */
export function bindFigures(text: string): string {
  return text.replace(/(?<=\d) (?=\d+\/\d|mm\b|in\b|kg\b|× )|(?<=\d ×) (?=\d)/g, '\u00A0');
}

/** The different miters of a fitting, in the order of its joints; the first few are enough for a line of figures. */
export function tellMiters(fitting: Fitting | undefined, say: Speech): string[] {
  const miters = fitting ? listMiterJoints(fitting).map(({ miter }) => say.angle(miter)) : [];
  return [...new Set(miters)].slice(0, MOST_MITERS);
}

/** Label and help of a family's parameter; of a list's entry, by the list's name. */
export function nameParam(words: Words, family: string, param: string): { label: string; help: string } {
  const own = words.params[family]?.[param] ?? words.params['*']?.[param];
  if (!own) throw new Error(`no words for the parameter ${param} of ${family}`);
  return own;
}

/** An option of a family's choice or place, `key` being the parameter without its places in lists; walls by their names. */
export function nameChoice(words: Words, family: string, key: string, option: string): string {
  const faces: Readonly<Record<string, string>> = words.faces;
  const name = words.choices[`${family}.${key}`]?.[option] ?? faces[option];
  if (name === undefined) throw new Error(`no words for ${option} of ${key} of ${family}`);
  return name;
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
