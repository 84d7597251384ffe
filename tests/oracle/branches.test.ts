// Fittings that change a duct's size, divide it, open or close it: the board that the kernel's walls are made of beside
// solids that the mesh library builds from the parameters alone.
import { describe, expect, it } from 'vitest';
import type { BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import { listWallFaces } from '../../src/lib/kernel/fitting/wall.ts';
import { build, evaluateOne, FOLDED } from '../duct.ts';
import { countLooseEdges, measureSpace, measureWarp } from '../solid.ts';
import { measureFold } from './expected-reducer.ts';
import { expectSolids, freeExpected } from './expected-solids.ts';
import { generateBranch, GENERATED_BRANCHES, takeUsualBoard } from './generated-branches.ts';
import { GENERATED, type GeneratedFitting } from './generated-fittings.ts';
import { makeRandom } from './generated-paths.ts';
import { free, measureOverlap, type Solid } from './manifold.ts';
import { findRounds, measureShared, measureWorstOverlap, spanBody } from './profiles.ts';

/** How many fittings of each family. */
const RUNS = 30;
const PLENTY = 300_000;

/** Volumes that differ by no more than this share are the same. */
const SAME = 1e-6;

/** Bodies that meet are one once each reaches so far further, mm. */
const HAIR = 0.01;

/** What two bodies share that meet in a face, each grown by a hair; along an edge it is less, mm³. */
const MEETING = 1;

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** A fitting of legal parameters; one that the kernel refuses is a fault, and thrown. */
function buildDrawn({ said, stock }: GeneratedFitting): BuiltModel {
  try {
    return build(said, stock);
  } catch (error) {
    throw new Error(`${JSON.stringify({ said, stock })}: ${String(error)}`, { cause: error });
  }
}

/** How many parts solids make that are one where they reach into each other. */
function countParts(solids: readonly Solid[]): number {
  const [first, ...others] = solids;
  if (!first) return 0;
  const reached = [first];
  let rest = others;
  for (const one of reached) {
    const near = rest.filter((other) => measureOverlap(one, other) > 0);
    reached.push(...near);
    rest = rest.filter((other) => !near.includes(other));
  }
  return 1 + countParts(rest);
}

describe('every family there is', () => {
  it('is generated and judged, here or with the mitered paths', () => {
    expect([...GENERATED, ...GENERATED_BRANCHES].sort()).toEqual(FAMILIES.map(({ name }) => name).sort());
  });
});

describe.each(GENERATED_BRANCHES)('generated fittings of the family %s', (family) => {
  const seed = GENERATED_BRANCHES.indexOf(family);
  const draw = (salt: number): GeneratedFitting[] => {
    const random = makeRandom(salt + seed);
    return Array.from({ length: RUNS }, () => generateBranch(random, family));
  };

  it(
    'are of closed, flat, convex walls that fill what the parameters say, nothing twice',
    { timeout: PLENTY },
    () => {
      for (const drawn of draw(31_415)) {
        const built = buildDrawn(drawn);
        const what = JSON.stringify(drawn);
        const { fitting, quantities } = built;
        const bodies = fitting.bodies.map((body) => spanBody(body));
        fitting.bodies.forEach(({ walls }, i) =>
          walls.forEach((wall, k) => {
            const faces = listWallFaces(wall);
            expect(countLooseEdges(faces), what).toBe(0);
            expect(Math.max(...faces.map(measureWarp)), what).toBeLessThan(1e-6);
            // Only a convex solid, its faces all seen from outside, has the volume that its corners span.
            const spanned = bodies[i]![k]!.volume();
            expect(Math.abs(measureSpace(faces) / spanned - 1), what).toBeLessThan(SAME);
          })
        );
        const volumes = bodies.map((walls) => sum(walls.map((wall) => wall.volume())));
        const volume = sum(volumes);
        expect(Math.abs(quantities.volume / volume - 1), what).toBeLessThan(SAME);
        const walls = bodies.flat();
        expect(measureWorstOverlap(walls) / volume, what).toBeLessThan(SAME);
        const expected = expectSolids(drawn, findRounds(fitting));
        const board = sum(expected.board.map((solid) => solid.volume()));
        expect(Math.abs(volume / board - 1), what).toBeLessThan(SAME);
        // Neither row overlaps itself, so they are the same board when what they share is all of it.
        expect(Math.abs(measureShared(expected.board, walls) / board - 1), what).toBeLessThan(SAME);
        if (expected.volume !== null) {
          expect(Math.abs(quantities.volume / expected.volume - 1), what).toBeLessThan(1e-9);
        }
        freeExpected(expected);
        free(walls);
      }
    }
  );

  it('are one whole, and every two bodies that are said to be joined meet', { timeout: PLENTY }, () => {
    for (const drawn of draw(27_182)) {
      const { fitting } = buildDrawn(drawn);
      const what = JSON.stringify(drawn);
      // What is let into a wall has play all round it.
      const play = drawn.said.params['fit'] === 'enter' ? ((drawn.said.params['play'] as number) ?? 1) : 0;
      const grown = new Map<string, Solid[]>(
        fitting.bodies.map((body) => [body.name, spanBody(body, HAIR + play / 2)])
      );
      const walls = [...grown.values()].flat();
      expect(countParts(walls), what).toBe(1);
      for (const { bodies } of fitting.joints) {
        const [a, b] = bodies.map((name) => grown.get(name)!) as [Solid[], Solid[]];
        expect(measureShared(a, b), `${bodies.join(' and ')} of ${what}`).toBeGreaterThan(MEETING);
      }
      free(walls);
    }
  });

  it('leave the air its way to every outlet, and end where the parameters say', { timeout: PLENTY }, () => {
    for (const drawn of draw(16_180)) {
      const built = buildDrawn(drawn);
      const what = JSON.stringify(drawn);
      const { fitting, quantities } = built;
      const walls = fitting.bodies.flatMap((body) => spanBody(body));
      const expected = expectSolids(drawn, findRounds(fitting));
      for (const { port, plug } of expected.ways) {
        const air = plug();
        expect(sum(air.map((solid) => solid.volume())), what).toBeGreaterThan(0);
        expect(measureShared(air, walls) / quantities.volume, `${port} of ${what}`).toBeLessThan(SAME);
        free(air);
      }
      for (const { name, at, flow } of fitting.ports) {
        const way = expected.ways.find(({ port }) => port === name);
        if (!way) {
          expect([name, at, flow]).toEqual(['inlet', [0, 0, 0], [1, 0, 0]]);
          continue;
        }
        for (const axis of [0, 1, 2] as const) {
          expect(Math.abs(at[axis] - way.at[axis]), `${name} of ${what}`).toBeLessThan(1e-6);
          expect(Math.abs(flow[axis] - way.flow[axis]), `${name} of ${what}`).toBeLessThan(1e-9);
        }
      }
      // The hole of an opening is no end of the duct; every other way is.
      const outlets = expected.ways.filter(({ port }) => family !== 'opening' || port !== 'O1');
      const names = fitting.ports.map(({ name }) => name);
      expect(outlets.every(({ port }) => names.includes(port))).toBe(true);
      freeExpected(expected);
      free(walls);
    }
  });

  it('have the mirror image, and are the same from their other end, where their family says how', () => {
    const { mirror, reverse } = FAMILIES.find(({ name }) => name === family)!;
    expect(mirror ?? reverse).toBeDefined();
    for (const drawn of draw(17_320).slice(0, 25)) {
      const { fitting, setting } = buildDrawn(drawn);
      const rounds = { sides: 64, from: 0 };
      const own = expectSolids(drawn, rounds);
      const compare = (change: Readonly<Record<string, unknown>>, move: (solid: Solid) => Solid): void => {
        const params = { ...drawn.said.params, ...change };
        const other = { ...drawn, said: { ...drawn.said, params } };
        const turned = expectSolids(other, rounds);
        const moved = own.board.map(move);
        const board = sum(own.board.map((solid) => solid.volume()));
        const what = JSON.stringify([drawn, change]);
        expect(Math.abs(sum(turned.board.map((solid) => solid.volume())) / board - 1), what).toBeLessThan(
          SAME
        );
        expect(Math.abs(measureShared(turned.board, moved) / board - 1), what).toBeLessThan(SAME);
        expect(evaluateOne(other.said, other.stock).built, what).not.toBeNull();
        freeExpected(turned);
        free(moved);
      };
      const { values } = evaluateOne(drawn.said, drawn.stock).resolved;
      if (mirror) compare(mirror(values as never), (solid) => solid.mirror([0, 0, 1]));
      if (reverse) {
        // The outlet is the inlet, what was right is left; the flow is along the duct at both ends.
        const { at } = fitting.ports.find(({ name }) => name === 'outlet')!;
        compare(reverse(values as never, setting), (solid) =>
          solid.translate([-at[0], -at[1], -at[2]]).rotate([0, 180, 0])
        );
      }
      freeExpected(own);
    }
  });

  it('are the same board where a usual board makes them of more straights', { timeout: PLENTY }, () => {
    let built = 0;
    for (const drawn of draw(14_142)) {
      const usual = takeUsualBoard(drawn);
      const model = evaluateOne(usual.said, usual.stock);
      // What one straight must yield, or an opening on a joint, only the usual board forbids.
      if (!model.built) continue;
      const walls = model.built.fitting.bodies.flatMap((body) => spanBody(body));
      const expected = expectSolids(drawn, findRounds(model.built.fitting));
      const board = sum(expected.board.map((solid) => solid.volume()));
      const what = JSON.stringify(usual);
      expect(Math.abs(sum(walls.map((wall) => wall.volume())) / board - 1), what).toBeLessThan(SAME);
      expect(Math.abs(measureShared(expected.board, walls) / board - 1), what).toBeLessThan(SAME);
      freeExpected(expected);
      free(walls);
      built++;
    }
    expect(built).toBeGreaterThan(RUNS / 3);
  });
});

describe('a reducer folded from 400 × 250, board 25, drop 100 over 400, collars of 150', () => {
  const { section, params } = FOLDED;

  it.each(['strip', 'trim'])('has 22 873 105.6 mm³ of board, finished by %s', (finish) => {
    const { quantities } = build({ family: 'reducer', section, params: { ...params, finish } });
    expect(Math.abs(quantities.volume - 22_873_105.6)).toBeLessThan(0.05);
    expect(Math.abs(measureFold(params, section, 25) - quantities.volume)).toBeLessThan(0.01);
  });
});
