import fc, { type Arbitrary } from 'fast-check';
import { Inflate } from 'fflate';
import { deflateRawSync } from 'node:zlib';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { LARGEST_DOCUMENT, LONGEST_LINK, readLink, writeLink } from '../../src/lib/exports/link.ts';
import { LINK_PREFIX, type Job } from '../../src/lib/kernel/document/job.ts';
import { readJob, tellFault } from '../../src/lib/kernel/document/read.ts';
import { DEMO_JOB } from '../../src/lib/state/demo.ts';
import { createEditor } from '../../src/lib/state/editor.svelte.ts';
import { createLinked } from '../../src/lib/state/linked.svelte.ts';
import { EXAMPLES, PARTED_EXAMPLES } from '../paper.ts';

/** What came out of the inflater since it was last set to nothing. */
const inflated = vi.hoisted(() => ({ bytes: 0 }));

vi.mock('fflate', async (load) => {
  const real = await load<{ Inflate: typeof Inflate }>();
  class Counted extends real.Inflate {
    constructor(
      hear: ConstructorParameters<typeof Inflate>[0] & ((part: Uint8Array, last: boolean) => void)
    ) {
      super((part, last) => {
        inflated.bytes += part.length;
        hear(part, last);
      });
    }
  }
  return { ...real, Inflate: Counted };
});

/** Links, and as many files. */
const RUNS = 5000;

/** Documents that can be read, one of every family. */
const DOCUMENTS = Object.values({ ...EXAMPLES, ...PARTED_EXAMPLES }).map((said) =>
  JSON.stringify({
    format: 'gorewright-job',
    version: 1,
    name: 'Hall',
    board: { thickness: 30 },
    fittings: [said]
  })
);

/** What is put into a document where it hurts most. */
const HOSTILE = [
  '"__proto__":{"polluted":true},',
  '"constructor":{"prototype":{"polluted":true}},',
  '"toString":null,',
  '"fittings":[{"__proto__":{"polluted":true}}],',
  '1e999',
  '-1e308',
  '1e-320',
  '-0',
  '9'.repeat(400),
  'null',
  '<script>globalThis.polluted=true</script>',
  '"}]});globalThis.polluted=true;({"a":[{"b":"',
  '${globalThis.polluted=true}',
  '<img src=x onerror=globalThis.polluted=true>',
  '[['.repeat(3000),
  '{"a":'.repeat(3000),
  '\u202E\uFEFF\u0000',
  '\\ud800',
  '"',
  '{',
  ',',
  ''
] as const;

/** A text with some of it left out, doubled or replaced by what hurts. */
function drawMutated(texts: readonly string[]): Arbitrary<string> {
  const change = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    over: fc.oneof(fc.nat(3), fc.nat(60)),
    put: fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ maxLength: 3 }), fc.constant(null))
  });
  const changes = fc.array(change, { minLength: 1, maxLength: 3 });
  return fc.tuple(fc.constantFrom(...texts), changes).map(([text, all]) =>
    all.reduce((now, { at, over, put }) => {
      const from = Math.floor(at * now.length);
      const taken = now.slice(from, from + over);
      return now.slice(0, from) + (put ?? taken + taken) + now.slice(from + (put === null ? 0 : over));
    }, text)
  );
}

/** One number of a document replaced by another of any size. */
const drawNumbered = fc
  .tuple(fc.constantFrom(...DOCUMENTS), fc.nat(40), fc.oneof(fc.double(), fc.integer({ min: 0, max: 900 })))
  .map(([text, which, value]) => {
    let seen = 0;
    return text.replace(/(?<=:)-?\d+(\.\d+)?/g, (number) => (seen++ === which ? String(value) : number));
  });

const drawDocument = fc.oneof(drawMutated(DOCUMENTS), drawNumbered, fc.string());

const pack = (document: string | Uint8Array): string =>
  `#job=1${deflateRawSync(document).toString('base64url')}`;

const GOOD = DOCUMENTS.map((text) => {
  const made = writeLink(JSON.parse(text) as Job, '');
  return 'link' in made ? made.link : '';
});

