import type { FittingChange, JobChanges, Value, ValueChange } from '../kernel/document/compare.ts';
import type { Show } from '../kernel/document/job.ts';
import type { ResolvedFitting } from '../kernel/document/resolve.ts';
import type { Family } from '../kernel/families/family.ts';
import { findKind } from '../kernel/families/param-path.ts';
import { formatAngle } from '../quantity/angle.ts';
import { formatLength, nameUnit } from '../quantity/length.ts';
import type { SetWords } from './set.ts';
import { speakOfPrint } from './speak-of-print.ts';
import { speakOfSet } from './speak-of-set.ts';
import { makeSpeech, nameChoice, nameParam, speak, type Words } from './words.ts';

/** How a value is said with so many more decimals than usual. */
type Say = (value: Value, more: number) => string;

interface Tongue {
  readonly words: Words;
  readonly own: SetWords;
  readonly show: Show;
}

/** More decimals than this do not help: the value is then said to its last digit. */
const MOST_DECIMALS = 6;

/** What changed, a sentence each, in the unit shown; with as many decimals as it takes to tell old from new. */
export function tellChanges(changes: JobChanges, show: Show): string[] {
  const tongue: Tongue = { words: speak(show.language), own: speakOfSet(show.language), show };
  const { own } = tongue;
  const { job, board, shop } = changes;
  return [
    ...tellFields(own.of.job, own.job, job, sayName, tongue),
    ...tellFields(own.of.show, own.show, changes.show, sayWord(own), tongue),
    ...tellFields(own.of.board, own.boardFields, board, sayBoard(tongue), tongue),
    ...tellFields(own.of.shop, own.shop, shop, sayShop(tongue), tongue),
    ...changes.removed.map((fitting) => `${nameFitting(fitting, tongue)}: ${own.removed}.`),
    ...changes.added.map((fitting) => `${fitting.tag} ${own.added(describeFitting(fitting, tongue))}.`),
    ...changes.changed.map((change) => tellFitting(change, tongue)),
    ...(changes.reordered ? [own.reordered] : []),
    ...(changes.site ? [own.site] : [])
  ];
}

function tellFields(
  heading: string,
  labels: Readonly<Record<string, string>>,
  changes: readonly ValueChange[],
  pick: (path: string) => Say,
  { own }: Tongue
): string[] {
  if (changes.length === 0) return [];
  const told = changes.map((change) => tellValue(labels[change.path]!, change, pick(change.path), own));
  return [`${heading}, ${told.join('; ')}.`];
}

function tellFitting({ fitting, values }: FittingChange, tongue: Tongue): string {
  const { own, words } = tongue;
  const told = values.map((change) => {
    const param = /^params\.(.*)$/.exec(change.path)?.[1];
    if (param === undefined) {
      const path = change.path as keyof typeof own.fitting;
      return tellValue(own.fitting[path], change, saySetting(path, tongue), own);
    }
    const label = namePath(fitting.family, param, words, own);
    return tellValue(label, change, sayParam(fitting.family, param, tongue), own);
  });
  return `${nameFitting(fitting, tongue)}, ${told.join('; ')}.`;
}

function tellValue(label: string, { before, now }: ValueChange, say: Say, own: SetWords): string {
  for (let more = 0; more <= MOST_DECIMALS; more++) {
    const [old, current] = [before, now].map((value) =>
      value === undefined ? own.unsaid : say(value, more)
    );
    if (old !== current) return own.change(label, old!, current!);
  }
  return own.change(label, String(before), String(now));
}

function nameFitting({ tag, family }: ResolvedFitting, { words }: Tongue): string {
  return `${tag} ${words.families[family.name] ?? family.name}`;
}

function describeFitting(
  { family, quantity, setting: { section } }: ResolvedFitting,
  tongue: Tongue
): string {
  const { words, show } = tongue;
  const { page } = speakOfPrint(show.language);
  const say = makeSpeech(show);
  return [
    words.families[family.name] ?? family.name,
    page.inside(`${say.figure(section.width)} × ${say.length(section.height)}`),
    page.quantity(quantity)
  ].join(', ');
}

/** A parameter by its path, `joints[0].turn`: entries of lists under the name of their list and their place. */
function namePath(family: Family, path: string, words: Words, own: SetWords): string {
  const key = path.replace(/\[\d+\]/g, '');
  const label = nameParam(words, family.name, key).label;
  const entry = /^(\w+)\[(\d+)\](.*)$/.exec(path);
  if (!entry) return label;
  const numbered = own.entry(nameParam(words, family.name, entry[1]!).label, Number(entry[2]) + 1);
  return entry[3] === '' ? numbered : `${numbered}, ${label}`;
}

const sayName = (): Say => (value) => JSON.stringify(value);

const sayWord =
  (own: SetWords) =>
  (): Say =>
  (value): string =>
    own.choices[String(value)] ?? String(value);

const sayLength =
  ({ show }: Tongue): Say =>
  (value, more) => {
    // Sixteenths have no more decimals; what they cannot tell is said in decimal inches.
    const unit = show.length === 'in/16' && more > 0 ? 'in' : show.length;
    return `${formatLength(value as number, unit, show.precision + more)} ${nameUnit(unit)}`;
  };

const sayAngle: Say = (value, more) => formatAngle(value as number, 1 + more);

function sayBoard(tongue: Tongue): (field: string) => Say {
  const { own } = tongue;
  return (field) => {
    if (field === 'density' || field === 'conductivity')
      return (value) => `${String(value)} ${own.units[field]}`;
    return (value, more) =>
      typeof value === 'number' ? sayLength(tongue)(value, more) : sayWord(own)()(value, more);
  };
}

function sayShop(tongue: Tongue): (field: string) => Say {
  return (field) =>
    field === 'blades'
      ? (value, more) =>
          (value as readonly number[]).map((angle) => sayAngle(angle, more)).join(', ') || tongue.own.none
      : sayLength(tongue);
}

function saySetting(path: keyof SetWords['fitting'], tongue: Tongue): Say {
  const { words } = tongue;
  const names: Readonly<Record<string, Readonly<Record<string, string>>>> = {
    family: words.families,
    lay: words.lays,
    seam: words.corners,
    'ends.inlet': words.ends,
    'ends.outlet': words.ends
  };
  if (path === 'section.width' || path === 'section.height') return sayLength(tongue);
  return (value) => names[path]?.[String(value)] ?? String(value);
}

function sayParam(family: Family, path: string, tongue: Tongue): Say {
  const { kind } = findKind(family, path);
  const key = path.replace(/\[\d+\]/g, '');
  return (value, more) => {
    if (kind === 'throat' && value === 'rest') return tongue.words.page.rest;
    if (typeof value === 'string') return nameChoice(tongue.words, family.name, key, value);
    if (kind === 'angle') return sayAngle(value, more);
    return kind === 'count' ? String(value) : sayLength(tongue)(value, more);
  };
}
