import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { readJob, tellFault, type Fault } from '../../src/lib/kernel/document/read.ts';
import { evaluate } from '../../src/lib/kernel/evaluate.ts';
import { sheetSchema, type Sheet } from '../../src/lib/sheet/schema.ts';
import { writeSheet } from '../../src/lib/sheet/sheet.ts';

/** Every text has exactly one of these answers. */
export type Answer =
  | { readonly kind: 'refused'; readonly line: string; readonly fault: Fault }
  | { readonly kind: 'built' | 'not buildable'; readonly sheet: Sheet };

/** Reads, evaluates and writes the sheet as the command line does. */
export function answerText(text: string): Answer {
  const read = readJob(text);
  if ('fault' in read) return { kind: 'refused', line: tellFault(read.fault), fault: read.fault };
  const sheet = writeSheet(evaluate(read.job));
  const built = sheet.fittings.every(({ buildable }) => buildable);
  return { kind: built ? 'built' : 'not buildable', sheet };
}

/** The validator of a published JSON Schema, as anybody would make it from the file. */
export function compilePublished(
  name: 'gorewright-job' | 'gorewright-sheet' | 'gorewright-proposals'
): ValidateFunction {
  const file = new URL(`../../static/schema/${name}.schema.json`, import.meta.url);
  return new Ajv2020({ allErrors: true, strictTypes: false }).compile(
    JSON.parse(readFileSync(file, 'utf8')) as object
  );
}

/** What makes a sheet unfit to be written: a value JSON has no word for, or something its schema does not say. */
export function findUnfit(sheet: Sheet, validate: ValidateFunction): string | null {
  const odd = findOddValue(sheet);
  if (odd !== null) return odd;
  const parsed = sheetSchema.safeParse(sheet);
  if (!parsed.success) return `the sheet breaks its own schema: ${parsed.error.message}`;
  if (!validate(sheet)) return `the sheet breaks the published schema: ${JSON.stringify(validate.errors)}`;
  for (const { tag, buildable, volume, straights, ports, steps, findings } of sheet.fittings) {
    const failed = findings.some(({ level }) => level === 'error');
    if (failed === buildable) return `${tag} is ${buildable ? '' : 'not '}buildable beside its findings`;
    const empty = [straights, ports, steps].every(({ length }) => length === 0);
    if (buildable === empty) return `${tag} is ${buildable ? 'built from nothing' : 'refused and built'}`;
    if (buildable !== volume > 0) return `${tag} has a volume of ${volume}`;
    const silent = findings.find(({ message, source }) => message.trim() === '' || source.trim() === '');
    if (silent) return `${tag} has a finding ${silent.code} without words`;
  }
  return null;
}

function findOddValue(value: unknown, path = 'sheet'): string | null {
  if (value === null || value === undefined) return `${path} is ${value}`;
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) return `${path} is ${value}`;
    return Object.is(value, -0) ? `${path} is minus zero` : null;
  }
  if (typeof value !== 'object') return null;
  for (const [key, item] of Object.entries(value)) {
    const odd = findOddValue(item, `${path}.${key}`);
    if (odd !== null) return odd;
  }
  return null;
}
