import type { Material, Node } from '@gltf-transform/core';
import type { Motion } from '../kernel/geometry/motion.ts';
import type { Facet } from '../solids/facets.ts';

/** A body with its own frame's facets and its colour. */
export interface Solid {
  readonly name: string;
  readonly facets: readonly Facet[];
  /** Takes its frame to the scene's, mm. */
  readonly placement: Motion;
  /** As `#RRGGBB`. */
  readonly colour: string;
}

const METRES_PER_MM = 0.001;

/**
 * Writes solids as a glTF 2.0 in one binary file, under one node that is called `name`: metres, y up, right-handed as
 * the frame of a fitting is. A node has the mesh of its body in the body's own frame and places it, so the meshes lie
 * square in the files and a program that takes the fitting apart has the axis of every piece. Faces share no vertices,
 * for they are flat-shaded. The library is loaded when the first file is written.
 */
export async function writeGlb(name: string, solids: readonly Solid[]): Promise<Uint8Array> {
  const { ColorUtils, Document, WebIO } = await import('@gltf-transform/core');
  const document = new Document();
  document.getRoot().getAsset().generator = 'Gorewright';
  const buffer = document.createBuffer();
  const list = (values: readonly number[]) =>
    document.createAccessor().setType('VEC3').setArray(new Float32Array(values)).setBuffer(buffer);
  const materials = new Map<string, Material>();
  const paint = (colour: string): Material => {
    const known = materials.get(colour);
    if (known) return known;
    const [red, green, blue] = ColorUtils.hexToFactor(Number.parseInt(colour.slice(1), 16), [0, 0, 0]);
    const made = document
      .createMaterial(colour)
      .setBaseColorFactor([red!, green!, blue!, 1])
      .setMetallicFactor(0);
    materials.set(colour, made);
    return made;
  };
  const whole = document.createNode(name);
  for (const { name: own, facets, placement, colour } of solids) {
    const at = facets.flatMap(({ corners }) => corners.flat());
    const primitive = document
      .createPrimitive()
      .setAttribute('POSITION', list(at.map((value) => value * METRES_PER_MM)))
      .setAttribute('NORMAL', list(facets.flatMap(({ normal }) => [...normal, ...normal, ...normal])))
      .setMaterial(paint(colour));
    const mesh = document.createMesh(own).addPrimitive(primitive);
    whole.addChild(place(document.createNode(own).setMesh(mesh), placement));
  }
  document.getRoot().setDefaultScene(document.createScene().addChild(whole));
  return new WebIO().writeBinary(document);
}

function place(node: Node, { x, y, z, t }: Motion): Node {
  const [right, up, back] = t.map((value) => value * METRES_PER_MM) as [number, number, number];
  return node.setMatrix([...x, 0, ...y, 0, ...z, 0, right, up, back, 1]);
}
