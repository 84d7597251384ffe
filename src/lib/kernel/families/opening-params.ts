import { tanDegrees } from '../geometry/angle.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type ParamReference } from '../fitting/fitting.ts';
import { cutCircle, cutRectangle, measure, type StraightSize } from '../fitting/opening.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { FACES, growSection, measureFace, type Face } from '../straight/section.ts';
import type { Opening } from '../straight/straight.ts';
import type { Rule } from './family.ts';
import { LONGEST } from './limits.ts';

/** An opening in a wall as a document says it. */
export interface OpeningValues {
  readonly wall: Face;
  readonly station: number;
  readonly aside: number;
  readonly shape: 'round' | 'rectangular';
  readonly diameter?: number;
  readonly along?: number;
  readonly across?: number;
  readonly bevel: number;
}

/** How an opening is described, in every family that has some. */
export const OPENING_PARAMS = {
  wall: { of: { kind: 'choice', of: FACES }, required: true },
  station: { of: { kind: 'length', min: 0, max: LONGEST }, required: true },
  aside: { of: { kind: 'length', min: -LONGEST, max: LONGEST }, default: 0 },
  shape: {
    of: { kind: 'choice', of: ['round', 'rectangular'], also: { rectangle: 'rectangular' } },
    required: true
  },
  diameter: { of: { kind: 'length', min: 0, max: LONGEST } },
  along: { of: { kind: 'length', min: 0, max: LONGEST } },
  across: { of: { kind: 'length', min: 0, max: LONGEST } },
  bevel: { of: { kind: 'angle', min: -60, max: 60 }, default: 0 }
} as const;

/** A round opening says its diameter, a rectangular one along and across, and neither says the other's. */
export function findSizeFault(
  said: Readonly<Record<string, unknown>>
): { path: string[]; expected: string } | null {
  const shape = said['shape'] === 'rectangle' ? 'rectangular' : said['shape'];
  if (shape !== 'round' && shape !== 'rectangular') return null;
  const [wanted, others] =
    shape === 'round' ? [['diameter'], ['along', 'across']] : [['along', 'across'], ['diameter']];
  for (const name of wanted) {
    if (said[name] === undefined)
      return { path: [name], expected: `${wanted.join(' and ')} of a ${shape} opening` };
  }
  for (const name of others) {
    if (said[name] !== undefined) return { path: [name], expected: `no ${name} of a ${shape} opening` };
  }
  return null;
}

/** An opening as said, once one of its parameters is said: its shape takes the sizes of another one back, a size brings its shape. */
export function settleSize(
  said: Readonly<Record<string, unknown>>,
  field: string
): Readonly<Record<string, unknown>> {
  if (!['shape', 'diameter', 'along', 'across'].includes(field)) return said;
  const { diameter, along, across, shape, ...rest } = said;
  const isRound = field === 'diameter' || (field !== 'along' && field !== 'across' && shape === 'round');
  if (isRound) return { ...rest, shape: 'round', diameter: diameter ?? across ?? along };
  return {
    ...rest,
    shape: 'rectangular',
    along: along ?? diameter ?? across,
    across: across ?? diameter ?? along
  };
}

/** The rule of a family that is one opening. */
export const SAY_SIZE: Rule = {
  check: findSizeFault,
  json: {
    oneOf: [
      {
        properties: { shape: { const: 'round' } },
        required: ['diameter'],
        not: { anyOf: [{ required: ['along'] }, { required: ['across'] }] }
      },
      {
        properties: { shape: { enum: ['rectangular', 'rectangle'] } },
        required: ['along', 'across'],
        not: { required: ['diameter'] }
      }
    ]
  }
};

/** Cuts an opening in a straight; a positive bevel makes it wider on the facing, so that a lid cannot fall in. */
export function layOpening(name: string, values: OpeningValues, straight: StraightSize): Opening {
  const { wall: face, station, aside, bevel } = values;
  if (values.shape === 'round') {
    return cutCircle({ name, face, station, aside }, values.diameter! / 2, bevel, straight);
  }
  const bevels = { upstream: bevel, downstream: bevel, sides: bevel };
  return cutRectangle(
    { name, face, station, aside, along: values.along!, across: values.across!, bevels },
    straight
  );
}

/** Board that an opening keeps beside it up to the corner of a wall, mm beyond the thickness: common practice, no source. */
const BESIDE = 25;

/** Where one thing lies along a straight: what an opening must keep clear of. */
export interface Ground extends StraightSize {
  readonly length: number;
  /** Stations of joints inside it, where straights meet end to end. */
  readonly joints: readonly number[];
}

/** The parameter that sets how wide an opening is across its wall. */
export function referAcross({ diameter, across }: OpeningValues, param: string): ParamReference {
  return diameter !== undefined
    ? referTo(`${param}.diameter`, diameter)
    : referTo(`${param}.across`, across!);
}

/**
 * Why an opening cannot be where it is, with the place that would do. It keeps t + 25 mm from the corners of the wall and
 * more than t from both ends of the straight and from every joint. `param` is the path of the parameters that place it.
 */
