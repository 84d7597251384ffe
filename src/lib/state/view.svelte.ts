import type { Face } from '../kernel/straight/section.ts';

/** What is pointed at, in whichever view: the same piece, cut or face is shown in all. */
export interface Pointed {
  readonly piece?: string;
  readonly cut?: string;
  readonly face?: Face;
}

/** `both`: elevation and plan at once. */
export type Projection = 'true' | 'elevation' | 'plan' | 'end' | 'both';
export type Panel = 'drawing' | 'marks' | 'assembly' | 'preview';

/** How the page looks at the job: never in the history, never in the document. */
export interface PageView {
  fitting: number;
  /** What is pointed at; while nothing is, what the chosen step is about. */
  pointed: Pointed | null;
  subject: Pointed | null;
  /** Which of the fitting's straights the marks are shown of, from 0; one that is not there counts as the last. */
  straight: number;
  /** The chosen step of the order of work; null: the finished fitting. */
  step: number | null;
  /** How much of the chosen step is done, 0 … 1: less than 1 only while it is played. */
  progress: number;
  projection: Projection;
  /** Whether a drag snaps to blades and round numbers. */
  snapping: boolean;
  /** Whether a drag on the drawing draws the box of a new obstacle. */
  drawingBox: boolean;
  /** The views in sight where there is no room for four, latest first. */
  panels: readonly Panel[];
}

export function createView(): PageView {
  return new View();
}

class View implements PageView {
  fitting = $state(0);
  subject = $state.raw<Pointed | null>(null);
  straight = $state(0);
  step = $state<number | null>(null);
  progress = $state(1);
  projection = $state<Projection>('true');
  snapping = $state(true);
  drawingBox = $state(false);
  panels = $state.raw<readonly Panel[]>(['drawing', 'marks']);
  #underPointer = $state.raw<Pointed | null>(null);

  get pointed(): Pointed | null {
    return this.#underPointer ?? this.subject;
  }

  set pointed(pointed: Pointed | null) {
    this.#underPointer = pointed;
  }
}
