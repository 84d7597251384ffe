import { describe, expect, it } from 'vitest';
import { poseBodies } from '../kernel/assembly/pose.ts';
import { shapeWalls } from '../kernel/assembly/shape.ts';
import type { SaidFitting } from '../kernel/document/job.ts';
import { evaluate, type BuiltModel } from '../kernel/evaluate.ts';
import { FAMILIES, findFamily } from '../kernel/families/index.ts';
import { measurePenetration, type ConvexSolid } from '../kernel/geometry/convex.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, cross, distance, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { listWallFaces, measureWallVolume } from '../kernel/fitting/wall.ts';
import { buildBodyMesh, type BodyMesh } from '../solids/body-mesh.ts';
import { findVectorArea } from '../solids/polygon-area.ts';
import { placeSectionPlanes, SECTION_KINDS } from './section-plane.ts';
import { spreadBodies } from './spread.ts';

const section = { width: 400, height: 250 };

function vary(family: string, changes: Record<string, unknown>): SaidFitting {
  return { family, section, params: { ...findFamily(family).example, ...changes } };
}

const FITTINGS: Record<string, SaidFitting> = {
  ...Object.fromEntries(FAMILIES.map(({ name }) => [`the example of ${name}`, vary(name, {})])),
  'a reducer without collars': vary('reducer', { collarIn: 0, collarOut: 0 }),
  'a reducer with one wall folded down': vary('reducer', {
    outlet: { width: 400, height: 150 },
    method: 'fold',
    alignY: 'bottom',
    collarIn: 150,
    collarOut: 150
  }),
  'a wider outlet, folded': vary('reducer', {
    outlet: { width: 500, height: 250 },
    method: 'fold',
    alignZ: 'left',
    collarIn: 150,
    collarOut: 150
  }),
  'a square branch with a shoe': vary('takeoff', { angle: 90, entry: 'shoe', shoe: 100, fit: 'butt' }),
  'a branch out of the top': vary('takeoff', { wall: 'top', angle: 90, fit: 'butt' })
};

function build(said: SaidFitting): BuiltModel {
  const { built, findings } = evaluate({ format: 'gorewright-job', version: 1, fittings: [said] })
    .fittings[0]!;
  if (!built) throw new Error(`${said.family}: ${findings.map(({ code }) => code).join()}`);
  return built;
}

function listTriangles(mesh: BodyMesh): [Vec3, Vec3, Vec3][] {
  const point = (vertex: number): Vec3 => [
    mesh.positions[3 * vertex]!,
    mesh.positions[3 * vertex + 1]!,
    mesh.positions[3 * vertex + 2]!
  ];
  return mesh.wallOf.map(
    (_, i) => [0, 1, 2].map((k) => point(mesh.indices[3 * i + k]!)) as [Vec3, Vec3, Vec3]
  );
}

/** How far points that are single floats may lie off, mm. */
const ROUNDING = 0.01;

/**
 * Length of the edges at which a shell is open, mm: along every line the edges of its triangles run as far one way as the
 * other, however they are parted.
 */
function measureGaps(mesh: BodyMesh): number {
  const lines: { from: Vec3; way: Vec3; ends: [at: number, sign: 1 | -1][] }[] = [];
  for (const corners of listTriangles(mesh)) {
    corners.forEach((from, i) => {
      const to = corners[(i + 1) % 3]!;
      const length = distance(from, to);
      if (length < ROUNDING) return;
      const isOn = (line: { from: Vec3; way: Vec3 }, point: Vec3): boolean =>
        norm(cross(line.way, subtract(point, line.from))) < ROUNDING;
      let line = lines.find((one) => isOn(one, from) && isOn(one, to));
      if (!line) lines.push((line = { from, way: scale(subtract(to, from), 1 / length), ends: [] }));
      const measure = (point: Vec3): number => dot(line.way, subtract(point, line.from));
      line.ends.push([measure(from), 1], [measure(to), -1]);
    });
  }
  let open = 0;
  for (const { ends } of lines) {
    ends.sort(([a], [b]) => a - b);
    let sum = 0;
    ends.forEach(([at, sign], i) => {
      sum += sign;
      const gap = (ends[i + 1]?.[0] ?? at) - at;
      if (sum !== 0 && gap > ROUNDING) open += gap;
    });
  }
  return open;
}

