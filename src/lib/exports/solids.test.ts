import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, findExport, loadFont, PARTED_EXAMPLES } from '../../../tests/paper.ts';
import {
  fillTriangles,
  judgeGlb,
  loadGlb,
  readGlbJson,
  readStl,
  unite,
  type Point,
  type Triangle
} from '../../../tests/solid-files.ts';
import type { Model } from '../kernel/evaluate.ts';
import { FAMILIES } from '../kernel/families/index.ts';
import type { Body } from '../kernel/fitting/fitting.ts';
import { IDENTITY, movePoint, type Motion } from '../kernel/geometry/motion.ts';
import { cross, dot, norm, scale, subtract } from '../kernel/geometry/vector.ts';
import type { Export } from './export.ts';

const FITTINGS = { ...EXAMPLES, ...PARTED_EXAMPLES };

async function write(id: Export['id'], model: Model, index = 0): Promise<Uint8Array> {
  return (await findExport(id).write(model, index, { paper: 'a4', loadFont })) as Uint8Array;
}

async function unpack(id: Export['id'], model: Model): Promise<[name: string, bytes: Uint8Array][]> {
  return Object.entries(unzipSync(await write(id, model)));
}

/** The box round the corners of a body's walls where a motion takes them, mm. */
function boxWalls({ walls }: Body, motion: Motion): [least: Point, most: Point] {
  const corners = walls
    .flatMap(({ outer, inner }) => [...outer, ...inner])
    .map((corner) => movePoint(motion, corner));
  const over = (choose: (...all: number[]) => number): Point =>
    [0, 1, 2].map((i) => choose(...corners.map((corner) => corner[i]!))) as never;
  return [over(Math.min), over(Math.max)];
}

/** How far a single float lies from what it stands for at most: half of its last digit, which grows with its size. */
function findRounding(box: readonly Point[]): number {
  const furthest = Math.max(...box.flat().map(Math.abs));
  return 2 ** (Math.floor(Math.log2(furthest)) - 24);
}

/**
 * Reads triangles as a solid that must have a volume and lie in a box. Rounding takes no corner further than √3 of its
 * step, so the volume changes by no more than the surface times that.
 */
function expectSolid(
  triangles: readonly Triangle[],
  volume: number,
  [least, most]: [Point, Point]
): { solid: ReturnType<typeof fillTriangles>; slack: number } {
  const solid = fillTriangles(triangles);
  const rounding = findRounding([least, most]);
  const slack = solid.surfaceArea() * Math.sqrt(3) * rounding;
  expect(Math.abs(solid.volume() - volume)).toBeLessThanOrEqual(slack);
  const box = solid.boundingBox();
  for (const i of [0, 1, 2]) {
    expect(Math.abs(box.min[i]! - least[i]!)).toBeLessThanOrEqual(rounding);
    expect(Math.abs(box.max[i]! - most[i]!)).toBeLessThanOrEqual(rounding);
  }
  return { solid, slack };
}

function expectNormals(triangles: readonly Triangle[]): void {
  for (const {
    corners: [a, b, c],
    normal
  } of triangles) {
    const area = cross(subtract(b, a), subtract(c, a));
    expect(norm(normal)).toBeCloseTo(1, 5);
    expect(dot(area, normal) / norm(area)).toBeGreaterThan(0.999);
  }
}

it('the examples are of every family', () => {
  const shown = new Set(Object.values(FITTINGS).map(({ family }) => family));
  expect([...shown].sort()).toEqual(FAMILIES.map(({ name }) => name).sort());
});

