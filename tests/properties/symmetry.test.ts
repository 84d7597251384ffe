import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import type { SheetFitting } from '../../src/lib/sheet/schema.ts';
import { ENDLESS, writeSheetOfFitting } from '../duct.ts';
import {
  ANY,
  evaluatePath,
  generatePath,
  makeRandom,
  type GeneratedPath
} from '../oracle/generated-paths.ts';
import { uniform } from './documents.ts';
import { measureGap } from './turtle.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 400;

/** Heels are such that binary numbers hold them and their mirror images exactly. */
const drawPath = fc.nat().map<GeneratedPath>((seed) => {
  const path = generatePath(makeRandom(seed), ANY);
  return {
    ...path,
    joints: path.joints.map(({ turn, heel }) => ({ turn, heel: Math.round(heel * 1024) / 1024 }))
  };
});

const check = <T>(draw: fc.Arbitrary<T>, property: (drawn: T) => void): void => {
  fc.assert(fc.property(draw, property), { numRuns: RUNS, seed: 11 });
};

function build(path: GeneratedPath): BuiltModel {
  const { built } = evaluatePath(path);
  fc.pre(built !== null);
  return built!;
}

function writeSheet({ section, thickness, lengths, joints }: GeneratedPath): SheetFitting {
  const fitting = { family: 'path', section, params: { lengths, joints } };
  const sheet = writeSheetOfFitting(fitting, { board: { ...ENDLESS, thickness } });
  fc.pre(sheet.buildable);
  return sheet;
}

const withHeels = (path: GeneratedPath, change: (heel: number) => number): GeneratedPath => ({
  ...path,
  joints: path.joints.map(({ turn, heel }) => ({ turn, heel: change(heel) }))
});

type Marks = SheetFitting['straights'][number]['cuts'][number]['faces'];
type Mark = Marks['top'];
const swap = ({ start, end, ...rest }: Mark): Mark => ({ ...rest, start: end, end: start });
const negate = (value: number): number => 0 - value;

/** The figures of a sheet, without names of corners and sentences, that a mirror image shares or mirrors. */
function listFigures({ straights, ports, quantities, volume }: SheetFitting) {
  return {
    volume,
    quantities,
    pieces: straights[0]!.pieces.map(({ axis, shortest, longest, volume: own }) => [
      axis,
      shortest,
      longest,
      own
    ]),
    cuts: straights[0]!.cuts.map(({ station, miter, faces }) => ({ station, miter, faces })),
    ports: ports.map(({ at, flow, up, end }) => ({ at, flow, up, end }))
  };
}

describe('a mirrored path', () => {
  it('left for right has the mirrored sheet: marks change sides, the outlet lies on the other side', () => {
    check(drawPath, (path) => {
      const here = listFigures(writeSheet(path));
      const there = listFigures(writeSheet(withHeels(path, (heel) => 360 - heel)));
      expect(there).toEqual({
        ...here,
        cuts: here.cuts.map(({ faces: { top, right, bottom, left }, ...rest }) => ({
          ...rest,
          faces: { top: swap(top), right: left, bottom: swap(bottom), left: right }
        })),
        ports: here.ports.map(({ at, flow, up, end }) => ({
          at: [at[0], at[1], negate(at[2])],
          flow: [flow[0], flow[1], negate(flow[2])],
          up: [up[0], up[1], negate(up[2])],
          end
        }))
      });
    });
  });

  it('upside down has the mirrored sheet: top and bottom change places', () => {
    check(drawPath, (path) => {
      const here = listFigures(writeSheet(path));
      const there = listFigures(writeSheet(withHeels(path, (heel) => 180 - heel)));
      expect(there).toEqual({
        ...here,
        cuts: here.cuts.map(({ faces: { top, right, bottom, left }, ...rest }) => ({
          ...rest,
          faces: { top: bottom, right: swap(right), bottom: top, left: swap(left) }
        })),
        ports: here.ports.map(({ at, flow, up, end }) => ({
          at: [at[0], negate(at[1]), at[2]],
          flow: [flow[0], negate(flow[1]), flow[2]],
          // Up is carried, so in the image it points the opposite way of the mirrored up.
          up: [negate(up[0]), up[1], negate(up[2])],
          end
        }))
      });
    });
  });
});

