import { describe, expect, it } from 'vitest';
import type { Job, SaidFitting } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { printSheet } from './print.ts';
import { writeSheet } from './sheet.ts';

const BEND: SaidFitting = {
  family: 'bend',
  section: { width: 400, height: 250 },
  params: { turn: 90, heel: 'right' }
};

describe('the printed sheet', () => {
  it.each([[[]], [[BEND]], [[BEND, { ...BEND, params: { turn: 90, heel: 'top', gore: 0 } }]]])(
    'is the sheet, however many ducts are in it',
    (fittings) => {
      // A name that holds what the parts are put together at.
      const job: Job = { format: 'gorewright-job', version: 1, name: 'Store [] room', fittings };
      const printed = [...printSheet(job)].map(({ text }) => text).join('');
      expect(printed).toBe(JSON.stringify(writeSheet(evaluate(job)), null, 2));
    }
  );
});
