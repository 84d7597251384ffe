import { isBuildable, type Finding } from '../fitting/finding.ts';
import type { Obstacle, SiteEnd } from './site.ts';
import { checkMeasures, checkPlaces, checkTape, type TapeCheck } from './tape-checks.ts';
import { listBoxes, placeEnd, type MeasuringCard, type NextNames } from './tape-places.ts';
import { findDeciding, type Deciding } from './tape-room.ts';
import { readLength, readMeasure, type Tape } from './tape.ts';

/** The places that the measures mean, in the frame of the site: the middle of the duct's end is the origin. */
export interface TapePlaces {
  readonly end: SiteEnd;
  /** The obstacle and the next things, each grown toward the duct by what its measures may be off. */
  readonly obstacles: readonly Obstacle[];
  /** The measure to be sure of. */
  readonly deciding: Deciding;
  /** By how much the closing end is left long, mm; null where no length to the other end was measured. */
  readonly closing: number | null;
  /** The redundant measure; null where it was not taken. */
  readonly check: TapeCheck | null;
}

/**
 * Turns a measuring card into places. `names` says what the next things are called. Measures that are missing or
 * contradict each other are errors and give no places; what leaves no room, and a check that fails, are warnings.
 */
export function placeFromTape(
  card: MeasuringCard,
  names: NextNames
): { readonly placed: TapePlaces | null; readonly findings: readonly Finding[] } {
  const measures = checkMeasures(card);
  if (!isBuildable(measures)) return { placed: null, findings: measures };
  const findings = [...measures, ...checkPlaces(card, names)];
  if (!isBuildable(findings)) return { placed: null, findings };
  const {
    at: [x, y, z],
    flow,
    up
  } = placeEnd(card);
  const placed = {
    end: { at: [x?.value ?? null, y?.value ?? null, z?.value ?? null] as const, flow, up },
    obstacles: listBoxes(card, names, 1).map(({ name, kind, min, max }) => ({ name, kind, min, max })),
    deciding: findDeciding(card),
    closing: measureClosing(card.tape),
    check: checkTape(card.tape)
  };
  return { placed, findings };
}

/**
 * What the measure along the last piece may be off, mm; null where none was taken: left long by that, the closing end can be trimmed to fit, while one
 * that is too short has to be made again. So it is the worst case, every doubt added, and not a likely one.
 */
export function measureClosing(tape: Tape): number | null {
  const last = tape.goesOn === 'straight' ? readLength(tape) : readMeasure(tape, 'outToEnd');
  return last?.uncertainty ?? null;
}
