import { tellFault } from '$lib/kernel/document/read.ts';
import { readLink } from '$lib/exports/link.ts';
import type { Job } from '$lib/kernel/document/job.ts';
import { speakOfLinks } from '$lib/words/speak-of-links.ts';
import type { Words } from '$lib/words/words.ts';

// What links need is fetched when there is one, or one is made.
export { pickFitting } from '$lib/exports/link.ts';
export { default as Made } from './Made.svelte';
export { default as Offered } from './Offered.svelte';

/** The job that a fragment holds, or why it holds none that can be opened; null where it is no link to a job. */
export function hearLink(fragment: string, words: Words): { job: Job } | { why: string } | null {
  const read = readLink(fragment);
  if (!read) return null;
  if ('broken' in read) return { why: speakOfLinks(words.language).broken[read.broken] };
  return 'fault' in read ? { why: tellFault(read.fault) } : read;
}
