import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Job } from '../lib/kernel/document/job.ts';
import { readJob, tellFault } from '../lib/kernel/document/read.ts';

/** Exit status: every fitting buildable; one is not, the answer is given all the same. */
export const BUILDABLE = 0;
export const NOT_BUILDABLE = 1;
/** Exit status: the document is unreadable, or does not say what the command needs. */
export const UNREADABLE = 2;

/** How the sheet is asked for, and with it files. */
export const USAGE =
  'usage: npm run --silent sheet -- JOB.json [--out DIR [--pdf] [--dxf] [--svg] [--glb] [--stl] [--csv] [--paper a4] [--side outside|inside] [--printed MM] [--decimal point|comma] [--revision TEXT] [--since OLD.json] [--address URL]]';

export interface ReadFile {
  readonly file: string;
  readonly job: Job;
}

/** The job document that is the one argument of a script; null once standard error has said in one line why there is none. */
export function readJobArgument([file, ...more]: readonly string[], usage: string): ReadFile | null {
  return file === undefined || more.length > 0 ? refuse(usage) : readJobFile(file);
}

/** A job document from a file; null once standard error has said why there is none. */
export function readJobFile(file: string): ReadFile | null {
  let text: string;
  try {
    text = readFileSync(findFromTyped(file), 'utf8');
  } catch (error) {
    const { code = 'unknown' } = error as NodeJS.ErrnoException;
    return refuse(`${file}: cannot be read (${code}), expected a job document`);
  }
  const read = readJob(text);
  if ('fault' in read) return refuse(`${file}: ${tellFault(read.fault)}`);
  return { file, job: read.job };
}

/** Under npm a command runs in the project's folder; files are named from where it was typed. */
export function findFromTyped(path: string): string {
  return resolve(process.env['INIT_CWD'] ?? process.cwd(), path);
}

/** Says in one line on standard error why there is no answer. */
export function refuse(line: string): null {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`);
  return null;
}
