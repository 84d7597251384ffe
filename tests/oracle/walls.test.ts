// The solids of the kernel's walls, built again by an independent mesh library from the walls' own corners and faces.
import { describe, expect, it } from 'vitest';
import { listWallFaces, type Wall } from '../../src/lib/kernel/fitting/wall.ts';
import { ANY, listBuildable, PLENTY, WANTED } from './generated-paths.ts';
import { countLooseEdges, measureWarp } from '../solid.ts';
import { free, measureOverlap, oracle, type Solid } from './manifold.ts';

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
