import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { markCut } from '../../src/lib/kernel/straight/cut.ts';
import { growSection } from '../../src/lib/kernel/straight/section.ts';
import type { BuiltModel } from '../../src/lib/kernel/evaluate.ts';
import { buildBend, ENDLESS, evaluateOne, writeSheetOfFitting } from '../duct.ts';
import {
  ANY,
  evaluatePath,
  generatePath,
  makeRandom,
  type GeneratedPath
} from '../oracle/generated-paths.ts';
import { uniform } from './documents.ts';
import { findBlade, foldMarks, measureGap, walkPath } from './turtle.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 500;

/** Paths whose legs are long enough; heels that binary numbers hold exactly, so that mirroring them is exact. */
const drawPath = fc.nat().map<GeneratedPath>((seed) => {
  const path = generatePath(makeRandom(seed), ANY);
  return {
    ...path,
    joints: path.joints.map(({ turn, heel }) => ({ turn, heel: Math.round(heel * 1024) / 1024 }))
  };
});

/** A path that is built; one that runs into itself is passed over. */
function build(path: GeneratedPath): BuiltModel {
  const { built } = evaluatePath(path);
  fc.pre(built !== null);
  return built!;
}

function writeSheet({ section, thickness, lengths, joints }: GeneratedPath) {
  const sheet = writeSheetOfFitting(
    { family: 'path', section, params: { lengths, joints } },
    { board: { ...ENDLESS, thickness } }
  );
  fc.pre(sheet.buildable);
  return sheet;
}

const check = <T>(draw: fc.Arbitrary<T>, property: (drawn: T) => void): void =>
  fc.assert(fc.property(draw, property), { numRuns: RUNS, seed: 7 });

describe('the outlet of a duct', () => {
  it('of a path is where a walker along its axis arrives, upright as carried', () => {
    check(drawPath, (path) => {
      const outlet = build(path).fitting.ports[1]!;
      const { at, flow, up } = walkPath(path.lengths, path.joints);
      expect(measureGap(outlet.at, at)).toBeLessThan(1e-8);
      expect(measureGap(outlet.flow, flow)).toBeLessThan(1e-12);
      expect(measureGap(outlet.up, up)).toBeLessThan(1e-12);
    });
  });

  it('of a bend is the sum of its pieces as complex numbers, toward the side opposite its heel', () => {
    const drawBend = fc.record({
      turn: uniform(3, 180),
      pieces: fc.integer({ min: 3, max: 9 }),
      heel: fc.constantFrom('top', 'right', 'bottom', 'left'),
      throatIn: uniform(1, 900),
      gore: uniform(1, 600),
      throatOut: uniform(1, 900),
      width: uniform(60, 1200),
      height: uniform(60, 1200),
      thickness: uniform(10, 60)
    });
    let checked = 0;
    check(drawBend, ({ width, height, thickness, ...params }) => {
      const { turn, pieces, heel, throatIn, gore, throatOut } = params;
      const said = { family: 'bend', section: { width, height }, params };
      const { built } = evaluateOne(said, { board: { ...ENDLESS, thickness } });
      fc.pre(built !== null);
      const depth = (heel === 'top' || heel === 'bottom' ? height : width) + 2 * thickness;
      const joints = pieces - 1;
      const step = (turn / joints) * (Math.PI / 180);
      // What a cut takes from the throat's side of a piece on its axis: half the depth times the tangent of half a step.
      const reach = (depth / 2) * Math.tan(step / 2);
      let [along, toward] = [throatIn + reach, 0];
      for (let k = 1; k < joints; k++) {
        along += (gore + 2 * reach) * Math.cos(k * step);
        toward += (gore + 2 * reach) * Math.sin(k * step);
      }
      along += (throatOut + reach) * Math.cos(joints * step);
      toward += (throatOut + reach) * Math.sin(joints * step);
      const side = { top: [0, -1, 0], right: [0, 0, -1], bottom: [0, 1, 0], left: [0, 0, 1] }[heel]!;
      const expected = [along, side[1]! * toward, side[2]! * toward] as const;
      const outlet = built!.fitting.ports[1]!;
      expect(measureGap(outlet.at, expected)).toBeLessThan(1e-8);
      expect(Math.abs(outlet.flow[0] - Math.cos(joints * step))).toBeLessThan(1e-12);
      // The straight: both throats, the gores, and what 2n cuts take from the axis.
      const straight = throatIn + throatOut + (joints - 1) * gore + 2 * joints * reach;
      expect(Math.abs(built!.fitting.straights[0]!.length - straight)).toBeLessThan(1e-8);
      checked++;
    });
    expect(checked).toBe(RUNS);
  });

  it('of a bend of ever more pieces about one radius nears the arc', () => {
    const lengthOf = (pieces: number): number => {
      const { fitting } = buildBend({ turn: 90, pieces, radius: 1000 });
      return fitting.straights[0]!.pieces.slice(1, -1).reduce((sum, { axis }) => sum + axis, 0);
    };
    // Gores on the axis: (n − 1)·2R·tan(turn/2n), and R·turn less one step in the limit.
    const stepped = (joints: number) => (1000 * Math.PI) / 2 - (1000 * Math.PI) / 2 / joints;
    for (const pieces of [3, 5, 9]) {
      const joints = pieces - 1;
      const half = Math.PI / 4 / joints;
      expect(Math.abs(lengthOf(pieces) - (joints - 1) * 2000 * Math.tan(half))).toBeLessThan(1e-9);
    }
    expect(Math.abs(lengthOf(9) / stepped(8) - 1)).toBeLessThan(Math.abs(lengthOf(3) / stepped(2) - 1));
    expect(Math.abs(lengthOf(9) / stepped(8) - 1)).toBeLessThan(0.004);
  });
});