describe.each(Object.entries(FITTINGS))('the solids of %s', (_, said) => {
  const model = evaluateJob([{ ...said, tag: 'AHU 3' }]);
  const { fitting, quantities } = model.fittings[0]!.built!;
  const { bodies } = fitting;

  it('are pieces of board, closed, each as the duct is cut, with its volume and size', async () => {
    const files = await unpack('pieces-stl', model);
    expect(files.map(([name]) => name)).toEqual(
      bodies.map(({ name }) => `Reading-room-supply-AHU-3-${name}.stl`)
    );
    for (const [i, [, bytes]] of files.entries()) {
      const { header, triangles } = readStl(bytes);
      expect(header).toBe(`Gorewright, mm: AHU 3 ${bodies[i]!.name}`);
      expectNormals(triangles);
      expectSolid(triangles, quantities.bodies[i]!, boxWalls(bodies[i]!, IDENTITY)).solid.delete();
    }
  });

  it('are together the fitting: they meet in faces, and no board is there twice or missing', async () => {
    const { header, triangles } = readStl(await write('solid-stl', model));
    expect(header).toBe('Gorewright, mm: AHU 3');
    const counts = (await unpack('pieces-stl', model)).map(([, bytes]) => readStl(bytes).triangles.length);
    let from = 0;
    const shells = bodies.map((body, i) =>
      expectSolid(
        triangles.slice(from, (from += counts[i]!)),
        quantities.bodies[i]!,
        boxWalls(body, body.placement)
      )
    );
    expect(from).toBe(triangles.length);
    const whole = unite(shells.map(({ solid }) => solid));
    const slack = shells.reduce((sum, shell) => sum + shell.slack, 0);
    expect(Math.abs(whole.volume() - quantities.volume)).toBeLessThanOrEqual(slack);
    // A reader that makes one of all points that are the same finds a closed solid of the same volume too.
    const read = fillTriangles(triangles);
    expect(Math.abs(read.volume() - quantities.volume)).toBeLessThanOrEqual(slack);
    for (const solid of [whole, read, ...shells.map(({ solid }) => solid)]) solid.delete();
  });

  it('stand in a glTF file in metres, each named and where it belongs', async () => {
    const bytes = await write('solid-glb', model);
    const issues = await judgeGlb(bytes);
    expect(issues.messages).toEqual([]);
    const { nodes, scenes, meshes } = readGlbJson(bytes);
    const names = bodies.map(({ name }) => `AHU 3 ${name}`);
    const whole = nodes[scenes[0]!.nodes[0]!]!;
    expect(whole.name).toBe('AHU 3');
    expect(whole.children!.map((child) => nodes[child]!.name)).toEqual(names);
    expect(whole.children!.map((child) => meshes[nodes[child]!.mesh!]!.name)).toEqual(names);
    const loaded = await loadGlb(bytes);
    expect(loaded).toHaveLength(bodies.length);
    for (const [i, { box, triangles }] of loaded.entries()) {
      expectNormals(triangles);
      const [least, most] = boxWalls(bodies[i]!, bodies[i]!.placement);
      // Single floats of metres in the body's own frame, turned into the scene's.
      const own = boxWalls(bodies[i]!, IDENTITY).map((point) => scale(point, 0.001));
      const slack = Math.sqrt(3) * findRounding(own);
      for (const [found, wanted] of [[box.min, least] as const, [box.max, most] as const]) {
        found.toArray().forEach((at, k) => expect(Math.abs(at - wanted[k]! / 1000)).toBeLessThan(slack));
      }
    }
  });

  it('say metres and millimetres whatever the job shows', async () => {
    const inches = evaluateJob([{ ...said, tag: 'AHU 3' }], { show: { length: 'in/16' } });
    for (const id of ['solid-glb', 'pieces-glb', 'solid-stl', 'pieces-stl'] as const) {
      expect(Buffer.compare(await write(id, inches), await write(id, model)), id).toBe(0);
    }
  });
});

describe('solids', () => {
  it('are not mirrored, and up is up: a branch to the right of the flow lies toward +z, a shoe on top toward +y', async () => {
    // Branch of 150 by 200 inside, 25 mm board: main 300 high and 450 wide outside, the neck 250 from its wall.
    const size = async (name: keyof typeof PARTED_EXAMPLES): Promise<[Point, Point]> => {
      const boxes = await loadGlb(await write('solid-glb', evaluateJob([PARTED_EXAMPLES[name]])));
      const whole = boxes.reduce((all, { box }) => all.union(box), boxes[0]!.box);
      return [whole.min.toArray(), whole.max.toArray()];
    };
    const [least, most] = await size('a take-off');
    expect(least.map((at) => Math.round(1000 * at))).toEqual([0, -150, -225]);
    expect(most.map((at) => Math.round(1000 * at))).toEqual([900, 150, 475]);
    const [, above] = await size('a take-off with a shoe');
    expect(above[1]).toBeGreaterThan(0.15);
    expect(Math.round(1000 * above[2])).toBe(225);
  });

  it.each([
    ['Æther/3: «nord»', 'Æther-3-nord'],
    ['गलियारा १', undefined],
    ['通風管 ２', '通風管-２'],
    ['مجرى الهواء', 'مجرى-الهواء'],
    ['../../etc/passwd', 'etc-passwd'],
    ['solid "a" \\ \u0007 \u{1F300}', 'solid-a'],
    ['\uD800 alone', 'alone'],
    ['W'.repeat(300), undefined]
  ])('of a fitting called %j are named by it, in any script', async (tag, safe) => {
    const model = evaluateJob([{ ...EXAMPLES.bend, tag }]);
    const glb = await write('solid-glb', model);
    expect((await judgeGlb(glb)).messages).toEqual([]);
    expect(readGlbJson(glb).nodes.map(({ name }) => name)).toContain(`${tag.toWellFormed()} P2`);
    for (const id of ['pieces-glb', 'pieces-stl'] as const) {
      const names = (await unpack(id, model)).map(([name]) => name);
      expect(names).toHaveLength(3);
      for (const name of names) expect(name).toMatch(/^[\p{L}\p{N}-]+\.(glb|stl)$/u);
      if (safe) expect(names[1]).toContain(`-${safe}-P2.`);
    }
    const { header, triangles } = readStl(await write('solid-stl', model));
    expect(triangles).toHaveLength(96);
    expect(header.startsWith('Gorewright, mm: ')).toBe(true);
    expect(`Gorewright, mm: ${tag.toWellFormed()}`.startsWith(header)).toBe(true);
  });

  it('of pieces are each a valid glTF file, with the piece along its straight', async () => {
    const model = evaluateJob([PARTED_EXAMPLES['a take-off with a shoe']]);
    const { bodies } = model.fittings[0]!.built!.fitting;
    for (const [i, [, bytes]] of (await unpack('pieces-glb', model)).entries()) {
      expect((await judgeGlb(bytes)).messages).toEqual([]);
      const [own] = await loadGlb(bytes);
      expect(1000 * own!.box.min.x).toBeCloseTo(boxWalls(bodies[i]!, IDENTITY)[0][0], 3);
    }
  });
});
