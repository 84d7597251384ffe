/** How far a figure can be trusted. */
export type Trust =
  'read in the source' | 'computed from the source' | 'from memory' | 'common practice, no source';

export interface Source {
  readonly cite: string;
  readonly trust: Trust;
}

/** Every source that a finding, a step or a test refers to, once. */
export const SOURCES = {
  shop: { cite: 'common practice, no source', trust: 'common practice, no source' },
  geometry: { cite: 'plain geometry: two solids cannot share a place', trust: 'computed from the source' },
  closure: {
    cite: 'Uniform Mechanical Code 2009, Appendix A, Standard 6-5, part (C), joint and seam preparation',
    trust: 'read in the source'
  },
  construction: {
    cite: 'NAIMA AH116, Fibrous Glass Duct Construction Standards, 5th edition, 2002',
    trust: 'read in the source'
  },
  miterBend: { cite: 'ASME B31.3, 304.2.3, miter bends', trust: 'read in the source' },
  rigidGlassHealth: {
    cite: 'NIOSH Pocket Guide to Chemical Hazards, fibrous glass dust',
    trust: 'read in the source'
  },
  moulding: {
    cite: 'compound-miter tables of crown moulding carpentry (spring 38, 45 and 52 degrees)',
    trust: 'read in the source'
  },
  splayedBox: {
    cite: 'compound-angle setting chart of miter-saw manuals (pitch of side by number of sides)',
    trust: 'read in the source'
  },
  pipeOffsets: { cite: 'pipe-fitting handbooks, rolling-offset constants', trust: 'read in the source' },
  closingSlope: {
    cite: 'City of Zephyrhills, mechanical specification: slope of decreasing-area transitions at most 20 degrees',
    trust: 'read in the source'
  },
  openingSlope: {
    cite: 'SMACNA HVAC Duct Construction Standards, divided flow and transitions: 45 degrees included, diverging',
    trust: 'from memory'
  },
  parallelOffsets: { cite: "electricians' parallel-offset table, tan(turn/2)", trust: 'read in the source' }
} as const satisfies Record<string, Source>;

export type SourceId = keyof typeof SOURCES;