/** Little that inflates to much: of one letter, of brackets, of fields, of fittings. */
const BOMBS = ['x', '[', '{"a":', '{},', '"k":1,', ' '].flatMap((part) =>
  [100_000, 300_000, 3_000_000].map((bytes) => pack(`{"fittings":[${part.repeat(bytes / part.length)}`))
);

/** A good link of any version. */
const drawVersioned = fc
  .tuple(fc.constantFrom(...GOOD), fc.constantFrom(...'0123456789aZ-_ %'))
  .map(([link, version]) => link.replace('=1', `=${version}`));

const drawLink = fc.oneof(
  { arbitrary: drawDocument.map(pack), weight: 12 },
  { arbitrary: drawMutated(GOOD), weight: 6 },
  {
    arbitrary: fc
      .uint8Array({ maxLength: 400 })
      .map((bytes) => `#job=1${Buffer.from(bytes).toString('base64url')}`),
    weight: 4
  },
  { arbitrary: fc.uint8Array({ maxLength: 400 }).map(pack), weight: 2 },
  { arbitrary: fc.string({ unit: 'binary', maxLength: 200 }).map((text) => `#job=${text}`), weight: 2 },
  {
    arbitrary: fc.integer({ min: 7000, max: 9000 }).map((count) => `#job=1${'AQab'.repeat(count / 4)}`),
    weight: 1
  },
  { arbitrary: fc.constantFrom(...BOMBS), weight: 1 },
  { arbitrary: drawVersioned, weight: 1 }
);

afterEach(() => {
  expect(globalThis).not.toHaveProperty('polluted');
  expect({}).not.toHaveProperty('polluted');
  expect(Object.keys(Object.prototype)).toEqual([]);
});

describe('of ten thousand links and files that were tampered with', () => {
  it('every link is refused in words or offered, within its bounds, and the open job stays until it is asked for', () => {
    const editor = createEditor(DEMO_JOB);
    const linked = createLinked(editor);
    const before = editor.job;
    const ended: Record<string, number> = {};
    fc.assert(
      fc.property(drawLink, (fragment) => {
        inflated.bytes = 0;
        const read = readLink(fragment);
        // What a step of the inflater gives at most beyond the limit.
        expect(inflated.bytes).toBeLessThanOrEqual(LARGEST_DOCUMENT + 32 * 1032);
        if (fragment.startsWith(LINK_PREFIX) && fragment.length > LONGEST_LINK)
          expect(read).toEqual({ broken: 'long' });
        const how = !read ? 'none' : 'broken' in read ? read.broken : 'fault' in read ? 'fault' : 'job';
        ended[how] = (ended[how] ?? 0) + 1;
        if (read && 'fault' in read) expect(tellFault(read.fault)).toMatch(/^.{10,}$/);
        if (!read || !('job' in read)) return;
        linked.offer(read.job);
        expect(editor.job).toBe(before);
        expect(editor.canUndo).toBe(false);
        if (ended['job']! % 4 !== 0) return linked.leave();
        expect(linked.open()).toBe(true);
        expect(editor.job).toBe(read.job);
        editor.undo();
        expect(editor.job).toBe(before);
      }),
      { numRuns: RUNS, seed: 6, endOnFailure: true }
    );
    // Every way to end was taken, none by all.
    for (const how of ['job', 'fault', 'damaged', 'newer', 'long', 'large'])
      expect(ended[how], how).toBeGreaterThan(10);
  });

  it('every file is refused in words or opened as one step, which undo takes back', () => {
    const editor = createEditor(DEMO_JOB);
    const before = editor.job;
    let opened = 0;
    let refused = 0;
    fc.assert(
      fc.property(drawDocument, (text) => {
        const read = readJob(text);
        if ('fault' in read) {
          refused++;
          expect(tellFault(read.fault)).toMatch(/^.{10,}$/);
          return;
        }
        if (++opened % 8 !== 0) return;
        expect(editor.do({ kind: 'open-job', job: read.job })).toBeNull();
        editor.undo();
        expect(editor.job).toBe(before);
      }),
      { numRuns: RUNS, seed: 8, endOnFailure: true }
    );
    expect(opened).toBeGreaterThan(500);
    expect(refused).toBeGreaterThan(2000);
  });
});
