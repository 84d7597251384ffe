import {
  BufferAttribute,
  BufferGeometry,
  Group,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  Quaternion,
  Vector3,
  type Material
} from 'three';
import type { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import type { Subject } from '../figures/figure.ts';
import type { Body } from '../kernel/fitting/fitting.ts';
import type { Wall } from '../kernel/fitting/wall.ts';
import type { Motion } from '../kernel/geometry/motion.ts';
import type { Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Plane } from '../solids/clip.ts';
import {
  buildBodyMesh,
  findMiddle,
  listWallViews,
  pickEdges,
  pickWall,
  type BodyMesh
} from '../solids/body-mesh.ts';
import type { Inks } from './inks.ts';
import { SURFACES } from '../solids/mesh-edge.ts';
import { findCutNear, findPointedWall, isEdgePointedAt } from './pointed.ts';
import { chooseLine, mixTones, type LineName, type Paints } from './paints.ts';

export interface BodyView {
  readonly name: string;
  readonly group: Group;
  readonly shell: Mesh;
  /**
   * In its own frame, mm: the middle of the body, and of the facing of each wall with its vector
   * area, as far as a section plane has left them.
   */
  readonly middle: Vector3;
  readonly walls: () => readonly { readonly middle: Vector3; readonly area: Vector3 }[];
  /** The walls that a section plane has cut open. */
  capped(): readonly Face[];
  /** The wall that a triangle of the shell belongs to; null for a panel, which is but one. */
  wallOf(triangle: number): Face | null;
  /** The cut that has an edge no further than `reach` mm from a point, both where the body is shown. */
  cutNear(point: Vector3, reach: number): string | null;
  /** Gives the body its walls, cut open by a plane in its own frame or whole. */
  open(plane: Plane | null, walls: readonly Wall[]): void;
  /** Sets where the body is to go; `advance` takes it there. */
  head(placement: Motion, offset: Vec3): void;
  /** Moves the body to a share 0 … 1 of the way. */
  advance(share: number): void;
  paint(colour: string, inks: Inks): void;
  light(pointed: Subject | null): void;
  dispose(): void;
}

const LINES: readonly LineName[] = ['inside', 'outline', 'section', 'seam'];

/** Puts a body into a group: its shell with a tone for each surface, its lines, and what is lit on it. */
export function createBodyView(body: Body, paints: Paints): BodyView {
  const group = new Group();
  // Set back a little in depth, so that the lines on its edges are seen whole.
  const materials = SURFACES.map(
    () => new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 })
  );
  const shell = new Mesh(new BufferGeometry(), materials);
  group.add(shell);
  let mesh: BodyMesh;
  let opened: { plane: string; walls: readonly Wall[] } | null = null;
  let walls: ReturnType<BodyView['walls']> = [];
  let drawn: LineSegments2[] = [];
  let lit: (Mesh | LineSegments2)[] = [];

  function takeOut(objects: readonly (Mesh | LineSegments2)[]): void {
    group.remove(...objects);
    objects.forEach((object) => object.geometry.dispose());
  }

  function open(plane: Plane | null, shape: readonly Wall[]): void {
    const wanted = plane ? `${plane.normal.join(' ')} ${plane.at}` : '';
    if (opened?.plane === wanted && opened.walls === shape) return;
    opened = { plane: wanted, walls: shape };
    mesh = buildBodyMesh({ kind: body.kind, walls: shape }, plane);
    shell.geometry.dispose();
    shell.geometry = fillGeometry(mesh);
    takeOut([...drawn, ...lit]);
    lit = [];
    drawn = LINES.flatMap((name) => {
      const lines = drawLines(
        pickEdges(mesh, (edge) => chooseLine(edge) === name),
        paints.lines[name]
      );
      return lines ? [lines] : [];
    });
    if (drawn.length > 0) group.add(...drawn);
    walls = listWallViews(shape, plane).map(({ middle, area }) => ({
      middle: new Vector3(...middle),
      area: new Vector3(...area)
    }));
  }

  const pivot = new Vector3(...findMiddle(body.walls.flatMap(({ outer }) => outer)));
  const from = { middle: new Vector3(), turn: new Quaternion() };
  const goal = { middle: new Vector3(), turn: new Quaternion() };
  const middle = new Vector3();
  let placed = false;

  return {
    name: body.name,
    group,
    shell,
    middle: pivot,
    walls: () => walls,
    capped: () => mesh.capped,
    wallOf: (triangle) => (body.kind === 'panel' ? null : mesh.wallOf[triangle]!),
    cutNear: (point, reach) => findCutNear(mesh, group.worldToLocal(point.clone()).toArray(), reach),
    open,
    head({ x, y, z, t }, offset) {
      const matrix = new Matrix4().set(
        ...[x[0], y[0], z[0], t[0] + offset[0]],
        ...[x[1], y[1], z[1], t[1] + offset[1]],
        ...[x[2], y[2], z[2], t[2] + offset[2]],
        ...[0, 0, 0, 1]
      );
      goal.turn.setFromRotationMatrix(matrix);
      goal.middle.copy(pivot).applyMatrix4(matrix);
      from.turn.copy(placed ? group.quaternion : goal.turn);
      from.middle.copy(placed ? middle : goal.middle);
      placed = true;
    },
    // A piece turns about its own middle on the way, so that rolling over is seen as rolling over.
    advance(share) {
      group.quaternion.slerpQuaternions(from.turn, goal.turn, share);
      middle.lerpVectors(from.middle, goal.middle, share);
      group.position.copy(middle).sub(pivot.clone().applyQuaternion(group.quaternion));
      group.updateMatrixWorld(true);
    },
    paint(colour, inks) {
      const tones = mixTones(colour, inks);
      SURFACES.forEach((surface, i) => materials[i]!.color.copy(tones[surface]));
    },
    light(pointed) {
      takeOut(lit);
      const segments = pickEdges(mesh, (edge) => isEdgePointedAt(edge, body.name, pointed));
      const isFace = body.kind === 'piece' || body.panel.face !== null;
      const wall = isFace ? findPointedWall(body.name, pointed) : null;
      lit = [
        drawLines(segments, paints.lines.lit),
        drawLines(segments, paints.ghost),
        wall && tintWall(shell.geometry, pickWall(mesh, wall), paints.tint)
      ].filter((object) => object !== null);
      lit.forEach((object, i) => (object.renderOrder = i + 1));
      if (lit.length > 0) group.add(...lit);
    },
    dispose() {
      takeOut([...drawn, ...lit]);
      shell.geometry.dispose();
      materials.forEach((material) => material.dispose());
    }
  };
}

function fillGeometry(mesh: BodyMesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  SURFACES.forEach((surface, i) => {
    const { start, count } = mesh.surfaces[surface];
    geometry.addGroup(start, count, i);
  });
  return geometry;
}

function drawLines(segments: Float32Array, material: LineMaterial): LineSegments2 | null {
  if (segments.length === 0) return null;
  return new LineSegments2(new LineSegmentsGeometry().setPositions(segments), material);
}

function tintWall(shell: BufferGeometry, indices: Uint32Array, material: Material): Mesh {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', shell.getAttribute('position').clone());
  geometry.setIndex(new BufferAttribute(indices, 1));
  return new Mesh(geometry, material);
}
