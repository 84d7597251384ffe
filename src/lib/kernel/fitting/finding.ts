import type { SourceId } from '../sources.ts';

export type Level = 'error' | 'warning' | 'note';

/** What can be wrong with a fitting, or worth knowing. The sentence for each is in words/. */
export type FindingCode =
  | 'edge-vanishes'
  | 'throat-short'
  | 'gore-short'
  | 'no-blade'
  | 'two-piece-bend'
  | 'pieces-collide'
  | 'straight-undivided'
  | 'ends-apart'
  | 'board-small'
  | 'rest-spent'
  | 'rest-along'
  | 'radius-idle'
  | 'setback-fixed'
  | 'setback-endless'
  | 'offset-nothing'
  | 'advance-short'
  | 'travel-short'
  | 'slope-endless'
  | 'end-plain'
  | 'reducer-level'
  | 'slope-steep'
  | 'taper-short'
  | 'taper-long'
  | 'fold-one-wall'
  | 'fold-collar'
  | 'one-straight'
  | 'opening-edge'
  | 'opening-end'
  | 'opening-joint'
  | 'openings-overlap'
  | 'opening-large'
  | 'opening-vanishes'
  | 'shoe-angle'
  | 'shoe-none'
  | 'shoe-butt'
  | 'shoe-high'
  | 'neck-short'
  | 'shares-differ'
  | 'share-small'
  | 'area-lost'
  | 'ways-cross'
  | 'panel-large'
  | 'clearance-small'
  | 'end-missed'
  | 'section-differs'
  | 'hand-room'
  | 'closing-long'
  | 'tape-missing'
  | 'tape-crossed'
  | 'tape-differs'
  | 'tape-inside'
  | 'tape-tight'
  | 'tape-no-way'
  | 'tape-idle'
  | 'as-made-other'
  | 'as-made-length'
  | 'as-made-turn'
  | 'as-made-lost';

/** A finding is a value: its sentence is made from the code and the data, in the language of the reader. */
export interface Finding {
  readonly level: Level;
  readonly code: FindingCode;
  /** The parameter at fault, as a path inside the fitting of the document: `params.gore`, `params.lengths[1]`. */
  readonly param?: string;
  /** The value of that parameter that would do. */
  readonly would?: number | string;
  /** Figures and names for the sentence; lengths mm, angles degrees. */
  readonly data: Readonly<Record<string, number | string>>;
  readonly source: SourceId;
}

/** Whether no finding forbids building. */
export function isBuildable(findings: readonly Finding[]): boolean {
  return findings.every((finding) => finding.level !== 'error');
}
