// The legs and joints of the mitered families, from their parameters alone: nothing here comes from the kernel.

/** Axis lengths, mm, and the joints between them, degrees. */
export interface Legs {
  readonly lengths: readonly number[];
  readonly joints: readonly Joint[];
}

export interface Joint {
  readonly turn: number;
  readonly heel: number;
}

/** Width and height of a section, mm. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A mitered fitting as it is said: offsets driven by their turn, a bend by its gore, throats as lengths. */
export interface Mitered {
  readonly family: string;
  readonly section: Size;
  readonly params: Readonly<Record<string, unknown>>;
}

export const MITERED = ['straight', 'bend', 'offset', 'double-offset', 'path'] as const;

const RADIANS = Math.PI / 180;
const CLOCK = { top: 0, right: 90, bottom: 180, left: 270 };

/** The outside of a duct. */
export function surround({ width, height }: Size, thickness: number): Size {
  return { width: width + 2 * thickness, height: height + 2 * thickness };
}

/** By how much a cut makes the axis longer than the shortest corner edge, on either side of it: tan(θ/2) × half a diagonal seen from the heel. */
export function reachOut({ turn, heel }: Joint, { width, height }: Size): number {
  const [up, aside] = [Math.abs(Math.cos(heel * RADIANS)), Math.abs(Math.sin(heel * RADIANS))];
  return Math.tan((turn / 2) * RADIANS) * ((height / 2) * up + (width / 2) * aside);
}

/** The legs of a mitered fitting; `minGore` is the shop's, for shifts with more than one cut a turn. */
export function layOutLegs({ family, section, params }: Mitered, thickness: number, minGore = 0): Legs {
  const outside = surround(section, thickness);
  const number = (name: string): number => {
    const value = params[name];
    if (typeof value !== 'number') throw new Error(`${family} is not said by ${name}`);
    return value;
  };
  switch (family) {
    case 'straight':
      return { lengths: [number('length')], joints: [] };
    case 'path':
      return params as unknown as Legs;
    case 'bend': {
      const count = number('pieces') - 1;
      const joint = { turn: number('turn') / count, heel: CLOCK[params['heel'] as keyof typeof CLOCK] };
      const c = reachOut(joint, outside);
      const gores = Array.from({ length: count - 1 }, () => number('gore') + 2 * c);
      return {
        lengths: [number('throatIn') + c, ...gores, number('throatOut') + c],
        joints: Array.from({ length: count }, () => joint)
      };
    }
    case 'offset':
    case 'double-offset': {
      const slope = layOutSlope(number, outside, minGore);
      const ends = [number('throatIn') + slope.c, number('throatOut') + slope.c] as const;
      const there = [...slope.turn(slope.heel), ...slope.turn(slope.heel + 180)];
      if (family === 'offset') return { lengths: [ends[0], ...slope.lengths, ends[1]], joints: there };
      return {
        lengths: [ends[0], ...slope.lengths, number('level') + 2 * slope.c, ...slope.lengths, ends[1]],
        joints: [...there, ...slope.turn(slope.heel + 180), ...slope.turn(slope.heel)]
      };
    }
    default:
      throw new Error(`${family} is no mitered family`);
  }
}

/** Two equal turns the other way round, each of as many cuts, and the pieces between them. */
function layOutSlope(number: (name: string) => number, outside: Size, minGore: number) {
  const [rise, roll] = [number('rise'), number('roll')];
  const cuts = number('piecesPerTurn') - 1;
  const turn = number('turn') / cuts;
  const heel = Math.atan2(-roll, -rise) / RADIANS;
  const c = reachOut({ turn, heel }, outside);
  const gore = minGore + 2 * c;
  let aside = 0;
  for (let j = 1; j < cuts; j++) aside += 2 * gore * Math.sin(j * turn * RADIANS);
  const travel = (Math.hypot(rise, roll) - aside) / Math.sin(number('turn') * RADIANS);
  const gores = Array.from({ length: cuts - 1 }, () => gore);
  return {
    c,
    heel,
    lengths: [...gores, travel, ...gores],
    turn: (clock: number): Joint[] => Array.from({ length: cuts }, () => ({ turn, heel: clock }))
  };
}

/** The shortest of the four outside corner edges of every leg, mm; negative where its cuts cross. */
export function measureShortest({ lengths, joints }: Legs, outside: Size): number[] {
  const slopes = joints.map(({ turn, heel }) => {
    const tangent = Math.tan((turn / 2) * RADIANS);
    return [tangent * Math.cos(heel * RADIANS), tangent * Math.sin(heel * RADIANS)] as const;
  });
  return lengths.map((length, k) => {
    const [before, after] = [slopes[k - 1] ?? [0, 0], slopes[k] ?? [0, 0]];
    // On the heel's side a piece is longer before its cut and after it.
    const edges = [-1, 1].flatMap((up) =>
      [-1, 1].map(
        (right) =>
          length +
          (outside.height / 2) * up * (before[0] + after[0]) +
          (outside.width / 2) * right * (before[1] + after[1])
      )
    );
    return Math.min(...edges);
  });
}
