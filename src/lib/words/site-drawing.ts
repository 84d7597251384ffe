import type { Language } from '../kernel/document/job.ts';

/** The six sides of a box, looking downstream from the inlet. */
export type BoxSide = 'near' | 'far' | 'under' | 'top' | 'left' | 'right';

/** What the Drawing says of the site; loaded with it, and only where a job has one. */
export interface SiteDrawingWords {
  /** Figures without their unit, as everywhere on a drawing. */
  readonly clear: (wanted: string) => string;
  readonly overlap: (depth: string) => string;
  readonly end: string;
  /** Where a coordinate of the end is free: along the level, or up and down. */
  readonly level: string;
  readonly line: string;
  readonly move: (name: string) => string;
  readonly moveEnd: string;
  /** The same, where a plan stands under an elevation. */
  readonly inPlan: (label: string) => string;
  readonly side: (side: BoxSide, name: string) => string;
  readonly sides: Readonly<Record<BoxSide, string>>;
  readonly axes: readonly [along: string, up: string, right: string];
  /** Why a dragged side or end lies where it does. */
  readonly snapped: Readonly<Record<'clearance' | 'outlet' | 'round', string>>;
  /** Lengths with their units. */
  readonly comesNear: (value: string, wanted: string) => string;
  readonly runsInto: (depth: string, wanted: string) => string;
  readonly endMet: string;
  readonly endMissed: string;
  /** An obstacle that is too far away to be drawn; the distance with its unit. */
  readonly away: (name: string, distance: string) => string;
  /** What a tap on it does, and another takes back. */
  readonly reach: string;
  readonly drawBox: string;
  readonly drawBoxHelp: (depth: string) => string;
  readonly box: (number: number) => string;
}

const EN: SiteDrawingWords = {
  clear: (wanted) => `${wanted} clear`,
  overlap: (depth) => `overlap ${depth}`,
  end: 'end',
  level: 'level to reach',
  line: 'line to reach',
  move: (name) => `Move ${name}`,
  moveEnd: 'Move the end of the run',
  inPlan: (label) => `${label}, in plan`,
  side: (side, name) => `${EN.sides[side]} of ${name}`,
  sides: {
    near: 'Near side',
    far: 'Far side',
    under: 'Underside',
    top: 'Top',
    left: 'Left side',
    right: 'Right side'
  },
  axes: ['along', 'up', 'right'],
  snapped: {
    clearance: 'as near as it may come',
    outlet: 'where the fitting ends',
    round: 'round number'
  },
  comesNear: (value, wanted) => `${value} clear of the duct, ${wanted} wanted`,
  runsInto: (depth, wanted) => `${depth} into the duct, ${wanted} clear wanted`,
  endMet: 'the fitting ends here',
  endMissed: 'the fitting does not end here',
  away: (name, distance) => `${name}, ${distance} away`,
  reach: 'Show it as well',
  drawBox: 'Draw a box',
  drawBoxHelp: (depth) =>
    `Press where one corner of the box is and drag to the opposite one; it is ${depth} deep and can be changed afterwards. Escape leaves it.`,
  box: (number) => `box ${number}`
};

const LANGUAGES: Readonly<Record<Language, SiteDrawingWords>> = { en: EN };

/** The words of the site's drawing in a language. */
export function speakSite(language: Language): SiteDrawingWords {
  return LANGUAGES[language];
}
