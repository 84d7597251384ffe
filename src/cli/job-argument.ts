import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Job } from '../lib/kernel/document/job.ts';
import { readJob, tellFault } from '../lib/kernel/document/read.ts';

/** Exit status: the document is unreadable, or does not say what the command needs. */
export const UNREADABLE = 2;

/** The job document that is the one argument of a script; null once standard error has said in one line why there is none. */
export function readJobArgument(
  [file, ...more]: readonly string[],
  script: string
): { readonly file: string; readonly job: Job } | null {
  if (file === undefined || more.length > 0) return refuse(`usage: npm run --silent ${script} -- JOB.json`);
  let text: string;
  try {
    // Under npm the command runs in the project's folder; the file is named from where it was typed.
    text = readFileSync(resolve(process.env['INIT_CWD'] ?? process.cwd(), file), 'utf8');
  } catch (error) {
    const { code = 'unknown' } = error as NodeJS.ErrnoException;
    return refuse(`${file}: cannot be read (${code}), expected a job document`);
  }
  const read = readJob(text);
  if ('fault' in read) return refuse(`${file}: ${tellFault(read.fault)}`);
  return { file, job: read.job };
}

/** Says in one line on standard error why there is no answer. */
export function refuse(line: string): null {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`);
  return null;
}