/** The walls of every body as shown, as convex solids. */
function showWalls({ fitting, steps }: BuiltModel, step: number | null, explode: number): ConvexSolid[][] {
  const poses = poseBodies(fitting, steps, step);
  const offsets = spreadBodies(fitting, poses, explode);
  return fitting.bodies.map(({ walls }, k) => {
    const place = (point: Vec3): Vec3 => add(movePoint(poses[k]!.placement, point), offsets[k]!);
    return walls.map((wall): ConvexSolid => {
      const faces = listWallFaces({ outer: wall.outer.map(place), inner: wall.inner.map(place) });
      const areas = faces.map(findVectorArea).filter((area) => norm(area) > 1e-6);
      return {
        corners: faces.flat(),
        normals: areas.map((area) => scale(area, 1 / norm(area))),
        edges: faces.slice(2).flatMap(([a, b, , d]) => [subtract(b!, a!), subtract(d!, a!)])
      };
    });
  });
}

/** How deep the bodies that reach furthest into each other do so, mm; negative where all are apart. */
function measureDeepest(bodies: readonly ConvexSolid[][], enough: number): number {
  let deepest = -Infinity;
  bodies.forEach((walls, i) => {
    for (const others of bodies.slice(i + 1)) {
      for (const a of walls)
        for (const b of others) deepest = Math.max(deepest, measurePenetration(a, b, enough));
    }
  });
  return deepest;
}

describe.each(Object.entries(FITTINGS))('the preview of %s', (_, said) => {
  const built = build(said);
  const { fitting, steps } = built;

  it('has closed shells that hold as much board as the walls, whole and cut open', () => {
    const poses = poseBodies(fitting, steps, null);
    const arrangement = { poses, offsets: spreadBodies(fitting, poses, 0) };
    const planes = SECTION_KINDS.map((kind) => placeSectionPlanes(fitting, arrangement, { kind, at: 0.4 }));
    let cutOpen = 0;
    fitting.bodies.forEach((body, k) => {
      const whole = buildBodyMesh(body);
      const board = body.walls.reduce((sum, wall) => sum + measureWallVolume(wall), 0);
      const volume = listTriangles(whole).reduce((sum, [a, b, c]) => sum + dot(a, cross(b, c)) / 6, 0);
      expect(board).toBeGreaterThan(0);
      expect(Math.abs(volume / board - 1)).toBeLessThan(1e-4);
      expect(measureGaps(whole)).toBeLessThan(0.1);
      for (const places of planes) {
        const half = buildBodyMesh(body, places[k]!);
        expect(measureGaps(half)).toBeLessThan(0.1);
        cutOpen += half.capped.length;
      }
    });
    expect(cutOpen).toBeGreaterThan(6);
  });

  it('draws no line where the board goes on', () => {
    for (const body of fitting.bodies) {
      expect(buildBodyMesh(body).edgeOf.filter(({ kind }) => kind === 'whole')).toEqual([]);
    }
  });

  it('never has a body inside another, whatever the step', () => {
    const seen = new Set<string>();
    steps.forEach((_, step) => {
      const bodies = showWalls(built, step, 0);
      const shown = JSON.stringify(bodies.map(([wall]) => wall!.corners[0]));
      if (seen.has(shown)) return;
      seen.add(shown);
      expect(measureDeepest(bodies, 1e-6), `step ${step}`).toBeLessThan(1e-5);
    });
  });

  it('shows what is joined where it belongs from then on, and all of it in the end', () => {
    const last = poseBodies(fitting, steps, steps.length - 1);
    last.forEach(({ placement, body }, k) => {
      expect(fitting.bodies[k]!.name).toBe(body);
      expect(distance(placement.t, fitting.bodies[k]!.placement.t)).toBeLessThan(1e-9);
      expect(dot(placement.x, fitting.bodies[k]!.placement.x)).toBeCloseTo(1, 9);
    });
    expect(spreadBodies(fitting, last, 0)).toEqual(fitting.bodies.map(() => [0, 0, 0]));
  });

  it('has its bodies apart from each other when it is exploded, at every step', () => {
    if (fitting.bodies.length === 1) {
      expect(spreadBodies(fitting, poseBodies(fitting, steps, null), 1)).toEqual([[0, 0, 0]]);
      return;
    }
    expect(measureDeepest(showWalls(built, null, 1), -20)).toBeLessThan(-20);
    const joins = steps.flatMap(({ kind }, i) => (kind === 'join' ? [i] : []));
    for (const step of joins) {
      expect(measureDeepest(showWalls(built, step, 1), 1e-6), `step ${step}`).toBeLessThan(1e-5);
    }
  });
});

