import { describe, expect, it } from 'vitest';
import { makeSpeech, speak, tellFinding } from '../../words/words.ts';
import { changeJob, type Change } from '../document/changes.ts';
import { DEFAULT_SHOW, LANGUAGES, type Job, type SaidFitting } from '../document/job.ts';
import { evaluate, reevaluate, type Model } from '../evaluate.ts';
import type { Finding } from '../fitting/finding.ts';
import { SOURCES } from '../sources.ts';
import type { Obstacle, Site, SiteEnd } from './site.ts';

// 450 × 300 outside: the top is 150 above the axis, the right side 225 from it.
const SECTION = { width: 400, height: 250 };
const straight = (length: number): SaidFitting => ({
  family: 'straight',
  section: SECTION,
  params: { length }
});
const box = (min: Obstacle['min'], max: Obstacle['max'], more: Partial<Obstacle> = {}): Obstacle => ({
  name: 'beam',
  kind: 'beam',
  min,
  max,
  ...more
});
const END: SiteEnd = { at: [1000, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] };

function stand(said: SaidFitting, site: Partial<Site>, ...others: SaidFitting[]): Job {
  return {
    format: 'gorewright-job',
    version: 1,
    fittings: [{ ...said, tag: 'stands' }, ...others],
    site: { fitting: 'stands', section: SECTION, end: END, clearance: 25, obstacles: [], ...site }
  };
}

function find(code: Finding['code'], said: SaidFitting, site: Partial<Site>): Finding[] {
  return evaluate(stand(said, site)).fittings[0]!.findings.filter((finding) => finding.code === code);
}

/** Of a straight duct of 1000 mm, which ends where the site wants it to. */
const findInStraight = (code: Finding['code'], site: Partial<Site>): Finding[] =>
  find(code, straight(1000), site);

describe('a duct in its site comes too near to an obstacle', () => {
  const above = (height: number, more: Partial<Obstacle> = {}): Obstacle =>
    box([300, height, -100], [500, 400, 100], more);

  it('when it is nearer than the site wants, and says by how much', () => {
    const [found, ...more] = findInStraight('clearance-small', { obstacles: [above(170)] });
    expect(found).toMatchObject({
      level: 'warning',
      data: { obstacle: 'beam', value: 20, wanted: 25 },
      source: 'shop'
    });
    expect(more).toEqual([]);
    expect(findInStraight('clearance-small', { obstacles: [above(175)] })).toEqual([]);
  });

  it('by what the obstacle wants for itself, where it says so', () => {
    expect(findInStraight('clearance-small', { obstacles: [above(170, { clearance: 20 })] })).toEqual([]);
    expect(findInStraight('clearance-small', { obstacles: [above(180, { clearance: 50 })] })).toMatchObject([
      { data: { value: 30, wanted: 50 } }
    ]);
  });

  it('and stays buildable though it would run into it, for a site may be measured wrongly', () => {
    const model = evaluate(stand(straight(1000), { obstacles: [above(140)] }));
    expect(model.fittings[0]!.built).not.toBeNull();
    expect(model.fittings[0]!.findings).toContainEqual(
      expect.objectContaining({ code: 'clearance-small', data: { obstacle: 'beam', value: -10, wanted: 25 } })
    );
  });

  it('once for each that is too near', () => {
    const obstacles = [above(170), above(400), above(160, { name: 'pipe' })];
    const found = findInStraight('clearance-small', { obstacles });
    expect(found.map(({ data }) => [data['obstacle'], data['value']])).toEqual([
      ['beam', 20],
      ['pipe', 10]
    ]);
  });

  it('which is told of the one that stands there alone, and the tightest obstacle is known', () => {
    const obstacles = [above(190, { name: 'tray' }), above(230, { clearance: 90 })];
    const { fittings, site } = evaluate(stand(straight(1000), { obstacles }, straight(1000)));
    expect(fittings[1]!.findings.some(({ code }) => code === 'clearance-small')).toBe(false);
    expect(site!.clearances.map(({ value }) => value)).toEqual([40, 80]);
    expect(site!.tightest!.obstacle.name).toBe('beam');
    expect(site!.standing).toBe(0);
  });
});

