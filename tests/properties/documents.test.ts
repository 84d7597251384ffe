// Ten thousand documents, legal and broken: each gives a sheet, or a sheet that says what cannot be built, or a refusal in
// one line. Nothing else: no crash, no null, no sheet that its own schema refuses.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import { answerText, compilePublished, findUnfit, type Answer } from './answers.ts';
import { BREAKS, listPaths, mayBeNull, replace, type Path } from './broken-documents.ts';
import { drawJob } from './documents.ts';

const LEGAL_RUNS = 5000;
const BROKEN_RUNS = 5000;
const PLENTY = 300_000;

const acceptsJob = compilePublished('gorewright-job');
const acceptsSheet = compilePublished('gorewright-sheet');

/** What JSON Schema cannot say, by what the reader expected instead. */
const BEYOND_SCHEMA =
  /^(a tag of its own|one joint fewer than lengths .*|the tag of a fitting in the list|a direction.*|at least min\[\d\].*)$/;

/** Asserts what every answer owes, and that the published schema agrees with the reader. */
function judge(text: string): Answer {
  const answer = answerText(text);
  if (answer.kind === 'refused') {
    if (answer.line.trim() === '' || /[\n\r]/.test(answer.line)) {
      throw new Error(`not one line: ${JSON.stringify(answer.line)}`);
    }
  } else {
    const unfit = findUnfit(answer.sheet, acceptsSheet);
    if (unfit) throw new Error(unfit);
  }
  const document = parse(text);
  if (document === undefined) {
    if (answer.kind !== 'refused') throw new Error('what is not JSON was read');
    return answer;
  }
  const accepted = acceptsJob(document);
  if (answer.kind !== 'refused' && !accepted) {
    throw new Error(`read, but the published schema refuses it: ${JSON.stringify(acceptsJob.errors)}`);
  }
  if (answer.kind === 'refused' && accepted && !BEYOND_SCHEMA.test(answer.fault.expected)) {
    throw new Error(`refused (${answer.line}), but the published schema accepts it`);
  }
  return answer;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return undefined;
  }
}

describe('generated documents', () => {
  it(
    'that are legal all give a sheet, of ducts that are built or that say why they cannot be',
    { timeout: PLENTY },
    () => {
      const counts = { built: 0, 'not buildable': 0, refused: 0 };
      const fittings = { built: 0, refused: 0 };
      fc.assert(
        fc.property(drawJob, (job) => {
          const answer = judge(JSON.stringify(job));
          counts[answer.kind]++;
          if (answer.kind === 'refused') throw new Error(`a legal document was refused: ${answer.line}`);
          for (const { buildable } of answer.sheet.fittings) fittings[buildable ? 'built' : 'refused']++;
        }),
        { numRuns: LEGAL_RUNS, seed: 1 }
      );
      expect(counts.built + counts['not buildable']).toBe(LEGAL_RUNS);
      expect(counts.built).toBeGreaterThan(LEGAL_RUNS / 10);
      expect(counts['not buildable']).toBeGreaterThan(LEGAL_RUNS / 10);
      // Boards that no straight can be made from are drawn too.
      expect(fittings.built).toBeGreaterThan(LEGAL_RUNS / 3);
      expect(fittings.refused).toBeGreaterThan(LEGAL_RUNS / 10);
    }
  );

  it('that are broken are refused in one line, or still give a sheet', { timeout: PLENTY }, () => {
    const counts = { built: 0, 'not buildable': 0, refused: 0 };
    const made = new Map<string, number>(BREAKS.map(({ name }) => [name, 0]));
    const readable = new Map<string, number>();
    fc.assert(
      fc.property(drawJob, fc.constantFrom(...BREAKS), fc.infiniteStream(fc.nat()), (job, broken, stream) => {
        const text = broken.break(job, (n) => (n > 0 ? stream.next().value! % n : 0));
        const answer = judge(text);
        counts[answer.kind]++;
        made.set(broken.name, made.get(broken.name)! + 1);
        if (answer.kind !== 'refused') {
          if (broken.refused) throw new Error(`read although broken: ${broken.name}: ${text.slice(0, 300)}`);
          readable.set(broken.name, (readable.get(broken.name) ?? 0) + 1);
        }
      }),
      { numRuns: BROKEN_RUNS, seed: 2 }
    );
    expect(counts.built + counts['not buildable'] + counts.refused).toBe(BROKEN_RUNS);
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(0);
    // Every way of breaking was tried, and every way that may be legal was so at least once.
    expect([...made].filter(([, count]) => count < 20)).toEqual([]);
    expect([...readable.keys()].sort()).toEqual(
      BREAKS.filter(({ refused }) => !refused)
        .map(({ name }) => name)
        .sort()
    );
  });

  it('that are broken in two places are refused for the first one as written', { timeout: PLENTY }, () => {
    let apart = 0;
    fc.assert(
      fc.property(drawJob, fc.boolean(), fc.nat(), fc.nat(), (drawn, backward, one, other) => {
        const job = backward ? reverseFields(drawn) : drawn;
        // What lies in a fitting of no known family cannot be judged, so the family stays.
        const leaves = listPaths(
          job,
          (value) => typeof value === 'number' || typeof value === 'string'
        ).filter((path) => path[path.length - 1] !== 'family' && !mayBeNull(path));
        const [first, second] = [one % leaves.length, other % leaves.length].sort((a, b) => a - b);
        const broken = [leaves[first!]!, leaves[second!]!].reduce<unknown>(
          (document, path) => replace(document, path, () => null),
          job
        );
        const answer = judge(JSON.stringify(broken));
        if (answer.kind !== 'refused') throw new Error('read although broken');
        expect(answer.fault.path).toBe(writePath(leaves[first!]!));
        if (first !== second) apart++;
      }),
      { numRuns: 1000, seed: 3 }
    );
    expect(apart).toBeGreaterThan(500);
  });

  it('that are legal hold fittings of every family and sites, with and without what may be left out', () => {
    const seen = new Map<string, Set<string>>();
    const sites = new Set<string>();
    for (const job of fc.sample(drawJob, { numRuns: 1000, seed: 4 })) {
      for (const name of Object.keys(job['site'] ?? {})) sites.add(name);
      for (const { family, params } of (job['fittings'] ?? []) as { family: string; params: object }[]) {
        const said = seen.get(family) ?? new Set();
        for (const name of Object.keys(params)) said.add(name);
        seen.set(family, said);
      }
    }
    expect([...sites].sort()).toEqual([
      'clearance',
      'end',
      'fitting',
      'handRoom',
      'obstacles',
      'section',
      'tape'
    ]);
    for (const { name, params } of FAMILIES) {
      expect([...(seen.get(name) ?? [])].sort()).toEqual(Object.keys(params).sort());
    }
  });
});

/** The same document written with its fields in the opposite order. */
function reverseFields<T>(node: T): T {
  if (Array.isArray(node)) return node.map(reverseFields) as T;
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(
    Object.entries(node)
      .reverse()
      .map(([key, value]) => [key, reverseFields(value as unknown)])
  ) as T;
}

function writePath(path: Path): string {
  return path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : `${text}${text && '.'}${step}`),
    ''
  );
}
