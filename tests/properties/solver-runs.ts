// What the solver answers for planted sites, judged by measuring anew: the runs that the test files share out.
import { solveSite } from '../../src/lib/kernel/solve.ts';
import type { Answer, Proposal } from '../../src/lib/kernel/solve-answer.ts';
import { makeRandom } from '../oracle/generated-paths.ts';
import { checkProposal, isBladed } from './measured-proposals.ts';
import { generateSite, type Kind, type PlantedSite } from './sites.ts';

/** How many sites of each kind. */
export const SITES = 100;

/** For a file of tests on a busy machine, ms. */
export const PLENTY = 600_000;

/** The total turn may be so much more than that of the planted fitting, degrees. */
const MORE_TURN = 0.5;

/** The families that propose. */
const PROPOSING = ['straight', 'bend', 'offset', 'double-offset', 'path'];

/** What is wrong with the answers to a row of sites, in words that name the seed. */
export interface Judged {
  /** Seeds of the sites for which there is no proposal. */
  readonly unsolved: readonly number[];
  /** Proposals that are not what they say or should be. */
  readonly wrong: readonly string[];
  /** What the best are worse by than the planted fitting. */
  readonly worse: readonly string[];
}

/** Solves the sites of a kind for the seeds from one up to but not including another. */
export function judgeSites(kind: Kind, from: number, to: number): Judged {
  const unsolved: number[] = [];
  const wrong: string[] = [];
  const worse: string[] = [];
  for (let seed = from; seed < to; seed++) {
    const site = generateSite(makeRandom(seed), kind);
    const answer = solveSite(site.job);
    if (answer.proposals.length === 0) unsolved.push(seed);
    wrong.push(...findWrong(site, answer).map((fault) => `seed ${seed}: ${fault}`));
    worse.push(...findWorse(site, answer).map((fault) => `seed ${seed}: ${fault}`));
  }
  return { unsolved, wrong, worse };
}

function findWrong({ job }: PlantedSite, { proposals, refused }: Answer): string[] {
  const tags = new Set(proposals.map(({ fitting }) => fitting.tag));
  const named = refused.map(({ family }) => family);
  return [
    ...proposals.flatMap((proposal, i) =>
      checkProposal(job, proposal).map((fault) => `${i + 1}, ${proposal.fitting.family}: ${fault}`)
    ),
    ...proposals
      .slice(1)
      .flatMap((after, i) => (isBefore(job, after, proposals[i]!) ? [`${i + 2} comes after ${i + 1}`] : [])),
    ...proposals.flatMap((after, i) =>
      proposals.slice(0, i).some((before) => isSame(before, after)) ? [`${i + 1} is there twice`] : []
    ),
    ...(tags.size === proposals.length ? [] : ['two proposals have one tag']),
    ...(new Set(named).size === named.length ? [] : [`refused twice: ${named.join()}`]),
    ...(proposals.length > 0 || PROPOSING.every((family) => named.includes(family))
      ? []
      : [`none found, and refused only ${named.join()}`])
  ];
}

/** Whether a proposal is truly better than another: fewer joints, then owned blades, then less turn, then less straight. */
function isBefore(job: PlantedSite['job'], one: Proposal, other: Proposal): boolean {
  const rank = (proposal: Proposal): number[] => [
    proposal.joints,
    isBladed(job, proposal) ? 0 : 1,
    proposal.turn,
    proposal.straight
  ];
  const [a, b] = [rank(one), rank(other)];
  // Numbers that differ by rounding do not say which is better.
  const differs = a.findIndex((value, i) => Math.abs(value - b[i]!) > 1e-9);
  return differs >= 0 && a[differs]! < b[differs]!;
}

/** Whether two proposals are one fitting for whoever makes them: no parameter differs by as much as is written down. */
function isSame({ fitting: one }: Proposal, { fitting: other }: Proposal): boolean {
  return one.family === other.family && isAlike(one.params, other.params);
}

function isAlike(one: unknown, other: unknown): boolean {
  if (typeof one === 'number' && typeof other === 'number') return Math.abs(one - other) < 1e-3;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return one === other;
  const [a, b] = [Object.values(one), Object.values(other)];
  return a.length === b.length && a.every((value, i) => isAlike(value, b[i]));
}

function findWorse({ job, planted }: PlantedSite, { proposals }: Answer): string[] {
  const best = proposals[0];
  if (!best) return ['none found'];
  if (best.joints > planted.joints) return [`${best.joints} joints, planted ${planted.joints}`];
  const few = proposals.filter(({ joints }) => joints <= planted.joints);
  const least = Math.min(...few.map(({ turn }) => turn));
  return least <= planted.turn + MORE_TURN || few.some((proposal) => isBladed(job, proposal))
    ? []
    : [`${least} degrees, planted ${planted.turn}`];
}
