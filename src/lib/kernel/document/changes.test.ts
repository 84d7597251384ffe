import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawJob, drawParams } from '../../../../tests/properties/documents.ts';
import { writeSheetOf } from '../../../../tests/duct.ts';
import { evaluate } from '../evaluate.ts';
import type { Family, Params } from '../families/family.ts';
import { FAMILIES, findFamily } from '../families/index.ts';
import { changeJob, sayParam, type Change } from './changes.ts';
import type { Site } from '../site/site.ts';
import type { Job, SaidFitting } from './job.ts';
import { checkJob, tellFault } from './read.ts';
import { resolveTag } from './resolve.ts';

const SECTION = { width: 400, height: 250 };

const bend = (rest: Partial<SaidFitting> = {}): SaidFitting => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, heel: 'right', throatIn: 320 },
  ...rest
});
const makeJob = (...fittings: SaidFitting[]): Job => ({ format: 'gorewright-job', version: 1, fittings });
const listTags = ({ fittings = [] }: Job): string[] => fittings.map((said, i) => resolveTag(said, i));
const findFault = (job: Job): string => {
  const read = checkJob(job);
  return 'fault' in read ? tellFault(read.fault) : '';
};
const makeAll = (job: Job, ...changes: Change[]): Job => changes.reduce(changeJob, job);

describe('the list of a job', () => {
  it('takes a fitting of every family, under the first tag that is free', () => {
    const start = makeJob(bend({ tag: 'F2' }), bend({ tag: 'riser' }));
    const all = makeAll(
      start,
      ...FAMILIES.map(({ name }): Change => ({ kind: 'add-fitting', family: name, section: SECTION }))
    );
    expect(listTags(all)).toEqual(['F2', 'riser', ...FAMILIES.map((_, i) => `F${i === 0 ? 1 : i + 2}`)]);
    expect(findFault(all)).toBe('');
    expect(evaluate(all).fittings.every(({ built }) => built !== null)).toBe(true);
    expect(start.fittings).toHaveLength(2);
  });

  it('duplicates a fitting right behind it, with all that is said of it', () => {
    const first = bend({ tag: 'F1', quantity: 4, lay: 'along' });
    const twice = changeJob(makeJob(first, bend({ tag: 'F3' })), { kind: 'duplicate-fitting', fitting: 0 });
    expect(listTags(twice)).toEqual(['F1', 'F2', 'F3']);
    expect(twice.fittings![1]).toEqual({ ...first, tag: 'F2' });
  });

  it('a fitting called by its place keeps its tag wherever it goes', () => {
    const job = makeJob(bend(), bend({ quantity: 2 }), bend({ quantity: 3 }));
    const moved = changeJob(job, { kind: 'move-fitting', fitting: 2, to: 0 });
    expect(listTags(moved)).toEqual(['F3', 'F1', 'F2']);
    expect(moved.fittings!.map(({ quantity }) => quantity)).toEqual([3, undefined, 2]);
    const removed = changeJob(moved, { kind: 'remove-fitting', fitting: 1 });
    expect(listTags(removed)).toEqual(['F3', 'F2']);
    expect(findFault(removed)).toBe('');
  });

  it('lets a fitting become one of another family, with its tag, quantity and lay', () => {
    const first = bend({ tag: 'riser', quantity: 4, lay: 'along' });
    const params = { lengths: [400, 600], joints: [{ turn: 45, heel: 90 }] };
    const made = changeJob(makeJob(first), { kind: 'set-shape', fitting: 0, family: 'path', params });
    expect(made.fittings).toEqual([{ ...first, family: 'path', params }]);
    expect(findFault(made)).toBe('');
  });

  it('can be emptied', () => {
    const empty = changeJob(makeJob(bend()), { kind: 'remove-fitting', fitting: 0 });
    expect(empty.fittings).toEqual([]);
    expect(findFault(empty)).toBe('');
  });

  it('of any readable job stays readable, whatever is added, doubled, moved and taken away', () => {
    let changed = 0;
    fc.assert(
      fc.property(
        drawJob,
        fc.array(fc.tuple(fc.nat(3), fc.nat(), fc.nat()), { maxLength: 8 }),
        (job, picks) => {
          let now = job as unknown as Job;
          for (const [kind, a, b] of picks) {
            const count = now.fittings?.length ?? 0;
            const family = FAMILIES[a % FAMILIES.length]!.name;
            const changes: Change[] = [{ kind: 'add-fitting', family, section: SECTION }];
            if (count > 0) {
              const fitting = a % count;
              changes.push(
                { kind: 'duplicate-fitting', fitting },
                { kind: 'remove-fitting', fitting },
                { kind: 'move-fitting', fitting, to: b % count }
              );
            }
            now = changeJob(now, changes[kind % changes.length]!);
            expect(findFault(now)).toBe('');
            changed++;
          }
        }
      ),
      { numRuns: 100, seed: 3 }
    );
    expect(changed).toBeGreaterThan(100);
  });

  it('refuses a tag that another fitting has, in the words of the schema', () => {
    const job = makeJob(bend({ tag: 'F1' }), bend());
    const same = changeJob(job, { kind: 'set-tag', fitting: 1, tag: 'F1' });
    expect(findFault(same)).toBe('fittings[1].tag is "F1", as fittings[0], expected a tag of its own');
    expect(findFault(changeJob(job, { kind: 'set-tag', fitting: 1, tag: '' }))).toContain(
      'at least 1 character'
    );
    expect(listTags(changeJob(job, { kind: 'set-tag', fitting: 1, tag: 'hall' }))).toEqual(['F1', 'hall']);
  });

  it('keeps quantities of 1 to 9999', () => {
    const say = (quantity: number): Job =>
      changeJob(makeJob(bend()), { kind: 'set-quantity', fitting: 0, quantity });
    expect(say(12).fittings![0]!.quantity).toBe(12);
    expect(findFault(say(0))).toContain('at least 1');
    expect(findFault(say(1.5))).toContain('a whole number');
  });

  it('has no fitting that is not there', () => {
    expect(() => changeJob(makeJob(), { kind: 'remove-fitting', fitting: 0 })).toThrow(
      'no fitting 0 among 0'
    );
  });
});

