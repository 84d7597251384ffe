import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { isBuildable, type Finding, type FindingCode } from '../fitting/finding.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { FACES, findOppositeFace } from '../straight/section.ts';
import {
  listBoxes,
  measureOutside,
  placeEnd,
  type MeasuringCard,
  type NextNames,
  type TapeBox
} from './tape-places.ts';
import { findPassage } from './tape-room.ts';
import { CHAIN, IDLE_MEASURES, readChain, readMeasure, SIDES, type Measure, type Tape } from './tape.ts';

/** The redundant measure: how far the measures along the duct, laid end to end, miss the one taken at once, mm. */
export interface TapeCheck {
  /** End to end less at once. */
  readonly differs: number;
  /** What all four may be off together. */
  readonly allowed: number;
  readonly holds: boolean;
}

/** Null where one of the four measures was not taken. */
export function checkTape(tape: Tape): TapeCheck | null {
  const once = readMeasure(tape, 'toOtherEnd');
  const chain = readChain(tape, CHAIN);
  if (!once || !chain) return null;
  const differs = chain.value - once.value;
  const allowed = chain.uncertainty + once.uncertainty;
  return { differs, allowed, holds: Math.abs(differs) <= allowed + SAME_LENGTH };
}

/** What is wrong with a card before its places are looked at: measures that are missing, faces that cross, the check. */
export function checkMeasures(card: MeasuringCard): Finding[] {
  const { tape } = card;
  const isTaken = (measure: Measure): boolean => readMeasure(tape, measure) !== null;
  const edges = FACES.map((face) => SIDES[face].edge);
  const hasObstacle = [...edges, 'toObstacle', 'obstacleWidth', 'farSideToEnd'].some((one) =>
    isTaken(one as Measure)
  );
  const wanted: Measure[] = hasObstacle ? ['toObstacle', 'obstacleWidth'] : [];
  const missing = wanted.filter((measure) => !isTaken(measure));
  if (hasObstacle && !edges.some(isTaken)) missing.push('underside');
  if (missing.length === 0 && placeEnd(card).at.every((reading) => reading === null))
    missing.push('toOtherEnd');
  return [
    ...IDLE_MEASURES[tape.goesOn]
      .filter(isTaken)
      .map((measure) => describe('note', 'tape-idle', measure, {})),
    ...missing.map((measure) => describe('error', 'tape-missing', measure, {})),
    ...checkFaces(card, 'top'),
    ...checkFaces(card, 'right'),
    ...compareChain(tape)
  ];
}

/** The thinnest thing that a tape tells from none, mm. */
const THINNEST = 1;

/** The faces of the obstacle that look at two opposite sides of the duct lie the right way round. */
function checkFaces(card: MeasuringCard, face: 'top' | 'right'): Finding[] {
  const { edge, axis } = SIDES[face];
  const { edge: opposite } = SIDES[findOppositeFace(face)];
  const faces = readChain(card.tape, [edge, opposite]);
  if (!faces) return [];
  // Both are measured from the duct's outside, plus away from it: of a thing in the way they add up to less than minus the duct.
  const most = -2 * measureOutside(card)[axis];
  const by = faces.value - most;
  if (by < faces.uncertainty - SAME_LENGTH) return [];
  const said = readMeasure(card.tape, opposite)!.value;
  const would = suggestValue(said, said - by - THINNEST);
  return [describe('error', 'tape-crossed', opposite, { by, first: edge }, would)];
}

function compareChain(tape: Tape): Finding[] {
  const check = checkTape(tape);
  if (!check || check.holds) return [];
  const said = readMeasure(tape, 'toOtherEnd')!.value;
  const { differs, allowed } = check;
  return [
    describe(
      'warning',
      'tape-differs',
      'toOtherEnd',
      { sum: said + differs, said, differs: Math.abs(differs), allowed },
      said + differs
    )
  ];
}

/** An end of the duct as a flat box: the near one, where it ends now, or the other. `doubt`: what its place may be off. */
interface DuctEnd {
  readonly name: 'near' | 'other';
  readonly at: Vec3;
  readonly half: Vec3;
  readonly doubt: Vec3;
}

/**
 * What is wrong with the places: an end of the duct that stands in a box whatever the measures may be off (an error), one
 * that may come nearer to it than the clearance, and no way between the obstacle and the next thing.
 */