describe('a path walked from its outlet', () => {
  it('has the same pieces in the opposite order and the same volume', () => {
    check(drawPath, (path) => {
      const forward = build(path);
      const backward = build({
        ...path,
        lengths: [...path.lengths].reverse(),
        joints: [...path.joints].reverse().map(({ turn, heel }) => ({ turn, heel: 360 - heel }))
      });
      const axes = ({ fitting }: BuiltModel): number[] =>
        fitting.straights[0]!.pieces.map(({ axis }) => axis);
      expect(axes(backward)).toEqual(axes(forward).reverse());
      expect(Math.abs(backward.quantities.volume / forward.quantities.volume - 1)).toBeLessThan(1e-12);
      const bodies = [...backward.quantities.bodies].reverse();
      forward.quantities.bodies.forEach((volume, k) => {
        expect(Math.abs(bodies[k]! / volume - 1)).toBeLessThan(1e-11);
      });
      // The two ends are as far apart, however it is walked.
      const span = ({ fitting: { ports } }: BuiltModel): number => measureGap(ports[0]!.at, ports[1]!.at);
      expect(Math.abs(span(forward) - span(backward))).toBeLessThan(1e-8);
    });
  });
});

describe('a path with every length so many times as long', () => {
  it('has lengths times as long, areas by the square, volumes by the cube, angles unchanged', () => {
    check(fc.tuple(drawPath, uniform(0.2, 5)), ([path, k]) => {
      const small = build(path);
      const large = build({
        ...path,
        section: { width: path.section.width * k, height: path.section.height * k },
        thickness: path.thickness * k,
        lengths: path.lengths.map((length) => length * k)
      });
      const expectRatio = (figure: (built: BuiltModel) => number, ratio: number): void => {
        expect(Math.abs(figure(large) / figure(small) / ratio - 1)).toBeLessThan(1e-9);
      };
      expectRatio(({ quantities }) => quantities.volume, k ** 3);
      expectRatio(({ quantities }) => quantities.outside, k ** 2);
      expectRatio(({ quantities }) => quantities.inside, k ** 2);
      expectRatio(({ quantities }) => quantities.glue, k);
      expectRatio(({ quantities }) => quantities.jointOutline, k);
      expectRatio(({ fitting }) => fitting.straights[0]!.length, k);
      const angles = ({ fitting }: BuiltModel) =>
        fitting.straights[0]!.cuts.map(({ miter, heel }) => [miter, heel]);
      expect(angles(large)).toEqual(angles(small));
      const [near, far] = [small.fitting.ports[1]!, large.fitting.ports[1]!];
      expect(measureGap(near.at.map((one) => one * k) as never, far.at)).toBeLessThan(1e-7);
      expect(measureGap(near.flow, far.flow)).toBeLessThan(1e-12);
    });
  });
});

describe('a heel said a whole turn further', () => {
  it.each([360, -360, 720, 36_000])('%d degrees: the sheet is the same to the last digit', (whole) => {
    check(drawPath, (path) => {
      const figures = listFigures(writeSheet(path));
      expect(listFigures(writeSheet(withHeels(path, (heel) => heel + whole)))).toEqual(figures);
    });
  });
});

describe('a nudge of 1e-9', () => {
  const NUDGE = 1e-9;
  const outletOf = (path: GeneratedPath) => build(path).fitting.ports[1]!.at;

  it('of a leg moves the outlet by about 1e-9 mm', () => {
    check(fc.tuple(drawPath, fc.nat()), ([path, pick]) => {
      const leg = pick % path.lengths.length;
      const lengths = path.lengths.map((length, k) => (k === leg ? length + NUDGE : length));
      const moved = measureGap(outletOf(path), outletOf({ ...path, lengths }));
      // Places of some metres are held to 1e-12 mm.
      expect(Math.abs(moved - NUDGE)).toBeLessThan(2e-11);
    });
  });

  it('of a turn or a heel moves it by no more than 1e-9 degrees swing the whole path', () => {
    check(fc.tuple(drawPath, fc.nat(), fc.boolean()), ([path, pick, turned]) => {
      const at = pick % path.joints.length;
      const joints = path.joints.map(({ turn, heel }, i) =>
        i !== at ? { turn, heel } : turned ? { turn: turn + NUDGE, heel } : { turn, heel: heel + NUDGE }
      );
      const length = path.lengths.reduce((sum, one) => sum + one, 0);
      const moved = measureGap(outletOf(path), outletOf({ ...path, joints }));
      expect(moved).toBeLessThan(2 * NUDGE * (Math.PI / 180) * length + 2e-11);
    });
  });

  it('of the section changes the volume by about as much as 1e-9 mm of wall', () => {
    check(drawPath, (path) => {
      const wider = { ...path, section: { ...path.section, width: path.section.width + NUDGE } };
      const length = path.lengths.reduce((sum, one) => sum + one, 0);
      const change = build(wider).quantities.volume - build(path).quantities.volume;
      // Two walls of the thickness grow by it along the whole straight; volumes are held to 1e-13 of themselves.
      const expected = 2 * path.thickness * length * NUDGE;
      expect(Math.abs(change - expected)).toBeLessThan(expected / 10 + build(path).quantities.volume * 1e-12);
    });
  });
});
