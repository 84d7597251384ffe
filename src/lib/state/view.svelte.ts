import type { Face } from '../kernel/straight/section.ts';

/** What is pointed at, in whichever view: the same piece, cut or face is shown in all. */
export interface Pointed {
  readonly piece?: string;
  readonly cut?: string;
  readonly face?: Face;
}

export type Projection = 'true' | 'elevation' | 'plan' | 'end';
export type Panel = 'drawing' | 'marks' | 'assembly' | 'preview';

/** How the page looks at the job: never in the history, never in the document. */
export interface PageView {
  fitting: number;
  pointed: Pointed | null;
  /** Which of the fitting's straights the marks are shown of, from 0; one that is not there counts as the last. */
  straight: number;
  /** The chosen step of the order of work; null: the finished fitting. */
  step: number | null;
  projection: Projection;
  /** Whether a drag snaps to blades and round numbers. */
  snapping: boolean;
  /** The views in sight where there is no room for four, latest first. */
  panels: readonly Panel[];
}

export function createView(): PageView {
  const view = $state<PageView>({
    fitting: 0,
    straight: 0,
    pointed: null,
    step: null,
    projection: 'true',
    snapping: true,
    panels: ['drawing', 'marks']
  });
  return view;
}
