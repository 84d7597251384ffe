import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawJob } from '../../../../tests/properties/documents.ts';
import { EXAMPLES, PARTED_EXAMPLES } from '../../../../tests/paper.ts';
import { writeCanonicalJob } from '../../exports/digest.ts';
import { tellChanges } from '../../words/tell-changes.ts';
import { evaluate } from '../evaluate.ts';
import { findKind, readParam, writeParam } from '../families/param-path.ts';
import { compareJobs, type JobChanges, type ValueChange } from './compare.ts';
import { DEFAULT_SHOW, type Job, type SaidFitting, type Show } from './job.ts';
import { resolveJob } from './resolve.ts';
import { findFamily } from '../families/index.ts';

const FITTINGS = Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES }).map(
  ([tag, fitting]) => ({ ...fitting, tag, quantity: 2 }) as unknown as SaidFitting
);
const job = (fittings: readonly SaidFitting[], rest: Partial<Job> = {}): Job => ({
  format: 'gorewright-job',
  version: 1,
  name: 'Attic',
  fittings,
  ...rest
});
const compare = (before: Job, now: Job): JobChanges => compareJobs(resolveJob(before), resolveJob(now));
const tell = (before: Job, now: Job, show: Partial<Show> = {}): string[] =>
  tellChanges(compare(before, now), { ...DEFAULT_SHOW, ...show });

