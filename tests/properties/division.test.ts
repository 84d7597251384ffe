// A path longer than one straight: the rules of its division, told again from their words and tried out by brute force.
import { describe, expect, it, vi } from 'vitest';
import type { BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import { listPieceBodies } from '../../src/lib/kernel/fitting/fitting.ts';
import { evaluateOne } from '../duct.ts';
import { generateFitting, GENERATED, type GeneratedFitting } from '../oracle/generated-fittings.ts';
import { makeRandom } from '../oracle/generated-paths.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 2000;
const SAME = 1e-6;

/** The axis of the undivided straight between two joints, as the fitting's own cuts tell it. */
interface Leg {
  readonly from: number;
  readonly to: number;
  /** How far the cuts at its ends reach, 0 at an end of the path. */
  readonly near: number;
  readonly far: number;
  readonly least: number;
}

/** Half of what a cut takes from the axis, from the four corners of the outside. */
function measureReach(cut: { miter: number; heel: number }, { width, height }: Outside): number {
  const radians = Math.PI / 180;
  const slope = Math.tan(cut.miter * radians);
  const corners = [1, -1].flatMap((up) =>
    [1, -1].map(
      (right) =>
        slope *
        (((up * height) / 2) * Math.cos(cut.heel * radians) +
          ((right * width) / 2) * Math.sin(cut.heel * radians))
    )
  );
  return Math.max(...corners);
}

interface Outside {
  readonly width: number;
  readonly height: number;
}

interface Divided {
  readonly drawn: GeneratedFitting;
  readonly built: BuiltModel;
  readonly outside: Outside;
  readonly legs: readonly Leg[];
  /** Where every straight's datum and end lie on the undivided straight. */
  readonly datums: readonly number[];
  readonly ends: readonly number[];
}

/** Where straights and legs lie, found again from the pieces: their names, axes and cuts. */
function layOut(drawn: GeneratedFitting, built: BuiltModel): Divided {
  const { fitting } = built;
  const { section, thickness } = fitting.straights[0]!;
  const outside = { width: section.width + 2 * thickness, height: section.height + 2 * thickness };
  const axes: number[] = [];
  const cuts: { miter: number; heel: number }[] = [];
  const datums: number[] = [];
  let at = 0;
  for (const straight of fitting.straights) {
    datums.push(at - straight.pieces[0]!.from);
    for (const { name, axis, endCut } of straight.pieces) {
      const leg = Number(/^P(\d+)/.exec(name)![1]) - 1;
      axes[leg] = (axes[leg] ?? 0) + axis;
      if (endCut) cuts[leg] = endCut;
      at += axis;
    }
  }
  const { minThroat = 200, minGore = 150 } = drawn.stock.shop ?? {};
  const starts = axes.map((_, k) => axes.slice(0, k).reduce((sum, axis) => sum + axis, 0));
  const legs = axes.map((axis, k): Leg => {
    const alone = axes.length === 1;
    const outer = k === 0 || k === axes.length - 1;
    return {
      from: starts[k]!,
      to: starts[k]! + axis,
      near: k > 0 ? measureReach(cuts[k - 1]!, outside) : 0,
      far: k < axes.length - 1 ? measureReach(cuts[k]!, outside) : 0,
      least: alone ? 0 : outer ? minThroat : minGore
    };
  });
  const ends = fitting.straights.map(({ length }, i) => datums[i]! + length);
  return { drawn, built, outside, legs, datums, ends };
}

/** Generated fittings that take more than one straight. */
function* listDivided(seed: number, runs: number): Generator<Divided> {
  const random = makeRandom(seed);
  for (let run = 0; run < runs; run++) {
    const drawn = generateFitting(random, GENERATED[run % GENERATED.length]!);
    const { built } = evaluateOne(drawn.said, drawn.stock);
    if (built && built.fitting.straights.length > 1) yield layOut(drawn, built);
  }
}

/** The shortest outside corner edge of a piece, by its own cuts. */
function findShortest(built: BuiltModel, name: string): number {
  const body = built.fitting.bodies.find((one) => one.name === name)!;
  const edges = body.walls.flatMap(({ outer: [a, b, c, d] }) => [d![0] - a![0], c![0] - b![0]]);
  return Math.min(...edges);
}

const letter = (index: number, first: string): string => String.fromCharCode(first.charCodeAt(0) + index);

describe('a path over several straights', () => {
  it('has none longer than the board yields, all joined in order, named on, with stations of their own', () => {
    const counts = { straights: 0, square: 0, mitered: 0 };
    for (const { drawn, built, outside } of listDivided(1, RUNS)) {
      const { straights, joints } = built.fitting;
      const bodies = listPieceBodies(built.fitting);
      const what = JSON.stringify(drawn);
      const { makeUp } = straights[0]!;
      const { board } = drawn.stock;
      const run = makeUp.lay === 'across' ? board.width! : board.length!;
      const moulded = (makeUp.lay === 'across') === (board.profile === 'long');
      expect(bodies.map(({ name }) => name)).toEqual(
        straights.flatMap(({ pieces }) => pieces.map(({ name }) => name))
      );
      straights.forEach((straight, i) => {
        expect(straight.name).toBe(`F1-${letter(i, 'A')}`);
        expect(straight.makeUp).toEqual(makeUp);
        expect(straight.length, what).toBeLessThanOrEqual(run - (moulded ? board.spigot! : 0) + SAME);
        const [first, last] = [straight.pieces[0]!, straight.pieces[straight.pieces.length - 1]!];
        // Stations begin again: at 0 where it begins square, and where the cut's longest corner is 0 at a miter.
        const start = first.startCut ? measureReach(first.startCut, outside) : 0;
        const end = last.endCut ? measureReach(last.endCut, outside) : 0;
        expect(Math.abs(first.from - start), what).toBeLessThan(SAME);
        expect(Math.abs(last.from + last.axis + end - straight.length), what).toBeLessThan(SAME);
        expect(straight.ends[0] === 'miter').toBe(first.startCut !== null);
        expect(straight.ends[1] === 'miter').toBe(last.endCut !== null);
        counts.straights++;
      });
      joints.forEach(({ bodies: [a, b], closing }, i) => {
        expect([a, b]).toEqual([bodies[i]!.name, bodies[i + 1]!.name]);
        if (closing.kind === 'ends') counts.square++;
        else if (bodies[i]!.straight !== bodies[i + 1]!.straight) counts.mitered++;
      });
    }
    expect(counts.straights).toBeGreaterThan(RUNS);
    expect(counts.square).toBeGreaterThan(RUNS / 2);
    expect(counts.mitered).toBeGreaterThan(RUNS / 20);
  });

  it('loses nothing at a square division, and at a miter twice what the cut reaches', () => {
    let mitered = 0;
    for (const { drawn, built, legs, outside } of listDivided(2, RUNS)) {
      const { straights } = built.fitting;
      const total = legs[legs.length - 1]!.to;
      const triangles = straights.slice(1).reduce((sum, { pieces }) => {
        const cut = pieces[0]!.startCut;
        if (cut) mitered++;
        return sum + (cut ? 2 * measureReach(cut, outside) : 0);
      }, 0);
      const lengths = straights.reduce((sum, { length }) => sum + length, 0);
      expect(Math.abs(lengths - total - triangles), JSON.stringify(drawn)).toBeLessThan(1e-8);
    }
    expect(mitered).toBeGreaterThan(RUNS / 20);
  });

  it('has parts of a piece named a, b, c, rolled over alike, none shorter than the shop wants such a piece', () => {
    let parts = 0;
    for (const { drawn, built, legs } of listDivided(3, RUNS)) {
      const seen = new Map<number, number>();
      const counts = new Map<number, number>();
      const legOf = (name: string): number => Number(/^P(\d+)/.exec(name)![1]) - 1;
      for (const { name } of built.fitting.bodies)
        counts.set(legOf(name), (counts.get(legOf(name)) ?? 0) + 1);
      for (const { name, piece } of listPieceBodies(built.fitting)) {
        const leg = legOf(name);
        const part = seen.get(leg) ?? 0;
        seen.set(leg, part + 1);
        expect(piece.flipped).toBe(leg % 2 === 1);
        const divided = counts.get(leg)! > 1;
        if (part < 26) expect(name).toBe(`P${leg + 1}${divided ? letter(part, 'a') : ''}`);
        if (!divided) continue;
        expect(findShortest(built, name), JSON.stringify(drawn)).toBeGreaterThan(legs[leg]!.least - SAME);
        parts++;
      }
      expect([...counts.keys()].sort((a, b) => a - b)).toEqual(legs.map((_, k) => k));
    }
    expect(parts).toBeGreaterThan(RUNS);
  });

  it('is divided where the next straight begins as far as it can', () => {
    let divisions = 0;
    for (const { drawn, built, legs, datums } of listDivided(4, RUNS)) {
      const { straights } = built.fitting;
      const { makeUp } = straights[0]!;
      for (let i = 1; i < straights.length; i++) {
        const from = datums[i - 1]!;
        const begunAt = straights[i - 1]!.pieces[0]!.startCut;
        const first = Number(/^P(\d+)/.exec(straights[i - 1]!.pieces[0]!.name)![1]) - 1;
        const others = legs.flatMap((leg, k) => {
          if (k < first) return [];
          const begin = k === first && !begunAt ? from : leg.from + leg.near;
          const least = Math.max(leg.least, 1);
          const [low, high] = [begin + least, leg.to - leg.far - least];
          const square = Array.from({ length: 101 }, (_, n) => low + ((high - low) * n) / 100)
            .concat(from + makeUp.yield)
            .filter((at) => at >= low && at <= high && at <= from + makeUp.yield)
            // From the last division of a leg the straight must still take in the cut at its end.
            .filter((at) => canGoOn(at, leg, makeUp.yield));
          const miter =
            k < legs.length - 1 && leg.to + leg.far <= from + makeUp.yield && leg.to - leg.far > from
              ? [leg.to - leg.far]
              : [];
          return [...square, ...miter];
        });
        expect(datums[i]!, JSON.stringify(drawn)).toBeGreaterThan(Math.max(...others) - SAME);
        divisions++;
      }
    }
    expect(divisions).toBeGreaterThan(RUNS / 2);
  });

  /** Whether a path divided here can be divided on, up to the end of the leg: by trying every number of further divisions. */
  function canGoOn(at: number, leg: Leg, longest: number): boolean {
    const least = Math.max(leg.least, 1);
    for (let more = 0; more < 1000; more++) {
      // The last of them as late as it may be, the others as early or as late as the last needs.
      const last = more === 0 ? at : Math.min(leg.to - leg.far - least, at + more * longest);
      if (more > 0 && at + more * least > last + SAME) return false;
      if (leg.to + leg.far <= last + longest + SAME) return true;
      if (last >= leg.to - leg.far - least) return false;
    }
    return false;
  }
});
