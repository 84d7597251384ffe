import type { Answer, Proposal, Refusal } from '../kernel/solve-answer.ts';
import { tellRefusal, type Speech, type Words } from '../words/words.ts';
import type { Proposals } from './proposals-schema.ts';
import { round } from './round.ts';

/** What the solver answers, best first: rounded but for the fittings, with its reasons in the language of the words. */
export function writeProposals({ proposals, refused }: Answer, words: Words, say: Speech): Proposals {
  return {
    format: 'gorewright-proposals',
    version: 1,
    proposals: proposals.map(writeProposal),
    refused: refused.map((refusal) => writeRefusal(refusal, words, say))
  };
}

/** The fitting is written to the last digit, so that it still meets its end when it is put into a job. */
function writeProposal({
  fitting: { tag, family, section, params },
  joints,
  turn,
  straight,
  clearance
}: Proposal): Proposals['proposals'][number] {
  return {
    fitting: {
      tag,
      family,
      section: { width: section.width, height: section.height },
      params: { ...params }
    },
    joints,
    turn: round(turn),
    straight: round(straight),
    ...(clearance && { clearance: { value: round(clearance.value), obstacle: clearance.obstacle } })
  };
}

function writeRefusal(refusal: Refusal, words: Words, say: Speech): Proposals['refused'][number] {
  const { family, limit, short } = refusal;
  return {
    family,
    reason: tellRefusal(refusal, words, say),
    limit,
    ...(short !== null && { short: round(short) })
  };
}
