// An abstract shop that does the steps of an order of work one after another and says what cannot be done. It shares no
// code with the part of the kernel that orders the work: it knows the fitting's walls, and what board and tape need.
// Longer than other files: the rules of every step, each a few lines, are one table.
import type { Step, StepSentence } from '../../src/lib/kernel/fitting/step.ts';
import type { Body, Fitting, Joint, PieceBody } from '../../src/lib/kernel/fitting/fitting.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import type { Motion } from '../../src/lib/kernel/geometry/motion.ts';
import type { Face } from '../../src/lib/kernel/straight/section.ts';
import type { Straight } from '../../src/lib/kernel/straight/straight.ts';

const CLOCKWISE: readonly Face[] = ['top', 'right', 'bottom', 'left'];
const NORMALS: Readonly<Record<Face, Vec3>> = {
  top: [0, 1, 0],
  right: [0, 0, 1],
  bottom: [0, -1, 0],
  left: [0, 0, -1]
};

/** Each needs the one before it on the same straight. */
const MAKING: readonly StepSentence[] = ['check', 'strip', 'fold', 'square', 'staple', 'tape-seam'];

/** Figures of the steps and of the walls agree within this, mm or degrees. */
const SAME = 1e-6;

interface Duct {
  readonly straight: Straight;
  readonly done: Set<StepSentence>;
  folds: number;
  up: Face;
  readonly marked: Set<string>;
  readonly cutOn: Map<string, Set<Face>>;
  readonly supported: Set<string>;
  readonly parted: Set<string>;
}

interface Part {
  readonly body: PieceBody;
  free: boolean;
  rolled: boolean;
  label: Face | null;
  fitted: boolean;
  joined: boolean;
}

interface Meeting {
  readonly joint: Joint;
  glued: boolean;
  joined: boolean;
  tabbed: boolean;
  taped: boolean;
}