describe('a job', () => {
  it('has a name, or none', () => {
    const named = changeJob(makeJob(), { kind: 'set-name', name: 'Store room' });
    expect(named.name).toBe('Store room');
    expect(changeJob(named, { kind: 'set-name', name: '' })).toEqual(makeJob());
  });

  it('is shown in another unit without a figure of it changing', () => {
    const job = makeJob(bend());
    const inches = makeAll(
      job,
      { kind: 'set-show', show: { length: 'in/16' } },
      { kind: 'set-show', show: { precision: 1 } }
    );
    expect(inches.show).toEqual({ length: 'in/16', precision: 1 });
    expect(inches.fittings).toBe(job.fittings);
    expect(findFault(inches)).toBe('');
  });

  it('shares with the one before what a change leaves alone', () => {
    const job = makeJob(bend(), bend());
    const changed = changeJob(job, sayParam(job, 1, 'gore', 180));
    expect(changed.fittings![0]).toBe(job.fittings![0]);
    expect(job.fittings![1]!.params['gore']).toBeUndefined();
  });
});

describe('a parameter that is said', () => {
  const say = (family: string, path: string, value: unknown, params = findFamily(family).example) => {
    const job = makeJob({ family, section: SECTION, params });
    const changed = changeJob(job, sayParam(job, 0, path, value));
    expect(findFault(changed)).toBe('');
    return changed.fittings![0]!.params;
  };

  it('takes the other drivers back', () => {
    expect(say('reducer', 'slope', 12)).not.toHaveProperty('length');
    expect(say('reducer', 'slope', 12)['slope']).toBe(12);
    const driven = { turn: 90, heel: 'right', setback: 700 };
    expect(say('bend', 'gore', 180, driven)).toEqual({ turn: 90, heel: 'right', gore: 180 });
  });

  it('is a field of a group, and the others of the group stay', () => {
    expect(say('takeoff', 'branch.across', 100)['branch']).toEqual({ across: 100, along: 200 });
    const { turned } = say('split-bend', 'turned.inside', undefined) as { turned: object };
    expect(Object.keys(turned)).toEqual(['turn', 'pieces', 'throatIn', 'gore', 'throatOut']);
    expect(say('reducer', 'alignY', -30)['alignY']).toBe(-30);
  });

  it('of an opening, its shape, keeps its size in the words of the new shape; a size brings its shape', () => {
    const round = findFamily('opening').example;
    const square = say('opening', 'shape', 'rectangular');
    expect(square).toEqual({ ...without(round, 'diameter'), shape: 'rectangular', along: 160, across: 160 });
    expect(say('opening', 'shape', 'round', square)).toEqual(round);
    expect(say('opening', 'across', 90)).toEqual({ ...square, across: 90, along: 160 });
    expect(say('opening', 'diameter', 120, square)).toEqual({ ...round, diameter: 120 });
    const box = say('box', 'openings[1].shape', 'round')['openings'] as readonly object[];
    expect(box[1]).toEqual({ wall: 'bottom', station: 300, shape: 'round', diameter: 250 });
    expect(box[0]).toBe((findFamily('box').example['openings'] as readonly object[])[0]);
  });

  it('that divides the height lets a part turn up where it turned left', () => {
    const high = say('split-bend', 'divide', 'height');
    expect(high['toward']).toBe('top');
    expect(say('split-bend', 'toward', 'right', high)).toMatchObject({ divide: 'width', toward: 'right' });
  });

  it.each(FAMILIES.map((family) => [family.name, family] as const))(
    'of a %s, a choice never makes its document unreadable',
    (name, family) => {
      let said = 0;
      fc.assert(
        fc.property(drawParams(family), (params) => {
          for (const [path, option] of listOptions(family, params)) {
            say(name, path, option, params);
            said++;
          }
        }),
        { numRuns: 30, seed: 6 }
      );
      const choices = listOptions(family, family.example);
      expect(said).toBeGreaterThanOrEqual(choices.length * 10);
    }
  );
});

