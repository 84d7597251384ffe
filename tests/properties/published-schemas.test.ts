import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import { jobSchema } from '../../src/lib/kernel/document/schema.ts';
import { proposalsSchema } from '../../src/lib/sheet/proposals-schema.ts';
import { sheetSchema } from '../../src/lib/sheet/schema.ts';
import { answerText, compilePublished } from './answers.ts';

function readPublished(name: string): string {
  return readFileSync(new URL(`../../static/schema/${name}.schema.json`, import.meta.url), 'utf8');
}

describe('the published schemas', () => {
  it.each([
    ['gorewright-job', jobSchema],
    ['gorewright-sheet', sheetSchema],
    ['gorewright-proposals', proposalsSchema]
  ])('of %s are what the code would write today (npm run schema)', (name, schema) => {
    expect(readPublished(name)).toBe(`${JSON.stringify(z.toJSONSchema(schema), null, 2)}\n`);
  });

  it('accept the example of every family and the sheet it gives', () => {
    const acceptsJob = compilePublished('gorewright-job');
    const acceptsSheet = compilePublished('gorewright-sheet');
    expect(FAMILIES.length).toBeGreaterThan(0);
    for (const { name, example } of FAMILIES) {
      const fitting = { family: name, section: { width: 400, height: 250 }, params: example };
      const job = { format: 'gorewright-job', version: 1, fittings: [fitting] };
      expect(acceptsJob(job)).toBe(true);
      const answer = answerText(JSON.stringify(job));
      if (answer.kind !== 'built') throw new Error(`the example of ${name} is not built`);
      expect(acceptsSheet(answer.sheet)).toBe(true);
    }
  });

  it('refuse a bend driven twice, resting twice, or folded back in two pieces, as the reader does', () => {
    const accepts = compilePublished('gorewright-job');
    const bend = (params: object): unknown => ({
      format: 'gorewright-job',
      version: 1,
      fittings: [
        { family: 'bend', section: { width: 400, height: 250 }, params: { turn: 90, heel: 'top', ...params } }
      ]
    });
    expect(accepts(bend({}))).toBe(true);
    expect(accepts(bend({ gore: 150 }))).toBe(true);
    expect(accepts(bend({ gore: 150, radius: 500 }))).toBe(false);
    expect(accepts(bend({ throatIn: 'rest' }))).toBe(true);
    expect(accepts(bend({ throatIn: 'rest', throatOut: 'rest' }))).toBe(false);
    expect(accepts(bend({ pieces: 2 }))).toBe(true);
    expect(accepts(bend({ pieces: 2, turn: 91 }))).toBe(false);
    expect(accepts(bend({ turn: 180 }))).toBe(true);
  });
});