export function checkOpening(
  opening: Opening,
  { station, aside }: Pick<OpeningValues, 'station' | 'aside'>,
  ground: Ground,
  param: string,
  across: ParamReference | null
): Finding | null {
  const { thickness, length, joints } = ground;
  const box = measure(opening);
  const width = measureFace(growSection(ground.section, thickness), opening.face);
  const tell = (
    code: 'opening-edge' | 'opening-end' | 'opening-joint' | 'opening-large',
    name: string | null,
    would: number | null,
    data: Finding['data']
  ): Finding => ({
    level: 'error',
    code,
    ...(name === null ? {} : { param: `${param}.${name}` }),
    ...(would === null ? {} : { would }),
    data: { opening: opening.name, face: opening.face, ...data },
    source: 'shop'
  });
  const beside = thickness + BESIDE;
  const free = width - 2 * beside;
  const wide = box.u[1] - box.u[0];
  if (wide > free + SAME_LENGTH) {
    const would = free > 0 ? (across?.raise(free - wide) ?? null) : null;
    const large = tell('opening-large', null, would === null ? null : suggestValue(across!.value!, would), {
      wide,
      free: Math.max(0, free)
    });
    return across ? { ...large, param: across.param } : large;
  }
  const [over, under] = [beside - box.u[0], box.u[1] - (width - beside)];
  const sidewards = over > SAME_LENGTH ? over : under > SAME_LENGTH ? -under : 0;
  if (sidewards !== 0) {
    // The measure across runs down a side wall, where aside runs up.
    const up = opening.face === 'right' || opening.face === 'left' ? -1 : 1;
    const would = suggestValue(aside, aside + up * sidewards);
    return tell('opening-edge', 'aside', would, { keep: beside, short: Math.abs(sidewards) });
  }
  const place = findPlace(box.x, [0, ...joints, length], thickness);
  if (place.fits) return null;
  const would = place.move === null ? null : suggestValue(station, station + place.move);
  return tell(place.atEnd ? 'opening-end' : 'opening-joint', 'station', would, { keep: thickness });
}

/** A station is moved a little further than just clear, mm: the opening keeps more than a thickness. */
const CLEAR = 1;

/** Whether a stretch lies clear of all places, and if not how far it must be moved at least. */
function findPlace(
  [from, to]: readonly [number, number],
  places: readonly number[],
  keep: number
): { fits: boolean; atEnd: boolean; move: number | null } {
  const sorted = [...places].sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((end, i) => [sorted[i]! + keep, end - keep] as const);
  if (gaps.some(([start, end]) => from > start + SAME_LENGTH && to < end - SAME_LENGTH)) {
    return { fits: true, atEnd: false, move: 0 };
  }
  const moves = gaps.flatMap(([start, end]) => {
    if (end - start < to - from + 2 * CLEAR) return [];
    const least = start + CLEAR - from;
    const most = end - CLEAR - to;
    return [least > 0 ? least : most < 0 ? most : 0];
  });
  const move = moves.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one) < Math.abs(best) ? one : best),
    null
  );
  const first = sorted[0]! + keep;
  const last = sorted[sorted.length - 1]! - keep;
  return { fits: false, atEnd: from <= first + SAME_LENGTH || to >= last - SAME_LENGTH, move };
}

/** A round opening whose bevel closes it on the inside, or a rectangular one. */
export function checkBevel(
  opening: Opening,
  values: OpeningValues,
  thickness: number,
  param: string
): Finding | null {
  const { bevel } = values;
  const sizes = (['diameter', 'along', 'across'] as const).filter((name) => values[name] !== undefined);
  const least = sizes.reduce((a, b) => (values[b]! < values[a]! ? b : a));
  const lost = 2 * thickness * Math.max(0, tanDegrees(bevel));
  if (values[least]! - lost > SAME_LENGTH) return null;
  // Where there is hardly an opening at all, no bevel makes one.
  const isTiny = values[least]! <= SAME_LENGTH;
  return {
    level: 'error',
    code: 'opening-vanishes',
    param: `${param}.${isTiny ? least : 'bevel'}`,
    would: isTiny ? suggestValue(values[least]!, lost + 1) : 0,
    data: { opening: opening.name, bevel },
    source: 'geometry'
  };
}

/** Two openings of the same wall that no straight line parts; the place for the second that is clear of all others. */
export function checkApart(
  openings: readonly Opening[],
  ground: Ground,
  param: (index: number) => string
): Finding | null {
  for (let j = 1; j < openings.length; j++) {
    const same = openings.filter((other, i) => i !== j && other.face === openings[j]!.face);
    const first = openings.slice(0, j).find((other) => same.includes(other) && !isApart(other, openings[j]!));
    if (!first) continue;
    const would = findClearStation(openings[j]!, same, ground);
    return {
      level: 'error',
      code: 'openings-overlap',
      param: `${param(j)}.station`,
      ...(would === null ? {} : { would }),
      data: { first: first.name, second: openings[j]!.name },
      source: 'geometry'
    };
  }
  return null;
}

function isApart(a: Pick<Opening, 'outer' | 'inner'>, b: Pick<Opening, 'outer' | 'inner'>): boolean {
  const [p, q] = [measure(a), measure(b)];
  return (['x', 'u'] as const).some(
    (axis) => p[axis][1] < q[axis][0] - SAME_LENGTH || q[axis][1] < p[axis][0] - SAME_LENGTH
  );
}

/** The nearest station at which an opening lies clear of others of its wall, and of ends and joints; null where none is. */
function findClearStation(opening: Opening, others: readonly Opening[], ground: Ground): number | null {
  const { x, u } = measure(opening);
  const [middle, half] = [(x[0] + x[1]) / 2, (x[1] - x[0]) / 2];
  const beside = others.map(measure).filter((other) => other.u[0] <= u[1] && u[0] <= other.u[1]);
  const stations = beside.flatMap((other) => [
    suggestValue(middle, other.x[0] - half - CLEAR),
    suggestValue(middle, other.x[1] + half + CLEAR)
  ]);
  const places = [0, ...ground.joints, ground.length];
  const clear = stations.filter((station) => {
    const reach: [number, number] = [station - half, station + half];
    const isFree = beside.every((other) => other.x[1] < reach[0] || reach[1] < other.x[0]);
    return isFree && findPlace(reach, places, ground.thickness).fits;
  });
  return clear.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one - middle) < Math.abs(best - middle) ? one : best),
    null
  );
}
