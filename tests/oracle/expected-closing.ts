import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { BEYOND, makeTube, measureTube, RADIANS, reachOf, type Expected, type Stuff } from './expected.ts';
import { makeBox, type Solid } from './manifold.ts';
import { hollow, placeInPlane, PLANES, span, type WallName } from './profiles.ts';

/** A straight closed at its outlet. */
export function expectCap({ params, ...stuff }: Stuff): Expected {
  const { width, height, t } = stuff;
  const length = (params['length'] as number | undefined) ?? 200;
  const isIn = params['set'] !== 'on';
  const panel = isIn
    ? makeBox(length - t, length, height, width)
    : makeBox(length, length + t, height + 2 * t, width + 2 * t);
  const volume =
    measureTube(length, stuff) + (isIn ? width * height : (width + 2 * t) * (height + 2 * t)) * t;
  return {
    board: [makeTube(0, length, stuff), panel],
    ways: [
      {
        port: 'inlet',
        at: [0, 0, 0],
        flow: [1, 0, 0],
        plug: () => [makeBox(-BEYOND, isIn ? length - t : length, height, width)]
      }
    ],
    volume
  };
}

interface Hole {
  readonly wall: WallName;
  readonly station: number;
  readonly aside?: number;
  readonly shape: string;
  readonly diameter?: number;
  readonly along?: number;
  readonly across?: number;
  readonly bevel?: number;
}

/** What an opening takes out of its wall: sizes are those on the facing, a positive bevel makes it smaller inside. */
function makeHole(hole: Hole, stuff: Stuff) {
  const { t } = stuff;
  const { sides, from } = stuff.rounds;
  const { wall, station, aside = 0, diameter, bevel = 0 } = hole;
  const plane = PLANES[wall];
  const { depth } = reachOf(wall, stuff);
  const lip = Math.tan(bevel * RADIANS);
  const shrink = (out: number): number => (depth + t - out) * lip;
  const ringAt = (out: number): Vec3[] => {
    if (hole.shape === 'round') {
      const radius = diameter! / 2 - shrink(out);
      // A regular polygon of n sides has the area n/2·r²·sin(2π/n).
      const turn = (2 * Math.PI) / sides;
      const corner = radius * Math.sqrt((2 * Math.PI) / (sides * Math.sin(turn)));
      return Array.from({ length: sides }, (_, i) =>
        placeInPlane(
          plane,
          [station + corner * Math.cos(from + i * turn), out],
          aside + corner * Math.sin(from + i * turn)
        )
      );
    }
    const [along, across] = [hole.along! / 2 - shrink(out), hole.across! / 2 - shrink(out)];
    return [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1]
    ].map(([x, z]) => placeInPlane(plane, [station + x! * along, out], aside + z! * across));
  };
  const between = (low: number, high: number): Solid => span([...ringAt(low), ...ringAt(high)]);
  const size = (out: number): number =>
    hole.shape === 'round'
      ? Math.PI * (diameter! / 2 - shrink(out)) ** 2
      : (hole.along! - 2 * shrink(out)) * (hole.across! - 2 * shrink(out));
  return {
    through: between(depth - BEYOND, depth + t + BEYOND),
    plug: () => between(depth - BEYOND, depth + t + BEYOND),
    at: placeInPlane(plane, [station, depth + t], aside),
    out: plane.out as Vec3,
    // Simpson's rule is exact for what changes with the square of the depth.
    volume: (t / 6) * (size(depth) + 4 * size(depth + t / 2) + size(depth + t))
  };
}

/** A straight with one opening. */
export function expectOpening(stuff: Stuff): Expected {
  const { width, height } = stuff;
  const length = stuff.params['length'] as number;
  const hole = makeHole(stuff.params as unknown as Hole, stuff);
  return {
    board: [hollow(makeTube(0, length, stuff), hole.through)],
    ways: [
      {
        port: 'outlet',
        at: [length, 0, 0],
        flow: [1, 0, 0],
        plug: () => [makeBox(0, length, height, width)]
      },
      { port: 'O1', at: hole.at, flow: hole.out, plug: () => [hole.plug()] }
    ],
    volume: measureTube(length, stuff) - hole.volume
  };
}

/** A straight closed at both ends, with openings. */
export function expectBox(stuff: Stuff): Expected {
  const { width, height, t, params } = stuff;
  const length = params['length'] as number;
  const isIn = params['set'] !== 'on';
  const holes = (params['openings'] as Hole[]).map((hole) => makeHole(hole, stuff));
  const [least, most] = isIn ? [t, length - t] : [0, length];
  const panel = (from: number, to: number): Solid =>
    isIn ? makeBox(from, to, height, width) : makeBox(from, to, height + 2 * t, width + 2 * t);
  const ends = isIn ? [panel(0, t), panel(length - t, length)] : [panel(-t, 0), panel(length, length + t)];
  const room = (): Solid => makeBox(least, most, height, width);
  return {
    board: [hollow(makeTube(0, length, stuff), ...holes.map(({ through }) => through)), ...ends],
    ways: holes.map(({ at, out, plug }, i) => ({
      port: `O${i + 1}`,
      at,
      flow: i === 0 ? ([-out[0], -out[1], -out[2]] as Vec3) : out,
      plug: () => [plug(), ...(i === 0 ? [room()] : [])]
    })),
    volume:
      measureTube(length, stuff) +
      2 * t * (isIn ? width * height : (width + 2 * t) * (height + 2 * t)) -
      holes.reduce((sum, { volume }) => sum + volume, 0)
  };
}