describe('an outlet meets the end of its site', () => {
  const end = (more: Partial<SiteEnd>): Partial<Site> => ({ end: { ...END, ...more } });
  const miss = (more: Partial<SiteEnd>): Finding['data'] | undefined =>
    findInStraight('end-missed', end(more))[0]?.data;

  it('within 0.01 mm in every coordinate that is wanted', () => {
    expect(miss({})).toBeUndefined();
    expect(miss({ at: [1000.009, -0.009, 0.009] })).toBeUndefined();
    expect(miss({ at: [1000, 0, 0.011] })!['away']).toBeCloseTo(0.011, 9);
    expect(miss({ at: [970, 40, 0] })).toEqual({ away: 50 });
    expect(miss({ at: [null, 40, 0] })).toEqual({ away: 40 });
    expect(miss({ at: [null, null, null] })).toBeUndefined();
  });

  it('within 0.001 degrees of its flow, whatever the length in which that is said', () => {
    // tan 0.0009° = 1.5708e-5, tan 0.0011° = 1.9199e-5
    expect(miss({ flow: [1, 0, 1.5708e-5] })).toBeUndefined();
    expect(miss({ flow: [1, 0, 1.9199e-5] })!['askew']).toBeCloseTo(0.0011, 7);
    expect(miss({ flow: [250, 0, 0], up: [0, 9, 0] })).toBeUndefined();
    expect(miss({ flow: [-1, 0, 0] })).toEqual({ askew: 180 });
  });

  it('upright or on its head, but not on its side', () => {
    expect(miss({ up: [0, -1, 0] })).toBeUndefined();
    expect(miss({ up: [0, 0, 1] })).toEqual({ askew: 90 });
    // Up that is typed to three decimals may lean along the flow; only what is square to the flow counts.
    expect(miss({ up: [0.001, 1, 0] })).toBeUndefined();
  });

  it('and a duct without an outlet has none to meet it', () => {
    const cap: SaidFitting = { family: 'cap', section: SECTION, params: {} };
    expect(find('end-missed', cap, {})).toEqual([]);
  });
});

describe('a duct of another section than its site', () => {
  it('is told at the inlet and at the outlet', () => {
    const found = findInStraight('section-differs', { section: { width: 300, height: 250 } });
    expect(found.map(({ level, data }) => [level, data['port'], data['width'], data['siteWidth']])).toEqual([
      ['warning', 'inlet', 400, 300],
      ['warning', 'outlet', 400, 300]
    ]);
  });

  it('is told at the outlet alone where it is reduced on the way', () => {
    const reducer: SaidFitting = {
      family: 'reducer',
      section: SECTION,
      params: { outlet: { width: 300, height: 200 }, length: 400 }
    };
    expect(find('section-differs', reducer, {}).map(({ data }) => data['port'])).toEqual(['outlet']);
  });
});

describe('a joint that is closed in place', () => {
  // Two pieces, turning left: the top edge of the cut runs from (500, −225) on the left to (950, 225) on the right.
  const bend: SaidFitting = {
    family: 'bend',
    section: SECTION,
    params: { turn: 90, pieces: 2, heel: 'right', throatIn: 500, throatOut: 400 }
  };
  const overHeel = (height: number): Obstacle => box([900, height, 200], [1000, 600, 300]);

  it('wants 100 mm for the hands, or what the site says', () => {
    const [found, ...more] = find('hand-room', bend, { obstacles: [overHeel(190)] });
    expect(found).toMatchObject({
      level: 'note',
      data: { joint: 'C1', obstacle: 'beam', wanted: 100 },
      source: 'shop'
    });
    expect(found!.data['value']).toBeCloseTo(40, 9);
    expect(more).toEqual([]);
    expect(find('hand-room', bend, { obstacles: [overHeel(251)] })).toEqual([]);
    expect(find('hand-room', bend, { obstacles: [overHeel(190)], handRoom: 40 })).toEqual([]);
    expect(find('hand-room', bend, { obstacles: [overHeel(190)], handRoom: 41 })).toHaveLength(1);
  });

  it('is measured at the joint, not at the pieces that it joins', () => {
    // 40 above the inlet piece, whose cut is 500 further on at the least.
    expect(find('hand-room', bend, { obstacles: [box([0, 190, -400], [0, 300, 400])] })).toEqual([]);
  });

  it('is told once, at the nearest obstacle', () => {
    const obstacles = [overHeel(200), { ...overHeel(180), name: 'pipe' }, overHeel(220)];
    expect(find('hand-room', bend, { obstacles }).map(({ data }) => data['obstacle'])).toEqual(['pipe']);
  });

  it('may be one where two straights meet end to end', () => {
    // 4000 mm across boards of 1200, which yield 1180 each: four straights, three joints.
    const found = find(
      'hand-room',
      { ...straight(4000), lay: 'across' },
      { obstacles: [box([0, 210, 0], [4000, 300, 10])] }
    );
    expect(found.map(({ data }) => data['joint'])).toEqual(['P1a–P1b', 'P1b–P1c', 'P1c–P1d']);
    for (const { data } of found) expect(data['value']).toBeCloseTo(60, 9);
  });

  it('is none where a stub is set on its main', () => {
    const takeoff: SaidFitting = {
      family: 'takeoff',
      section: SECTION,
      params: { length: 900, wall: 'right', station: 450, branch: { across: 150, along: 200 } }
    };
    const beside = box([400, 160, 220], [500, 300, 260]);
    expect(find('clearance-small', takeoff, { obstacles: [beside] })).toHaveLength(1);
    expect(find('hand-room', takeoff, { obstacles: [beside] })).toEqual([]);
  });
});

