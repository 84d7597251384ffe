import type { Face } from '../straight/section.ts';
import type { SourceId } from '../sources.ts';

export type StepKind =
  | 'check'
  | 'mark'
  | 'label'
  | 'groove'
  | 'strip'
  | 'fold'
  | 'square'
  | 'staple'
  | 'tape'
  | 'turn'
  | 'support'
  | 'cut'
  | 'separate'
  | 'flip'
  | 'fit'
  | 'glue'
  | 'join'
  | 'tab'
  | 'seal'
  | 'nose'
  | 'inspect';

/** Which sentence tells the step, where a kind has more than one. */
export type StepSentence =
  | Exclude<StepKind, 'tape' | 'nose'>
  | 'tape-seam'
  | 'tape-joint'
  | 'tape-ends'
  | 'glue-ends'
  | 'join-ends'
  | 'join-plain'
  | 'check-panels'
  | 'cut-panel'
  | 'label-panels'
  | 'join-corners'
  | 'tape-corners'
  | 'glue-panels'
  | 'join-panels'
  | 'tape-panels'
  | 'cut-opening'
  | 'seal-opening'
  | 'turn-out-flap'
  | 'join-stub'
  | 'glue-stub'
  | 'enter-stub'
  | 'staple-stub'
  | 'tape-stub'
  | 'seal-stub'
  | 'join-parts'
  | 'tape-parts'
  | 'nose'
  | 'cut-slits'
  | 'groove-slope'
  | 'cut-slope'
  | 'cut-wall'
  | 'trim'
  | 'fold-slope'
  | 'fill-gap'
  | 'tape-slope'
  | 'glue-cap'
  | 'join-cap'
  | 'tape-cap';

/** One step of the order of work, as data; words/ makes the sentence. */
export interface Step {
  readonly kind: StepKind;
  readonly sentence: StepSentence;
  /** Figures and names for the sentence; lengths mm, angles degrees. */
  readonly data: Readonly<Record<string, number | string | readonly (number | string)[]>>;
  readonly straight: string | null;
  readonly cuts: readonly string[];
  /** The face that is up and worked on. */
  readonly face: Face | null;
  readonly pieces: readonly string[];
  /** Bevel of the blade, degrees, where one of the shop's blades makes it. */
  readonly blade: number | null;
  /** What it does for the closing of edges; see the `needs` of a wall's edge. */
  readonly does: readonly string[];
  readonly source: SourceId;
}

/** A step of a kind: what is not said is empty, and the sentence is the kind's own. */
export function describeStep(kind: StepKind, rest: Pick<Step, 'data'> & Partial<Step>): Step {
  return {
    kind,
    sentence: kind as StepSentence,
    straight: null,
    cuts: [],
    face: null,
    pieces: [],
    blade: null,
    does: [],
    source: 'shop',
    ...rest
  };
}

/** What the step that seals a plain end of the fitting does, by the name of the port. */
export function nameSealDeed(port: string): string {
  return `seal ${port}`;
}

/** What the step that seals the raw edge of an opening does. */
export function nameOpeningDeed(opening: string): string {
  return `seal ${opening}`;
}
