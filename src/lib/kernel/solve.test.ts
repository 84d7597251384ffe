import { describe, expect, it } from 'vitest';
import { DEFAULT_BOARD, DEFAULT_SHOP, type Job } from './document/job.ts';
import { evaluateFitting } from './evaluate.ts';
import { FAMILIES } from './families/index.ts';
import { traceRoute } from './fitting/route.ts';
import { describeTask, solveSite, trySite, type SolveOptions } from './solve.ts';
import type { Obstacle, Site, SiteEnd } from './site/site.ts';
import { growSection } from './straight/section.ts';
import { listPieceBodies } from './fitting/fitting.ts';
import { movePoint } from './geometry/motion.ts';

const SECTION = { width: 400, height: 250 };
const BEAM: Obstacle = {
  name: 'beam',
  kind: 'beam',
  min: [1150, -90, -2000],
  max: [1400, 400, 2000],
  clearance: 40
};

function setOut(end: Partial<SiteEnd>, obstacles: readonly Obstacle[] = [], rest: Partial<Job> = {}): Job {
  const site: Site = {
    section: SECTION,
    end: { at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0], ...end },
    clearance: 25,
    obstacles
  };
  return { format: 'gorewright-job', version: 1, ...rest, site };
}

const ask = (job: Job, family: string, options: SolveOptions = {}) =>
  solveSite(job, { ...options, families: [family] });

describe('what leads to the end of a site', () => {
  it('is a straight where nothing stands in the way', () => {
    expect(solveSite(setOut({})).proposals).toEqual([
      {
        fitting: { tag: 'S1', family: 'straight', section: SECTION, params: { length: 2600 } },
        joints: 0,
        turn: 0,
        straight: 2600,
        clearance: null
      }
    ]);
  });

  it('is a detour of 280 under a beam whose underside lies 90 below the axis, 40 clear of a duct 300 high', () => {
    const { proposals } = ask(setOut({}, [BEAM]), 'double-offset');
    const { fitting, turn, straight, clearance } = proposals[0]!;
    expect(fitting.params).toMatchObject({ roll: 0, turn: 45, piecesPerTurn: 2 });
    expect(fitting.params['rise']).toBeCloseTo(-280, 3);
    expect(turn).toBe(180);
    // The run, and for each slope the shift times tan 22.5°.
    expect(straight).toBeCloseTo(2600 + 2 * 280 * Math.tan(Math.PI / 8), 2);
    expect(clearance!.obstacle).toBe('beam');
    expect(clearance!.value).toBeCloseTo(40, 3);
  });

  it('writes every parameter of the family, and tags that are free in the job', () => {
    const fittings = [{ tag: 'S1', family: 'straight', section: SECTION, params: { length: 500 } }];
    const { proposals } = ask(setOut({ at: [1500, 220, 140] }, [], { fittings }), 'offset');
    expect(proposals[0]!.fitting.tag).toBe('S2');
    expect(Object.keys(proposals[0]!.fitting.params).sort()).toEqual(
      ['piecesPerTurn', 'rise', 'roll', 'throatIn', 'throatOut', 'turn'].sort()
    );
  });

  it('reaches a level wherever the run is free', () => {
    const { proposals } = ask(setOut({ at: [null, -400, 0] }), 'offset');
    expect(proposals[0]!.fitting.params).toMatchObject({ rise: -400, roll: 0, turn: 45 });
    expect(proposals[0]!.straight).toBeCloseTo(2 * (200 + 150 * Math.tan(Math.PI / 8)) + 400 * Math.SQRT2, 6);
  });

  it('is a straight as long as a throat where any length would do', () => {
    expect(ask(setOut({ at: [null, 0, 0] }), 'straight').proposals[0]!.fitting.params).toEqual({
      length: 200
    });
  });

  it('turns by one joint between the faces where the end leads there', () => {
    // Up and to the left by 40 degrees about a heel of 30: the bend family has no such heel.
    const heel = 30;
    const [c, s] = [Math.cos((heel * Math.PI) / 180), Math.sin((heel * Math.PI) / 180)];
    const [cosine, sine] = [Math.cos((40 * Math.PI) / 180), Math.sin((40 * Math.PI) / 180)];
    const flow: [number, number, number] = [cosine, -sine * c, -sine * s];
    const up: [number, number, number] = [sine * c, cosine * c * c + s * s, cosine * c * s - c * s];
    const at: [number, number, number] = [500 + 600 * flow[0], 600 * flow[1], 600 * flow[2]];
    const { proposals, refused } = solveSite(setOut({ at, flow, up }));
    expect(refused.map(({ family }) => family)).toContain('bend');
    expect(proposals[0]!.fitting.family).toBe('path');
    expect(proposals[0]!.joints).toBe(1);
    expect(proposals[0]!.turn).toBeCloseTo(40, 9);
  });
});

