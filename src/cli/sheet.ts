import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { readJob, tellFault } from '../lib/kernel/document/read.ts';
import { printSheet } from '../lib/sheet/print.ts';

/** Exit status: every fitting buildable; one is not, the sheet is printed all the same; the document is unreadable. */
const BUILDABLE = 0;
const NOT_BUILDABLE = 1;
const UNREADABLE = 2;

process.exitCode = run(process.argv.slice(2));

function run([file, ...more]: string[]): number {
  if (file === undefined || more.length > 0) return refuse('usage: npm run --silent sheet -- JOB.json');
  let text: string;
  try {
    // Under npm the command runs in the project's folder; the file is named from where it was typed.
    text = readFileSync(resolve(process.env['INIT_CWD'] ?? process.cwd(), file), 'utf8');
  } catch (error) {
    return refuse(
      `${file}: cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}), expected a job document`
    );
  }
  const read = readJob(text);
  if ('fault' in read) return refuse(`${file}: ${tellFault(read.fault)}`);
  let status = BUILDABLE;
  for (const { text: part, buildable } of printSheet(read.job)) {
    process.stdout.write(part);
    if (!buildable) status = NOT_BUILDABLE;
  }
  process.stdout.write('\n');
  return status;
}

function refuse(line: string): number {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`);
  return UNREADABLE;
}
