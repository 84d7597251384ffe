import { findMiddle, type Body, type Fitting, type Joint } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { growSection } from '../kernel/straight/section.ts';

/** How far joints are opened when it is fully exploded, as a share of the size of the fitting's sections. */
const EXPLODED_GAP = 0.7;

const NOWHERE: Vec3 = [0, 0, 0];

/** A piece, or the panels that are joined to each other: what is moved as one when joints are opened. */
interface Unit {
  readonly bodies: readonly Body[];
  /** Unit direction of the flow through it. */
  readonly flow: Vec3;
}

/**
 * How far every body is moved when the joints are opened, `explode` 0 … 1, mm, in the order of the bodies. From the first
 * body on each unit carries on from one that it is joined to: square to a cut, along its own flow off the wall of a main,
 * sideways from a part beside it. Panels of a unit go outward from its middle as well.
 */
export function openJoints(fitting: Fitting, explode: number): Vec3[] {
  const gap = explode * EXPLODED_GAP * measureSize(fitting);
  const units = listUnits(fitting);
  const moved = new Map<Unit, Vec3>();
  for (const root of units) {
    if (!moved.has(root)) moved.set(root, NOWHERE);
    for (let grew = true; grew;) {
      grew = false;
      for (const joint of fitting.joints) {
        const [first, second] = joint.bodies.map((name) => findUnit(units, name)) as [Unit, Unit];
        if (moved.has(first) === moved.has(second)) continue;
        const [from, to, way] = moved.has(first) ? [first, second, gap] : [second, first, -gap];
        moved.set(to, add(moved.get(from)!, scale(findOpening(joint, first, second), way)));
        grew = true;
      }
    }
  }
  return fitting.bodies.map((body) => {
    const unit = findUnit(units, body.name);
    return add(moved.get(unit)!, scale(findOutward(body, unit), gap));
  });
}

/** The longest outside measure of the sections, mm. */
export function measureSize({ straights, ports }: Pick<Fitting, 'straights' | 'ports'>): number {
  const outside = straights.map(({ section, thickness }) => growSection(section, thickness));
  const sections = [...outside, ...ports.map(({ section }) => section)];
  return Math.max(...sections.map(({ width, height }) => Math.max(width, height)));
}

function listUnits({ bodies, joints, ports }: Fitting): Unit[] {
  const groups = bodies.map((body) => [body]);
  const panels = new Set(bodies.filter(({ kind }) => kind === 'panel').map(({ name }) => name));
  for (const { bodies: names } of joints) {
    if (!names.every((name) => panels.has(name))) continue;
    const [a, b] = names.map((name) => groups.findIndex((group) => group.some((body) => body.name === name)));
    if (a === b) continue;
    groups[a!]!.push(...groups[b!]!);
    groups.splice(b!, 1);
  }
  return groups.map((group): Unit => {
    const port = ports.find(({ body }) => group.some(({ name }) => name === body));
    return { bodies: group, flow: findFlow(group, port?.flow) };
  });
}

/** Of a panel alone the flow goes square through it, as through a cap; of several it goes along them. */
function findFlow(group: readonly Body[], ofPort: Vec3 | undefined): Vec3 {
  const [{ kind, placement }] = group as [Body];
  if (kind === 'piece') return placement.x;
  if (group.length === 1) return placement.y;
  if (ofPort) return ofPort;
  const sum = group.reduce<Vec3>((all, body) => add(all, body.placement.x), NOWHERE);
  return scale(sum, 1 / norm(sum));
}

/** The unit direction from the middle of a unit to one of several panels that it is. */
function findOutward(body: Body, { bodies }: Unit): Vec3 {
  if (bodies.length === 1) return NOWHERE;
  const middles = bodies.map((one) => movePoint(one.placement, findMiddle(one)));
  const middle = scale(middles.reduce<Vec3>(add, NOWHERE), 1 / middles.length);
  const away = subtract(movePoint(body.placement, findMiddle(body)), middle);
  return scale(away, 1 / norm(away));
}

function findUnit(units: readonly Unit[], name: string): Unit {
  return units.find(({ bodies }) => bodies.some((body) => body.name === name))!;
}

/** The unit direction in which the second unit of a joint goes from the first. */
function findOpening({ closing, bodies: names }: Joint, first: Unit, second: Unit): Vec3 {
  if (closing.kind !== 'made') return halve(first.flow, second.flow);
  const [before, after] = [first, second].map(({ bodies }, i) =>
    bodies.find(({ name }) => name === names[i])
  );
  return (before && after && findSideways(before, after)) ?? second.flow;
}

/** Half way between two directions: square to the cut at which a duct turns from one to the other. */
function halve(before: Vec3, after: Vec3): Vec3 {
  const between = add(before, after);
  const size = norm(between);
  return size > 1e-9 ? scale(between, 1 / size) : after;
}

/** From one piece to another that begins beside it and runs the same way; null for pieces that meet otherwise. */
function findSideways(before: Body, after: Body): Vec3 | null {
  if (before.kind === 'panel' || after.kind === 'panel') return null;
  if (dot(before.placement.x, after.placement.x) < 1 - 1e-9) return null;
  const [from, to] = [before, after].map(({ placement, piece }) => movePoint(placement, [piece.from, 0, 0]));
  const between = subtract(to!, from!);
  const aside = subtract(between, scale(before.placement.x, dot(before.placement.x, between)));
  const size = norm(aside);
  return size > 1e-6 * norm(between) && size > 0.5 * norm(between) ? scale(aside, 1 / size) : null;
}
