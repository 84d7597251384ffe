import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import {
  BEYOND,
  makeTube,
  measureTube,
  RADIANS,
  reachOf,
  type Expected,
  type Stuff,
  type Way
} from './expected.ts';
import { makeBox, type Solid } from './manifold.ts';
import {
  extrudeProfile,
  hollow,
  measureProfile,
  placeInPlane,
  PLANES,
  type Flat,
  type WallName
} from './profiles.ts';

interface TakeoffParams {
  readonly length: number;
  readonly wall: WallName;
  readonly station: number;
  readonly aside?: number;
  readonly branch: { readonly across: number; readonly along: number };
  readonly angle?: number;
  readonly neck?: number;
  readonly entry?: string;
  readonly shoe?: number;
  readonly fit?: string;
  readonly play?: number;
}

/** A main with a hole in its wall and a stub that ends in a plane of that wall, or a shoe on it. */
export function expectTakeoff(stuff: Stuff): Expected {
  const { width, height, t } = stuff;
  const params = stuff.params as unknown as TakeoffParams;
  const { length, wall, station, aside = 0, branch, angle = 90, neck = 200 } = params;
  const plane = PLANES[wall];
  const { depth } = reachOf(wall, stuff);
  const facing = depth + t;
  const half = branch.across / 2;
  const [sine, cosine] = [Math.sin(angle * RADIANS), angle === 90 ? 0 : Math.cos(angle * RADIANS)];
  /** A point from where the branch's axis meets the facing: along the branch, and square to it, downstream positive. */
  const onBranch = (along: number, beside: number): Flat => [
    station + along * cosine + beside * sine,
    facing + along * sine - beside * cosine
  ];
  /** Where a line along the branch meets a plane so far from the main's axis. */
  const meet = (out: number, beside: number): Flat =>
    onBranch((out - facing + beside * cosine) / sine, beside);
  const enters = params.fit === 'enter';
  const end = neck + ((branch.along / 2 + t) * cosine) / sine;
  const quad = (reach: number, from: number, to: number): Flat[] => [
    meet(from, -reach),
    meet(from, reach),
    onBranch(to, reach),
    onBranch(to, -reach)
  ];
  const strip = (reach: number, low: number, high: number): Flat[] => [
    meet(low, -reach),
    meet(low, reach),
    meet(high, reach),
    meet(high, -reach)
  ];
  const across = (reach: number): readonly [number, number] => [aside - reach, aside + reach];
  const inside = branch.along / 2;
  const plug = (): Solid => extrudeProfile(plane, quad(inside, 0, end + BEYOND), across(half));
  const at = placeInPlane(plane, onBranch(end, 0), aside);
  const flow: Vec3 = [cosine, plane.out[1] * sine, plane.out[2] * sine];
  const main = { port: 'outlet', at: [length, 0, 0] as Vec3, flow: [1, 0, 0] as Vec3 };
  const ways = (more: () => readonly Solid[]): Way[] => [
    { ...main, plug: () => [makeBox(0, length, height, width)] },
    { port: 'branch', at, flow, plug: () => [plug(), ...more()] }
  ];
  if (params.entry === 'shoe') {
    const { outer, inner, foot } = profileShoe(params, t);
    const lay = (profile: readonly Flat[]): Flat[] => profile.map(([x, out]) => [station + x, facing + out]);
    const opening = lay([
      [-foot - t - BEYOND, -t - BEYOND],
      [-foot + BEYOND, BEYOND],
      [inside, BEYOND],
      [inside, -t - BEYOND]
    ]);
    const hole = (): Solid => extrudeProfile(plane, opening, across(half));
    const air = lay([
      [-foot - BEYOND, -BEYOND],
      [inside, -BEYOND],
      [inside, neck + BEYOND],
      [-inside, neck + BEYOND],
      [-inside, foot - inside]
    ]);
    const shaft = (): Solid => extrudeProfile(plane, air, across(half));
    return {
      board: [
        hollow(makeTube(0, length, stuff), hole()),
        hollow(extrudeProfile(plane, lay(outer), across(half + t)), shaft())
      ],
      ways: ways(() => [hole(), shaft()]),
      volume:
        measureTube(length, stuff) -
        branch.across * t * (branch.along + foot - inside + t / 2) +
        Math.abs(measureProfile(outer)) * (branch.across + 2 * t) -
        Math.abs(measureProfile(inner)) * branch.across
    };
  }
  const play = enters ? (params.play ?? 1) : 0;
  const around = enters ? t : 0;
  const open = strip(inside + around, depth - BEYOND, facing + BEYOND).map(([x, out], i): Flat => [
    x + (i === 1 || i === 2 ? play : -play),
    out
  ]);
  const foot = enters ? depth : facing;
  const stub = hollow(
    extrudeProfile(plane, quad(inside + t, foot, end), across(half + t)),
    extrudeProfile(plane, quad(inside, foot - BEYOND, end + BEYOND), across(half))
  );
  const hole = extrudeProfile(plane, open, across(half + around + play));
  // A stub's axis is as long between its square end and its slanting foot as its wall is in the mean.
  const axis = end + (facing - foot) / sine;
  const area = (branch.along + 2 * t) * (branch.across + 2 * t) - branch.along * branch.across;
  const gap = ((branch.along + 2 * around) / sine + 2 * play) * (branch.across + 2 * around + 2 * play);
  return {
    board: [hollow(makeTube(0, length, stuff), hole), stub],
    ways: ways(() => []),
    volume: measureTube(length, stuff) - t * gap + area * axis
  };
}

/** A shoe seen across, from where the branch's axis meets the facing: outside, inside, and where its slope begins. */
export function profileShoe(
  { branch, neck = 200, shoe }: Pick<TakeoffParams, 'branch' | 'neck' | 'shoe'>,
  t: number
) {
  const half = branch.along / 2;
  const rise = shoe ?? Math.max(100, branch.along / 4);
  const foot = half + rise;
  const outer: Flat[] = [
    [-foot - t * Math.SQRT2, 0],
    [half + t, 0],
    [half + t, neck],
    [-half - t, neck],
    [-half - t, rise + t * Math.tan(22.5 * RADIANS)]
  ];
  const inner: Flat[] = [
    [-foot, 0],
    [half, 0],
    [half, neck],
    [-half, neck],
    [-half, rise]
  ];
  return { outer, inner, foot };
}
