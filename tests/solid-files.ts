import Module, { type Manifold } from 'manifold-3d';
import { Box3, Matrix3, Mesh, Vector3 } from 'three';
import { GLTFLoader } from 'three/addons/loaders/GLTFLoader.js';
import { validateBytes, type Report } from 'gltf-validator';

const oracle = await Module();
oracle.setup();

export type Point = readonly [number, number, number];
export interface Triangle {
  readonly corners: readonly [Point, Point, Point];
  readonly normal: Point;
}

/** What a binary STL holds; one whose length is not that of its facets is thrown. */
export function readStl(bytes: Uint8Array): { header: string; triangles: Triangle[] } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.length !== 84 + 50 * count) throw new Error(`${bytes.length} bytes for ${count} facets`);
  const readPoint = (at: number): Point => [0, 4, 8].map((i) => view.getFloat32(at + i, true)) as never;
  return {
    header: new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, 80)).replace(/\0+$/, ''),
    triangles: Array.from({ length: count }, (_, f) => {
      const at = 84 + 50 * f;
      return { normal: readPoint(at), corners: [12, 24, 36].map((i) => readPoint(at + i)) as never };
    })
  };
}

/** The solid that triangles enclose, points that are the same to the last bit made one; throws where they do not close. */
export function fillTriangles(triangles: readonly Triangle[]): Manifold {
  const places = new Map<string, number>();
  const points: Point[] = [];
  const corners = triangles
    .flatMap(({ corners }) => corners)
    .map((point) => {
      const name = point.join();
      if (!places.has(name)) places.set(name, points.push(point) - 1);
      return places.get(name)!;
    });
  return new oracle.Manifold(
    new oracle.Mesh({
      numProp: 3,
      vertProperties: new Float32Array(points.flat()),
      triVerts: new Uint32Array(corners)
    })
  );
}

/** What solids fill together. */
export function unite(solids: readonly Manifold[]): Manifold {
  return oracle.Manifold.union([...solids]);
}

/** The JSON that a GLB begins with. */
export function readGlbJson(bytes: Uint8Array): {
  asset: { generator: string };
  nodes: { name: string; mesh?: number; children?: number[] }[];
  meshes: { name: string }[];
  scenes: { nodes: number[] }[];
} {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + view.getUint32(12, true))));
}

/** What the validator of the Khronos Group says of a GLB. */
export async function judgeGlb(bytes: Uint8Array): Promise<Report['issues']> {
  return (await validateBytes(bytes, { format: 'glb' })).issues;
}

/** The meshes of a GLB as three places them in its scene, metres, in the order of the file. */
export async function loadGlb(bytes: Uint8Array): Promise<{ box: Box3; triangles: Triangle[] }[]> {
  const copy = bytes.slice().buffer;
  const { scene } = await new GLTFLoader().parseAsync(copy, '');
  scene.updateMatrixWorld(true);
  const meshes: { box: Box3; triangles: Triangle[] }[] = [];
  scene.traverse((one) => {
    if (!(one instanceof Mesh)) return;
    const { position, normal } = one.geometry.attributes;
    const turn = new Matrix3().getNormalMatrix(one.matrixWorld);
    const triangles = Array.from({ length: position.count / 3 }, (_, f): Triangle => {
      const at = (i: number): Vector3 =>
        new Vector3().fromBufferAttribute(position, 3 * f + i).applyMatrix4(one.matrixWorld);
      const out = new Vector3().fromBufferAttribute(normal, 3 * f).applyMatrix3(turn);
      return { normal: out.toArray(), corners: [at(0).toArray(), at(1).toArray(), at(2).toArray()] };
    });
    meshes.push({ box: new Box3().setFromObject(one, true), triangles });
  });
  return meshes;
}
