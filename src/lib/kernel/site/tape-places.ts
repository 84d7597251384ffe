import { cross, type Vec3 } from '../geometry/vector.ts';
import { FACES, growSection, type Face, type Section } from '../straight/section.ts';
import type { SiteEnd } from './site.ts';
import {
  readChain,
  readLength,
  readMeasure,
  SIDES,
  type FreeMeasure,
  type Measure,
  type Onward,
  type Reading,
  type Tape
} from './tape.ts';

/** What was measured, at which duct: its inside section, its board and the clearance it wants, mm. */
export interface MeasuringCard {
  readonly tape: Tape;
  readonly section: Section;
  readonly thickness: number;
  readonly clearance: number;
}

/** What the next things are called. */
export type NextNames = Readonly<Record<FreeMeasure, string>>;

/** How far a box goes on, beyond the duct's outside, where nobody measured where it ends, mm: out of any fitting's way. */
export const UNMEASURED_REACH = 2000;

/** The other end: its middle, each coordinate with its doubt, and how far its outside reaches from there, mm. */
export interface OtherEnd extends Pick<SiteEnd, 'flow' | 'up'> {
  readonly at: readonly [Reading | null, Reading | null, Reading | null];
  readonly half: Vec3;
}

/** A box in the frame of the site, mm; `measure` says where its face toward the duct is. */
export interface TapeBox {
  readonly name: string;
  readonly kind: string;
  readonly min: Vec3;
  readonly max: Vec3;
  readonly measure: Measure;
}

/** How the duct goes on; up is carried along a plain turn. */
const ONWARD: Readonly<Record<Onward, Pick<SiteEnd, 'flow' | 'up'>>> = {
  straight: { flow: [1, 0, 0], up: [0, 1, 0] },
  up: { flow: [0, 1, 0], up: [-1, 0, 0] },
  right: { flow: [0, 0, 1], up: [0, 1, 0] },
  down: { flow: [0, -1, 0], up: [1, 0, 0] },
  left: { flow: [0, 0, -1], up: [0, 1, 0] }
};

/** How far the duct's outside reaches from its middle along y and z, mm. */
export function measureOutside({ section, thickness }: MeasuringCard): Readonly<Record<1 | 2, number>> {
  const { width, height } = growSection(section, thickness);
  return { 1: height / 2, 2: width / 2 };
}

/** The other end: across the duct by the difference of the outsides, or by how far out a turned end opens. */
export function placeEnd(card: MeasuringCard): OtherEnd {
  const { tape } = card;
  const { flow, up } = ONWARD[tape.goesOn];
  const right = cross(flow, up);
  const outside = measureOutside(card);
  const reach = (i: 0 | 1 | 2): number => Math.abs(up[i]) * outside[1] + Math.abs(right[i]) * outside[2];
  const placeAcross = (i: 1 | 2, difference: Measure): Reading | null =>
    flow[i] === 0
      ? readMeasure(tape, difference)
      : mapReading(readMeasure(tape, 'outToEnd'), (out) => flow[i] * (outside[i] + out));
  return {
    // Of a turned duct the tape meets the near side, half its outside before its middle.
    at: [
      mapReading(readLength(tape), (length) => length + reach(0)),
      placeAcross(1, 'heightDifference'),
      placeAcross(2, 'sideDifference')
    ],
    half: [reach(0), reach(1), reach(2)],
    flow,
    up
  };
}

/**
 * The boxes of the obstacle and of the next things. With `grow` 1 every measured face is moved toward the duct by what it
 * may be off, so that what clears the box clears the real thing; with −1 away from it: what is there at the least.
 */
export function listBoxes(card: MeasuringCard, names: NextNames, grow: 1 | -1): TapeBox[] {
  const { tape } = card;
  const outside = measureOutside(card);
  /** Where the face is that looks back at one side of the duct; null where it was not measured. */
  const placeFace = (face: Face, measure: Measure): number | null => {
    const { axis, sign } = SIDES[face];
    const reading = readMeasure(tape, measure);
    return reading && sign * (outside[axis] + reading.value - grow * reading.uncertainty);
  };
  const place = (along: readonly [number, number], measureOf: (face: Face) => Measure | null) => {
    const at = (face: Face): number | null => {
      const measure = measureOf(face);
      return measure && placeFace(face, measure);
    };
    // What stands above the duct is bounded by its underside.
    const [y0, y1] = spread(at('top'), at('bottom'), outside[1]);
    const [z0, z1] = spread(at('right'), at('left'), outside[2]);
    const [min, max]: [Vec3, Vec3] = [
      [along[0], y0, z0],
      [along[1], y1, z1]
    ];
    return { min, max };
  };

  const whole = [-UNMEASURED_REACH, (readLength(tape)?.value ?? 0) + UNMEASURED_REACH] as const;
  const next = FACES.filter((face) => readMeasure(tape, SIDES[face].free)).map((face): TapeBox => {
    const measure = SIDES[face].free;
    const box = place(whole, (other) => (other === face ? measure : null));
    return { name: names[measure], kind: names[measure], ...box, measure };
  });
  const [near, far] = [readMeasure(tape, 'toObstacle'), readChain(tape, ['toObstacle', 'obstacleWidth'])];
  if (!near || !far) return next;
  const along = [near.value - grow * near.uncertainty, far.value + grow * far.uncertainty] as const;
  const box = place(along, (face) => SIDES[face].edge);
  return [{ ...tape.obstacle, ...box, measure: 'toObstacle' }, ...next];
}

/** Two faces of a box; one that nobody measured lies well past the duct and past the other. */
function spread(low: number | null, high: number | null, outside: number): [number, number] {
  return [
    low ?? Math.min(-outside, high ?? 0) - UNMEASURED_REACH,
    high ?? Math.max(outside, low ?? 0) + UNMEASURED_REACH
  ];
}

function mapReading(reading: Reading | null, change: (value: number) => number): Reading | null {
  return reading && { ...reading, value: change(reading.value) };
}
