import { describeStep, type Step } from './step.ts';

/** Figures of the order of work. Published where a comment names the source; else common practice, no source. */
export const PRACTICE = {
  /** Staples through the flap, mm on centre: Uniform Mechanical Code 2009, Standard 6-5, part (C). */
  staplePitch: 50,
  /** No staple nearer to a mark than this, mm. */
  stapleClearance: 30,
  /** Diagonals at both ends of a straight differ by at most this, mm. */
  squareness: 3,
  /** Gap of a dry fit, mm; a wider one is cut again. */
  dryGap: 2,
  /** Cross-tabs: least length and greatest spacing, mm: Uniform Mechanical Code 2009, Standard 6-5, part (C). */
  tabLength: 203,
  tabPitch: 305,
  /** Inspection: twist over the ends, mm; angle, degrees; place of the outlet, mm. */
  twist: 2,
  angle: 0.5,
  outlet: 5,
  /** Up to so many cuts are made face by face. */
  cutsFaceByFace: 2
} as const;

/** Cross-tabs on one side of a joint: spaced at most the pitch, at least one. `side` is its outside length, mm. */
export function countTabs(side: number): number {
  return Math.max(1, Math.ceil(side / PRACTICE.tabPitch));
}

/** A joint without a stapled flap is held by cross-tabs on every side; `sides` are their outside lengths, mm. */
export function holdByTabs(sides: readonly number[], on: Partial<Step>): Step {
  return describeStep('tab', {
    ...on,
    source: 'closure',
    data: {
      tabs: sides.reduce((sum, side) => sum + countTabs(side), 0),
      length: PRACTICE.tabLength,
      pitch: PRACTICE.tabPitch
    }
  });
}
