import {
  BufferAttribute,
  BufferGeometry,
  Color,
  Group,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  Quaternion,
  Vector3,
  type Material
} from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import { LineSegments2 } from 'three/addons/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/addons/lines/LineSegmentsGeometry.js';
import type { Subject } from '../figures/figure.ts';
import type { Body } from '../kernel/fitting/fitting.ts';
import type { Motion } from '../kernel/geometry/motion.ts';
import type { Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import {
  buildBodyMesh,
  findMiddle,
  findPointedWall,
  findVectorArea,
  isEdgePointedAt,
  pickEdges,
  pickWall,
  SURFACES,
  type Surface
} from './geometry.ts';
import type { Inks } from './inks.ts';

/** Widths of lines, px. */
const WIDTHS = { outline: 1.3, inside: 0.8, seam: 2.8, lit: 3.2 } as const;

/** How much of a piece's colour is left on the inside, and how much paper is mixed into it at the ends. */
const INSIDE_TONE = 0.55;
const RIM_PAPER = 0.55;

/** Materials that all bodies share. */
export interface Paints {
  readonly lines: Readonly<Record<keyof typeof WIDTHS, LineMaterial>>;
  /** The lit lines where other bodies hide them. */
  readonly ghost: LineMaterial;
  readonly tint: MeshBasicMaterial;
  apply(inks: Inks): void;
  dispose(): void;
}

export interface BodyView {
  readonly name: string;
  readonly group: Group;
  readonly shell: Mesh;
  /**
   * In the frame of its straight, mm: the middle of the body, and of the facing of each wall with its vector
   * area.
   */
  readonly middle: Vector3;
  readonly walls: readonly { readonly middle: Vector3; readonly area: Vector3 }[];
  /** The wall that a triangle of the shell belongs to. */
  wallOf(triangle: number): Face;
  /** Sets where the body is to go; `advance` takes it there. */
  head(placement: Motion, offset: Vec3): void;
  /** Moves the body to a share 0 … 1 of the way. */
  advance(share: number): void;
  paint(colour: string, inks: Inks): void;
  light(pointed: Subject | null): void;
  dispose(): void;
}

export function createPaints(): Paints {
  const draw = (linewidth: number): LineMaterial => new LineMaterial({ linewidth });
  const lines = {
    outline: draw(WIDTHS.outline),
    inside: draw(WIDTHS.inside),
    seam: draw(WIDTHS.seam),
    lit: draw(WIDTHS.lit)
  };
  const ghost = new LineMaterial({
    linewidth: WIDTHS.outline,
    transparent: true,
    opacity: 0.5,
    depthTest: false
  });
  const tint = new MeshBasicMaterial({
    transparent: true,
    opacity: 0.22,
    depthWrite: false,
    polygonOffset: true,
    polygonOffsetFactor: 0.5,
    polygonOffsetUnits: 0.5
  });
  return {
    lines,
    ghost,
    tint,
    apply({ ink, accent }) {
      for (const line of [lines.outline, lines.inside, lines.seam]) line.color.copy(ink);
      for (const material of [lines.lit, ghost, tint]) material.color.copy(accent);
    },
    dispose: () => [...Object.values(lines), ghost, tint].forEach((material: Material) => material.dispose())
  };
}

/** Puts a body into a group: its shell with a tone for each surface, its lines, and what is lit on it. */
export function createBodyView(body: Body, paints: Paints): BodyView {
  const mesh = buildBodyMesh(body);
  const group = new Group();

  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  SURFACES.forEach((surface, i) => {
    const { start, count } = mesh.surfaces[surface];
    geometry.addGroup(start, count, i);
  });
  // Set back a little in depth, so that the lines on its edges are seen whole.
  const materials = SURFACES.map(
    () => new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 })
  );
  const shell = new Mesh(geometry, materials);
  group.add(shell);

  const fixed = [
    drawLines(
      pickEdges(mesh, ({ surface, kind }) => surface === 'inside' && kind !== 'seam'),
      paints.lines.inside
    ),
    drawLines(
      pickEdges(mesh, ({ surface, kind }) => surface === 'outside' && kind !== 'seam'),
      paints.lines.outline
    ),
    drawLines(
      pickEdges(mesh, ({ surface, kind }) => surface === 'inside' && kind === 'seam'),
      paints.lines.inside
    ),
    drawLines(
      pickEdges(mesh, ({ surface, kind }) => surface === 'outside' && kind === 'seam'),
      paints.lines.seam
    )
  ].filter((lines) => lines !== null);
  if (fixed.length > 0) group.add(...fixed);
  let lit: (Mesh | LineSegments2)[] = [];

  function putOut(): void {
    group.remove(...lit);
    lit.forEach((object) => object.geometry.dispose());
    lit = [];
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
    walls: body.walls.map(({ outer }) => ({
      middle: new Vector3(...findMiddle(outer)),
      area: new Vector3(...findVectorArea(outer))
    })),
    wallOf: (triangle) => mesh.wallOf[triangle]!,
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
    paint(colour, { paper }) {
      const tones: Record<Surface, Color> = {
        outside: new Color(colour),
        inside: new Color(colour).multiplyScalar(INSIDE_TONE),
        rim: new Color(colour).lerp(paper, RIM_PAPER)
      };
      SURFACES.forEach((surface, i) => materials[i]!.color.copy(tones[surface]));
    },
    light(pointed) {
      putOut();
      const segments = pickEdges(mesh, (edge) => isEdgePointedAt(edge, body.name, pointed));
      const wall = findPointedWall(body.name, pointed);
      lit = [
        drawLines(segments, paints.lines.lit),
        drawLines(segments, paints.ghost),
        wall && tintWall(geometry, pickWall(mesh, wall), paints.tint)
      ].filter((object) => object !== null);
      lit.forEach((object, i) => (object.renderOrder = i + 1));
      if (lit.length > 0) group.add(...lit);
    },
    dispose() {
      putOut();
      geometry.dispose();
      materials.forEach((material) => material.dispose());
      fixed.forEach((lines) => lines.geometry.dispose());
    }
  };
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
