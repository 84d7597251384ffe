import { get, set } from 'idb-keyval';
import type { Job } from '../kernel/document/job.ts';
import { checkJob } from '../kernel/document/read.ts';
import { isRecord } from '../kernel/document/record.ts';

/** A job as it was when a set of it was issued, and under which revision. */
export interface Issued {
  readonly job: Job;
  readonly revision: string;
}

/**
 * The job of this name as it was last issued under another revision than this one, to compare a set with; null where it
 * never was. A set that is written once more still says what changed since the revision before.
 */
export async function loadIssued(name: string, revision: string): Promise<Issued | null> {
  return (await loadAll(name)).find((issued) => issued.revision !== revision) ?? null;
}

/** Keeps the job as it is issued under a revision, and beside it the last one of another; fulfilled once the database has taken both. */
export async function keepIssued(job: Job, revision: string): Promise<void> {
  const before = await loadIssued(job.name ?? '', revision);
  await set(nameKey(job.name ?? ''), [{ job, revision }, ...(before ? [before] : [])]);
}

/** What is kept under a job's name, the last first; what no document could say is left out. */
async function loadAll(name: string): Promise<Issued[]> {
  const kept: unknown = await get(nameKey(name));
  if (!Array.isArray(kept)) return [];
  return kept.flatMap((one: unknown) => {
    if (!isRecord(one) || typeof one['revision'] !== 'string') return [];
    const checked = checkJob(one['job']);
    return 'job' in checked ? [{ job: checked.job, revision: one['revision'] }] : [];
  });
}

function nameKey(name: string): string {
  return `gorewright-issued ${JSON.stringify(name)}`;
}
