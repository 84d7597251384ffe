import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawJob } from '../../../tests/properties/documents.ts';
import type { Job } from '../kernel/document/job.ts';
import { readJob } from '../kernel/document/read.ts';
import { makeEmptyJob, nameJobFile, writeJobFile } from './job-file.ts';

/** The same document with the fields of every object the other way round. */
function turnRound(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(turnRound);
  if (typeof node !== 'object' || node === null) return node;
  return Object.fromEntries(
    Object.entries(node)
      .reverse()
      .map(([name, value]) => [name, turnRound(value)])
  );
}

describe('the file of a job', () => {
  it('is the whole document, read back as it was', () => {
    fc.assert(
      fc.property(drawJob, (job) => {
        expect(readJob(writeJobFile(job as unknown as Job))).toEqual({ job });
      }),
      { seed: 7 }
    );
  });

  it('has the same bytes in whatever order its fields came about', () => {
    fc.assert(
      fc.property(drawJob, (job) => {
        expect(writeJobFile(turnRound(job) as Job)).toBe(writeJobFile(job as unknown as Job));
      }),
      { seed: 7 }
    );
  });

  it('is indented and ends with a line feed', () => {
    expect(writeJobFile(makeEmptyJob())).toBe(
      '{\n  "format": "gorewright-job",\n  "version": 1,\n  "fittings": []\n}\n'
    );
  });

  it.each([
    ['Village library, store room', 'Village-library-store-room'],
    ['  ', 'job'],
    ['Größe 3/4"', 'Größe-3-4'],
    ['..\\..\\etc', 'etc']
  ])('of "%s" is called %s', (name, file) => {
    expect(nameJobFile({ ...makeEmptyJob(), name })).toBe(`${file}.gorewright.json`);
  });
});