/** Every option of every choice of parameters as said, by its path. */
function listOptions({ params }: Family, said: Readonly<Record<string, unknown>>): [string, string][] {
  const ofParams = (
    within: Params,
    values: Readonly<Record<string, unknown>>,
    prefix: string
  ): [string, string][] =>
    Object.entries(within).flatMap(([name, { of }]): [string, string][] => {
      const path = `${prefix}${name}`;
      if (of.kind === 'choice' || of.kind === 'place') return of.of.map((option) => [path, option]);
      if (of.kind === 'group')
        return ofParams(of.fields, values[name] as Record<string, unknown>, `${path}.`);
      if (of.kind !== 'list' || of.item.kind !== 'group') return [];
      const { fields } = of.item;
      const entries = values[name] as Record<string, unknown>[];
      return entries.flatMap((entry, i) => ofParams(fields, entry, `${path}[${i}].`));
    });
  return ofParams(params, said, '');
}

function without(record: Readonly<Record<string, unknown>>, name: string): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(record).filter(([key]) => key !== name));
}

describe('how a fitting is made', () => {
  it('is said wish by wish and taken back wish by wish', () => {
    const say = (job: Job, making: Extract<Change, { kind: 'set-making' }>['making']): Job =>
      changeJob(job, { kind: 'set-making', fitting: 0, making });
    const inlet = say(makeJob(bend()), { ends: { inlet: 'male' } });
    const both = say(inlet, { ends: { outlet: 'plain' }, lay: 'across', seam: 'bottom-left' });
    expect(both.fittings![0]).toEqual(
      bend({ ends: { inlet: 'male', outlet: 'plain' }, lay: 'across', seam: 'bottom-left' })
    );
    const none = say(say(both, { ends: { inlet: undefined } }), {
      ends: { outlet: undefined },
      lay: undefined,
      seam: undefined
    });
    expect(none).toEqual(makeJob(bend()));
  });
});

