import type { BuiltModel, FittingModel } from '../../src/lib/kernel/evaluate.ts';
import { ENDLESS, evaluateOne } from '../duct.ts';

/** A generator of numbers in [0, 1) that gives the same row for the same seed (mulberry32, public domain). */
export function makeRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A path to be built, with what it is made from. */
export interface GeneratedPath {
  readonly section: { readonly width: number; readonly height: number };
  readonly thickness: number;
  readonly lengths: number[];
  readonly joints: { readonly turn: number; readonly heel: number }[];
}

export interface PathLimits {
  /** Most joints; at least one is made. */
  readonly joints: number;
  readonly leastTurn: number;
  readonly mostTurn: number;
  /** The most a leg is longer than its two cuts need. */
  readonly spare: number;
  /** How often a joint turns the same way as the one before, so that the path closes in on itself. */
  readonly sameHeel: number;
}

/**
 * A path of 1 to so many joints, section 60 to 1200, board 10 to 60 thick, heels anywhere and often at a multiple of 90.
 * Every leg is as long as its cuts need whatever their heels, and a little more, so no edge vanishes.
 */
export function generatePath(random: () => number, limits: PathLimits): GeneratedPath {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const section = { width: Math.round(between(60, 1200)), height: Math.round(between(60, 1200)) };
  const thickness = Math.round(between(10, 60));
  const count = 1 + Math.floor(random() * limits.joints);
  const joints: GeneratedPath['joints'] = [];
  for (let i = 0; i < count; i++) {
    const before = joints[i - 1]?.heel;
    const heel =
      before !== undefined && random() < limits.sameHeel
        ? before
        : random() < 0.4
          ? 90 * Math.floor(random() * 4)
          : between(0, 360);
    joints.push({ turn: between(limits.leastTurn, limits.mostTurn), heel });
  }
  const reach = ({ turn, heel }: { turn: number; heel: number }): number => {
    const radians = Math.PI / 180;
    const across =
      (section.height / 2 + thickness) * Math.abs(Math.cos(heel * radians)) +
      (section.width / 2 + thickness) * Math.abs(Math.sin(heel * radians));
    return Math.tan((turn / 2) * radians) * across;
  };
  const lengths = Array.from({ length: count + 1 }, (_, k) => {
    const cuts = [joints[k - 1], joints[k]].filter((joint) => joint !== undefined);
    return cuts.reduce((sum, joint) => sum + reach(joint), 0) + between(1, limits.spare);
  });
  return { section, thickness, lengths, joints };
}

/** What the kernel makes of a generated path. */
export function evaluatePath({ section, thickness, lengths, joints }: GeneratedPath): FittingModel {
  return evaluateOne(
    { family: 'path', section, params: { lengths, joints } },
    { board: { ...ENDLESS, thickness } }
  );
}

/** Generated paths that the kernel calls buildable, each with the fitting it builds. */
export function* listBuildable(
  seed: number,
  wanted: number,
  limits: PathLimits
): Generator<[GeneratedPath, BuiltModel]> {
  const random = makeRandom(seed);
  for (let found = 0; found < wanted;) {
    const path = generatePath(random, limits);
    const { built } = evaluatePath(path);
    if (!built) continue;
    found++;
    yield [path, built];
  }
}

/** Whatever a path may do that is not made to run into itself. */
export const ANY: PathLimits = { joints: 5, leastTurn: 3, mostTurn: 90, spare: 500, sameHeel: 0.2 };

/** For tests of hundreds of solids on a busy machine, ms. */
export const PLENTY = 120_000;

/** How many paths a test checks. */
export const WANTED = 200;
