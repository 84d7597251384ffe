import type { Job } from '../kernel/document/job.ts';

/** The job a newcomer finds open: an invented refurbishment of a village library. */
export const DEMO_JOB: Job = {
  format: 'gorewright-job',
  version: 1,
  name: 'Village library, reading room supply',
  fittings: [
    {
      tag: 'F1',
      family: 'bend',
      section: { width: 400, height: 250 },
      params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
    },
    {
      tag: 'F2',
      family: 'bend',
      section: { width: 300, height: 200 },
      params: { turn: 45, pieces: 2, heel: 'top', throatIn: 200, throatOut: 'rest' }
    },
    {
      tag: 'F3',
      family: 'path',
      section: { width: 300, height: 150 },
      params: {
        lengths: [330, 420, 330],
        joints: [
          { turn: 45, heel: 33 },
          { turn: 45, heel: 213 }
        ]
      }
    },
    {
      tag: 'F4',
      quantity: 2,
      family: 'straight',
      section: { width: 400, height: 250 },
      params: { length: 1180 }
    }
  ]
};