describe('the site of a job', () => {
  const BEAM = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] } as const;
  const TRAY = { ...BEAM, name: 'tray', kind: 'tray', min: [1300, 300, -2000] } as const;
  const END = { at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] } as const;
  const SITE: Site = { section: SECTION, end: END, clearance: 25, obstacles: [BEAM] };
  const within = (site: Partial<Site>, ...fittings: SaidFitting[]): Job => ({
    ...makeJob(...fittings),
    site: { ...SITE, ...site }
  });
  const PROPOSED: SaidFitting = {
    tag: 'S1',
    family: 'double-offset',
    section: SECTION,
    params: { rise: -300, level: 150 }
  };

  it('is said, and taken back again', () => {
    const said = changeJob(makeJob(), { kind: 'set-site', site: SITE });
    expect(said).toEqual(within({}));
    expect(changeJob(said, { kind: 'set-site', site: undefined })).toEqual(makeJob());
  });

  it('takes an obstacle more, another in its place, and one less', () => {
    const two = changeJob(within({}), { kind: 'add-obstacle', obstacle: TRAY });
    expect(two.site!.obstacles).toEqual([BEAM, TRAY]);
    const moved = changeJob(two, { kind: 'set-obstacle', obstacle: 0, to: { ...BEAM, turn: 30 } });
    expect(moved.site!.obstacles).toEqual([{ ...BEAM, turn: 30 }, TRAY]);
    expect(moved.site!.obstacles[1]).toBe(two.site!.obstacles[1]);
    const one = changeJob(moved, { kind: 'remove-obstacle', obstacle: 0 });
    expect(one.site!.obstacles).toEqual([TRAY]);
    for (const job of [two, moved, one]) expect(findFault(job)).toBe('');
    expect(() => changeJob(one, { kind: 'remove-obstacle', obstacle: 1 })).toThrow('no obstacle 1 among 1');
  });

  it('has its end moved without being turned, and turned without being moved', () => {
    const moved = changeJob(within({}), { kind: 'set-site-end', end: { at: [2000, null, -150] } });
    expect(moved.site!.end).toEqual({ ...END, at: [2000, null, -150] });
    const turned = changeJob(moved, { kind: 'set-site-end', end: { flow: [0, 0, 1] } });
    expect(turned.site!.end).toEqual({ at: [2000, null, -150], flow: [0, 0, 1], up: [0, 1, 0] });
    expect(turned.site!.obstacles).toBe(SITE.obstacles);
  });

  it('cannot be changed where there is none', () => {
    expect(() => changeJob(makeJob(), { kind: 'set-site-end', end: {} })).toThrow('the job has no site');
    expect(() => changeJob(makeJob(), { kind: 'take-proposal', fitting: PROPOSED })).toThrow(
      'the job has no site'
    );
  });

  it('goes on holding a fitting whose tag is changed, and no other', () => {
    const job = within({ fitting: 'F2' }, bend(), bend());
    const named = changeJob(job, { kind: 'set-tag', fitting: 1, tag: 'riser' });
    expect(named.site!.fitting).toBe('riser');
    expect(changeJob(named, { kind: 'set-tag', fitting: 0, tag: 'branch' }).site).toBe(named.site);
  });

  it('goes on holding a fitting that is moved in the list, and none once it is taken out', () => {
    const job = within({ fitting: 'F2' }, bend(), bend({ quantity: 2 }));
    const moved = changeJob(job, { kind: 'move-fitting', fitting: 1, to: 0 });
    expect(moved.site!.fitting).toBe('F2');
    expect(changeJob(moved, { kind: 'remove-fitting', fitting: 1 }).site!.fitting).toBe('F2');
    const empty = changeJob(moved, { kind: 'remove-fitting', fitting: 0 });
    expect(empty.site).toEqual(SITE);
    expect(findFault(empty)).toBe('');
  });

  it('takes a proposal over as a fitting like any other, at the end of the list', () => {
    const taken = changeJob(within({}, bend()), { kind: 'take-proposal', fitting: PROPOSED });
    expect(taken.fittings).toEqual([{ ...bend(), tag: 'F1' }, PROPOSED]);
    expect(taken.site!.fitting).toBe('S1');
    expect(findFault(taken)).toBe('');
  });

  it('takes a proposal under the first free tag where its own is taken, given or by its place', () => {
    for (const [tag, list] of [
      ['S1', [bend({ tag: 'S1' })]],
      ['F2', [bend({ tag: 'F1' }), bend()]]
    ] as const) {
      const fitting = { ...PROPOSED, tag };
      const taken = changeJob(within({}, ...list), { kind: 'take-proposal', fitting });
      const free = tag === 'S1' ? 'F1' : 'F3';
      expect(taken.fittings![list.length]).toEqual({ ...PROPOSED, tag: free });
      expect(taken.site!.fitting).toBe(free);
      expect(findFault(taken)).toBe('');
    }
  });

  it('takes a proposal in place of the fitting that stands there, which keeps its tag, quantity, seam and ends', () => {
    const kept = { tag: 'riser', quantity: 2, seam: 'top-right', ends: { outlet: 'plain' } } as const;
    const job = within({ fitting: 'riser' }, bend(), bend({ ...kept, lay: 'along' }), bend());
    const taken = changeJob(job, { kind: 'take-proposal', fitting: PROPOSED });
    expect(taken.fittings![1]).toEqual({ ...PROPOSED, ...kept });
    expect(taken.fittings![0]).toBe(job.fittings![0]);
    expect(taken.site).toBe(job.site);
    expect(findFault(taken)).toBe('');
  });
});

