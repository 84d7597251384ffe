import { get, set } from 'idb-keyval';
import type { Job } from '../kernel/document/job.ts';
import { readJob, type ReadResult } from '../kernel/document/read.ts';
import { readWorkLog, type WorkLog } from './ticks.ts';

/** Where the job is kept in the browser's own database. */
const KEY = 'gorewright-job';

/** The job as it was last saved here; null when there is none. What cannot be read is told, never thrown away. */
export async function loadJob(): Promise<ReadResult | null> {
  const text: unknown = await get(KEY);
  return typeof text === 'string' ? readJob(text) : null;
}

/** Saves the job; fulfilled once the database has taken it. */
export async function saveJob(job: Job): Promise<void> {
  await set(KEY, JSON.stringify(job));
}

/** What is kept of the work on a fitting of a job; untouched when nothing is. */
export async function loadWork(job: string, tag: string): Promise<WorkLog> {
  return readWorkLog(await get(nameWork(job, tag)));
}

/** Saves the work on a fitting; fulfilled once the database has taken it. */
export async function saveWork(job: string, tag: string, log: WorkLog): Promise<void> {
  await set(nameWork(job, tag), log);
}

function nameWork(job: string, tag: string): string {
  return `gorewright-work ${JSON.stringify([job, tag])}`;
}
