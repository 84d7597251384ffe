import { resolveShow } from '../lib/kernel/document/resolve.ts';
import { tellFault } from '../lib/kernel/document/read.ts';
import { solveSite } from '../lib/kernel/solve.ts';
import { writeProposals } from '../lib/sheet/proposals.ts';
import { makeSpeech, speak } from '../lib/words/words.ts';
import { readJobArgument, refuse, UNREADABLE } from './job-argument.ts';

/** Exit status: at least one fitting leads to the end of the site; none does, and it is printed why. */
const FOUND = 0;
const NONE = 1;

process.exitCode = run(process.argv.slice(2));

function run(args: readonly string[]): number {
  const read = readJobArgument(args, 'usage: npm run --silent solve -- JOB.json');
  if (!read) return UNREADABLE;
  const { file, job } = read;
  if (!job.site) {
    refuse(`${file}: ${tellFault({ path: 'site', wrong: 'is missing', expected: 'a site to solve' })}`);
    return UNREADABLE;
  }
  const show = resolveShow(job);
  const answer = writeProposals(solveSite(job), speak(show.language), makeSpeech(show));
  process.stdout.write(`${JSON.stringify(answer, null, 2)}\n`);
  return answer.proposals.length > 0 ? FOUND : NONE;
}
