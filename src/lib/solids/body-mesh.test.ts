import { describe, expect, it } from 'vitest';
import { evaluate } from '../kernel/evaluate.ts';
import { measureWallVolume } from '../kernel/fitting/wall.ts';
import { cross, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { SaidFitting } from '../kernel/document/job.ts';
import { findMiddle as findBodyMiddle, type Body } from '../kernel/fitting/fitting.ts';
import type { Plane } from './clip.ts';
import { buildBodyMesh, listWallViews, type BodyMesh } from './body-mesh.ts';
import { SURFACES } from './mesh-edge.ts';

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

/** Every edge of a triangle must be met by one other that runs the other way. Answers how many there are. */
function expectClosed(mesh: BodyMesh): number {
  const runs = new Map<string, number>();
  for (const { corners } of listTriangles(mesh)) {
    corners.forEach((from, i) => {
      const run = `${from.join(' ')} > ${corners[(i + 1) % 3]!.join(' ')}`;
      runs.set(run, (runs.get(run) ?? 0) + 1);
    });
  }
  for (const [run, times] of runs) {
    expect(times, run).toBe(1);
    expect(runs.get(run.split(' > ').reverse().join(' > ')), run).toBe(1);
  }
  return runs.size;
}

function measureShell(mesh: BodyMesh): number {
  return listTriangles(mesh).reduce((sum, { corners: [a, b, c] }) => sum + dot(a, cross(b, c)) / 6, 0);
}

describe.each(Object.entries(FITTINGS))('the shells of %s', (_, said) => {
  const fitting = build(said);
  const bodies = fitting.bodies.map((body) => ({ body, mesh: buildBodyMesh(body) }));

  it('are closed', () => {
    for (const { mesh } of bodies) {
      expect(expectClosed(mesh)).toBeGreaterThan(40);
    }
  });

  it('hold as much board as their walls', () => {
    for (const { body, mesh } of bodies) {
      const walls = body.walls.reduce((sum, wall) => sum + measureWallVolume(wall), 0);
      // Positions are single floats: seven digits.
      expect(Math.abs(measureShell(mesh) / walls - 1)).toBeLessThan(1e-5);
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
      // Outside and inside: four corner edges and two ends of four edges; and four corners at each end.
      expect(mesh.edgeOf).toHaveLength(2 * 12 + 2 * 4);
      expect(mesh.edges).toHaveLength(6 * mesh.edgeOf.length);
      const seams = mesh.edgeOf.filter(({ kind }) => kind === 'seam');
      expect(seams).toHaveLength(4 * fitting.straights[0]!.makeUp.seams.length);
      for (const { kind, faces } of mesh.edgeOf) {
        expect(faces).toHaveLength(kind === 'seam' || kind === 'fold' ? 2 : 1);
      }
    }
  });
});

describe.each(Object.entries(FITTINGS))('a plane through %s', (_, said) => {
  const { bodies } = build(said);
  const turn = (plane: Plane): Plane => ({ normal: scale(plane.normal, -1), at: -plane.at });
  const middle = (body: Body): number => findBodyMiddle(body)[0];
  const planes: Record<string, (body: Body) => Plane> = {
    'upright through the axis': () => ({ normal: [0, 0, 1], at: 0 }),
    'level through the axis': () => ({ normal: [0, -1, 0], at: 0 }),
    'square across': (body) => ({ normal: [1, 0, 0], at: middle(body) }),
    'along a wall, within the board': () => ({ normal: [0, 1, 0], at: 110 }),
    'through two corner edges': ({ walls }) => {
      const [, y, z] = walls[0]!.outer[0]!;
      const size = Math.hypot(y, z);
      return { normal: [0, z / size, -y / size], at: 0 };
    },
    aslant: (body) => {
      const normal: Vec3 = scale([3, 2, -5], 1 / Math.sqrt(38));
      return { normal, at: normal[0] * middle(body) + 20 };
    }
  };

  it.each(Object.entries(planes))('%s leaves two closed halves that add up to the whole', (_, place) => {
    let cutOpen = 0;
    for (const body of bodies) {
      const plane = place(body);
      const halves = [plane, turn(plane)].map((one) => buildBodyMesh(body, one));
      const whole = measureShell(buildBodyMesh(body));
      expect(Math.abs(halves.map(measureShell).reduce((a, b) => a + b) / whole - 1)).toBeLessThan(1e-5);
      halves.forEach((half) => expectClosed(half));
      expect(halves[0]!.capped).toHaveLength(halves[1]!.capped.length);
      if (halves.every((half) => half.indices.length > 0)) cutOpen += halves[0]!.capped.length;
    }
    expect(cutOpen).toBeGreaterThanOrEqual(2 * bodies.length);
  });

  it('shows on its caps the board’s thickness, and the corner where two walls meet', () => {
    const isSquareThrough = (body: Body): boolean =>
      body.walls.every(({ outer }) =>
        outer.every(([x], i) => Math.sign(x - middle(body)) === (i < 2 ? -1 : 1))
      );
    let square = 0;
    for (const body of bodies) {
      const mesh = buildBodyMesh(body, planes['square across']!(body));
      const { start, count } = mesh.surfaces.cap;
      const area = listTriangles(mesh)
        .slice(start / 3, (start + count) / 3)
        .reduce((sum, { corners: [a, b, c] }) => sum + norm(cross(subtract(b, a), subtract(c, a))) / 2, 0);
      const { section, thickness } = build(said).straights[0]!;
      if (isSquareThrough(body)) {
        square++;
        const board = 2 * thickness * (section.width + section.height + 2 * thickness);
        expect(Math.abs(area / board - 1)).toBeLessThan(1e-5);
      }
      const corners = mesh.edgeOf.filter(({ surface, kind }) => surface === 'cap' && kind !== 'face');
      expect(corners.filter(({ faces }) => faces.length === 2).length).toBeGreaterThan(1);
    }
    expect(square).toBeGreaterThan(0);
  });

  it('that does not reach a body leaves it as it is, or nothing of it', () => {
    for (const body of bodies) {
      const far: Plane = { normal: [0, 1, 0], at: 1000 };
      expect(buildBodyMesh(body, far)).toEqual(buildBodyMesh(body));
      expect(buildBodyMesh(body, turn({ ...far, at: -1000 })).indices).toHaveLength(
        buildBodyMesh(body).indices.length
      );
      expect(buildBodyMesh(body, turn(far)).indices).toHaveLength(0);
    }
  });
});

describe('the walls in sight of a straight', () => {
  const { walls } = build(FITTINGS['a straight']!).bodies[0]!;

  it('are as large as what a section plane leaves of their facings', () => {
    expect(listWallViews(walls, null).map(({ area }) => Math.round(norm(area)))).toEqual(
      [450, 300, 450, 300].map((width) => width * 1180)
    );
    const halves = listWallViews(walls, { normal: [0, 0, 1], at: 0 });
    expect(halves.map(({ area }) => Math.round(norm(area)))).toEqual([225, 225, 300].map((w) => w * 1180));
    expect(halves[0]!.middle).toEqual([590, 150, -112.5]);
  });
});
