import fc from 'fast-check';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { evaluateJob, EXAMPLES, PARTED_EXAMPLES } from '../../../tests/paper.ts';
import { drawJob } from '../../../tests/properties/documents.ts';
import type { Job } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { digestJob, writeCanonicalJob } from './digest.ts';
import { LARGEST_DOCUMENT, LONGEST_LINK, pickFitting, pickModelled, readLink, writeLink } from './link.ts';

const ADDRESS = 'https://ducts.example/';
const FITTINGS = Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES });
const SITE = {
  section: EXAMPLES.bend.section,
  end: { at: [2600, null, 0], flow: [1, 0, 0], up: [0, 1, 0] },
  clearance: 25,
  obstacles: [{ name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] }]
};

const makeJob = (rest: object): Job => ({ format: 'gorewright-job', version: 1, ...rest });

function link(job: Job): string {
  const made = writeLink(job, ADDRESS);
  if (!('link' in made)) throw new Error(`${made.has} ${made.over}`);
  return made.link;
}

function open(address: string): Job {
  const read = readLink(new URL(address).hash);
  if (!read || !('job' in read)) throw new Error(JSON.stringify(read));
  return read.job;
}

/** A document in a link as others might write it. */
const pack = (document: string | Uint8Array): string =>
  `#job=1${deflateRawSync(document, { level: 9 }).toString('base64url')}`;

describe('a link', () => {
  it.each(FITTINGS)('to %s opens as the same fitting', async (_, said) => {
    const job = makeJob({ name: 'Reading room supply', show: { length: 'in/16' }, fittings: [said] });
    const digest = await digestJob(evaluate(job));
    for (const one of [job, pickFitting(job, 0), pickModelled(evaluate(job), 0)]) {
      expect(await digestJob(evaluate(open(link(one))))).toBe(digest);
      // Half of what is practical for a code on a label (1200 characters).
      expect(link(one).length).toBeLessThan(600);
    }
  });

  it('to any job opens as the same job, and nothing in it is said that was not', () => {
    fc.assert(
      fc.property(drawJob, (drawn) => {
        const job = drawn as unknown as Job;
        const made = writeLink(job, ADDRESS);
        if (!('link' in made)) return;
        const opened = open(made.link);
        expect(writeCanonicalJob(evaluate(opened))).toBe(writeCanonicalJob(evaluate(job)));
        expect(Object.keys(job)).toEqual(expect.arrayContaining(Object.keys(opened)));
      }),
      { numRuns: 100, seed: 5 }
    );
  });

  it('is canonical JSON, deflated, in base64url, as other readers find it', () => {
    const job = makeJob({
      name: 'Attic',
      show: { precision: 1, length: 'mm' },
      shop: { minGore: 150 },
      fittings: [{ ...EXAMPLES.bend, tag: 'F1', quantity: 1, ends: {} }]
    });
    const [address, packed] = link(job).split('#job=1') as [string, string];
    expect(address).toBe(ADDRESS);
    expect(packed).toMatch(/^[A-Za-z0-9_-]+$/);
    expect(inflateRawSync(Buffer.from(packed, 'base64url')).toString()).toBe(
      '{"fittings":[{"family":"bend","params":{"gore":150,"heel":"right","pieces":3,"throatIn":200,"throatOut":200,"turn":90},"section":{"height":250,"width":400}}],"format":"gorewright-job","name":"Attic","show":{"precision":1},"version":1}'
    );
  });

  it('to a fitting keeps its tag, board, shop and units, and leaves the others and the site', () => {
    const said = [EXAMPLES.bend, { ...EXAMPLES.offset, quantity: 3 }, EXAMPLES.straight];
    const rest = { board: { thickness: 30 }, shop: { minThroat: 100 }, show: { length: 'in' } };
    const job = makeJob({ name: 'Hall', ...rest, fittings: said, site: { ...SITE, fitting: 'F1' } });
    const opened = open(link(pickFitting(job, 1)));
    expect(opened).toEqual(makeJob({ name: 'Hall', ...rest, fittings: [{ ...said[1], tag: 'F2' }] }));
    expect(evaluate(open(link(job))).site).toEqual(evaluate(job).site);
    expect(() => pickFitting(job, 3)).toThrow('no fitting 3 among 3');
    expect(() => pickModelled(evaluateJob([EXAMPLES.bend]), 1)).toThrow('no fitting 1 among 1');
  });

  it('that would be too long, or hold too much, is not made; how much is said', () => {
    let state = 1;
    const fittings = Array.from({ length: 800 }, (_, i) => ({
      ...EXAMPLES.straight,
      params: { length: 500 + (state = (state * 16807) % 2147483647) / 1e7 },
      quantity: i + 1
    }));
    const long = writeLink(makeJob({ fittings }), ADDRESS);
    expect(long).toMatchObject({ over: 'characters', most: 8000 });
    expect('has' in long && long.has).toBeGreaterThan(LONGEST_LINK);
    expect(open(link(makeJob({ fittings: fittings.slice(0, 300) }))).fittings).toHaveLength(300);
    // Short once it is compressed.
    const much = (bytes: number): Job => makeJob({ name: 'x'.repeat(bytes) });
    expect(writeLink(much(LARGEST_DOCUMENT), ADDRESS)).toMatchObject({ over: 'bytes', most: 262_144 });
    expect(open(link(much(LARGEST_DOCUMENT - 100)))).toEqual(much(LARGEST_DOCUMENT - 100));
  });
});

describe('a fragment', () => {
  const good = pack(JSON.stringify(makeJob({ fittings: [EXAMPLES.bend] })));

  it('of something else is no link', () => {
    for (const other of ['', '#', '#top', '#job', '#jobs=1abc', 'job=1abc'])
      expect(readLink(other)).toBeNull();
  });

  it.each([
    ['longer than any link', `#job=1${'A'.repeat(LONGEST_LINK)}`, 'long'],
    ['of a newer product', `#job=2${good.slice(6)}`, 'newer'],
    ['without a version', '#job=', 'damaged'],
    ['of no version that there will be', `#job=x${good.slice(6)}`, 'damaged'],
    ['of nothing', '#job=1', 'damaged'],
    ['with a character of another alphabet', `${good}=`, 'damaged'],
    ['with a full stop from the end of a sentence', `${good}.`, 'damaged'],
    ['cut off', good.slice(0, -20), 'damaged'],
    ['that is not deflated', '#job=1____', 'damaged'],
    ['of bytes that are no text', pack(new Uint8Array([0xff, 0xfe, 0x22])), 'damaged'],
    ['that inflates to millions', pack('x'.repeat(5_000_000)), 'large']
  ] as const)('%s is told, not thrown', (_, fragment, broken) => {
    expect(readLink(fragment)).toEqual({ broken });
  });

  it('of a document that is none is told as of a file', () => {
    expect(readLink(pack('{"format":"gorewright-job","version":1,"nme":1}'))).toEqual({
      fault: { path: 'nme', wrong: 'is not a known field', expected: 'only fields of the published schema' }
    });
    expect(readLink(pack('notes'))).toMatchObject({ fault: { expected: 'a JSON document' } });
  });

  it('cut off anywhere opens nothing', () => {
    for (let end = 6; end < good.length; end++) {
      const read = readLink(good.slice(0, end));
      expect(read && 'job' in read, `${end} of ${good.length}`).toBe(false);
    }
  });
});
