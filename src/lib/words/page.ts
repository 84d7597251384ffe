import type { Grouping, SequenceFault } from '../kernel/assembly/choice.ts';
import type { Show } from '../kernel/document/job.ts';
import type { FamilyGroup } from '../kernel/families/family.ts';
import type { SnapReason } from '../kernel/families/snap.ts';
import type { FindingCode } from '../kernel/fitting/finding.ts';
import type { EdgeKind } from '../kernel/fitting/wall.ts';
import type { LineMark } from '../kernel/straight/straight.ts';

/** What is said beside the steps of the order of work. */
export interface AssemblyWords {
  readonly ticked: (count: number) => string;
  readonly tick: (step: number) => string;
  readonly ticksNotKept: string;
  readonly play: string;
  readonly pause: string;
  readonly grouping: string;
  readonly groupings: Readonly<Record<Grouping | 'rule', string>>;
  readonly sequence: string;
  readonly sequences: Readonly<Record<'far' | 'datum' | 'own', string>>;
  readonly ownSequence: string;
  readonly sequenceFaults: Readonly<Record<SequenceFault['kind'], (cut: string, straight: string) => string>>;
  readonly effort: (turns: number, bladeChanges: number) => string;
  readonly usual: (turns: number, bladeChanges: number) => string;
}

/** What the setting-out page says, beside the words that every part of the product shares. */
export interface PageWords {
  readonly views: Readonly<Record<'drawing' | 'marks' | 'assembly' | 'preview', string>>;
  readonly projections: Readonly<Record<'true' | 'elevation' | 'plan' | 'end' | 'both', string>>;
  /** Of a fitting that is drawn on the site though none stands there. */
  readonly notStanding: string;
  readonly fittings: string;
  readonly parameters: string;
  readonly section: string;
  readonly width: string;
  readonly height: string;
  readonly undo: string;
  readonly redo: string;
  readonly fit: string;
  readonly snapping: string;
  readonly snappingHelp: string;
  readonly snapped: Readonly<Record<SnapReason, string>>;
  readonly miter: string;
  readonly straight: string;
  readonly of: string;
  readonly setback: string;
  readonly board: string;
  readonly pieces: string;
  readonly findings: string;
  readonly noFindings: string;
  readonly short: Readonly<Partial<Record<FindingCode, string>>>;
  readonly use: (value: string) => string;
  readonly rule: string;
  readonly rest: string;
  readonly driver: string;
  readonly follows: string;
  /** Of a place that is said as a length instead of a word. */
  readonly byNumber: string;
  readonly raise: (label: string) => string;
  readonly lower: (label: string) => string;
  readonly notALength: string;
  readonly notAnAngle: string;
  readonly notACount: string;
  readonly expected: (what: string) => string;
  readonly saved: string;
  readonly saving: string;
  readonly notSaved: string;
  readonly unreadable: (why: string) => string;
  readonly startOver: string;
  readonly print: string;
  readonly printShort: string;
  readonly site: string;
  readonly close: string;
  /** Of a panel whose script cannot be fetched. */
  readonly notFetched: string;
  readonly unreachable: string;
  readonly loadedAnew: string;
  readonly saveFirst: string;
  readonly tryAgain: string;
  readonly cannotShow: string;
  readonly figure: string;
  readonly table: string;
  readonly step: (number: number, of: number) => string;
  readonly allSteps: string;
  readonly assembly: AssemblyWords;
  /** Of line marks, openings and panels: on the figures, and over the columns of their tables. */
  readonly flat: {
    readonly kinds: Readonly<Record<LineMark['kind'], string>>;
    bevel(angle: string): string;
    readonly lineMarks: string;
    readonly openings: string;
    readonly panels: string;
    /** How to read the panels. */
    readonly reading: string;
    readonly mark: string;
    readonly kind: string;
    readonly opening: string;
    readonly outline: string;
    readonly facing: string;
    readonly inside: string;
    readonly panel: string;
    readonly station: string;
    readonly toStation: string;
    readonly across: string;
    readonly toAcross: string;
    readonly size: string;
    readonly bevels: string;
    readonly edge: string;
    readonly edgeKinds: Readonly<Record<Exclude<EdgeKind, 'whole'>, string>>;
    readonly length: string;
    /** Where the line on the inside lies, seen from that on the facing. */
    readonly insideLine: string;
    readonly furtherIn: string;
    readonly furtherOut: string;
  };
  readonly finished: string;
  readonly next: string;
  readonly back: string;
  readonly stale: string;
  readonly caution: string;
  readonly decide: string;
  readonly laid: (lay: string, make: string, ends: string) => string;
  readonly preview: {
    readonly label: string;
    readonly loading: string;
    /** Where the browser shows no three-dimensional pictures. */
    readonly unavailable: string;
    readonly stale: string;
    readonly explode: string;
    readonly sectionPlane: string;
    readonly sectionPlanes: Readonly<Record<'none' | 'upright' | 'level' | 'across', string>>;
    /** Of a section plane across the duct: how far along the duct it lies. */
    readonly sectionAt: string;
    readonly reset: string;
  };
  readonly divider: string;
  readonly job: string;
  readonly jobName: string;
  readonly newJob: string;
  readonly openJob: string;
  readonly saveJob: string;
  readonly examples: string;
  readonly dropJob: string;
  /** A file that was not opened, and why. */
  readonly refused: (file: string, why: string) => string;
  readonly notRead: string;
  readonly tooLarge: string;
  readonly linkToJob: string;
  readonly linkToFitting: string;
  /** What is refused where a link is, as a file by its name. */
  readonly theLink: string;
  readonly units: string;
  readonly lengths: string;
  readonly figures: string;
  readonly unitNames: Readonly<Record<Show['length'], { readonly short: string; readonly long: string }>>;
  /** What the last figure of a length stands for, by its unit and precision; none where that is fixed. */
  readonly precisions: Readonly<Record<Show['length'], readonly string[]>>;
  readonly addFitting: string;
  readonly noFitting: string;
  readonly groups: Readonly<Record<FamilyGroup, string>>;
  readonly tag: string;
  readonly quantity: string;
  readonly duplicate: string;
  readonly remove: string;
  readonly moveUp: string;
  readonly moveDown: string;
  readonly mirror: string;
  readonly mirrorHelp: string;
  readonly reverse: string;
  readonly reverseHelp: string;
  readonly straightAndEnds: string;
  readonly lay: string;
  readonly layUnsaid: string;
  readonly seam: string;
  readonly endOf: (port: string) => string;
  readonly endUnsaid: string;
  readonly times: (quantity: number) => string;
}
