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
      quantity: 2,
      family: 'offset',
      section: { width: 400, height: 250 },
      params: { rise: 220, roll: 140, turn: 45, throatIn: 200, throatOut: 'rest' }
    },
    {
      tag: 'F3',
      family: 'double-offset',
      section: { width: 300, height: 150 },
      params: { rise: -300, turn: 45, level: 150, throatIn: 205, throatOut: 205 }
    },
    {
      tag: 'F4',
      family: 'path',
      section: { width: 300, height: 300 },
      params: {
        lengths: [420, 500, 460],
        joints: [
          { turn: 40, heel: 33 },
          { turn: 25, heel: 213 }
        ]
      }
    },
    {
      tag: 'F5',
      quantity: 2,
      family: 'straight',
      section: { width: 400, height: 250 },
      params: { length: 1180 }
    }
  ]
};
