import type { Face } from '../straight/section.ts';

/**
 * What a tape gives on site, always between faces that can be touched. Along the duct: from its end to the obstacle's near
 * side, the obstacle's width, its far side to the other end, and all of it at once. Across: from an outside face of the
 * duct to what lies on that side. Of the other end: how much higher and how much further right its outside lies, or how
 * far out from the duct's outside a turned end opens.
 */
export const MEASURES = [
  'toObstacle',
  'obstacleWidth',
  'farSideToEnd',
  'toOtherEnd',
  'underside',
  'leftSide',
  'topside',
  'rightSide',
  'freeAbove',
  'freeRight',
  'freeBelow',
  'freeLeft',
  'heightDifference',
  'sideDifference',
  'outToEnd'
] as const;
export type Measure = (typeof MEASURES)[number];

/** Measures that may be less than 0: what reaches into the duct's way, and what lies lower or further left. */
export const SIGNED_MEASURES: readonly Measure[] = [
  'underside',
  'leftSide',
  'topside',
  'rightSide',
  'heightDifference',
  'sideDifference',
  'outToEnd'
];

export interface Measured {
  /** mm. */
  readonly value: number;
  /** How far off it may be either way, mm; the usual one where it is not said. */
  readonly uncertainty?: number;
}

/** Of a measure taken by hand with a tape, mm. Common practice, no source; editable. */
export const USUAL_UNCERTAINTY = 5;

/** Which way the duct goes on at the other end: as it comes, or turned square to it. */
export const ONWARD_WAYS = ['straight', 'up', 'right', 'down', 'left'] as const;
export type Onward = (typeof ONWARD_WAYS)[number];

/** Measures that say nothing of an end that goes on this way: where it opens is told by another. */
export const IDLE_MEASURES: Readonly<Record<Onward, readonly Measure[]>> = {
  straight: ['outToEnd'],
  up: ['heightDifference'],
  right: ['sideDifference'],
  down: ['heightDifference'],
  left: ['sideDifference']
};

/** The measuring card as it is said; only what was measured. */
export interface Tape {
  readonly goesOn: Onward;
  /** What the obstacle is called, and what it is. */
  readonly obstacle: { readonly name: string; readonly kind: string };
  readonly measures: Readonly<Partial<Record<Measure, Measured>>>;
}

export type FreeMeasure = 'freeAbove' | 'freeRight' | 'freeBelow' | 'freeLeft';
type EdgeMeasure = 'underside' | 'leftSide' | 'topside' | 'rightSide';

/** What is measured from one outside face of the duct, away from it. */
interface Side {
  /** The coordinate in which it is measured, and whether away from the duct is more or less. */
  readonly axis: 1 | 2;
  readonly sign: 1 | -1;
  /** To the face of the obstacle that looks this way back: minus where the obstacle reaches into the duct's way. */
  readonly edge: EdgeMeasure;
  /** To the next thing on this side. */
  readonly free: FreeMeasure;
}

export const SIDES: Readonly<Record<Face, Side>> = {
  top: { axis: 1, sign: 1, edge: 'underside', free: 'freeAbove' },
  right: { axis: 2, sign: 1, edge: 'leftSide', free: 'freeRight' },
  bottom: { axis: 1, sign: -1, edge: 'topside', free: 'freeBelow' },
  left: { axis: 2, sign: -1, edge: 'rightSide', free: 'freeLeft' }
};

/** A length from the tape: what it is, how far off it may be at worst, mm, and the measures it comes from. */
export interface Reading {
  readonly value: number;
  readonly uncertainty: number;
  readonly from: readonly Measure[];
}

/** One measure; null where it was not taken. */
export function readMeasure({ measures }: Tape, name: Measure): Reading | null {
  const measured = measures[name];
  if (!measured) return null;
  return { value: measured.value, uncertainty: measured.uncertainty ?? USUAL_UNCERTAINTY, from: [name] };
}

/**
 * Measures laid end to end, `signs` saying which are taken off; null where one was not taken. Uncertainties add up: the
 * errors of one tape held by one hand need not cancel, and board that was cut too short stays too short.
 */
export function readChain(
  tape: Tape,
  names: readonly Measure[],
  signs: readonly (1 | -1)[] = []
): Reading | null {
  let [value, uncertainty] = [0, 0];
  for (const [i, name] of names.entries()) {
    const reading = readMeasure(tape, name);
    if (!reading) return null;
    value += (signs[i] ?? 1) * reading.value;
    uncertainty += reading.uncertainty;
  }
  return { value, uncertainty, from: names };
}

/** The obstacle's measures along the duct and on to the other end, one after another. */
export const CHAIN = ['toObstacle', 'obstacleWidth', 'farSideToEnd'] as const satisfies readonly Measure[];

/** From the end of the duct to the other end, or to the near side of one that is turned: at once, or piece by piece. */
export function readLength(tape: Tape): Reading | null {
  return readMeasure(tape, 'toOtherEnd') ?? readChain(tape, CHAIN);
}

/** From the obstacle's far side to the other end: at once, or what is left of the whole. */
export function readAfter(tape: Tape): Reading | null {
  return (
    readMeasure(tape, 'farSideToEnd') ??
    readChain(tape, ['toOtherEnd', 'toObstacle', 'obstacleWidth'], [1, -1, -1])
  );
}
