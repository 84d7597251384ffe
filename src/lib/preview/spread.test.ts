import { describe, expect, it } from 'vitest';
import type { SaidFitting } from '../kernel/document/job.ts';
import { poseBodies } from '../kernel/assembly/pose.ts';
import { evaluate, type BuiltModel } from '../kernel/evaluate.ts';
import { listPieceBodies } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { findNormal, measurePenetration, type ConvexSolid } from '../kernel/geometry/convex.ts';
import { add, distance, dot, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { blendArrangements, listShownCorners, spreadBodies } from './spread.ts';

const bend: SaidFitting = {
  family: 'bend',
  section: { width: 400, height: 250 },
  params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
};
const halfTurn: SaidFitting = {
  family: 'bend',
  section: { width: 300, height: 200 },
  params: { turn: 180, pieces: 9, heel: 'top', throatIn: 200, gore: 150, throatOut: 200 }
};
const rolling: SaidFitting = {
  family: 'path',
  section: { width: 300, height: 300 },
  params: {
    lengths: [420, 500, 460],
    joints: [
      { turn: 40, heel: 33 },
      { turn: 25, heel: 213 }
    ]
  }
};

const inTwoStraights: SaidFitting = {
  family: 'path',
  section: { width: 400, height: 250 },
  lay: 'across',
  params: {
    lengths: [900, 1500, 900],
    joints: [
      { turn: 45, heel: 33 },
      { turn: 45, heel: 213 }
    ]
  }
};
const aroundTheCorner: SaidFitting = {
  family: 'path',
  section: { width: 300, height: 200 },
  lay: 'across',
  params: {
    lengths: [700, 900, 900, 700],
    joints: [
      { turn: 90, heel: 90 },
      { turn: 90, heel: 90 },
      { turn: 90, heel: 0 }
    ]
  }
};
const longStraight: SaidFitting = {
  family: 'straight',
  section: { width: 400, height: 250 },
  lay: 'across',
  params: { length: 4000 }
};

function build(said: SaidFitting): BuiltModel {
  const { built } = evaluate({ format: 'gorewright-job', version: 1, fittings: [said] }).fittings[0]!;
  if (!built) throw new Error(`${said.family} does not build`);
  return built;
}

/** The bodies as shown after a step, as solids without their air way. */
function showSolids(built: BuiltModel, step: number | null, explode = 0): ConvexSolid[] {
  const poses = poseBodies(built.fitting, built.steps, step);
  const offsets = spreadBodies(built.fitting, poses, explode);
  return built.fitting.bodies.map(({ walls }, k) => {
    const place = (point: Vec3): Vec3 => add(movePoint(poses[k]!.placement, point), offsets[k]!);
    const outlines = walls.map(({ outer }) => outer.map(place));
    const ends = [0, 2].map((corner) => outlines.map((outline) => outline[corner]!));
    return {
      corners: outlines.flat(),
      normals: [...outlines, ...ends].map(([a, b, c]) => findNormal(a!, b!, c!)),
      edges: outlines.flatMap((outline) => outline.map((from, i) => subtract(outline[(i + 1) % 4]!, from)))
    };
  });
}

function findLast(built: BuiltModel, kind: string): number {
  return built.steps.map((step) => step.kind as string).lastIndexOf(kind);
}

describe.each([
  ['a rolling offset from several straights', inTwoStraights],
  ['a path round three corners from several straights', aroundTheCorner],
  ['a straight duct longer than a board yields', longStraight]
])('%s', (_, said) => {
  const built = build(said);
  const { fitting, steps } = built;
  const pieces = listPieceBodies(fitting);
  const firstOf = fitting.straights.map(({ name }) => pieces.findIndex((piece) => piece.straight === name));

  it('lies in its place when it is finished', () => {
    expect(fitting.straights.length).toBeGreaterThan(1);
    const poses = poseBodies(fitting, steps, null);
    expect(spreadBodies(fitting, poses, 0)).toEqual(fitting.bodies.map(() => [0, 0, 0]));
  });

  it.each([0, 1])('never has a piece inside another, whatever the step, exploded %d', (explode) => {
    let apart = 0;
    steps.forEach((_, step) => {
      const solids = showSolids(built, step, explode);
      solids.forEach((a, i) => {
        for (const b of solids.slice(i + 1)) {
          const depth = measurePenetration(a, b);
          expect(depth, `step ${step}`).toBeLessThan(1e-6);
          if (depth < -1) apart++;
        }
      });
    });
    expect(apart).toBeGreaterThan(0);
  });

  it('shows its straights in rows, the pieces of one that is not cut yet in one piece, exploded or not', () => {
    const poses = poseBodies(fitting, steps, 0);
    for (const explode of [0, 1]) {
      const offsets = spreadBodies(fitting, poses, explode);
      pieces.forEach((body, k) => {
        const row = fitting.straights.findIndex(({ name }) => name === body.straight);
        expect(offsets[k]).toEqual(offsets[firstOf[row]!]);
      });
      expect(new Set(offsets.map(String)).size).toBe(fitting.straights.length);
      for (const k of firstOf) {
        const corners = listShownCorners(fitting, { poses, offsets }).slice(16 * k, 16 * k + 16);
        const ring = fitting.bodies[k]!.walls.map(({ outer }) => outer[0]![0]);
        expect(Math.min(...corners.map(([x]) => x))).toBeCloseTo(Math.min(...ring), 6);
      }
    }
  });

  it('leaves a row where it is until its own pieces are joined', () => {
    const rows = steps.flatMap((_, step) => {
      const poses = poseBodies(fitting, steps, step);
      const offsets = spreadBodies(fitting, poses, 0);
      return firstOf.slice(1).flatMap((k, row) => (poses[k]!.joined ? [] : [{ row, offset: offsets[k]! }]));
    });
    for (const { row, offset } of rows) expect(offset).toEqual(rows.find((one) => one.row === row)!.offset);
    expect(rows.length).toBeGreaterThan(steps.length);
  });
});

describe.each([
  ['a bend of three pieces', bend],
  ['half a turn in nine pieces', halfTurn],
  ['a rolling offset', rolling]
])('%s', (_, said) => {
  const built = build(said);

  it('stays one straight until it is cut, however far it is exploded', () => {
    const label = findLast(built, 'label');
    for (const step of [0, label, label + 1]) {
      const poses = poseBodies(built.fitting, built.steps, step);
      expect(spreadBodies(built.fitting, poses, 1)).toEqual(built.fitting.bodies.map(() => [0, 0, 0]));
    }
  });

  it('lies in its poses when it is finished, and as long as it is one straight', () => {
    for (const step of [null, findLast(built, 'fold'), findLast(built, 'label')]) {
      const poses = poseBodies(built.fitting, built.steps, step);
      expect(spreadBodies(built.fitting, poses, 0)).toEqual(built.fitting.bodies.map(() => [0, 0, 0]));
    }
  });

  it('never has a piece inside another, whatever the step', () => {
    let apart = 0;
    built.steps.forEach((_, step) => {
      const solids = showSolids(built, step);
      solids.forEach((a, i) => {
        for (const b of solids.slice(i + 1)) {
          const depth = measurePenetration(a, b);
          expect(depth, `step ${step}`).toBeLessThan(1e-6);
          if (depth < -1) apart++;
        }
      });
    });
    expect(apart).toBeGreaterThan(0);
  });

  it('opens a parallel gap at a cut, and a wider one once the pieces are rolled over', () => {
    const gap = (step: number): number => {
      const solids = showSolids(built, step);
      const lows = solids.map(({ corners }) => Math.min(...corners.map(([x]) => x)));
      return lows[1]!;
    };
    expect(gap(findLast(built, 'separate'))).toBeGreaterThan(gap(findLast(built, 'label')));
    expect(gap(findLast(built, 'flip'))).toBeGreaterThan(gap(findLast(built, 'separate')));
  });

  it('explodes square to its cuts, joint by joint, in proportion', () => {
    const poses = poseBodies(built.fitting, built.steps, null);
    const half = spreadBodies(built.fitting, poses, 0.5);
    const full = spreadBodies(built.fitting, poses, 1);
    expect(half[0]).toEqual([0, 0, 0]);
    built.fitting.joints.forEach((_, i) => {
      const opening = subtract(full[i + 1]!, full[i]!);
      const before = dot(opening, poses[i]!.placement.x);
      const after = dot(opening, poses[i + 1]!.placement.x);
      expect(before).toBeGreaterThan(0);
      expect(before).toBeCloseTo(after, 6);
      half[i + 1]!.forEach((part, axis) => expect(2 * part).toBeCloseTo(full[i + 1]![axis]!, 6));
    });
  });
});

it('the corners shown are those of the walls, moved to where they are shown', () => {
  const { fitting, steps } = build(bend);
  const poses = poseBodies(fitting, steps, null);
  const offsets: Vec3[] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 7]
  ];
  const corners = listShownCorners(fitting, { poses, offsets });
  expect(corners).toHaveLength(3 * 16);
  // The outlet of a right-heeled bend faces left; its throat is 200 beyond the last cut.
  expect(corners[0]).toEqual([0, 150, -225]);
  expect(Math.min(...corners.map(([, , z]) => z))).toBeCloseTo(fitting.ports[1]!.at[2] + 7, 6);
});

it('while a step is played a body goes without a jump from where it was shown to where it will be', () => {
  const { fitting, steps } = build(inTwoStraights);
  const rest = (step: number) => {
    const poses = poseBodies(fitting, steps, step);
    return { poses, offsets: spreadBodies(fitting, poses, 0) };
  };
  const show = (step: number, progress: number): Vec3[] => {
    const poses = poseBodies(fitting, steps, step, progress);
    return listShownCorners(fitting, blendArrangements(poses, rest(step - 1), rest(step), progress));
  };
  let moved = 0;
  steps.forEach((_, step) => {
    const [begin, middle, end] = [0, 0.5, 1].map((progress) => show(step, progress));
    const from = listShownCorners(fitting, rest(step - 1));
    const to = listShownCorners(fitting, rest(step));
    from.forEach((corner, i) => {
      expect(distance(begin![i]!, corner)).toBeLessThan(1e-6);
      expect(distance(end![i]!, to[i]!)).toBeLessThan(1e-6);
      if (distance(corner, to[i]!) > 1 && distance(middle![i]!, corner) > 0.1) moved++;
    });
  });
  expect(moved).toBeGreaterThan(100);
});
