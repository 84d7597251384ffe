import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Job } from '../kernel/document/job.ts';
import { readJob, tellFault } from '../kernel/document/read.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import { DEMO_JOB } from './demo.ts';
import { EXAMPLES } from './examples.ts';
import { writeJobFile } from './job-file.ts';

const folder = new URL('../../../static/examples/', import.meta.url);

const readText = (file: string): string => readFileSync(new URL(file, folder), 'utf8');

function readExample(file: string): Job {
  const read = readJob(readText(file));
  if ('fault' in read) throw new Error(`${file}: ${tellFault(read.fault)}`);
  return read.job;
}

describe.each(EXAMPLES)('the example $name', ({ file, name }) => {
  it('can be read and built, without a finding that forbids it', () => {
    const job = readExample(file);
    expect(job.name).toBe(name);
    const { fittings } = evaluate(job);
    expect(fittings.length).toBeGreaterThan(0);
    for (const { resolved, built, findings } of fittings) {
      expect([resolved.tag, ...findings.filter(({ level }) => level === 'error')]).toEqual([resolved.tag]);
      expect(built!.openEdges).toBe(0);
    }
  });

  it('is written as the page saves it', () => {
    expect(writeJobFile(readExample(file))).toBe(readText(file));
  });
});

describe('the examples', () => {
  it('are all offered, and the first is the job a newcomer finds', () => {
    expect(readdirSync(folder).sort()).toEqual(EXAMPLES.map(({ file }) => file).sort());
    expect(readText(EXAMPLES[0].file)).toBe(writeJobFile(DEMO_JOB));
  });

  it('show every fitting family', () => {
    const shown = new Set(
      EXAMPLES.flatMap(({ file }) => readExample(file).fittings!.map(({ family }) => family))
    );
    expect([...shown].sort()).toEqual(FAMILIES.map(({ name }) => name).sort());
  });
});