describe('until it is done, the preview shows', () => {
  const stage = (said: SaidFitting) => {
    const { fitting, steps } = build(said);
    return (sentence: string | null, count = 1) => {
      const at = steps.flatMap((step, i) => (step.sentence === sentence ? [i] : []))[count - 1];
      const [walls] = shapeWalls(fitting, steps, sentence === null ? null : at!);
      const mesh = buildBodyMesh({ kind: 'piece', walls: walls! });
      expect(measureGaps(mesh)).toBeLessThan(0.1);
      return { walls: walls!, board: walls!.reduce((sum, wall) => sum + measureWallVolume(wall), 0) };
    };
  };
  // Of 400 × 250 from board 25 thick.
  const BOARD = 450 * 300 - 400 * 250;

  it('a straight without its opening, and with it once it is cut', () => {
    const at = stage(vary('opening', {}));
    expect(at('label').walls).toHaveLength(4);
    expect(at('label').board).toBeCloseTo(BOARD * 800, 3);
    expect(at('label').board - at('cut-opening').board).toBeCloseTo(Math.PI * 80 ** 2 * 25, 3);
    expect(at('cut-opening').board).toBeCloseTo(at(null).board, 6);
    expect(at('seal').walls).toBe(at(null).walls);
  });

  it('a box with its first opening before its second', () => {
    const at = stage(vary('box', {}));
    const one = at('cut-opening', 1).board - at('cut-opening', 2).board;
    expect(at('label').board - at('cut-opening', 1).board).toBeCloseTo(Math.PI * 80 ** 2 * 25, 3);
    expect(one).toBeCloseTo(400 * 250 * 25, 3);
  });

  it('a straight whose wall lies flat until it is laid down', () => {
    const at = stage(FITTINGS['a reducer with one wall folded down']!);
    expect(at('cut-slope').board).toBeCloseTo(BOARD * (150 + 400 + 150), 3);
    expect(at('fold-slope').walls.length).toBeGreaterThan(4);
    expect(at('fold-slope').board).toBeLessThan(at('cut-slope').board);
  });
});

describe('exploded', () => {
  const open = (said: SaidFitting) => {
    const { fitting, steps } = build(said);
    const offsets = spreadBodies(fitting, poseBodies(fitting, steps, null), 1);
    return (name: string) => {
      const at = fitting.bodies.findIndex((body) => body.name === name);
      return { body: fitting.bodies[at]!, offset: offsets[at]! };
    };
  };

  it('a branch goes off the wall of its main along its own axis', () => {
    const { body, offset } = open(FITTINGS['the example of takeoff']!)('P2');
    expect(norm(offset)).toBeGreaterThan(100);
    expect(dot(offset, body.placement.x)).toBeCloseTo(norm(offset), 6);
  });

  it('the panels of a taper go outward from its middle, all as far', () => {
    const find = open(FITTINGS['a reducer without collars']!);
    for (const [name, opposite] of [['W1', 'W3'] as const, ['W2', 'W4'] as const]) {
      const { body, offset } = find(name);
      expect(dot(offset, body.placement.y)).toBeGreaterThan(0.9 * norm(offset));
      expect(norm(offset)).toBeCloseTo(norm(find(opposite).offset), 6);
      expect(norm(offset)).toBeGreaterThan(100);
    }
  });

  it('parts side by side go sideways from each other', () => {
    const find = open(FITTINGS['the example of split-bend']!);
    const { fitting } = build(FITTINGS['the example of split-bend']!);
    const [first, second] = fitting.joints.find(({ closing }) => closing.kind === 'made')!.bodies;
    const between = subtract(find(second).offset, find(first).offset);
    expect(Math.abs(between[2])).toBeCloseTo(norm(between), 6);
    expect(norm(between)).toBeGreaterThan(100);
  });

  it('a cap goes off the end that it closes', () => {
    const { offset } = open(FITTINGS['the example of cap']!)('W1');
    expect(offset[0]).toBeCloseTo(norm(offset), 6);
    expect(norm(offset)).toBeGreaterThan(100);
  });
});
