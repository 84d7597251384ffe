// A refusal names a limit and how far it falls short: eased by hardly more the family leads there, eased by half it does not.
import { describe, expect, it } from 'vitest';
import { solveSite } from '../../src/lib/kernel/solve.ts';
import type { Answer } from '../../src/lib/kernel/solve-answer.ts';
import { makeRandom } from '../oracle/generated-paths.ts';
import { checkProposal } from './measured-proposals.ts';
import { easeLimit, tightenSite, type SitedJob } from './refused-sites.ts';
import { PLENTY } from './solver-runs.ts';

const EASED = ['minThroat', 'minGore', 'straight', 'clearance'];

/** Families and the ways in which their sites are made too tight. */
const CASES = [
  ['straight', 'board'],
  ['straight', 'boxes'],
  ['bend', 'throats'],
  ['bend', 'boxes'],
  ['bend', 'board'],
  ['offset', 'throats'],
  ['offset', 'gores'],
  ['offset', 'boxes'],
  ['offset', 'board'],
  ['double-offset', 'throats'],
  ['double-offset', 'gores'],
  ['double-offset', 'boxes'],
  ['double-offset', 'board'],
  ['path', 'throats'],
  ['path', 'gores'],
  ['path', 'boxes'],
  ['path', 'board']
] as const;

const REFUSALS = 100;

describe('a family that is refused for a limit', () => {
  it(
    'leads there once the limit is eased by the amount named and a hundredth more, and not by half of it',
    { timeout: PLENTY },
    () => {
      const wrong: string[] = [];
      const counted: Record<string, number> = {};
      let refused = 0;
      for (let seed = 0; refused < REFUSALS && seed < 10 * REFUSALS; seed++) {
        const [family, by] = CASES[seed % CASES.length]!;
        const { job } = tightenSite(makeRandom(seed), family, by);
        const ask = (asked: SitedJob): Answer => solveSite(asked, { families: [family] });
        const refusal = ask(job).refused[0];
        // Before it was tightened the family led there, so the end is in its reach.
        if (refusal?.limit === 'end') wrong.push(`seed ${seed}, ${family} too tight for its ${by}: end`);
        if (!refusal || refusal.short === null || !EASED.includes(refusal.limit)) continue;
        const { limit, short } = refusal;
        const [more, half] = [easeLimit(job, limit, short * 1.01), easeLimit(job, limit, short / 2)];
        if (!more || !half) continue;
        refused++;
        counted[limit] = (counted[limit] ?? 0) + 1;
        const told = `seed ${seed}, ${family} too tight for its ${by}: ${limit} short of ${short}`;
        const { proposals } = ask(more);
        if (proposals.length === 0) wrong.push(`${told}, eased by it in vain`);
        if (ask(half).proposals.length > 0) wrong.push(`${told}, half of it is enough`);
        const faults = proposals.flatMap((proposal) => checkProposal(more, proposal));
        wrong.push(...faults.map((fault) => `${told}, eased: ${fault}`));
      }
      expect(wrong).toEqual([]);
      expect(refused).toBe(REFUSALS);
      // Each limit was met, so the test is of all four.
      expect(Object.keys(counted).sort()).toEqual([...EASED].sort());
    }
  );
});