describe('what is found of a duct in its site', () => {
  it('is told in every language', () => {
    const bend: SaidFitting = { family: 'bend', section: SECTION, params: { turn: 90, heel: 'right' } };
    const sites: Partial<Site>[] = [
      { section: { width: 300, height: 250 }, obstacles: [box([0, 140, -900], [900, 400, 900])] },
      { end: { ...END, at: [null, null, 0.02] }, obstacles: [box([0, 170, -900], [900, 400, 900])] },
      { end: { ...END, at: [null, null, null], flow: [0, 0, -1], up: [1, 0, 0] } }
    ];
    const told = sites.flatMap((site) => {
      const { findings } = evaluate(stand(bend, site)).site!;
      return LANGUAGES.flatMap((language) =>
        findings.map((finding) => {
          expect(SOURCES[finding.source].cite).toMatch(/\S/);
          return tellFinding(finding, speak(language), makeSpeech({ ...DEFAULT_SHOW, language }));
        })
      );
    });
    expect(told).toContain('The duct runs 10 mm deep into this obstacle, which wants 25 mm clear: beam.');
    expect(told).toContain('The outlet does not meet the end where the duct has to go on: it is 90° askew.');
    for (const sentence of told) {
      expect(sentence).toMatch(/^\S.*\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('is nothing where nothing stands, or where that cannot be built', () => {
    const obstacles = [box([0, 0, 0], [100, 100, 100])];
    const alone = changeJob(stand(straight(1000), { obstacles }), { kind: 'remove-fitting', fitting: 0 });
    const nothing = evaluate({ ...alone, fittings: [straight(1000)] });
    expect(nothing.site).toMatchObject({ standing: null, clearances: [], tightest: null, findings: [] });
    const flat: SaidFitting = {
      family: 'bend',
      section: SECTION,
      params: { turn: 90, heel: 'right', gore: 0 }
    };
    const broken = evaluate(stand(flat, { obstacles }));
    expect(broken.fittings[0]!.built).toBeNull();
    expect(broken.site).toMatchObject({ standing: 0, clearances: [], tightest: null, findings: [] });
    expect(evaluate({ format: 'gorewright-job', version: 1 }).site).toBeNull();
  });
});

describe('a model that is evaluated anew after a change', () => {
  const job = stand(straight(1000), { obstacles: [box([300, 170, -100], [500, 400, 100])] }, straight(800));
  const model = evaluate(job);
  const change = (made: Change): { model: Model; fresh: Model } => {
    const next = changeJob(job, made);
    return { model: reevaluate({ job, model }, next), fresh: evaluate(next) };
  };
  const tell = ({ fittings, site }: Model): unknown => ({
    findings: fittings.map(({ findings }) => findings),
    site
  });

  it('measures its site only when the site or what stands there is another', () => {
    const other = change({ kind: 'set-params', fitting: 1, params: { length: 700 } });
    expect(other.model.site).toBe(model.site);
    expect(other.model.fittings[0]).toBe(model.fittings[0]);
    const longer = change({ kind: 'set-params', fitting: 0, params: { length: 1200 } });
    expect(tell(longer.model)).toEqual(tell(longer.fresh));
    expect(longer.model.site!.findings.map(({ code }) => code)).toContain('end-missed');
  });

  it('keeps the duct as it is built while an obstacle is moved, and forgets what was found before', () => {
    const to = box([300, 180, -100], [500, 400, 100]);
    const moved = change({ kind: 'set-obstacle', obstacle: 0, to });
    expect(moved.model.fittings[0]!.built).toBe(model.fittings[0]!.built);
    expect(moved.model.fittings[1]).toBe(model.fittings[1]);
    expect(tell(moved.model)).toEqual(tell(moved.fresh));
    expect(moved.model.site!.clearances[0]!.value).toBe(30);
  });

  it('leaves no finding behind with the duct that stood there, however it left', () => {
    const proposal: SaidFitting = { tag: 'S1', ...straight(900) };
    for (const made of [
      { kind: 'set-site', site: undefined },
      { kind: 'set-site', site: { ...job.site!, fitting: 'F2' } },
      { kind: 'move-fitting', fitting: 0, to: 1 },
      { kind: 'remove-fitting', fitting: 0 },
      { kind: 'set-tag', fitting: 0, tag: 'first' },
      { kind: 'take-proposal', fitting: proposal }
    ] satisfies Change[]) {
      const { model: now, fresh } = change(made);
      expect(tell(now)).toEqual(tell(fresh));
    }
  });
});

describe('the closing end', () => {
  const tape = {
    goesOn: 'straight',
    obstacle: { name: 'beam', kind: 'beam' },
    measures: { toOtherEnd: { value: 1000, uncertainty: 8 } }
  } as const;

  it('is left long by what the tape may be off, and by nothing where there was no tape', () => {
    expect(findInStraight('closing-long', { tape })).toEqual([
      {
        level: 'note',
        code: 'closing-long',
        data: { piece: 'P1', long: 8 },
        source: 'shop'
      }
    ]);
    expect(findInStraight('closing-long', {})).toEqual([]);
  });
});
