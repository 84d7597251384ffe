// The generator of planted sites and the checker of proposals, each tried by the other, before they judge the solver.
import { describe, expect, it } from 'vitest';
import { checkJob } from '../../src/lib/kernel/document/read.ts';
import { measureClearances } from '../../src/lib/kernel/site/clearance.ts';
import { findWanted, type Obstacle } from '../../src/lib/kernel/site/site.ts';
import type { Proposal } from '../../src/lib/kernel/solve-answer.ts';
import { build } from '../duct.ts';
import { makeRandom } from '../oracle/generated-paths.ts';
import { layOutLegs } from './legs.ts';
import { checkProposal, isBladed } from './measured-proposals.ts';
import { generateSite, KINDS, type Kind, type PlantedSite } from './sites.ts';

const RUNS = 20;
const PLENTY = 120_000;

/** What the planted fitting says of itself, were it proposed; its clearances are the kernel's. */
function propose({ job, planted }: PlantedSite): Proposal {
  const { section } = job.site;
  const fitting = { tag: 'S1', family: planted.family, section, params: planted.params };
  const { board, shop } = job as { board: object; shop: object };
  const clearances = measureClearances(
    build(fitting, { board, shop }).fitting,
    job.site,
    job.board!.thickness!
  );
  const { value, obstacle } = clearances.reduce((a, b) => (b.value < a.value ? b : a));
  const legs = layOutLegs(fitting, job.board!.thickness!);
  return {
    fitting,
    joints: planted.joints,
    turn: planted.turn,
    straight: legs.lengths.reduce((sum, one) => sum + one, 0),
    clearance: { value, obstacle: obstacle.name }
  };
}

const draw = (kind: Kind, seed: number): PlantedSite => generateSite(makeRandom(seed), kind);

describe.each(KINDS)('a site in which a fitting of the kind %s is planted', (kind) => {
  it('can be read, and what is planted would be a proposal without fault', { timeout: PLENTY }, () => {
    for (let seed = 0; seed < RUNS; seed++) {
      const planted = draw(kind, seed);
      expect(checkJob(planted.job), `seed ${seed}`).toHaveProperty('job');
      expect(checkProposal(planted.job, propose(planted)), `seed ${seed}`).toEqual([]);
    }
  });

  it('is the same for the same seed', { timeout: PLENTY }, () => {
    expect(draw(kind, 7)).toEqual(draw(kind, 7));
    expect(draw(kind, 7)).not.toEqual(draw(kind, 8));
  });

  it('has boxes near it, 30 mm off and more, and asks for little less', { timeout: PLENTY }, () => {
    let exact = 0;
    for (let seed = 0; seed < RUNS; seed++) {
      const { job, planted } = draw(kind, seed);
      const { section } = job.site;
      const { board, shop } = job as { board: object; shop: object };
      const { fitting } = build({ family: planted.family, section, params: planted.params }, { board, shop });
      const gaps = measureClearances(fitting, job.site, job.board!.thickness!).map(({ value }) => value);
      expect(Math.min(...gaps)).toBeGreaterThanOrEqual(30);
      expect(gaps.filter((gap) => gap < 56).length).toBeGreaterThanOrEqual(2);
      exact += gaps.filter((gap) => gap < 30.001).length;
      expect([25, 29.999]).toContain(job.site.clearance);
      job.site.obstacles.forEach((obstacle, i) =>
        expect(findWanted(obstacle, job.site)).toBeLessThan(gaps[i]!)
      );
    }
    expect(exact).toBeGreaterThan(RUNS);
  });

  it(
    'lets no duct pass that goes straight on from the inlet, or straight to the end',
    { timeout: PLENTY },
    () => {
      for (let seed = 0; seed < RUNS; seed++) {
        const { job, planted } = draw(kind, seed);
        if (planted.family === 'straight') continue;
        const { section, end, obstacles } = job.site;
        const length = layOutLegs({ ...planted, section }, job.board!.thickness!).lengths.reduce(
          (a, b) => a + b,
          0
        );
        const { fitting } = build({ family: 'straight', section, params: { length } }, { board: job.board! });
        const onward = measureClearances(fitting, job.site, job.board!.thickness!).some(
          ({ value }) => value <= 0
        );
        const at = end.at as [number, number, number];
        expect(onward || obstacles.some((box) => isBetween(box, at)), `seed ${seed}`).toBe(true);
      }
    }
  );
});

