import { beforeEach, describe, expect, it, vi } from 'vitest';
import { DEMO_JOB } from './demo.ts';
import { keepIssued, loadIssued } from './issued.ts';

/** What the browser's database is to the page: it holds copies. */
const database = vi.hoisted(() => new Map<string, unknown>());
vi.mock('idb-keyval', () => ({
  get: async (key: string) => structuredClone(database.get(key)),
  set: async (key: string, value: unknown) => void database.set(key, structuredClone(value))
}));
beforeEach(() => database.clear());

const NAME = DEMO_JOB.name!;
const more = (count: number) => ({ ...DEMO_JOB, fittings: DEMO_JOB.fittings!.slice(0, count) });

describe('a job that is issued', () => {
  it('is compared with the revision before, however often a set of it is written', async () => {
    expect(await loadIssued(NAME, 'A')).toBeNull();
    await keepIssued(more(1), 'A');
    expect(await loadIssued(NAME, 'A')).toBeNull();
    expect(await loadIssued(NAME, 'B')).toEqual({ job: more(1), revision: 'A' });
    await keepIssued(more(2), 'B');
    await keepIssued(more(3), 'B');
    expect(await loadIssued(NAME, 'B')).toEqual({ job: more(1), revision: 'A' });
    expect(await loadIssued(NAME, 'C')).toEqual({ job: more(3), revision: 'B' });
    await keepIssued(more(4), 'C');
    expect(await loadIssued(NAME, 'C')).toEqual({ job: more(3), revision: 'B' });
  });

  it('is kept under its name', async () => {
    await keepIssued(DEMO_JOB, 'A');
    await keepIssued({ format: 'gorewright-job', version: 1 }, 'Z');
    expect((await loadIssued(NAME, 'B'))!.revision).toBe('A');
    expect((await loadIssued('', 'B'))!.revision).toBe('Z');
    expect(await loadIssued('Another', 'B')).toBeNull();
  });

  it.each([
    null,
    'A',
    [{ revision: 'A' }],
    [{ job: DEMO_JOB }],
    [{ job: { ...DEMO_JOB, version: 'x' }, revision: 'A' }]
  ])('that was kept as nothing that can be read (%j) is none', async (kept) => {
    await keepIssued(DEMO_JOB, 'A');
    const [key] = database.keys();
    database.set(key!, kept);
    expect(await loadIssued(NAME, 'B')).toBeNull();
  });
});
