// What every fitting family owes, run over the list: a new family is tested by being in it.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { build as buildFitting, evaluateOne, type Stock } from '../../../../tests/duct.ts';
import { drawParams, drawSection, type Said } from '../../../../tests/properties/documents.ts';
import { countLooseEdges, measureWarp } from '../../../../tests/solid.ts';
import { makeSpeech, nameChoice, nameParam, speak, tellFinding } from '../../words/words.ts';
import { DEFAULT_BOARD, DEFAULT_SHOP, DEFAULT_SHOW, LANGUAGES } from '../document/job.ts';
import { listMiterJoints, listPanelBodies } from '../fitting/fitting.ts';
import type { BuiltModel, FittingModel } from '../evaluate.ts';
import type { Body } from '../fitting/fitting.ts';
import { listWallFaces, measureWallVolume } from '../fitting/wall.ts';
import { findNormal, measurePenetration, type ConvexSolid } from '../geometry/convex.ts';
import { invertMotion, movePoint, turnDirection } from '../geometry/motion.ts';
import { add, cross, distance, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { findBlade } from '../straight/board.ts';
import { markCut } from '../straight/cut.ts';
import { growSection } from '../straight/section.ts';
import { acceptsNumber } from './accept.ts';
import type { Family, GroupKind, Handle, ParamKind } from './family.ts';
import { FAMILIES } from './index.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 300;
const SECTION = { width: 400, height: 250 };

const say = (family: Family, params: Said, section = SECTION) => ({ family: family.name, section, params });

/** Legal values of a family and a section, drawn from the family's own descriptions. */
const draw = (family: Family) => fc.tuple(drawParams(family), drawSection);

/** Runs a property over legal values that can be built; tells how many were. */
function checkBuilt(
  family: Family,
  property: (built: BuiltModel, model: FittingModel, params: Said) => void
): number {
  let checked = 0;
  fc.assert(
    fc.property(draw(family), ([params, section]) => {
      const model = evaluateOne(say(family, params, section));
      if (!model.built) return;
      property(model.built, model, params);
      checked++;
    }),
    { numRuns: RUNS, seed: 5 }
  );
  return checked;
}

/** The example and, beside it, as many random fittings as could be built. */
const ENOUGH = 20;

/** What a drag brought a handle's own parameter to. */
function readDragged(changes: Said, handle: Handle): unknown {
  return handle.id
    .split(/[.[\]]+/)
    .filter((step) => step !== '')
    .reduce<unknown>((node, step) => (node as Said)[step], changes);
}

/** A drag of this many millimetres is felt: a count needs more than half a step of its handle. */
const DRAGS = { length: 10, angle: 10, count: 45 } as const;

describe.each(FAMILIES.map((family) => [family.name, family] as const))('a %s', (_name, family) => {
  it('is built from its example without an error, every edge closed', () => {
    const { built, findings } = evaluateOne(say(family, family.example));
    expect(findings.filter(({ level }) => level === 'error')).toEqual([]);
    expect(built).not.toBeNull();
    expect(built!.openEdges).toBe(0);
    expect(built!.fitting.ports.length).toBeGreaterThan(0);
  });

  it('is built from what its document must say alone', () => {
    const required = Object.entries(family.params).filter(([, param]) => param.required);
    const params: Said = Object.fromEntries(required.map(([name]) => [name, family.example[name]]));
    // What a rule demands beside it, one after another.
    for (const rule of family.rules) {
      for (let fault = rule.check(params); fault; fault = rule.check(params)) {
        const missing = String(fault.path[0]);
        expect(params[missing]).toBeUndefined();
        expect(family.example[missing]).toBeDefined();
        params[missing] = family.example[missing];
      }
    }
    expect(evaluateOne(say(family, params)).built).not.toBeNull();
  });

  it('does not change when a handle is dragged to where it is', () => {
    let handles = 0;
    const dragAll = ({ resolved }: FittingModel): void => {
      const { values, setting } = resolved;
      for (const handle of family.handles(values as never, setting)) {
        // What follows from a driver may be more than a document may say.
        if (!acceptsNumber(family, `params.${handle.id}`, handle.value)) continue;
        const changes = family.drag(values as never, handle.id, handle.at, setting);
        const dragged = readDragged(changes, handle) as number;
        expect(Math.abs(dragged - handle.value)).toBeLessThanOrEqual(
          1e-6 * Math.max(1, Math.abs(handle.value))
        );
        const before = evaluateOne(say(family, values, setting.section)).built!;
        const after = evaluateOne(say(family, takeBack({ ...values, ...changes }), setting.section)).built!;
        before.fitting.ports.forEach((port, i) => {
          const moved = distance(port.at, after.fitting.ports[i]!.at);
          expect(moved).toBeLessThan(1e-6 * (1 + measureSize(before)));
        });
        handles++;
      }
    };
    dragAll(evaluateOne(say(family, family.example)));
    const checked = checkBuilt(family, (_built, model) => dragAll(model));
    expect(checked).toBeGreaterThanOrEqual(ENOUGH);
    expect(handles).toBeGreaterThan(checked);
  });

  it('raises a parameter when its handle is dragged the way it points', () => {
    let raised = 0;
    const { values, setting } = evaluateOne(say(family, family.example)).resolved;
    for (const handle of family.handles(values as never, setting)) {
      expect(Math.abs(Math.hypot(...handle.along) - 1)).toBeLessThan(1e-9);
      const point = add(handle.at, scale(handle.along, DRAGS[handle.kind]));
      const back = add(handle.at, scale(handle.along, -DRAGS[handle.kind]));
      const up = readDragged(family.drag(values as never, handle.id, point, setting), handle);
      const down = readDragged(family.drag(values as never, handle.id, back, setting), handle);
      expect(up).toBeGreaterThan(handle.value);
      // A parameter at its limit stays there.
      if (acceptsNumber(family, `params.${handle.id}`, handle.value - 1))
        expect(down).toBeLessThan(handle.value);
      else expect(down).toBe(handle.value);
      raised++;
    }
    expect(raised).toBeGreaterThan(0);
    expect(new Set(family.handles(values as never, setting).map(({ id }) => id)).size).toBe(raised);
  });

  it('follows a length handle millimetre by millimetre, whatever it is made of', () => {
    let followed = 0;
    const checked = checkBuilt(family, (_built, { resolved: { values, setting } }) => {
      for (const handle of family.handles(values as never, setting)) {
        if (handle.kind !== 'length' || !acceptsNumber(family, `params.${handle.id}`, handle.value + 20))
          continue;
        const pulled = add(handle.at, scale(handle.along, 10));
        const changes = family.drag(values as never, handle.id, pulled, setting);
        const value = readDragged(changes, handle) as number;
        expect(value).toBeGreaterThan(handle.value - 1e-6);
        expect(value - handle.value).toBeLessThan(20 + 1e-6);
        followed++;
      }
    });
    expect(checked).toBeGreaterThanOrEqual(ENOUGH);
    expect(followed).toBeGreaterThanOrEqual(ENOUGH);
  });

  it('of any legal values has closed walls, or says in words why it cannot be built', () => {
    let refused = 0;
    const checked = checkBuilt(family, ({ fitting, quantities, openEdges }) => {
      expect(openEdges).toBe(0);
      for (const { walls, placement } of fitting.bodies) {
        for (const wall of walls) {
          expect([...wall.outer, ...wall.inner].flat().every(Number.isFinite)).toBe(true);
          expect(wall.inner).toHaveLength(wall.outer.length);
          expect(wall.edges).toHaveLength(wall.outer.length);
          const faces = listWallFaces(wall);
          expect(countLooseEdges(faces)).toBe(0);
          const size = Math.max(1, ...wall.outer.flat().map(Math.abs));
          expect(Math.max(...faces.map(measureWarp))).toBeLessThan(1e-9 * size + 1e-6);
          expect(measureWallVolume(wall)).toBeGreaterThan(0);
        }
        expect([placement.x, placement.y, placement.z, placement.t].flat().every(Number.isFinite)).toBe(true);
      }
      expect(quantities.bodies).toHaveLength(fitting.bodies.length);
      expect(Object.values(quantities).flat().every(Number.isFinite)).toBe(true);
    });
    fc.assert(
      fc.property(draw(family), ([params, section]) => {
        const { built, findings } = evaluateOne(say(family, params, section));
        if (built) return;
        const errors = findings.filter(({ level }) => level === 'error');
        expect(errors.length).toBeGreaterThan(0);
        for (const language of LANGUAGES) {
          const words = speak(language);
          for (const error of errors) {
            expect(tellFinding(error, words, makeSpeech({ ...DEFAULT_SHOW, language }))).toMatch(/\S/);
          }
        }
        refused++;
      }),
      { numRuns: RUNS, seed: 5 }
    );
    expect(checked).toBeGreaterThanOrEqual(ENOUGH);
    expect(checked + refused).toBe(RUNS);
  });

  it('has joints whose two sides match, cuts corner by corner, others touch and no more', () => {
    let joints = 0;
    const checkJoints = ({ fitting }: BuiltModel, { resolved: { values } }: FittingModel): void => {
      const size = measureSize({ fitting });
      for (const joint of fitting.joints) {
        const { closing } = joint;
        if (closing.kind !== 'miter') {
          const [first, second] = joint.bodies.map((name) =>
            listSolids(fitting.bodies.find((one) => one.name === name)!)
          );
          const depth = Math.max(...first!.flatMap((a) => second!.map((b) => measurePenetration(a, b))));
          expect(depth).toBeLessThan(1e-6 + 1e-9 * size);
          // What is let into an opening has its play there.
          const play = typeof values['play'] === 'number' ? values['play'] : 0;
          expect(depth).toBeGreaterThan(-play - 1e-6 - 1e-9 * size);
          joints++;
          continue;
        }
        const [first, second] = joint.bodies.map((name) => {
          const body = fitting.bodies.find((one) => one.name === name)!;
          const place = (corner: Vec3): Vec3 => movePoint(body.placement, corner);
          return body.walls.flatMap(({ outer, inner, edges }) =>
            edges.flatMap(({ cut }, i) => (cut === closing.cut ? [place(outer[i]!), place(inner[i]!)] : []))
          );
        });
        expect(first!.length).toBeGreaterThan(0);
        expect(second).toHaveLength(first!.length);
        for (const corner of first!) {
          const nearest = Math.min(...second!.map((other) => distance(corner, other)));
          expect(nearest).toBeLessThan(1e-6 + 1e-12 * size);
        }
        joints++;
      }
    };
    const example = evaluateOne(say(family, family.example));
    checkJoints(example.built!, example);
    checkBuilt(family, checkJoints);
    if (example.built!.fitting.joints.length > 0) expect(joints).toBeGreaterThan(ENOUGH);
  });

  it('scales: lengths by two, areas by four, volumes by eight', () => {
    const k = 2;
    // With its defaults, which are lengths as well.
    const { values } = evaluateOne(say(family, family.example)).resolved;
    const scaled = Object.fromEntries(
      Object.entries(values).map(([name, value]) => [name, scaleValue(family.params[name]!.of, value, k)])
    );
    const stock: Stock = {
      board: {
        thickness: DEFAULT_BOARD.thickness * k,
        length: DEFAULT_BOARD.length * k,
        width: DEFAULT_BOARD.width * k,
        spigot: DEFAULT_BOARD.spigot * k,
        flap: DEFAULT_BOARD.flap * k
      },
      shop: { minThroat: DEFAULT_SHOP.minThroat * k, minGore: DEFAULT_SHOP.minGore * k }
    };
    const small = buildFitting(say(family, family.example));
    const section = { width: SECTION.width * k, height: SECTION.height * k };
    const large = buildFitting(say(family, scaled, section), stock);
    const near = (figure: (built: BuiltModel) => number, ratio: number): void =>
      expect(Math.abs(figure(large) - ratio * figure(small))).toBeLessThanOrEqual(
        1e-9 * Math.abs(figure(large))
      );
    near(({ quantities }) => quantities.volume, k ** 3);
    near(({ quantities }) => quantities.outside, k ** 2);
    near(({ quantities }) => quantities.inside, k ** 2);
    near(({ quantities }) => quantities.seam, k);
    near(({ quantities }) => quantities.jointOutline, k);
    near(({ quantities }) => quantities.glue, k);
    small.fitting.ports.forEach((port, i) => {
      const other = large.fitting.ports[i]!;
      expect(distance(scale(port.at, k), other.at)).toBeLessThan(1e-9 * measureSize(large));
      expect(distance(port.flow, other.flow)).toBeLessThan(1e-12);
      expect(other.end).toBe(port.end);
    });
  });

  it('changes by about 1e-9 when a length or an angle is nudged by 1e-9', () => {
    let nudged = 0;
    const still = buildFitting(say(family, family.example));
    for (const [name, param] of Object.entries(family.params)) {
      for (const params of nudgeValue(param.of, family.example[name], 1e-9)) {
        const moved = buildFitting(say(family, { ...family.example, [name]: params }));
        still.fitting.ports.forEach((port, i) => {
          expect(distance(port.at, moved.fitting.ports[i]!.at)).toBeLessThan(2e-8);
        });
        const change = Math.abs(moved.quantities.volume / still.quantities.volume - 1);
        expect(change).toBeLessThan(1e-10);
        nudged++;
      }
    }
    expect(nudged).toBeGreaterThan(0);
  });

  it.runIf(family.mirror)('in the mirror is the other hand: what lay to the right lies to the left', () => {
    const mirror = ({ resolved: { values, setting } }: FittingModel): FittingModel => {
      const changed = takeBack({ ...values, ...family.mirror!(values as never) });
      return evaluateOne(say(family, changed, setting.section));
    };
    const flat = ([x, y, z]: Vec3): Vec3 => [x, y, -z];
    const example = evaluateOne(say(family, family.example));
    expect(mirror(mirror(example)).resolved.values).toEqual(example.resolved.values);
    const checked = checkBuilt(family, (built, model) => {
      const there = mirror(model);
      expect(there.findings.map(({ code }) => code).sort()).toEqual(
        model.findings.map(({ code }) => code).sort()
      );
      const near = 1e-9 * measureSize(built) + 1e-9;
      expectSamePlaces(there.built!, built, flat, near);
      expect(Math.abs(there.built!.quantities.volume / built.quantities.volume - 1)).toBeLessThan(1e-9);
      expectSamePorts(mirror(there).built!, built, (point) => point, near);
    });
    expect(checked).toBeGreaterThanOrEqual(ENOUGH);
  });

  it.runIf(family.reverse)(
    'seen from its other end is the same body, its pieces told in the other order',
    () => {
      const reverse = ({ resolved: { values, setting } }: FittingModel): FittingModel => {
        const changed = takeBack({ ...values, ...family.reverse!(values as never, setting) });
        return evaluateOne(say(family, changed, setting.section));
      };
      const example = evaluateOne(say(family, family.example));
      expect(reverse(reverse(example)).resolved.values).toEqual(example.resolved.values);
      const checked = checkBuilt(family, (built, model) => {
        // Divided over several straights it is divided elsewhere from the other end.
        if (built.fitting.straights.length > 1) return;
        const there = reverse(model).built!;
        const near = 1e-9 * measureSize(built) + 1e-9;
        // The rigid motion that looks along the duct from its outlet: up stays up.
        const { at, flow, up } = built.fitting.ports.find(({ name }) => name === 'outlet')!;
        const upstream = scale(flow, -1);
        const toOutlet = invertMotion({ x: upstream, y: up, z: cross(upstream, up), t: at });
        const swapped = [...built.fitting.ports].reverse();
        there.fitting.ports.forEach((port, i) => {
          const other = swapped[i]!;
          expect(distance(port.at, movePoint(toOutlet, other.at))).toBeLessThan(near);
          expect(distance(port.flow, scale(turnDirection(toOutlet, other.flow), -1))).toBeLessThan(1e-9);
          expect(distance(port.up, turnDirection(toOutlet, other.up))).toBeLessThan(1e-9);
        });
        expect(Math.abs(there.quantities.volume / built.quantities.volume - 1)).toBeLessThan(1e-9);
        const bodies = [...built.fitting.bodies].reverse();
        expect(there.fitting.bodies).toHaveLength(bodies.length);
        there.fitting.bodies.forEach((body, i) => {
          const others = listCorners(bodies[i]!).map((corner) => movePoint(toOutlet, corner));
          for (const corner of listCorners(body)) {
            expect(Math.min(...others.map((other) => distance(corner, other)))).toBeLessThan(near);
          }
        });
        expectSamePorts(reverse(reverse(model)).built!, built, (point) => point, near);
      });
      expect(checked).toBeGreaterThanOrEqual(ENOUGH);
    }
  );

  it('has a label and a help for every parameter and a name for every option, in every language', () => {
    let named = 0;
    for (const language of LANGUAGES) {
      const words = speak(language);
      expect(words.families[family.name]).toMatch(/\S/);
      for (const path of Object.entries(family.params).flatMap(([name, { of }]) => listPlaces(name, of))) {
        const { label, help } = nameParam(words, family.name, path);
        expect(label).toMatch(/\S/);
        expect(help).toMatch(/\S/);
        named++;
      }
      for (const [key, option] of Object.entries(family.params).flatMap(([name, { of }]) =>
        listOptions(name, of)
      ))
        expect(nameChoice(words, family.name, key, option)).toMatch(/\S/);
    }
    expect(named).toBeGreaterThan(0);
  });

  it('offers angles to snap to at which every bevel is one of the shop', () => {
    const { values, setting } = evaluateOne(say(family, family.example)).resolved;
    const angles = family.handles(values as never, setting).filter(({ kind }) => kind === 'angle');
    for (const { id } of angles) {
      const snaps = family.bladeValues(values as never, id, DEFAULT_SHOP);
      expect([...snaps].sort((a, b) => a - b)).toEqual(snaps);
      for (const value of snaps) {
        const { fitting } = family.build(replaceAt(values, id, value) as never, setting);
        // Of the cuts that this angle sets, which may not be all.
        for (const joint of listMiterJoints(fitting!).filter(
          ({ turnedBy }) => turnedBy.param === `params.${id}`
        )) {
          const straight = fitting!.straights.find(({ name }) => name === joint.straight)!;
          const cut = straight.cuts.find(({ name }) => name === joint.cut)!;
          const outside = growSection(straight.section, straight.thickness);
          for (const { bevel } of markCut(cut, outside, straight.thickness)) {
            expect(findBlade(DEFAULT_SHOP, bevel)).not.toBeNull();
          }
        }
      }
    }
  });
});

it('the list holds families, each under its own name', () => {
  expect(FAMILIES.length).toBeGreaterThan(0);
  expect(new Set(FAMILIES.map(({ name }) => name)).size).toBe(FAMILIES.length);
});

/** Whether the ports lie where those of another fitting do, once these are moved. */
function expectSamePorts(there: BuiltModel, here: BuiltModel, move: (at: Vec3) => Vec3, near: number): void {
  expect(there.fitting.ports).toHaveLength(here.fitting.ports.length);
  there.fitting.ports.forEach((port, i) => {
    const other = here.fitting.ports[i]!;
    expect(port.name).toBe(other.name);
    expect(distance(port.at, move(other.at))).toBeLessThan(near);
    expect(distance(port.flow, move(other.flow))).toBeLessThan(1e-9);
    expect(distance(port.up, move(other.up))).toBeLessThan(1e-9);
  });
}

/** Whether each port lies where one of another fitting does, once that is moved; parts told from the left change places. */
function expectSamePlaces(there: BuiltModel, here: BuiltModel, move: (at: Vec3) => Vec3, near: number): void {
  const left = [...here.fitting.ports];
  for (const port of there.fitting.ports) {
    const at = left.findIndex(
      (other) =>
        distance(port.at, move(other.at)) < near &&
        distance(port.flow, move(other.flow)) < 1e-9 &&
        distance(port.up, move(other.up)) < 1e-9
    );
    expect(at).toBeGreaterThanOrEqual(0);
    left.splice(at, 1);
  }
  expect(left).toEqual([]);
  const names = ({ fitting }: BuiltModel): string[] => fitting.ports.map(({ name }) => name);
  expect(names(there)).toEqual(names(here));
}

/** Every corner of a piece's walls, in the fitting's frame. */
function listCorners({ walls, placement }: Body): Vec3[] {
  return walls
    .flatMap(({ outer, inner }) => [...outer, ...inner])
    .map((corner) => movePoint(placement, corner));
}

/** How far the fitting reaches, mm. */
function measureSize({ fitting }: Pick<BuiltModel, 'fitting'>): number {
  const panels = listPanelBodies(fitting).flatMap(({ panel }) => panel.outer.flat().map(Math.abs));
  return fitting.straights.reduce((sum, { length }) => sum + length, 1) + Math.max(0, ...panels);
}

/** The walls of a body in the fitting's frame, as convex solids. */
function listSolids({ walls, placement }: Body): ConvexSolid[] {
  return walls.map(({ outer, inner }) => {
    const place = (corner: Vec3): Vec3 => movePoint(placement, corner);
    const faces = listWallFaces({ outer: outer.map(place), inner: inner.map(place) });
    return {
      corners: faces.flat(),
      normals: faces
        .map((face) => findNormal(face[0]!, face[1]!, face[2]!))
        .filter((normal) => normal.every(Number.isFinite)),
      edges: faces.slice(2).flatMap(([a, b, , d]) => [subtract(b!, a!), subtract(d!, a!)])
    };
  });
}

function takeBack(params: Said): Said {
  return Object.fromEntries(Object.entries(params).filter(([, value]) => value !== undefined));
}

function scaleValue(of: ParamKind | GroupKind, value: unknown, k: number): unknown {
  if (of.kind === 'list') return (value as unknown[]).map((item) => scaleValue(of.item, item, k));
  if (of.kind === 'group') {
    const fields = Object.entries(value as Said);
    return Object.fromEntries(
      fields.map(([name, field]) => [name, scaleValue(of.fields[name]!.of, field, k)])
    );
  }
  const isLength = of.kind === 'length' || of.kind === 'throat' || of.kind === 'place';
  return isLength && typeof value === 'number' ? value * k : value;
}

/** The value with each of its lengths and angles nudged in turn. */
function nudgeValue(of: ParamKind | GroupKind, value: unknown, by: number): unknown[] {
  if (value === undefined || of.kind === 'count' || of.kind === 'choice') return [];
  if (of.kind === 'list') {
    const items = value as unknown[];
    return items.flatMap((item, i) =>
      nudgeValue(of.item, item, by).map((nudged) => items.map((other, k) => (k === i ? nudged : other)))
    );
  }
  if (of.kind === 'group') {
    const group = value as Said;
    return Object.entries(of.fields).flatMap(([name, field]) =>
      nudgeValue(field.of, group[name], by).map((nudged) => ({ ...group, [name]: nudged }))
    );
  }
  return typeof value === 'number' ? [value + by] : [];
}

/** The places of a parameter that have words of their own: itself, and the fields of a group or of a list's entries. */
function listPlaces(name: string, of: ParamKind): string[] {
  const group = of.kind === 'list' ? of.item : of;
  const fields = group.kind === 'group' ? Object.keys(group.fields) : [];
  return [name, ...fields.map((field) => `${name}.${field}`)];
}

/** The options of a choice or place, and of those in a group or in a list's entries. */
function listOptions(name: string, of: ParamKind | GroupKind): [key: string, option: string][] {
  if (of.kind === 'choice' || of.kind === 'place') return of.of.map((option) => [name, option]);
  if (of.kind === 'list') return listOptions(name, of.item);
  if (of.kind !== 'group') return [];
  return Object.entries(of.fields).flatMap(([field, param]) => listOptions(`${name}.${field}`, param.of));
}

function replaceAt(node: unknown, path: string, value: unknown): Said {
  const steps = path.split(/[.[\]]+/).filter((step) => step !== '');
  const into = (at: unknown, [first, ...rest]: string[]): unknown => {
    if (first === undefined) return value;
    if (Array.isArray(at))
      return at.map((item: unknown, i) => (i === Number(first) ? into(item, rest) : item));
    return { ...(at as Said), [first]: into((at as Said)[first], rest) };
  };
  return into(node, steps) as Said;
}
