import { Raycaster, Vector2, type Vector3 } from 'three';
import type { Subject } from '../figures/figure.ts';
import type { BodyView } from './bodies.ts';
import type { Eye } from './eye.ts';
import type { Anchor, WantedLabel } from './labels.ts';

/** Tells what the eye sees where: points of the picture are −1 … 1 to the right and up. */
export interface Sight {
  /** What lies at a point: a cut where one of its lines is no further than `reach` px, else a wall of a piece. */
  findSubject(point: Vector2, bodies: readonly BodyView[], reach: number): Subject | null;
  /** The names of the bodies, nearest first, each with the walls that look largest from here. */
  listLabels(
    bodies: readonly BodyView[],
    size: { readonly width: number; readonly height: number },
    lit: string | undefined
  ): WantedLabel[];
}

export function createSight(eye: Eye): Sight {
  const caster = new Raycaster();

  function findAt(
    point: Vector2,
    bodies: readonly BodyView[]
  ): { body: BodyView; triangle: number; at: Vector3 } | null {
    caster.setFromCamera(point, eye.camera);
    const shells = bodies.map(({ shell }) => shell);
    const first = caster.intersectObjects(shells, false)[0];
    const body = bodies.find(({ shell }) => shell === first?.object);
    return body && typeof first?.faceIndex === 'number'
      ? { body, triangle: first.faceIndex, at: first.point }
      : null;
  }

  return {
    findSubject(point, bodies, reach) {
      const found = findAt(point, bodies);
      if (!found) return null;
      const cut = found.body.cutNear(found.at, reach * eye.measurePixel(found.at));
      if (cut !== null) return { cut };
      const face = found.body.wallOf(found.triangle);
      return { piece: found.body.name, ...(face ? { face } : {}) };
    },
    listLabels(bodies, size, lit) {
      return bodies
        .filter((body) => body.walls().length > 0)
        .map((body) => {
          const anchor = (at: Vector3): Anchor => {
            const seen = body.group.localToWorld(at.clone()).project(eye.camera);
            const point = new Vector2(seen.x, seen.y);
            return {
              x: ((1 + seen.x) / 2) * size.width,
              y: ((1 - seen.y) / 2) * size.height,
              isSeen: () => findAt(point, bodies)?.body === body
            };
          };
          const toEye = body.group.worldToLocal(eye.camera.position.clone());
          const look = (wall: ReturnType<BodyView['walls']>[number]): number =>
            wall.area.dot(toEye.clone().sub(wall.middle).normalize());
          const walls = body
            .walls()
            .filter((wall) => look(wall) > 0)
            .sort((a, b) => look(b) - look(a));
          return {
            name: body.name,
            lit: lit === body.name,
            walls: walls.map(({ middle }) => anchor(middle)),
            middle: anchor(body.middle),
            distance: toEye.distanceTo(body.middle)
          };
        })
        .sort((a, b) => a.distance - b.distance);
    }
  };
}