/** Does the steps of a mitered path; answers what went wrong, nothing where they end with the whole fitting, closed. */
export function doTheWork(fitting: Fitting, steps: readonly Step[]): string[] {
  const faults: string[] = [];
  const pieces = fitting.bodies.map((body) => {
    if (body.kind !== 'piece') throw new Error(`this shop makes no panels, but ${body.name} is one`);
    return body;
  });
  let at = '';
  const demand = (so: boolean, what: string): void => {
    if (!so) faults.push(`${at}: ${what}`);
  };

  const ducts = new Map(fitting.straights.map((straight) => [straight.name, takeStock(straight)]));
  const parts = new Map(
    pieces.map((body): [string, Part] => [
      body.name,
      { body, free: false, rolled: false, label: null, fitted: false, joined: false }
    ])
  );
  const meetings = fitting.joints.map((joint): Meeting => ({
    joint,
    glued: false,
    joined: false,
    tabbed: false,
    taped: false
  }));
  const closed = new Set<string>();
  let inspected = false;

  const duct = (step: Step): Duct => {
    const found = ducts.get(step.straight ?? '');
    if (!found) throw new Error(`${at}: there is no straight ${step.straight}`);
    return found;
  };
  const take = (names: readonly string[]): Part[] => names.map((name) => parts.get(name)!);
  const partsOf = ({ straight }: Duct): Part[] =>
    [...parts.values()].filter(({ body }) => body.straight === straight.name);
  const close = (
    part: Part,
    which: (edge: Body['walls'][number]['edges'][number], i: number) => boolean
  ): void =>
    part.body.walls.forEach(({ face, edges }) =>
      edges.forEach((edge, i) => which(edge, i) && closed.add(`${part.body.name} ${face} ${i}`))
    );
  const meeting = (step: Step): Meeting | undefined => {
    const found = meetings.find(({ joint }) => joint.bodies.join() === step.pieces.join());
    demand(found !== undefined, `${step.pieces.join(' and ')} do not meet`);
    return found;
  };
  const once = (was: boolean, what: string): true => {
    demand(!was, `${what} twice`);
    return true;
  };

  function make(step: Step): void {
    const { done, straight, ...rest } = duct(step);
    const before = MAKING[MAKING.indexOf(step.sentence) - 1];
    demand(!before || done.has(before), `before ${before}`);
    once(done.has(step.sentence), step.sentence);
    done.add(step.sentence);
    if (step.sentence === 'fold') {
      const corners = 4 - straight.makeUp.seams.length;
      demand(rest.folds === corners, `${rest.folds} grooves for ${corners} corners`);
      for (const part of partsOf(duct(step))) close(part, ({ kind }) => kind === 'fold');
    }
    if (step.sentence === 'tape-seam') {
      for (const part of partsOf(duct(step))) {
        close(part, ({ kind }) => kind === 'seam');
        part.free = straight.cuts.length === 0;
      }
    }
  }

  function cut(step: Step): void {
    const one = duct(step);
    const [name, face] = [step.cuts[0]!, step.face!];
    demand(one.done.has('tape-seam') && one.marked.has(name), 'not made or not marked yet');
    demand(
      partsOf(one).every(({ label }) => label !== null),
      'a piece has no label yet'
    );
    demand(one.up === face, `${one.up} is up`);
    const made = one.cutOn.get(name)!;
    once(made.has(face), 'cut');
    made.add(face);
    demand(made.size < 4 || one.supported.has(name), 'the last face without a support');
    for (const { body } of partsOf(one)) checkMark(step, body);
  }

  /** The mark and the blade that are told are those of the walls on both sides. */
  function checkMark(step: Step, { walls }: Body): void {
    const wall = walls.find(({ face }) => face === step.face)!;
    const edge = wall.edges.findIndex((one) => one.cut === step.cuts[0]);
    if (edge < 0) return;
    const ends = [wall.outer[edge]!, wall.outer[(edge + 1) % 4]!];
    // From the left on top and bottom, from the top on right and left.
    const order = (p: Vec3): number => (step.face === 'top' || step.face === 'bottom' ? p[2] : -p[1]);
    const [start, end] = ends.sort((a, b) => order(a) - order(b));
    const { data } = step;
    demand(isSame(start![0], data['start']) && isSame(end![0], data['end']), 'the mark lies elsewhere');
    const normal = unit(cross(minus(end!, start!), minus(wall.inner[edge]!, wall.outer[edge]!)));
    const bevel = (Math.asin(Math.min(1, Math.abs(dot(normal, NORMALS[step.face!])))) * 180) / Math.PI;
    demand(Math.abs(bevel - Number(data['bevel'])) < 1e-4, `the blade tilts by ${bevel}`);
  }

  function separate(step: Step): void {
    const one = duct(step);
    const name = step.cuts[0]!;
    demand(one.cutOn.get(name)!.size === 4, 'not cut all round');
    once(one.parted.has(name), 'drawn apart');
    one.parted.add(name);
    const loose = partsOf(one).filter(
      ({ body, free }) =>
        !free && [body.piece.startCut, body.piece.endCut].every((end) => !end || one.parted.has(end.name))
    );
    const names = loose.map(({ body }) => body.name);
    demand(sameNames(names, step.pieces), `${names.join(' and ') || 'nothing'} came free`);
    for (const part of loose) part.free = true;
  }

  function turn(step: Step): void {
    const one = duct(step);
    const quarters = (CLOCKWISE.indexOf(step.face!) - CLOCKWISE.indexOf(one.up) + 4) % 4;
    demand(
      quarters === 2 ? step.data['quarters'] === 2 : quarters !== 0 && step.data['quarters'] === 1,
      'no such turn'
    );
    one.up = step.face!;
    const loose = [...one.cutOn].filter(([name, faces]) => faces.size === 4 && !one.parted.has(name));
    demand(loose.length === 0, 'a piece would fall out');
    // What is still to be cut is one part, or nobody knows what is turned.
    const open = one.straight.cuts.map(({ name }) => !one.parted.has(name));
    const runs = open.filter((isOpen, i) => isOpen && !open[i - 1]).length;
    demand(runs === 1, `${runs} parts to be turned`);
  }

  function join(step: Step): void {
    const found = meeting(step);
    if (!found) return;
    const { joint } = found;
    const [first, second] = take(joint.bodies) as [Part, Part];
    const mates = joint.closing.kind === 'ends' && sameNames(joint.closing.ends, ['male', 'female']);
    demand(found.glued !== mates, mates ? 'glued where nothing is to be' : 'not glued');
    demand(first.fitted && second.fitted, 'not fitted dry');
    const begun = meetings.some((other) => other.joined);
    demand((begun ? first.joined : !first.joined) && !second.joined, 'it does not go on from what is joined');
    found.joined = once(found.joined, 'joined');
    first.joined = second.joined = true;
    // Where the first ends the second begins, corner by corner; rolled over, it shows the opposite corner.
    const shift = first.rolled === second.rolled ? 0 : 2;
    const far = listRing(first.body, 'outer', 3).map((point) => move(first.body.placement, point));
    const near = listRing(second.body, 'outer', 0).map((point) => move(second.body.placement, point));
    const apart = far.map((point, i) => distance(point, near[(i + shift) % 4]!));
    demand(Math.max(...apart) < 1e-5, `the edges are ${Math.max(...apart)} mm apart`);
  }

  function glue(step: Step): void {
    const found = meeting(step);
    if (!found) return;
    demand(!found.joined, 'joined already');
    found.glued = once(found.glued, 'glued');
    const inner = measureRound(listRing(take(step.pieces)[0]!.body, 'inner', 3));
    demand(isSame(inner, step.data['length']), `the line is ${inner} mm long`);
  }

  function tape(step: Step): void {
    const found = meeting(step);
    if (!found) return;
    demand(found.joined && found.tabbed, 'not joined and tabbed yet');
    found.taped = once(found.taped, 'taped');
    const [first, second] = take(step.pieces) as [Part, Part];
    close(first, (_, i) => i === 2);
    close(second, (_, i) => i === 0);
    const outer = measureRound(listRing(first.body, 'outer', 3));
    demand(isSame(outer, step.data['outline']), `the outline is ${outer} mm long`);
  }

  function inspect(step: Step): void {
    inspected = once(inspected, 'inspected');
    demand(step === steps[steps.length - 1], 'work goes on after the inspection');
    const bodies = fitting.bodies;
    const last = parts.get(bodies[bodies.length - 1]!.name)!;
    const from = move(bodies[0]!.placement, listRing(bodies[0]!, 'outer', 0)[0]!);
    const to = move(last.body.placement, listRing(last.body, 'outer', 3)[last.rolled ? 2 : 0]!);
    demand(
      isSame(distance(from, to), (step.data['corners'] as number[])[0]),
      'the tape reads another length'
    );
  }

  const doStep: Readonly<Partial<Record<StepSentence, (step: Step) => void>>> = {
    check: make,
    strip: make,
    fold: make,
    square: make,
    staple: make,
    'tape-seam': make,
    groove(step) {
      demand(duct(step).done.has('check'), 'there is no blank yet');
      demand(!duct(step).done.has('fold'), 'folded already');
      duct(step).folds += (step.data['folds'] as number[]).length;
    },
    mark(step) {
      demand(duct(step).done.has('tape-seam'), 'not made yet');
      for (const cut of step.cuts) {
        once(duct(step).marked.has(cut), 'marked');
        duct(step).marked.add(cut);
      }
    },
    label(step) {
      const names = duct(step).straight.pieces.map(({ name }) => name);
      demand(sameNames(names, step.pieces), 'not every piece');
      for (const part of take(step.pieces)) {
        once(part.label !== null, 'labelled');
        part.label = (step.data['flipped'] as string[]).includes(part.body.name) ? 'bottom' : 'top';
      }
    },
    turn,
    support(step) {
      for (const cut of step.cuts) {
        once(duct(step).supported.has(cut), 'supported');
        duct(step).supported.add(cut);
        const beside = partsOf(duct(step)).filter(({ body: { piece } }) =>
          [piece.startCut?.name, piece.endCut?.name].includes(cut)
        );
        demand(
          beside.every(({ body }) => step.pieces.includes(body.name)),
          'a piece without a support'
        );
      }
    },
    cut,
    separate,
    flip(step) {
      for (const part of take(step.pieces)) {
        demand(part.free && !part.fitted, 'it is not free, or fitted already');
        part.rolled = once(part.rolled, 'rolled over');
      }
    },
    fit(step) {
      for (const part of take(step.pieces)) {
        demand(part.free, `${part.body.name} is not free`);
        demand(part.label === (part.rolled ? 'bottom' : 'top'), `TOP of ${part.body.name} is not up`);
        part.fitted = once(part.fitted, 'fitted');
      }
    },
    glue,
    'glue-ends': glue,
    join,
    'join-ends': join,
    'join-plain': join,
    tab(step) {
      const found = meeting(step);
      if (!found) return;
      demand(found.joined, 'not joined yet');
      found.tabbed = once(found.tabbed, 'tabbed');
    },
    'tape-joint': tape,
    'tape-ends': tape,
    seal(step) {
      const inlet = step.data['port'] === 'inlet';
      for (const part of take(step.pieces))
        close(part, ({ kind }, i) => kind === 'plain' && i === (inlet ? 0 : 2));
    },
    inspect
  };

  steps.forEach((step, i) => {
    at = `step ${i + 1}, ${step.sentence} ${[...step.cuts, step.face ?? '', ...step.pieces].join(' ')}`;
    demand(!inspected, 'after the inspection');
    const doIt = doStep[step.sentence];
    if (!doIt) throw new Error(`${at}: this shop does not know how`);
    doIt(step);
  });

  at = 'in the end';
  demand(inspected, 'nobody has inspected it');
  for (const { straight, cutOn, parted } of ducts.values()) {
    for (const { name } of straight.cuts)
      demand(cutOn.get(name)!.size === 4 && parted.has(name), `${name} of ${straight.name} is not made`);
  }
  let turns = 0;
  pieces.forEach(({ name }, k) => {
    // Every miter on the way from the inlet rolls what follows.
    if (k > 0 && fitting.joints[k - 1]!.closing.kind === 'miter') turns++;
    demand(parts.get(name)!.rolled === (turns % 2 === 1), `${name} is the wrong way up`);
  });
  for (const { joint, joined, tabbed, taped } of meetings)
    demand(joined && tabbed && taped, `${joint.bodies.join(' and ')} are not joined for good`);
  const ends = new Set(fitting.ports.map(({ body, name }) => `${body} ${name === 'inlet' ? 0 : 2}`));
  for (const { name, walls } of pieces) {
    walls.forEach(({ face, edges }) =>
      edges.forEach(({ kind }, i) => {
        const mouldedEnd = (kind === 'male' || kind === 'female') && ends.has(`${name} ${i}`);
        demand(closed.has(`${name} ${face} ${i}`) || mouldedEnd, `${kind} edge of ${name} ${face} is open`);
      })
    );
  }
  return faults;
}

