import { describe, expect, it } from 'vitest';
import { evaluate } from '../kernel/evaluate.ts';
import { measureWallVolume } from '../kernel/fitting/wall.ts';
import { cross, dot, norm, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { SaidFitting } from '../kernel/document/job.ts';
import { buildBodyMesh, isEdgePointedAt, pickEdges, pickWall, SURFACES, type BodyMesh } from './geometry.ts';

const FITTINGS: Record<string, SaidFitting> = {
  'a bend of three pieces': {
    family: 'bend',
    section: { width: 400, height: 250 },
    params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
  },
  'a rolling offset with compound cuts': {
    family: 'path',
    section: { width: 300, height: 300 },
    params: {
      lengths: [420, 500, 460],
      joints: [
        { turn: 40, heel: 33 },
        { turn: 25, heel: 213 }
      ]
    }
  },
  'half a turn in nine pieces': {
    family: 'bend',
    section: { width: 300, height: 200 },
    params: { turn: 180, pieces: 9, heel: 'top', throatIn: 200, gore: 150, throatOut: 200 }
  },
  'a straight': { family: 'straight', section: { width: 400, height: 250 }, params: { length: 1180 } }
};

function build(said: SaidFitting) {
  const { built } = evaluate({ format: 'gorewright-job', version: 1, fittings: [said] }).fittings[0]!;
  if (!built) throw new Error(`${said.family} does not build`);
  return built.fitting;
}

function takePoint(mesh: BodyMesh, vertex: number): Vec3 {
  return [...mesh.positions.subarray(3 * vertex, 3 * vertex + 3)] as unknown as Vec3;
}

function listTriangles(
  mesh: BodyMesh
): { corners: [Vec3, Vec3, Vec3]; vertices: [number, number, number] }[] {
  return mesh.wallOf.map((_, i) => {
    const vertices = [...mesh.indices.subarray(3 * i, 3 * i + 3)] as [number, number, number];
    return { vertices, corners: vertices.map((vertex) => takePoint(mesh, vertex)) as [Vec3, Vec3, Vec3] };
  });
}

describe.each(Object.entries(FITTINGS))('the shells of %s', (_, said) => {
  const fitting = build(said);
  const bodies = fitting.bodies.map((body) => ({ body, mesh: buildBodyMesh(body) }));

  it('are closed: every edge of a triangle is met by one other that runs the other way', () => {
    for (const { mesh } of bodies) {
      const runs = new Map<string, number>();
      for (const { corners } of listTriangles(mesh)) {
        corners.forEach((from, i) => {
          const run = `${from.join(' ')} > ${corners[(i + 1) % 3]!.join(' ')}`;
          runs.set(run, (runs.get(run) ?? 0) + 1);
        });
      }
      expect(runs.size).toBeGreaterThan(40);
      for (const [run, times] of runs) {
        expect(times, run).toBe(1);
        expect(runs.get(run.split(' > ').reverse().join(' > ')), run).toBe(1);
      }
    }
  });

  it('hold as much board as their walls', () => {
    for (const { body, mesh } of bodies) {
      const volume = listTriangles(mesh).reduce(
        (sum, { corners: [a, b, c] }) => sum + dot(a, cross(b, c)) / 6,
        0
      );
      const walls = body.walls.reduce((sum, wall) => sum + measureWallVolume(wall), 0);
      // Positions are single floats: seven digits.
      expect(Math.abs(volume / walls - 1)).toBeLessThan(1e-5);
    }
  });

  it('are flat-shaded: a normal is of unit length and square to its triangle, on the side the triangle faces', () => {
    for (const { mesh } of bodies) {
      for (const {
        corners: [a, b, c],
        vertices
      } of listTriangles(mesh)) {
        const facing = cross(subtract(b, a), subtract(c, a));
        for (const vertex of vertices) {
          const normal = [...mesh.normals.subarray(3 * vertex, 3 * vertex + 3)] as unknown as Vec3;
          expect(norm(normal)).toBeCloseTo(1, 5);
          expect(dot(facing, normal) / norm(facing)).toBeCloseTo(1, 5);
        }
      }
    }
  });

  it('are all numbers, and every triangle belongs to one surface', () => {
    for (const { mesh } of bodies) {
      for (const numbers of [mesh.positions, mesh.normals, mesh.edges]) {
        expect(numbers.every(Number.isFinite)).toBe(true);
      }
      let next = 0;
      for (const surface of SURFACES) {
        expect(mesh.surfaces[surface].start).toBe(next);
        next += mesh.surfaces[surface].count;
      }
      expect(next).toBe(mesh.indices.length);
      expect(mesh.indices.length).toBe(3 * mesh.wallOf.length);
    }
  });

  it('face away from the axis outside and toward it inside', () => {
    for (const { mesh } of bodies) {
      const triangles = listTriangles(mesh);
      for (const [surface, away] of [['outside', 1] as const, ['inside', -1] as const]) {
        const { start, count } = mesh.surfaces[surface];
        const some = triangles.slice(start / 3, (start + count) / 3);
        expect(some).toHaveLength(8);
        for (const {
          corners: [a, b, c]
        } of some) {
          const facing = cross(subtract(b, a), subtract(c, a));
          expect(Math.sign(dot(facing, [0, a[1], a[2]]))).toBe(away);
        }
      }
    }
  });

  it('have every corner edge, outline and seam as a line once', () => {
    for (const { mesh } of bodies) {
      // Outside and inside: four corner edges and two ends of four edges.
      expect(mesh.edgeOf).toHaveLength(2 * 12);
      expect(mesh.edges).toHaveLength(6 * mesh.edgeOf.length);
      const seams = mesh.edgeOf.filter(({ kind }) => kind === 'seam');
      expect(seams).toHaveLength(2 * fitting.straights[0]!.makeUp.seams.length);
      for (const { kind, faces } of mesh.edgeOf) {
        expect(faces).toHaveLength(kind === 'seam' || kind === 'fold' ? 2 : 1);
      }
    }
  });
});

describe('what is pointed at on a bend', () => {
  const body = build(FITTINGS['a bend of three pieces']!).bodies[1]!;
  const mesh = buildBodyMesh(body);
  const count = (pointed: Parameters<typeof isEdgePointedAt>[2]): number =>
    pickEdges(mesh, (edge) => isEdgePointedAt(edge, body.name, pointed)).length / 6;

  it('is nothing, or the whole piece, or nothing of another piece', () => {
    expect(count(null)).toBe(0);
    expect(count({ piece: 'P2' })).toBe(24);
    expect(count({ piece: 'P1' })).toBe(0);
  });

  it('is a cut with its outline on the facing and on the inside, on one face if one is named', () => {
    expect(count({ cut: 'C1' })).toBe(8);
    expect(count({ cut: 'C1', face: 'left' })).toBe(2);
    expect(count({ cut: 'C3' })).toBe(0);
  });

  it('is a face with its four edges on the facing and on the inside, and its triangles', () => {
    expect(count({ face: 'top' })).toBe(8);
    // Two outside, two inside, two at each end.
    expect(pickWall(mesh, 'top')).toHaveLength(3 * 8);
  });

  it('is one line where two walls meet: the seam lies on the top left edge of the straight', () => {
    const [x, y, z] = pickEdges(mesh, ({ kind, surface }) => kind === 'seam' && surface === 'outside');
    expect(x).toBeGreaterThan(0);
    expect([y, z]).toEqual([150, -225]);
  });
});
