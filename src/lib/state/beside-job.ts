import type { Job } from '../kernel/document/job.ts';
import { checkJob, type Fault } from '../kernel/document/read.ts';
import { isRecord } from '../kernel/document/record.ts';
import type { Site } from '../kernel/site/site.ts';

/** What the site panel says that the job does not: a card that is not placed yet, a site that is not begun. */
export interface SiteDraft {
  /** What it goes with, as {@link identifyPlaced} tells it. */
  readonly of: string;
  readonly site: Site;
}

/** What the page knows of parameters that it found: the site they were found for, and what they amount to. */
export interface Trail {
  /** As `identifyTask` tells it. */
  readonly site: string;
  readonly joints: number;
  /** All that it turns, degrees. */
  readonly turn: number;
}

/** The fitting that follows its site. */
export interface Followed extends Trail {
  /** Its family and parameters, as one text. */
  readonly said: string;
}

/** The job's name and the card that is placed in it, as one text: the draft of another is none of this one. */
export function identifyPlaced({ name, site }: Job): string {
  return JSON.stringify([name, site?.tape]);
}

/** Why no document could say this site; null where one could. */
export function checkDraft(site: unknown): Fault | null {
  const checked = checkJob({ format: 'gorewright-job', version: 1, site });
  return 'fault' in checked ? checked.fault : null;
}

/** A draft as it was kept; null where there was none, or none that a document could say. */
export function readSiteDraft(kept: unknown): SiteDraft | null {
  if (!isRecord(kept)) return null;
  const { of, site } = kept;
  return typeof of === 'string' && isRecord(site) && checkDraft(site) === null
    ? { of, site: site as unknown as Site }
    : null;
}

/** What was kept of the fitting that follows its site; null where none did, or it cannot be read. */
export function readFollowed(kept: unknown): Followed | null {
  if (!isRecord(kept)) return null;
  const { said, site, joints, turn } = kept;
  const isWhole =
    typeof said === 'string' &&
    typeof site === 'string' &&
    typeof joints === 'number' &&
    typeof turn === 'number';
  return isWhole ? { said, site, joints, turn } : null;
}
