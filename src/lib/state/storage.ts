import { get, set } from 'idb-keyval';
import type { Job } from '../kernel/document/job.ts';
import { readJob, type ReadResult } from '../kernel/document/read.ts';
import { readFollowed, readSiteDraft, type Followed, type SiteDraft } from './beside-job.ts';
import { readWorkLog, type WorkLog } from './ticks.ts';

/** Where the job is kept in the browser's own database. */
const KEY = 'gorewright-job';

/** Where that is kept of the open job which is not part of it. */
const DRAFT = 'gorewright-site-draft';
const FOLLOWED = 'gorewright-followed';

/** The job as it was last saved here; null when there is none. What cannot be read is told, never thrown away. */
export async function loadJob(): Promise<ReadResult | null> {
  const text: unknown = await get(KEY);
  return typeof text === 'string' ? readJob(text) : null;
}

/** Saves the job; fulfilled once the database has taken it. */
export async function saveJob(job: Job): Promise<void> {
  await set(KEY, JSON.stringify(job));
}

/** What the site panel said last that was not in the job; null where there was nothing. */
export async function loadSiteDraft(): Promise<SiteDraft | null> {
  return readSiteDraft(await get(DRAFT));
}

/** Saves the draft, or that there is none; fulfilled once the database has taken it. */
export async function saveSiteDraft(draft: SiteDraft | null): Promise<void> {
  await set(DRAFT, draft);
}

/** The fitting that followed its site; null where none did. */
export async function loadFollowed(): Promise<Followed | null> {
  return readFollowed(await get(FOLLOWED));
}

/** Saves which fitting follows its site, or that none does; fulfilled once the database has taken it. */
export async function saveFollowed(followed: Followed | null): Promise<void> {
  await set(FOLLOWED, followed);
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