describe('the marks of a cut', () => {
  const NORMALS = { top: [1, 0], right: [0, 1], bottom: [-1, 0], left: [0, -1] } as const;

  it('folded back into space lie in one plane, that of the cut', () => {
    let checked = 0;
    check(drawPath, (path) => {
      const { section, thickness } = path;
      const outside = growSection(section, thickness);
      const [straight] = build(path).fitting.straights;
      straight!.cuts.forEach((cut, i) => {
        const [top, right, bottom, left] = markCut(cut, outside, thickness);
        const plane = foldMarks(
          { top: top!, right: right!, bottom: bottom!, left: left! },
          section.width + 2 * thickness,
          section.height + 2 * thickness
        );
        const { turn, heel } = path.joints[i]!;
        expect(plane.gap).toBeLessThan(1e-9);
        expect(plane.warp).toBeLessThan(1e-9);
        expect(Math.abs(plane.miter - turn / 2)).toBeLessThan(1e-9);
        const station = path.lengths.slice(0, i + 1).reduce((sum, one) => sum + one, 0);
        expect(Math.abs(plane.station - station)).toBeLessThan(1e-9);
        // Every joint before it has rolled the straight's frame by half a turn.
        const off = Math.abs(plane.heel - ((((heel + 180 * i) % 360) + 360) % 360));
        expect(Math.min(off, 360 - off)).toBeLessThan(1e-8);
        checked++;
      });
    });
    expect(checked).toBeGreaterThan(RUNS);
  });

  it('as rounded in the sheet still fold back into the cut, as near as a thousandth lets them', () => {
    check(drawPath, (path) => {
      const { section, thickness } = path;
      const [A, B] = [section.width + 2 * thickness, section.height + 2 * thickness];
      for (const cut of writeSheet(path).straights[0]!.cuts) {
        const plane = foldMarks(cut.faces, A, B);
        expect(plane.gap).toBe(0);
        expect(plane.warp).toBeLessThan(0.001);
        expect(Math.abs(plane.station - cut.station)).toBeLessThan(0.0011);
        const turnOf = (0.001 / Math.min(A, B)) * (180 / Math.PI);
        expect(Math.abs(plane.miter - cut.miter)).toBeLessThan(0.001 + 2 * turnOf);
      }
    });
  });

  it('have the set-back, the depth and the lean of the plane on all four faces', () => {
    check(drawPath, (path) => {
      const { section, thickness } = path;
      const outside = growSection(section, thickness);
      for (const cut of build(path).fitting.straights[0]!.cuts) {
        for (const mark of markCut(cut, outside, thickness)) {
          const blade = findBlade(cut, NORMALS[mark.face], thickness);
          expect(Math.abs(mark.setback - blade.setback)).toBeLessThan(1e-9);
          expect(Math.abs(mark.depth - blade.depth)).toBeLessThan(1e-9);
          expect(Math.abs(thickness / Math.cos(mark.bevel * (Math.PI / 180)) - blade.depth)).toBeLessThan(
            1e-9
          );
          if (mark.setback > 1e-9) expect(mark.lean === 'downstream').toBe(blade.leansDownstream);
          const width = mark.face === 'top' || mark.face === 'bottom' ? outside.width : outside.height;
          const rise = Math.tan(mark.line * (Math.PI / 180)) * width;
          expect(Math.abs(Math.abs(mark.end - mark.start) - rise)).toBeLessThan(1e-8);
        }
      }
    });
  });
});
