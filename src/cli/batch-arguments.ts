import { parseArgs } from 'node:util';
import type { DecimalMark } from '../lib/exports/csv.ts';
import { FORMATS, type ExportOptions, type Format, type Side } from '../lib/exports/export.ts';
import { PAPER_NAMES } from '../lib/figures/paper.ts';
import { checkPrinter, PRINTER_PLAY } from '../lib/figures/printer.ts';
import type { Job } from '../lib/kernel/document/job.ts';
import { readJobFile, refuse, USAGE } from './job-argument.ts';

/** What the batch is asked for. */
export interface Batch {
  readonly job: Job;
  /** The folder, as it was typed. */
  readonly out: string;
  readonly formats: readonly Format[];
  readonly options: Omit<ExportOptions, 'loadFont' | 'tell'>;
}

const SIDES: readonly Side[] = ['outside', 'inside'];
const MARKS: readonly DecimalMark[] = ['point', 'comma'];

const text = { type: 'string' } as const;
const flag = { type: 'boolean' } as const;
const FLAGS = Object.fromEntries(FORMATS.map((format) => [format, flag])) as Record<Format, typeof flag>;

const OPTIONS = {
  out: text,
  ...FLAGS,
  paper: text,
  side: text,
  printed: text,
  decimal: text,
  revision: text,
  since: text,
  address: text
} as const;

/** Reads the command line of the batch; null once standard error has said in one line what is wrong with it. */
export function readBatch(args: readonly string[]): Batch | null {
  const said = parse(args);
  const [file, ...more] = said?.positionals ?? [];
  if (!said || file === undefined || more.length > 0 || !said.values.out) return refuse(USAGE);
  const { values } = said;
  const { paper = 'a4', side = 'outside', printed = '100', decimal = 'point', address, revision } = values;
  if (!isOneOf(PAPER_NAMES, paper)) return refuseValue('paper', paper, PAPER_NAMES.join(', '));
  if (!isOneOf(SIDES, side)) return refuseValue('side', side, SIDES.join(' or '));
  if (!isOneOf(MARKS, decimal)) return refuseValue('decimal', decimal, MARKS.join(' or '));
  if (!/^\d+(\.\d+)?$/.test(printed) || !('factor' in checkPrinter(Number(printed))))
    return refuseValue(
      'printed',
      printed,
      `what the bar of 100 mm measures, ${100 - PRINTER_PLAY} to ${100 + PRINTER_PLAY}`
    );
  if (address !== undefined && !isAddress(address))
    return refuseValue('address', address, 'an address of a page, https://… without #');
  const read = readJobFile(file);
  if (!read) return null;
  const since = values.since === undefined ? undefined : readJobFile(values.since);
  if (since === null) return null;
  return {
    job: read.job,
    out: values.out!,
    formats: FORMATS.filter((format) => values[format]),
    options: {
      paper,
      side,
      printed: Number(printed),
      decimal,
      title: { revision },
      ...(address === undefined ? {} : { address }),
      // A job document does not say under which revision it was issued.
      ...(since ? { since: { job: since.job, revision: '' } } : {})
    }
  };
}

function parse(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true });
  } catch {
    return null;
  }
}

function isOneOf<T extends string>(names: readonly T[], name: string): name is T {
  return names.some((one) => one === name);
}

function isAddress(said: string): boolean {
  const address = URL.canParse(said) ? new URL(said) : null;
  return address !== null && /^https?:$/.test(address.protocol) && !said.includes('#');
}

function refuseValue(option: string, said: string, expected: string): null {
  return refuse(`--${option} is ${JSON.stringify(said)}, expected ${expected}`);
}
