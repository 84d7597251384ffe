import { describe, expect, it } from 'vitest';
import { evaluate } from '../kernel/evaluate.ts';
import type { Job } from '../kernel/document/job.ts';
import { add, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { buildBodyMesh, findMiddle, pickEdges, pickWall } from '../solids/body-mesh.ts';
import { findCutNear, isEdgePointedAt } from './pointed.ts';

const JOB: Job = {
  format: 'gorewright-job',
  version: 1,
  fittings: [
    {
      family: 'bend',
      section: { width: 400, height: 250 },
      params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
    }
  ]
};

describe('what is pointed at on a bend', () => {
  const body = evaluate(JOB).fittings[0]!.built!.fitting.bodies[1]!;
  const mesh = buildBodyMesh(body);
  const count = (pointed: Parameters<typeof isEdgePointedAt>[2]): number =>
    pickEdges(mesh, (edge) => isEdgePointedAt(edge, body.name, pointed)).length / 6;

  it('is nothing, or the whole piece, or nothing of another piece', () => {
    expect(count(null)).toBe(0);
    expect(count({ piece: 'P2' })).toBe(32);
    expect(count({ piece: 'P1' })).toBe(0);
  });

  it('is a cut with its outline on the facing and on the inside, on one face if one is named', () => {
    expect(count({ cut: 'C1' })).toBe(8);
    expect(count({ cut: 'C1', face: 'left' })).toBe(2);
    expect(count({ cut: 'C3' })).toBe(0);
  });

  it('is a face with its edges on the facing, on the inside and between them, and its triangles', () => {
    expect(count({ face: 'top' })).toBe(12);
    // Two outside, two inside, two at each end.
    expect(pickWall(mesh, 'top')).toHaveLength(3 * 8);
  });

  it('is one line where two walls meet: the seam lies on the top left edge of the straight', () => {
    const [x, y, z] = pickEdges(mesh, ({ kind, surface }) => kind === 'seam' && surface === 'outside');
    expect(x).toBeGreaterThan(0);
    expect([y, z]).toEqual([150, -225]);
  });

  it('is a cut where one of its lines is near, the nearer of two, on the facing and on the inside', () => {
    const [cut] = body.walls[0]!.edges.filter(({ kind }) => kind === 'cut');
    const at = (wall: number, share: number, up: number): Vec3 => {
      const { outer, inner } = body.walls[wall]!;
      const [near, far] = [outer, inner].map((outline) =>
        add(outline[0]!, scale(subtract(outline[1]!, outline[0]!), share))
      );
      return add(near!, scale(subtract(far!, near!), up));
    };
    expect(findCutNear(mesh, at(0, 0.3, 0), 1)).toBe(cut!.cut);
    expect(findCutNear(mesh, at(2, 0.8, 1), 1)).toBe(cut!.cut);
    const middle = findMiddle(body.walls[0]!.outer);
    expect(findCutNear(mesh, middle, 20)).toBeNull();
    expect(findCutNear(mesh, add(middle, [-5, 0, 0]), 1000)).toBe('C1');
    expect(findCutNear(mesh, add(middle, [5, 0, 0]), 1000)).toBe('C2');
  });
});
