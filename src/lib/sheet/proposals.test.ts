import { describe, expect, it } from 'vitest';
import { compilePublished } from '../../../tests/properties/answers.ts';
import { changeJob } from '../kernel/document/changes.ts';
import { DEFAULT_SHOW, LANGUAGES, type Job } from '../kernel/document/job.ts';
import { checkJob } from '../kernel/document/read.ts';
import { evaluate } from '../kernel/evaluate.ts';
import type { Answer, Refusal, RefusalLimit } from '../kernel/solve-answer.ts';
import { solveSite } from '../kernel/solve.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { proposalsSchema, type Proposals } from './proposals-schema.ts';
import { writeProposals } from './proposals.ts';

const UNDER_THE_BEAM: Answer['proposals'][number] = {
  fitting: {
    tag: 'S1',
    family: 'double-offset',
    section: { width: 400, height: 250 },
    params: { rise: -280.123456789, roll: 0, turn: 45, level: 150, throatIn: 205.00000001, throatOut: 205 }
  },
  joints: 4,
  turn: 180.00000001,
  straight: 2832.9519,
  clearance: { value: 41.20049, obstacle: 'beam' }
};
const refuse = (limit: RefusalLimit, short: number | null): Refusal => ({
  family: 'offset',
  limit,
  short,
  data: {}
});
const write = (answer: Partial<Answer>, show = DEFAULT_SHOW): Proposals =>
  writeProposals({ proposals: [], refused: [], ...answer }, speak(show.language), makeSpeech(show));
const tell = (limit: RefusalLimit, short: number | null, show = DEFAULT_SHOW): string =>
  write({ refused: [refuse(limit, short)] }, show).refused[0]!.reason;

describe('the printed proposals for a site', () => {
  it('say the fitting to its last digit, and round what is said about it', () => {
    const [proposal] = write({ proposals: [UNDER_THE_BEAM] }).proposals;
    expect(proposal!.fitting).toEqual(UNDER_THE_BEAM.fitting);
    expect(proposal).toMatchObject({
      joints: 4,
      turn: 180,
      straight: 2832.952,
      clearance: { value: 41.2, obstacle: 'beam' }
    });
  });

  it('say no clearance where nothing stands in between', () => {
    const { proposals } = write({ proposals: [{ ...UNDER_THE_BEAM, clearance: null }] });
    expect(proposals[0]).not.toHaveProperty('clearance');
  });

  it('say by how much a limit is missed, and nothing where no length says it', () => {
    const { refused } = write({ refused: [refuse('minThroat', 37.50004), refuse('several', null)] });
    expect(refused[0]).toEqual({
      family: 'offset',
      reason: 'The end pieces come 38 mm too short for the shop.',
      limit: 'minThroat',
      short: 37.5
    });
    expect(refused[1]).not.toHaveProperty('short');
  });

  it('are what their schemas say, the one of the code and the published one', () => {
    const accepts = compilePublished('gorewright-proposals');
    for (const answer of [
      write({}),
      write({ proposals: [UNDER_THE_BEAM], refused: [refuse('end', null), refuse('obstacle', 120)] })
    ]) {
      expect(proposalsSchema.parse(answer)).toEqual(answer);
      expect(accepts(answer)).toBe(true);
    }
    expect(accepts({ ...write({}), refused: [{ family: 'offset', limit: 'end' }] })).toBe(false);
  });
});

describe('proposals under a beam, read back from what is printed', () => {
  it('stand in their site as they were proposed: nothing is found of them there but hand room', () => {
    const beam = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] } as const;
    const end = { at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] } as const;
    const site = { section: { width: 400, height: 250 }, end, clearance: 40, obstacles: [beam] };
    const job: Job = { format: 'gorewright-job', version: 1, site };
    const printed = JSON.parse(
      JSON.stringify(write(solveSite(job, { families: ['double-offset', 'offset'] })))
    ) as Proposals;
    expect(printed.proposals.length).toBeGreaterThan(0);
    for (const { fitting, clearance, straight } of printed.proposals) {
      const taken = changeJob(job, { kind: 'take-proposal', fitting });
      expect(checkJob(taken)).toEqual({ job: taken });
      const model = evaluate(taken);
      expect(model.site!.findings.filter(({ code }) => code !== 'hand-room')).toEqual([]);
      expect(model.site!.tightest!.value).toBeCloseTo(clearance!.value, 2);
      expect(model.fittings[0]!.built!.fitting.straights[0]!.length).toBeCloseTo(straight, 2);
    }
  });
});

describe('the reason why a fitting does not lead there', () => {
  const limits: readonly [RefusalLimit, number | null][] = [
    ['end', null],
    ['end', 12],
    ['minThroat', 37.5],
    ['minGore', 20],
    ['straight', 800],
    ['clearance', 9],
    ['obstacle', 120],
    ['several', null]
  ];

  it('is told for every limit in every language', () => {
    for (const language of LANGUAGES) {
      const told = limits.map(([limit, short]) => tell(limit, short, { ...DEFAULT_SHOW, language }));
      expect(new Set(told).size).toBe(limits.length);
      for (const sentence of told) {
        expect(sentence).toMatch(/^\S.*\.$/);
        expect(sentence).not.toMatch(/undefined|NaN|\[object|null/);
      }
    }
    expect(new Set(limits.map(([limit]) => limit)).size).toBe(
      Object.keys(speak(DEFAULT_SHOW.language).refusals).length
    );
  });

  it('is in the unit of the job, and never by nothing', () => {
    expect(tell('clearance', 25.4, { ...DEFAULT_SHOW, length: 'in/16' })).toBe(
      'It comes 1 in too near to an obstacle.'
    );
    expect(tell('clearance', 0.2)).toBe('It comes a little too near to an obstacle.');
  });
});
