import { describe, expect, it } from 'vitest';
import type { Job, SaidFitting } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { printSheet } from './print.ts';
import type { Sheet } from './schema.ts';
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

  it('tells what is found of the duct that stands in the site, and of no other', () => {
    const beam = { name: 'beam', kind: 'beam', min: [0, 160, -400], max: [150, 400, 400] } as const;
    const end = { at: [null, null, null], flow: [0, 0, -1], up: [0, 1, 0] } as const;
    const site = { fitting: 'F2', section: BEND.section, end, clearance: 25, obstacles: [beam] };
    const job: Job = { format: 'gorewright-job', version: 1, fittings: [BEND, BEND], site };
    const printed = [...printSheet(job)].map(({ text }) => text).join('');
    expect(printed).toBe(JSON.stringify(writeSheet(evaluate(job)), null, 2));
    const { fittings } = JSON.parse(printed) as Sheet;
    expect(fittings.map(({ findings }) => findings.map(({ code }) => code))).toEqual([
      ['end-plain'],
      ['end-plain', 'clearance-small', 'hand-room']
    ]);
    expect(fittings[1]!.findings[1]!.message).toBe(
      'The duct comes as near as 10 mm to this obstacle, which wants 25 mm clear: beam.'
    );
  });
});