function takeStock(straight: Straight): Duct {
  const cutOn = new Map(straight.cuts.map(({ name }) => [name, new Set<Face>()]));
  const marked = new Set<string>();
  return {
    straight,
    done: new Set(),
    folds: 0,
    up: 'top',
    marked,
    cutOn,
    supported: new Set(),
    parted: new Set()
  };
}

/** The four corners of a body's outside or inside where it begins (0) or ends (3), clockwise from the top left. */
function listRing({ walls }: Body, side: 'outer' | 'inner', end: 0 | 3): Vec3[] {
  return CLOCKWISE.map((face) => walls.find((wall) => wall.face === face)![side][end]!);
}

function measureRound(ring: readonly Vec3[]): number {
  return ring.reduce((sum, point, i) => sum + distance(point, ring[(i + 1) % ring.length]!), 0);
}

function sameNames(a: readonly string[], b: readonly string[]): boolean {
  return [...a].sort().join() === [...b].sort().join();
}

function isSame(wanted: number, told: unknown): boolean {
  return Math.abs(wanted - Number(told)) < SAME;
}

function move({ x, y, z, t }: Motion, [a, b, c]: Vec3): Vec3 {
  return [0, 1, 2].map((i) => x[i]! * a + y[i]! * b + z[i]! * c + t[i]!) as unknown as Vec3;
}

function minus(a: Vec3, b: Vec3): Vec3 {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

function cross(a: Vec3, b: Vec3): Vec3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function distance(a: Vec3, b: Vec3): number {
  return Math.hypot(...minus(a, b));
}

function unit(a: Vec3): Vec3 {
  const size = Math.hypot(...a);
  return [a[0] / size, a[1] / size, a[2] / size];
}
