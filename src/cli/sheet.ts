import { printSheet } from '../lib/sheet/print.ts';
import { BUILDABLE, NOT_BUILDABLE, readJobArgument, UNREADABLE, USAGE } from './job-argument.ts';

const args = process.argv.slice(2);
// What writes files takes long to load, and printing needs none of it.
process.exitCode = args.some((arg) => arg.startsWith('-'))
  ? await (await import('./batch.ts')).runBatch(args)
  : print(args);

function print(args: readonly string[]): number {
  const read = readJobArgument(args, USAGE);
  if (!read) return UNREADABLE;
  let status = BUILDABLE;
  for (const { text: part, buildable } of printSheet(read.job)) {
    process.stdout.write(part);
    if (!buildable) status = NOT_BUILDABLE;
  }
  process.stdout.write('\n');
  return status;
}