/** The paths of all single values that a fitting says. */
function listLeaves(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, entry]) =>
    listLeaves(entry, Array.isArray(value) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`)
  );
}

/** Another value of the same kind; of a choice the next one, of a number one that is `by` more. */
function edit(fitting: SaidFitting, path: string, by: number): { said: SaidFitting; change: ValueChange } {
  const before = readParam(fitting, path) as number | string;
  const kind = path.startsWith('params.') ? findKind(findFamily(fitting.family), path.slice(7)) : null;
  const others =
    kind && 'of' in kind ? kind.of.filter((one) => one !== before && before !== 'rectangle') : [];
  const now =
    typeof before === 'number'
      ? before + (kind === null || kind.kind === 'count' ? Math.max(1, Math.round(by)) : by)
      : (others[0] ?? 'round');
  const said = writeParam(fitting as never, path, now) as unknown as SaidFitting;
  return { said, change: { path, before: before === 'rectangle' ? 'rectangular' : before, now } };
}

const canEdit = (fitting: SaidFitting, path: string): boolean =>
  !['tag', 'family'].includes(path) && readParam(fitting, path) !== 'rest';

/** Which fittings are kept, what of them is edited, which come first. */
const drawEdits = fc.record({
  kept: fc.shuffledSubarray(FITTINGS, { minLength: 1 }),
  before: fc.subarray(FITTINGS, { minLength: 1 }),
  edits: fc.array(
    fc.record({ fitting: fc.nat(), leaf: fc.nat(), by: fc.constantFrom(0.0004, 0.02, 0.5, 7, 1234.5) }),
    { maxLength: 6 }
  )
});

describe('what changed between two states of a job', () => {
  it('is every edit of every family, what was added, removed and put elsewhere, and nothing else', () => {
    let edited = 0;
    fc.assert(
      fc.property(drawEdits, ({ before, kept, edits }) => {
        const now = [...kept];
        const expected = new Map<string, Map<string, ValueChange>>();
        for (const { fitting, leaf, by } of edits) {
          const at = fitting % now.length;
          const leaves = listLeaves(now[at]).filter((path) => canEdit(now[at]!, path));
          const { said, change } = edit(now[at]!, leaves[leaf % leaves.length]!, by);
          const own = expected.get(said.tag!) ?? new Map<string, ValueChange>();
          // Edited twice it is told once, from what it first was.
          own.set(change.path, { ...change, before: own.get(change.path)?.before ?? change.before });
          expected.set(said.tag!, own);
          now[at] = said;
        }
        const changes = compare(job(before), job(now));
        const tags = (fittings: readonly { tag?: string }[]) => fittings.map(({ tag }) => tag);
        expect(tags(changes.added)).toEqual(tags(now).filter((tag) => !tags(before).includes(tag)));
        expect(tags(changes.removed)).toEqual(tags(before).filter((tag) => !tags(now).includes(tag)));
        const both = tags(now).filter((tag) => tags(before).includes(tag));
        expect(changes.reordered).toBe(
          both.join('|') !==
            tags(before)
              .filter((tag) => both.includes(tag))
              .join('|')
        );
        expect([changes.job, changes.show, changes.board, changes.shop, changes.site]).toEqual([
          [],
          [],
          [],
          [],
          false
        ]);
        const told = new Map(changes.changed.map(({ fitting, values }) => [fitting.tag, values]));
        for (const tag of both) {
          const values = [...(expected.get(tag!)?.values() ?? [])].filter((one) => one.before !== one.now);
          const sort = (list: readonly ValueChange[]) => [...list].sort((a, b) => (a.path < b.path ? -1 : 1));
          expect(sort(told.get(tag!) ?? []), tag).toEqual(sort(values));
          edited += values.length;
        }
        expect([...told.keys()].every((tag) => both.includes(tag))).toBe(true);
      }),
      { numRuns: 300 }
    );
    expect(edited).toBeGreaterThan(200);
  });

  it('is nothing exactly where the digest is the same', () => {
    let [same, different] = [0, 0];
    fc.assert(
      fc.property(drawJob, drawJob, fc.boolean(), (one, other, isOther) => {
        const before = one as unknown as Job;
        const now = isOther ? (other as unknown as Job) : fillIn(before);
        const unchanged = tell(before, now).length === 0;
        expect(unchanged).toBe(writeCanonicalJob(evaluate(before)) === writeCanonicalJob(evaluate(now)));
        if (unchanged) same++;
        else different++;
      }),
      { numRuns: 60 }
    );
    expect(Math.min(same, different)).toBeGreaterThan(10);
  });

  it('of the shop reaches what follows from it, and says so', () => {
    const [bend] = FITTINGS;
    const said = job([set(bend!, 'params.throatIn', undefined)]);
    expect(tell(said, { ...said, shop: { minThroat: 250 } })).toEqual([
      'Shop, least throat: 200 mm → 250 mm.',
      'bend bend, Throat at inlet: 200 mm → 250 mm.'
    ]);
  });
});

/** The same job with some of its defaults written out. */
function fillIn(said: Job): Job {
  return { ...said, board: { thickness: 25, ...said.board }, show: { precision: 0, ...said.show } };
}

describe('the sentences of what changed', () => {
  it.each(['mm', 'in', 'in/16'] as const)(
    'say label, old and new value of every parameter of every family, so that they differ, in %s',
    (length) => {
      let told = 0;
      for (const fitting of FITTINGS) {
        for (const path of listLeaves(fitting).filter((one) => canEdit(fitting, one))) {
          for (const by of [0.004, 40]) {
            const { said, change } = edit(fitting, path, by);
            const sentences = tell(job([fitting]), job([said]), { length });
            expect(sentences).toHaveLength(1);
            const [, label, before, now] = /, ([^:]+(?:: [a-z ]+)?): (.+) → (.+)\.$/.exec(sentences[0]!)!;
            expect(label).toMatch(/\S/);
            expect(sentences[0]).not.toMatch(/undefined|NaN|\[object|null/);
            if (typeof change.now === 'number') {
              const wanted = [change.before, change.now] as number[];
              const read = [before!, now!].map((figure) => readFigure(figure));
              // As told they are as far apart as they are, as far as the figures of a tape go.
              expect(read[1]! - read[0]!, sentences[0]).toBeGreaterThan(0);
              wanted.forEach((value, i) =>
                expect(Math.abs(read[i]! - value), sentences[0]).toBeLessThan(0.8)
              );
            }
            told++;
          }
        }
      }
      expect(told).toBeGreaterThan(200);
    }
  );

  const [bend, offset] = FITTINGS;
  it.each<[string, Job, Job, string[]]>([
    [
      'another gore',
      job([bend!]),
      job([set(bend!, 'params.gore', 180)]),
      ['bend bend, Gore: 150 mm → 180 mm.']
    ],
    [
      'a radius in place of a gore',
      job([bend!]),
      job([set(set(bend!, 'params.gore', undefined), 'params.radius', 500)]),
      ['bend bend, Gore: 150 mm → not given; Radius: not given → 500 mm.']
    ],
    [
      'a throat in place of the rest',
      job([offset!]),
      job([set(offset!, 'params.throatOut', 210)]),
      ['offset offset, Throat at outlet: rest of the straight → 210 mm.']
    ],
    [
      'a joint of a path',
      job([FITTINGS[3]!]),
      job([set(FITTINGS[3]!, 'params.joints[1].turn', 25.04)]),
      ['path free path, Joint 2, Turn: 25° → 25.04°.']
    ],
    [
      'how a fitting is made',
      job([bend!]),
      job([{ ...bend!, lay: 'along', seam: 'bottom-left', ends: { inlet: 'plain' }, quantity: 3 }]),
      [
        'bend bend, quantity: 2 → 3; laid on the board: not given → along; seam: top left → bottom left; end at inlet: not given → plain.'
      ]
    ],
    [
      'another family under the same tag',
      job([bend!]),
      job([{ ...offset!, tag: 'bend' }]),
      ['bend offset, family: bend → offset.']
    ],
    [
      'another board, shop, name and unit',
      job([bend!]),
      job([bend!], {
        name: 'Loft',
        board: { thickness: 30.5, corner: 'shiplap', density: 75.5 },
        shop: { blades: [] },
        show: { length: 'in/16' }
      }),
      [
        'Job, name: "Attic" → "Loft".',
        'Figures, unit of lengths: mm → in, sixteenths.',
        'Board, thickness: 25 mm → 31 mm; corners: mitered → shiplapped; density: 70 kg/m³ → 75.5 kg/m³.',
        'Shop, blades: 0°, 22.5°, 45° → none.'
      ]
    ],
    [
      'fittings that come, go and stand elsewhere',
      job([bend!, offset!, FITTINGS[4]!]),
      job([{ ...bend!, tag: 'N' }, offset!, bend!]),
      [
        'straight straight: removed.',
        'N added: bend, 400 × 250 mm inside, 2 off.',
        'The fittings stand in another order.'
      ]
    ],
    ['nothing', job([bend!]), job([{ ...bend!, seam: 'top-left' }]), []]
  ])('say %s', (_, before, now, sentences) => {
    expect(tell(before, now)).toEqual(sentences);
  });

  it('say that the place on site is another one', () => {
    const site = {
      section: { width: 400, height: 250 },
      end: { at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] },
      clearance: 25,
      obstacles: []
    } as const;
    expect(tell(job([], { site }), job([], { site: { ...site, clearance: 30 } }))).toEqual([
      'The place on site is another one.'
    ]);
    expect(tell(job([], { site }), job([], { site: { ...site, handRoom: 100 } }))).toEqual([]);
  });
});

function set(fitting: SaidFitting, path: string, value: unknown): SaidFitting {
  return writeParam(fitting as never, path, value) as unknown as SaidFitting;
}

/** A length in mm or in, an angle or a count, as told: 386.4 mm, -3 5/8 in, 22.5°, 3. */
function readFigure(text: string): number {
  const [, minus, whole = '0', over = '0', under = '1', unit] =
    /^(-?)(?:(\d+(?:\.\d+)?)(?![\d/]))? ?(?:(\d+)\/(\d+))? ?(mm|in|°|)$/.exec(text)!;
  const size = (Number(whole) + Number(over) / Number(under)) * (unit === 'in' ? 25.4 : 1);
  return minus === '' ? size : -size;
}