export function checkPlaces(card: MeasuringCard, names: NextNames): Finding[] {
  const ends = listEnds(card);
  const least = listBoxes(card, names, -1);
  const found = listBoxes(card, names, 1).flatMap((box, i): Finding[] => {
    const inside = ends.find((end) => measureApart(end, least[i]!, -1) < -SAME_LENGTH);
    if (inside) return [tellEnd('error', card, box, inside)];
    const [first, ...others] = ends;
    const nearest = others.reduce(
      (a, b) => (measureApart(b, box, 1) < measureApart(a, box, 1) ? b : a),
      first!
    );
    const isClear = measureApart(nearest, box, 1) >= card.clearance - SAME_LENGTH;
    return isClear ? [] : [tellEnd('warning', card, box, nearest)];
  });
  return isBuildable(found) ? [...found, ...checkPassage(card)] : found;
}

/** The measure that would free the end when it grows, and its value that keeps the clearance at the worst. */
function tellEnd(level: 'error' | 'warning', card: MeasuringCard, box: TapeBox, end: DuctEnd): Finding {
  const face = FACES.find((one) => SIDES[one].free === box.measure);
  const { axis, sign }: { axis: 0 | 1 | 2; sign: 1 | -1 } = face
    ? SIDES[face]
    : { axis: 0, sign: end.name === 'near' ? 1 : -1 };
  const isWhole = readMeasure(card.tape, 'toOtherEnd') !== null;
  const measure = face || end.name === 'near' ? box.measure : isWhole ? 'toOtherEnd' : 'farSideToEnd';
  const apart = measureAlong(end, box, axis, sign, 1);
  const said = readMeasure(card.tape, measure)!.value;
  const would = suggestValue(said, said + card.clearance - apart);
  const data = {
    end: end.name,
    thing: box.name,
    clearance: card.clearance,
    apart: Math.max(0, measureApart(end, box, 1))
  };
  return describe(level, level === 'error' ? 'tape-inside' : 'tape-tight', measure, data, would);
}

function listEnds(card: MeasuringCard): DuctEnd[] {
  const outside = measureOutside(card);
  const nothing: Vec3 = [0, 0, 0];
  const near: DuctEnd = { name: 'near', at: nothing, half: [0, outside[1], outside[2]], doubt: nothing };
  const {
    at: [x, y, z],
    half
  } = placeEnd(card);
  // Of an end that is free along a coordinate nobody can say where it stands.
  if (!x || !y || !z) return [near];
  return [
    near,
    {
      name: 'other',
      at: [x.value, y.value, z.value],
      half,
      doubt: [x.uncertainty, y.uncertainty, z.uncertainty]
    }
  ];
}

/** How far an end is from a box, mm, at the worst (`grow` 1) or at the best (−1); minus how deep where it stands in it. */
function measureApart(end: DuctEnd, box: TapeBox, grow: 1 | -1): number {
  const gaps = ([0, 1, 2] as const).map((axis) =>
    Math.max(measureAlong(end, box, axis, 1, grow), measureAlong(end, box, axis, -1, grow))
  );
  const apart = Math.hypot(...gaps.map((gap) => Math.max(0, gap)));
  return apart > 0 ? apart : Math.max(...gaps);
}

/** How far a box lies beyond an end along one coordinate, mm: on the side of more (`sign` 1) or of less (−1). */
function measureAlong(
  { at, half, doubt }: DuctEnd,
  { min, max }: TapeBox,
  axis: 0 | 1 | 2,
  sign: 1 | -1,
  grow: 1 | -1
): number {
  const reach = half[axis] + grow * doubt[axis];
  return sign > 0 ? min[axis] - at[axis] - reach : at[axis] - reach - max[axis];
}

/** The widest way past the obstacle should take the duct and its clearance, whatever the measures may be off. */
function checkPassage(card: MeasuringCard): Finding[] {
  const passage = findPassage(card);
  if (!passage?.room) return [];
  const { value, uncertainty } = passage.room;
  if (value >= uncertainty - SAME_LENGTH) return [];
  const measure = SIDES[findOppositeFace(passage.face)].free;
  const said = readMeasure(card.tape, measure)!.value;
  const outside = 2 * measureOutside(card)[SIDES[passage.face].axis];
  const gap = value + outside + 2 * card.clearance;
  const data = { gap, outside, clearance: card.clearance, uncertainty };
  return [describe('warning', 'tape-no-way', measure, data, suggestValue(said, said + uncertainty - value))];
}

function describe(
  level: Finding['level'],
  code: FindingCode,
  measure: Measure,
  data: Finding['data'],
  would?: number
): Finding {
  const named = {
    level,
    code,
    param: `tape.measures.${measure}.value`,
    data: { measure, ...data },
    source: 'geometry'
  } as const;
  return would === undefined ? named : { ...named, would };
}