describe('what does not lead there', () => {
  it('says by how much an offset between short ends lacks throat', () => {
    // With u the tangent of half the turn an offset of 220 takes 190u + 110/u of the run beside its throats, at least
    // 2·√(190·110): 289.1 of 650, where two throats of 200 want 400.
    const { proposals, refused } = ask(setOut({ at: [650, 220, 0] }), 'offset');
    expect(proposals).toEqual([]);
    expect(refused[0]).toMatchObject({ family: 'offset', limit: 'minThroat' });
    expect(refused[0]!.short).toBeCloseTo((400 + 2 * Math.sqrt(190 * 110) - 650) / 2, 6);
  });

  it('says that a beam stands in the way of a straight, and how far', () => {
    const { refused } = ask(setOut({}, [BEAM]), 'straight');
    expect(refused[0]).toMatchObject({ family: 'straight', limit: 'obstacle' });
    // The beam reaches 240 into the duct, from its underside up, and wants 40.
    expect(refused[0]!.short).toBeCloseTo(280, 5);
  });

  it('says by how much the straight is too long for the board, or for the straight there is', () => {
    const long = ask(setOut({ at: [3200, 0, 0] }), 'straight').refused[0]!;
    expect(long.limit).toBe('straight');
    expect(long.short).toBeCloseTo(200, 9);
    const scarce = ask(setOut({ at: [1200, 0, 0] }), 'straight', { longest: 1100 }).refused[0]!;
    expect(scarce.limit).toBe('straight');
    expect(scarce.short).toBeCloseTo(100, 9);
  });

  it('says that an end beside the axis is no end of a straight', () => {
    const { refused } = ask(setOut({ at: [2000, 0, 300] }), 'straight');
    expect(refused[0]!.limit).toBe('end');
    expect(refused[0]!.short).toBeCloseTo(300, 6);
  });
});

describe('the ranking', () => {
  const job = setOut({ at: [1500, 220, 0] });

  it('puts owned blades before small turns unless it is told otherwise', () => {
    expect(solveSite(job).proposals[0]!.turn).toBe(90);
    expect(solveSite(job, { ranking: ['turn'] }).proposals[0]!.turn).toBeLessThan(30);
  });
});

describe('a search', () => {
  it('reports how far it is, and can be left at any step', () => {
    let steps = 0;
    for (const { family, done, of } of trySite(setOut({}, [BEAM]))) {
      expect(FAMILIES.map(({ name }) => name)).toContain(family);
      expect(done).toBeLessThanOrEqual(of);
      if (++steps === 5) break;
    }
    expect(steps).toBe(5);
  });
});

describe('the routes of every family', () => {
  const ends: Partial<SiteEnd>[] = [
    { at: [2600, 0, 0] },
    { at: [2000, 220, 140] },
    { at: [2000, 300, 0] },
    { at: [900, 0, -1000], flow: [0, 0, -1] },
    { at: [900, 1000, 0], flow: [0, 1, 0], up: [-1, 0, 0] },
    { at: [700, 200, 900], flow: [0, 0, 1] }
  ];
  const forms = ends.flatMap((end) => {
    const job = setOut(end, [BEAM]);
    const task = describeTask(job, job.site!);
    return FAMILIES.flatMap((family) =>
      (family.listRoutes?.(task) ?? []).map((form) => ({ family, form, task }))
    );
  });

  it('are the axes that the family builds, corner by corner', () => {
    let compared = 0;
    for (const { family, form, task } of forms) {
      for (const start of form.starts.slice(0, 3)) {
        const said = { family: family.name, section: SECTION, params: form.writeParams(start) };
        const { fitting } = family.build(
          evaluateFitting(said, 0, DEFAULT_BOARD, DEFAULT_SHOP).resolved.values as never,
          task.setting
        );
        if (!fitting || fitting.straights.length !== 1) continue;
        const trace = traceRoute(form.layOut(start), growSection(SECTION, DEFAULT_BOARD.thickness));
        const bodies = listPieceBodies(fitting);
        expect(trace.pieces).toHaveLength(bodies.length);
        const apart = trace.pieces.flatMap(({ corners }, k) => {
          const built = bodies[k]!.walls.flatMap(({ outer }) =>
            outer.map((corner) => movePoint(bodies[k]!.placement, corner))
          );
          return corners.map((corner) =>
            Math.min(...built.map((b) => Math.hypot(b[0] - corner[0], b[1] - corner[1], b[2] - corner[2])))
          );
        });
        expect(Math.max(...apart)).toBeLessThan(1e-4);
        expect(trace.straight).toBeCloseTo(fitting.straights[0]!.length, 6);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(40);
  });
});

describe('a fitting that stands there', () => {
  const jobs = [
    setOut({ at: [1180, 0, 0] }),
    setOut({ at: [900, 0, -1000], flow: [0, 0, -1] }),
    setOut({ at: [2000, 220, 140] }),
    setOut({}, [BEAM]),
    setOut({ at: [900, 200, -900], flow: [0, 0, -1] })
  ];

  it('is where its family sets out from: near what was found before it finds the same', () => {
    const families = new Set<string>();
    for (const job of jobs) {
      for (const { fitting, turn, straight } of solveSite(job).proposals) {
        const { family, params } = fitting;
        const [again, ...others] = ask(job, family, { near: { family, params } }).proposals;
        expect(others).toEqual([]);
        expect(Math.abs(again!.turn - turn)).toBeLessThan(0.5);
        if (turn === 0) expect(again!.straight).toBe(straight);
        families.add(family);
      }
    }
    expect([...families].sort()).toEqual(['bend', 'double-offset', 'offset', 'path', 'straight']);
  });

  it('follows a beam that comes down', () => {
    const [first] = ask(setOut({}, [BEAM]), 'double-offset').proposals;
    const { family, params } = first!.fitting;
    const lower = { ...BEAM, min: [1150, -110, -2000] as const };
    const [next] = ask(setOut({}, [lower]), family, { near: { family, params } }).proposals;
    expect(next!.fitting.params['turn']).toBe(45);
    expect(next!.fitting.params['rise']).toBeCloseTo(-300, 3);
  });
});
