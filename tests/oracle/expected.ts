import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { makeBox, type Solid } from './manifold.ts';
import { hollow, type Rounds, type WallName } from './profiles.ts';

/** A way that the air must be able to take: what it fills, and where it ends. */
export interface Way {
  readonly port: string;
  readonly at: Vec3;
  readonly flow: Vec3;
  /** The inside section swept along it; made anew at each call. */
  plug(): readonly Solid[];
}

/** A fitting as its parameters say it. */
export interface Expected {
  /** The board of the fitting in parts that do not overlap, in the fitting's frame. */
  readonly board: readonly Solid[];
  readonly ways: readonly Way[];
  /** Closed form of its volume, mm³; null where none is known but those of its parts. */
  readonly volume: number | null;
}

/** What a fitting is built from: its parameters, the inside of its section and the board's thickness. */
export interface Stuff {
  readonly params: Readonly<Record<string, unknown>>;
  readonly width: number;
  readonly height: number;
  readonly t: number;
  readonly rounds: Rounds;
}

/** Radians in a degree. */
export const RADIANS = Math.PI / 180;

/** A hole reaches so far beyond the wall it goes through, mm, so that no face of it lies in one of the wall's. */
export const BEYOND = 1;

/** A hollow straight between two stations. */
export function makeTube(
  from: number,
  to: number,
  { width, height, t }: Pick<Stuff, 'width' | 'height' | 't'>
) {
  return hollow(
    makeBox(from, to, height + 2 * t, width + 2 * t),
    makeBox(from - BEYOND, to + BEYOND, height, width)
  );
}

/** From the axis to the inside of a wall, and half the inside across it. */
export function reachOf(wall: WallName, { width, height }: Pick<Stuff, 'width' | 'height'>) {
  const isSide = wall === 'left' || wall === 'right';
  return { depth: (isSide ? width : height) / 2, half: (isSide ? height : width) / 2 };
}

/** Volume of a hollow straight, mm³. */
export function measureTube(
  length: number,
  { width, height, t }: Pick<Stuff, 'width' | 'height' | 't'>
): number {
  return ((width + 2 * t) * (height + 2 * t) - width * height) * length;
}