/** Whether a box stands on the line from the inlet to a place, or within a millimetre of it. */
function isBetween({ min, max, turn = 0 }: Obstacle, at: readonly [number, number, number]): boolean {
  const radians = (turn * Math.PI) / 180;
  const middle = [0, 1, 2].map((axis) => (min[axis]! + max[axis]!) / 2);
  const steps = Array.from({ length: 20_001 }, (_, i) => i / 20_000);
  return steps.some((share) => {
    const [x, y, z] = at.map((one, axis) => one * share - middle[axis]!) as [number, number, number];
    // Turned back, in the plan.
    const [u, w] = [
      x * Math.cos(radians) - z * Math.sin(radians),
      x * Math.sin(radians) + z * Math.cos(radians)
    ];
    return [u, y, w].every((one, axis) => Math.abs(one) <= (max[axis]! - min[axis]!) / 2 + 1);
  });
}

describe('the checker of proposals', () => {
  const planted = draw('double offset', 1);
  const good = propose(planted);
  const { job } = planted;
  const { params } = good.fitting as { params: Record<string, number> };
  const withParams = (more: Readonly<Record<string, unknown>>): Proposal => ({
    ...good,
    fitting: { ...good.fitting, params: { ...params, ...more } }
  });
  const withClearance = (more: object): Proposal => ({ ...good, clearance: { ...good.clearance!, ...more } });
  const withSite = (more: object): PlantedSite['job'] => ({ ...job, site: { ...job.site, ...more } });
  const withBoard = (more: object): PlantedSite['job'] => ({ ...job, board: { ...job.board, ...more } });
  const withShop = (more: object): PlantedSite['job'] => ({ ...job, shop: { ...job.shop, ...more } });

  const short = good.straight - 1;

  it.each<[string, RegExp, PlantedSite['job'], Proposal]>([
    ['of no family', /family/, job, { ...good, fitting: { ...good.fitting, family: 'reducer' } }],
    ['that leaves a parameter out', /not written/, job, withParams({ piecesPerTurn: undefined })],
    ['that writes one too many', /travel is written/, job, withParams({ travel: 500 })],
    ['with two cuts a turn', /cut a turn/, job, withParams({ piecesPerTurn: 3 })],
    ['with no number', /NaN/, job, withParams({ throatIn: NaN })],
    ['with a rest', /rest is no number/, job, withParams({ throatIn: 'rest' })],
    ['that counts its joints wrong', /joints/, job, { ...good, joints: 3 }],
    ['that counts its turn wrong', /turn/, job, { ...good, turn: good.turn + 0.01 }],
    ['that tells another straight', /straight/, job, { ...good, straight: good.straight - 0.01 }],
    ['that ends too far', /mm off/, job, withParams({ level: params['level']! + 0.02 })],
    ['of a straight no board yields', /yields/, withBoard({ length: short, width: short }), good],
    ['of two straights', /2 straights/, withBoard({ length: short, width: short }), good],
    ['below the least throat', /piece 1 is/, withShop({ minThroat: params['throatIn']! + 1e-4 }), good],
    ['below the least gore', /piece 3 is/, withShop({ minGore: params['level']! + 1e-4 }), good],
    ['that keeps too little clear', /clear of/, withSite({ clearance: 30.1 }), good],
    ['that names another box', /nearest/, job, withClearance({ obstacle: 'wall' })],
    ['that says more is clear', /clearance/, job, withClearance({ value: 31 })],
    ['that says no clearance', /no clearance/, job, { ...good, clearance: null }],
    ['that says one of nothing', /of nothing/, withSite({ obstacles: [] }), good],
    [
      'that goes another way',
      /degrees off/,
      withSite({ end: { ...job.site.end, flow: [1, 2e-5, 0] } }),
      good
    ],
    ['that is twisted', /up is/, withSite({ end: { ...job.site.end, up: [0, 1, 2e-5] } }), good],
    ['of another section', /section/, withSite({ section: { width: 100, height: 100 } }), good]
  ])('finds fault with a proposal %s', (_, fault, site, proposal) => {
    expect(checkProposal(job, good)).toEqual([]);
    expect(checkProposal(site, proposal).join()).toMatch(fault);
  });

  it('tells bevels that the blades of the shop make from those that none makes', () => {
    const of = (turn: number, rise: number, roll: number): Proposal => withParams({ turn, rise, roll });
    const owned = { ...job, shop: { ...job.shop, blades: [{ angle: 0 }, { angle: 22.5 }, { angle: 30 }] } };
    expect(isBladed(owned, of(45, 300, 0))).toBe(true);
    expect(isBladed(owned, of(45, 0, -300))).toBe(true);
    expect(isBladed(owned, of(44.9, 0, -300))).toBe(false);
    expect(isBladed(owned, of(45, 300, 300))).toBe(false);
    // sin 45 · cos 45 = sin 30: a right angle rolled by 45 degrees has bevels of 30 all round.
    expect(isBladed(owned, of(90, 300, 300))).toBe(true);
  });
});