describe('the other hand and the other end', () => {
  const mirror = (job: Job): Job => changeJob(job, { kind: 'mirror-fitting', fitting: 0 });
  const reverse = (job: Job): Job => changeJob(job, { kind: 'reverse-fitting', fitting: 0 });

  it('say only what changes: defaults stay unsaid', () => {
    const offset = { family: 'offset', section: SECTION, params: { rise: 220, roll: 140 } };
    expect(mirror(makeJob(bend())).fittings![0]!.params).toEqual({ turn: 90, heel: 'left', throatIn: 320 });
    expect(mirror(makeJob(offset)).fittings![0]!.params).toEqual({ rise: 220, roll: -140 });
    expect(reverse(makeJob(offset)).fittings![0]!.params).toEqual({ rise: -220, roll: 140 });
  });

  it('a bend seen from its other end turns the other way and has its throats changed over', () => {
    expect(reverse(makeJob(bend())).fittings![0]!.params).toEqual({
      turn: 90,
      heel: 'left',
      throatIn: 200,
      throatOut: 320
    });
  });

  it('a bend driven by its setback keeps its gores when the setback counts from the other end', () => {
    const job = makeJob(bend({ params: { turn: 90, heel: 'right', throatIn: 320, setback: 700 } }));
    const there = reverse(job);
    expect(there.fittings![0]!.params['setback']).toBe(700 - 320 + 200);
    const volume = (said: Job): number => writeSheetOf(said).fittings[0]!.volume;
    expect(volume(there)).toBeCloseTo(volume(job), 2);
  });

  it('take ends and seam along: every piece has its seam where it was', () => {
    for (const pieces of [2, 3, 4]) {
      const job = makeJob(
        bend({
          params: { turn: 60, heel: 'right', throatIn: 320, pieces },
          ends: { inlet: 'male' },
          seam: 'top-right'
        })
      );
      const seams = (said: Job): string[] =>
        writeSheetOf(said).fittings[0]!.straights[0]!.pieces.map(({ seam }) => seam);
      const swapped = (seam: string): string =>
        seam.replace(/left|right/, (side) => (side === 'left' ? 'right' : 'left'));
      expect(seams(mirror(job))).toEqual(seams(job).map(swapped));
      expect(seams(reverse(job))).toEqual(seams(job).map(swapped).reverse());
      expect(mirror(job).fittings![0]!.ends).toEqual({ inlet: 'male' });
      expect(reverse(job).fittings![0]!.ends).toEqual({ outlet: 'male' });
      expect(mirror(mirror(job))).toEqual(job);
      expect(evaluate(reverse(reverse(job))).fittings[0]!.resolved).toEqual(
        evaluate(job).fittings[0]!.resolved
      );
    }
  });

  it('leave a straight as it is', () => {
    const job = makeJob({ family: 'straight', section: SECTION, params: { length: 900 } });
    expect(mirror(job)).toEqual(job);
    expect(reverse(job)).toEqual(job);
  });
});
