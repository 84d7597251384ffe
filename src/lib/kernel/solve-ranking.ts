import type { Job } from './document/job.ts';
import { resolveTag } from './document/resolve.ts';
import type { Proposal } from './solve-answer.ts';

/** What proposals are ranked by: fewest joints, owned blades first, least turn, shortest straight. */
export type Criterion = 'joints' | 'blades' | 'turn' | 'straight';

export const USUAL_RANKING: readonly Criterion[] = ['joints', 'blades', 'turn', 'straight'];

/** Proposals that are shown. */
const MOST_PROPOSALS = 8;

/** A proposal, and whether every bevel is one of the shop's blades. */
export interface Ranked {
  readonly proposal: Proposal;
  readonly bladed: boolean;
}

/** Best first, under tags that are free in the job. */
export function rankProposals(
  job: Job,
  proposals: readonly Ranked[],
  ranking: readonly Criterion[]
): Proposal[] {
  const weigh: Record<Criterion, (ranked: Ranked) => number> = {
    joints: ({ proposal }) => proposal.joints,
    blades: ({ bladed }) => (bladed ? 0 : 1),
    turn: ({ proposal }) => proposal.turn,
    straight: ({ proposal }) => proposal.straight
  };
  const order = [...ranking, ...USUAL_RANKING.filter((criterion) => !ranking.includes(criterion))];
  const sorted = [...proposals].sort((a, b) => {
    for (const criterion of order) {
      const differs = weigh[criterion](a) - weigh[criterion](b);
      if (differs !== 0) return differs;
    }
    return 0;
  });
  const different = sorted.filter((one, i) => !sorted.slice(0, i).some((better) => isSame(one, better)));
  const taken = new Set((job.fittings ?? []).map(resolveTag));
  let number = 0;
  const nextTag = (): string => {
    do number++;
    while (taken.has(`S${number}`));
    return `S${number}`;
  };
  return different
    .slice(0, MOST_PROPOSALS)
    .map(({ proposal }) => ({ ...proposal, fitting: { ...proposal.fitting, tag: nextTag() } }));
}

/** Turns and lengths that differ by less, degrees and mm, make no other fitting. */
const SAME_FITTING = 1e-3;

/** Whether two proposals of one family are the same fitting but for rounding: found as a plain one, and by any turn. */
function isSame({ proposal: a }: Ranked, { proposal: b }: Ranked): boolean {
  const isNear = (x: unknown, y: unknown): boolean =>
    typeof x === 'number' && typeof y === 'number' ? Math.abs(x - y) < SAME_FITTING : x === y;
  const [p, q] = [a.fitting.params, b.fitting.params];
  return a.fitting.family === b.fitting.family && Object.keys(p).every((name) => isNear(p[name], q[name]));
}
