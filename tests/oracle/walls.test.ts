// The solids of the kernel's walls, built again by an independent mesh library from the walls' own corners and faces.
import { describe, expect, it } from 'vitest';
import { listWallFaces, type Wall } from '../../src/lib/kernel/fitting/wall.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { ANY, listBuildable, PLENTY, WANTED } from './generated-paths.ts';
import { free, measureOverlap, oracle, type Solid } from './manifold.ts';

/** Edges that are not used exactly once each way: none where the faces close. */
function countLooseEdges(faces: readonly (readonly Vec3[])[]): number {
  const uses = new Map<string, number>();
  const name = (point: Vec3): string => point.map((one) => one.toPrecision(15)).join();
  for (const face of faces) {
    face.forEach((from, i) => {
      const to = face[(i + 1) % face.length]!;
      const [a, b] = [name(from), name(to)];
      const edge = a < b ? `${a} ${b}` : `${b} ${a}`;
      uses.set(edge, (uses.get(edge) ?? 0) + (a < b ? 1 : -1));
    });
  }
  return [...uses.values()].filter((use) => use !== 0).length;
}

/** How far the corners of a face lie from the plane of its first three, mm. */
function measureWarp(face: readonly Vec3[]): number {
  const [a, b, c] = face as [Vec3, Vec3, Vec3];
  const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
  const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
  const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
  const size = Math.hypot(...n);
  return Math.max(
    ...face.map((p) => Math.abs(n[0] * (p[0] - a[0]) + n[1] * (p[1] - a[1]) + n[2] * (p[2] - a[2])) / size)
  );
}

/** A wall as the library builds it from the wall's own corners; a wall is convex, so they span it. */
function spanWall({ outer, inner }: Wall): Solid {
  return oracle.Manifold.hull([...outer, ...inner].map((corner) => [...corner] as [number, number, number]));
}

/** A wall as the library builds it from the wall's own faces; coordinates from its first corner, for it takes floats. */
function meshWall(wall: Wall): Solid {
  const origin = wall.outer[0]!;
  const corners = [...wall.outer, ...wall.inner];
  const triangles = listWallFaces(wall).flatMap((face) => {
    const at = face.map((corner) => corners.indexOf(corner));
    return at.slice(2).flatMap((last, i) => [at[0]!, at[i + 1]!, last]);
  });
  const mesh = new oracle.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(
      corners.flatMap((corner) => corner.map((one, axis) => one - origin[axis]!))
    ),
    triVerts: Uint32Array.from(triangles)
  });
  return new oracle.Manifold(mesh);
}

describe('solids of the walls of generated paths', () => {
  it('are closed, flat, four to a piece, and fill the pieces', { timeout: PLENTY }, () => {
    let walls = 0;
    for (const [, { fitting, quantities }] of listBuildable(27_182, WANTED, ANY)) {
      fitting.bodies.forEach((body, k) => {
        expect(body.walls.map(({ face }) => face)).toEqual(['top', 'right', 'bottom', 'left']);
        const spanned = body.walls.map(spanWall);
        const volumes = spanned.map((wall) => wall.volume());
        const sum = volumes.reduce((total, one) => total + one, 0);
        expect(Math.abs(quantities.bodies[k]! / sum - 1)).toBeLessThan(1e-6);
        body.walls.forEach((wall, i) => {
          const faces = listWallFaces(wall);
          expect(faces).toHaveLength(6);
          expect(countLooseEdges(faces)).toBe(0);
          expect(Math.max(...faces.map(measureWarp))).toBeLessThan(1e-6);
          const meshed = meshWall(wall);
          expect(meshed.status()).toBe('NoError');
          expect(meshed.genus()).toBe(0);
          expect(Math.abs(meshed.volume() / volumes[i]! - 1)).toBeLessThan(1e-4);
          meshed.delete();
          walls++;
        });
        for (let j = 1; j < 4; j++) {
          for (let i = 0; i < j; i++) {
            expect(measureOverlap(spanned[i]!, spanned[j]!) / sum).toBeLessThan(1e-6);
          }
        }
        free(spanned);
      });
    }
    expect(walls).toBeGreaterThan(8 * WANTED);
  });
});
