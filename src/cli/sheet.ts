import { printSheet } from '../lib/sheet/print.ts';
import { readJobArgument, UNREADABLE } from './job-argument.ts';

/** Exit status: every fitting buildable; one is not, the sheet is printed all the same. */
const BUILDABLE = 0;
const NOT_BUILDABLE = 1;

process.exitCode = run(process.argv.slice(2));

function run(args: readonly string[]): number {
  const read = readJobArgument(args, 'sheet');
  if (!read) return UNREADABLE;
  let status = BUILDABLE;
  for (const { text: part, buildable } of printSheet(read.job)) {
    process.stdout.write(part);
    if (!buildable) status = NOT_BUILDABLE;
  }
  process.stdout.write('\n');
  return status;
}
