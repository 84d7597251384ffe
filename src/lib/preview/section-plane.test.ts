import { describe, expect, it } from 'vitest';
import { poseBodies } from '../kernel/assembly/pose.ts';
import type { SaidFitting } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, distance, type Vec3 } from '../kernel/geometry/vector.ts';
import { buildBodyMesh, type BodyMesh } from '../solids/body-mesh.ts';
import { placeSectionPlanes, type SectionPlane } from './section-plane.ts';
import { spreadBodies } from './spread.ts';

const rolling: SaidFitting = {
  family: 'path',
  section: { width: 400, height: 250 },
  params: {
    lengths: [420, 500, 460],
    joints: [
      { turn: 40, heel: 33 },
      { turn: 25, heel: 213 }
    ]
  }
};

/** The fitting as shown after a step, every body cut open, with its corners where they are shown. */
function cutOpen(section: SectionPlane, step: number | null = null, explode = 0) {
  const { built } = evaluate({ format: 'gorewright-job', version: 1, fittings: [rolling] }).fittings[0]!;
  if (!built) throw new Error('the path does not build');
  const poses = poseBodies(built.fitting, built.steps, step);
  const offsets = spreadBodies(built.fitting, poses, explode);
  const planes = placeSectionPlanes(built.fitting, { poses, offsets }, section);
  return built.fitting.bodies.map((body, k) => {
    const mesh = buildBodyMesh(body, planes[k]!);
    const show = (point: Vec3): Vec3 => add(movePoint(poses[k]!.placement, point), offsets[k]!);
    return { mesh, corners: takePoints(mesh.positions).map(show), caps: listCapCorners(mesh).map(show) };
  });
}

function takePoints(numbers: Float32Array): Vec3[] {
  return Array.from({ length: numbers.length / 3 }, (_, i): Vec3 => [
    numbers[3 * i]!,
    numbers[3 * i + 1]!,
    numbers[3 * i + 2]!
  ]);
}

function listCapCorners(mesh: BodyMesh): Vec3[] {
  const points = takePoints(mesh.positions);
  const { start, count } = mesh.surfaces.cap;
  return [...new Set(mesh.indices.subarray(start, start + count))].map((vertex) => points[vertex]!);
}

describe('a section of a rolling offset', () => {
  it.each(['upright', 'level'] as const)('%s passes through every compound miter without a step', (kind) => {
    const bodies = cutOpen({ kind, at: 0 });
    bodies.forEach(({ mesh }) => expect(mesh.capped).toHaveLength(2));
    bodies.slice(1).forEach(({ caps }, i) => {
      const before = bodies[i]!.caps;
      const shared = caps.filter((corner) => before.some((other) => distance(corner, other) < 0.01));
      // Two walls, each with its outside and its inside corner.
      expect(shared).toHaveLength(4);
    });
  });

  it('upright takes the right half away and level the upper one while it lies in the straight', () => {
    for (const [kind, axis] of [['upright', 2] as const, ['level', 1] as const]) {
      const tops = cutOpen({ kind, at: 0 }, 0).flatMap(({ corners }) =>
        corners.map((corner) => corner[axis])
      );
      expect(Math.max(...tops)).toBeCloseTo(0, 4);
    }
  });

  it('across is one plane square to the duct, with all that is upstream gone', () => {
    for (const explode of [0, 1]) {
      const bodies = cutOpen({ kind: 'across', at: 0.1 }, null, explode);
      const stations = bodies.flatMap(({ corners }) => corners.map(([x]) => x));
      expect(Math.min(...stations)).toBeCloseTo(0.1 * (420 + 500 + 460), 3);
      expect(bodies[0]!.mesh.capped).toHaveLength(4);
    }
    const late = cutOpen({ kind: 'across', at: 0.9 });
    expect(late.map(({ mesh }) => mesh.indices.length > 0)).toEqual([false, false, true]);
  });

  it('across at the inlet takes nothing away', () => {
    for (const { mesh } of cutOpen({ kind: 'across', at: 0 })) expect(mesh.capped).toEqual([]);
  });
});
