// What the board of a fitting must be, built from its parameters alone by the mesh library: no code of the kernel's, only
// the words of how each family is made. Longer than other files: one plain construction a family, side by side.
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { free, makeBox, type Solid } from './manifold.ts';
import type { GeneratedFitting } from './generated-fittings.ts';
import {
  extrudeProfile,
  hollow,
  measureProfile,
  placeInPlane,
  PLANES,
  span,
  type Flat,
  type Rounds,
  type WallName
} from './profiles.ts';

/** A way that the air must be able to take: what it fills, and where it ends. */
export interface Way {
  readonly port: string;
  readonly at: Vec3;
  readonly flow: Vec3;
  /** The inside section swept along it; made anew at each call. */
  plug(): readonly Solid[];
}

export interface Expected {
  /** The board of the fitting in parts that do not overlap, in the fitting's frame. */
  readonly board: readonly Solid[];
  readonly ways: readonly Way[];
  /** Closed form of its volume, mm³; null where none is known but those of its parts. */
  readonly volume: number | null;
}

interface Stuff {
  readonly params: Readonly<Record<string, unknown>>;
  readonly width: number;
  readonly height: number;
  readonly t: number;
  readonly rounds: Rounds;
}

const RADIANS = Math.PI / 180;

/** A hole reaches so far beyond the wall it goes through, mm, so that no face of it lies in one of the wall's. */
const BEYOND = 1;

const BUILDERS: Readonly<Record<string, (stuff: Stuff) => Expected>> = {
  reducer: (stuff) => (stuff.params['method'] === 'fold' ? expectFold(stuff) : expectPanels(stuff)),
  takeoff: expectTakeoff,
  'split-bend': (stuff) => expectDivided(stuff, ['turned', 'straight']),
  wye: (stuff) => expectDivided(stuff, ['first', 'second']),
  'three-way': (stuff) => expectDivided(stuff, ['first', 'middle', 'second']),
  cap: expectCap,
  opening: expectOpening,
  box: expectBox
};

/** The board of a generated fitting. */
export function expectSolids({ said, stock }: GeneratedFitting, rounds: Rounds): Expected {
  const { family, section, params } = said;
  return BUILDERS[family]!({ params, ...section, t: stock.board.thickness, rounds });
}

/** Frees the board that was built. */
export function freeExpected({ board }: Expected): void {
  free(board);
}

/** A hollow straight between two stations. */
function makeTube(from: number, to: number, { width, height, t }: Pick<Stuff, 'width' | 'height' | 't'>) {
  return hollow(
    makeBox(from, to, height + 2 * t, width + 2 * t),
    makeBox(from - BEYOND, to + BEYOND, height, width)
  );
}

/** From the axis to the inside of a wall, and half the inside across it. */
function reachOf(wall: WallName, { width, height }: Pick<Stuff, 'width' | 'height'>) {
  const isSide = wall === 'left' || wall === 'right';
  return { depth: (isSide ? width : height) / 2, half: (isSide ? height : width) / 2 };
}

function expectCap({ params, ...stuff }: Stuff): Expected {
  const { width, height, t } = stuff;
  const length = (params['length'] as number | undefined) ?? 200;
  const isIn = params['set'] !== 'on';
  const panel = isIn
    ? makeBox(length - t, length, height, width)
    : makeBox(length, length + t, height + 2 * t, width + 2 * t);
  const volume =
    measureTube(length, stuff) + (isIn ? width * height : (width + 2 * t) * (height + 2 * t)) * t;
  return {
    board: [makeTube(0, length, stuff), panel],
    ways: [
      {
        port: 'inlet',
        at: [0, 0, 0],
        flow: [1, 0, 0],
        plug: () => [makeBox(-BEYOND, isIn ? length - t : length, height, width)]
      }
    ],
    volume
  };
}

function measureTube(length: number, { width, height, t }: Pick<Stuff, 'width' | 'height' | 't'>): number {
  return ((width + 2 * t) * (height + 2 * t) - width * height) * length;
}

interface Hole {
  readonly wall: WallName;
  readonly station: number;
  readonly aside?: number;
  readonly shape: string;
  readonly diameter?: number;
  readonly along?: number;
  readonly across?: number;
  readonly bevel?: number;
}

/** What an opening takes out of its wall: sizes are those on the facing, a positive bevel makes it smaller inside. */
function makeHole(hole: Hole, stuff: Stuff) {
  const { t } = stuff;
  const { sides, from } = stuff.rounds;
  const { wall, station, aside = 0, diameter, bevel = 0 } = hole;
  const plane = PLANES[wall];
  const { depth } = reachOf(wall, stuff);
  const lip = Math.tan(bevel * RADIANS);
  const shrink = (out: number): number => (depth + t - out) * lip;
  const ringAt = (out: number): Vec3[] => {
    if (hole.shape === 'round') {
      const radius = diameter! / 2 - shrink(out);
      // A regular polygon of n sides has the area n/2·r²·sin(2π/n).
      const turn = (2 * Math.PI) / sides;
      const corner = radius * Math.sqrt((2 * Math.PI) / (sides * Math.sin(turn)));
      return Array.from({ length: sides }, (_, i) =>
        placeInPlane(
          plane,
          [station + corner * Math.cos(from + i * turn), out],
          aside + corner * Math.sin(from + i * turn)
        )
      );
    }
    const [along, across] = [hole.along! / 2 - shrink(out), hole.across! / 2 - shrink(out)];
    return [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1]
    ].map(([x, z]) => placeInPlane(plane, [station + x! * along, out], aside + z! * across));
  };
  const between = (low: number, high: number): Solid => span([...ringAt(low), ...ringAt(high)]);
  const size = (out: number): number =>
    hole.shape === 'round'
      ? Math.PI * (diameter! / 2 - shrink(out)) ** 2
      : (hole.along! - 2 * shrink(out)) * (hole.across! - 2 * shrink(out));
  return {
    through: between(depth - BEYOND, depth + t + BEYOND),
    plug: () => between(depth - BEYOND, depth + t + BEYOND),
    at: placeInPlane(plane, [station, depth + t], aside),
    out: plane.out as Vec3,
    // Simpson's rule is exact for what changes with the square of the depth.
    volume: (t / 6) * (size(depth) + 4 * size(depth + t / 2) + size(depth + t))
  };
}

function expectOpening(stuff: Stuff): Expected {
  const { width, height } = stuff;
  const length = stuff.params['length'] as number;
  const hole = makeHole(stuff.params as unknown as Hole, stuff);
  return {
    board: [hollow(makeTube(0, length, stuff), hole.through)],
    ways: [
      {
        port: 'outlet',
        at: [length, 0, 0],
        flow: [1, 0, 0],
        plug: () => [makeBox(0, length, height, width)]
      },
      { port: 'O1', at: hole.at, flow: hole.out, plug: () => [hole.plug()] }
    ],
    volume: measureTube(length, stuff) - hole.volume
  };
}

function expectBox(stuff: Stuff): Expected {
  const { width, height, t, params } = stuff;
  const length = params['length'] as number;
  const isIn = params['set'] !== 'on';
  const holes = (params['openings'] as Hole[]).map((hole) => makeHole(hole, stuff));
  const [least, most] = isIn ? [t, length - t] : [0, length];
  const panel = (from: number, to: number): Solid =>
    isIn ? makeBox(from, to, height, width) : makeBox(from, to, height + 2 * t, width + 2 * t);
  const ends = isIn ? [panel(0, t), panel(length - t, length)] : [panel(-t, 0), panel(length, length + t)];
  const room = (): Solid => makeBox(least, most, height, width);
  return {
    board: [hollow(makeTube(0, length, stuff), ...holes.map(({ through }) => through)), ...ends],
    ways: holes.map(({ at, out, plug }, i) => ({
      port: `O${i + 1}`,
      at,
      flow: i === 0 ? ([-out[0], -out[1], -out[2]] as Vec3) : out,
      plug: () => [plug(), ...(i === 0 ? [room()] : [])]
    })),
    volume:
      measureTube(length, stuff) +
      2 * t * (isIn ? width * height : (width + 2 * t) * (height + 2 * t)) -
      holes.reduce((sum, { volume }) => sum + volume, 0)
  };
}

/** What a document says of a reducer. */
export interface ReducerParams {
  readonly outlet: { readonly width: number; readonly height: number };
  readonly alignY?: string | number;
  readonly alignZ?: string | number;
  readonly length?: number;
  readonly slope?: number;
  readonly collarIn?: number;
  readonly collarOut?: number;
  readonly finish?: string;
}

/** How far the outlet's axis lies up and to the right of the inlet's: inside faces are lined up. */
export function alignOutlet(
  { outlet, alignY, alignZ }: ReducerParams,
  { width, height }: ReducerParams['outlet']
) {
  const way = (align: string | number | undefined, less: number, high: string, low: string): number => {
    if (typeof align === 'number') return align;
    if (align === high) return less / 2;
    return align === low ? -less / 2 : 0;
  };
  return {
    up: way(alignY, height - outlet.height, 'top', 'bottom'),
    right: way(alignZ, width - outlet.width, 'right', 'left')
  };
}

/** How far each wall closes in from inlet to outlet, and the length: as said, or by the steepest slope. */
export function measureTaper(params: ReducerParams, section: ReducerParams['outlet']) {
  const { outlet } = params;
  const { up, right } = alignOutlet(params, section);
  const drops: Record<WallName, number> = {
    top: section.height / 2 - (up + outlet.height / 2),
    right: section.width / 2 - (right + outlet.width / 2),
    bottom: section.height / 2 - (outlet.height / 2 - up),
    left: section.width / 2 - (outlet.width / 2 - right)
  };
  const steepest = Math.max(...Object.values(drops).map(Math.abs));
  const length = params.length ?? steepest / Math.tan(params.slope! * RADIANS);
  return { up, right, drops, length, begins: params.collarIn ?? 100, collarOut: params.collarOut ?? 100 };
}

function expectPanels(stuff: Stuff): Expected {
  const { width, height, t } = stuff;
  const params = stuff.params as unknown as ReducerParams;
  const { outlet } = params;
  const { up, right, drops, length, begins, collarOut } = measureTaper(params, { width, height });
  const ends = begins + length;
  // Square to the duct a wall that slopes takes t/cos δ.
  const thick = (wall: WallName): number => (t * Math.hypot(length, drops[wall])) / length;
  const ring = (x: number, grown: boolean): Vec3[] => {
    const [w, h, y, z] = x === begins ? [width, height, 0, 0] : [outlet.width, outlet.height, up, right];
    const more = (wall: WallName): number => (grown ? thick(wall) : 0);
    const [top, bottom] = [y + h / 2 + more('top'), y - h / 2 - more('bottom')];
    const [left, far] = [z - w / 2 - more('left'), z + w / 2 + more('right')];
    return [
      [x, top, left],
      [x, top, far],
      [x, bottom, far],
      [x, bottom, left]
    ];
  };
  const inside = (): Solid => span([...ring(begins, false), ...ring(ends, false)]);
  const taper = hollow(span([...ring(begins, true), ...ring(ends, true)]), inside());
  const far = { ...outlet, t };
  const move = (solid: Solid): Solid => {
    const moved = solid.translate([0, up, right]);
    solid.delete();
    return moved;
  };
  const collars = [
    ...(begins > 0 ? [makeTube(0, begins, stuff)] : []),
    ...(collarOut > 0 ? [move(makeTube(ends, ends + collarOut, far))] : [])
  ];
  return {
    board: [taper, ...collars],
    ways: [
      {
        port: 'outlet',
        at: [ends + collarOut, up, right],
        flow: [1, 0, 0],
        plug: () => [
          inside(),
          makeBox(-BEYOND, begins, height, width),
          move(makeBox(ends, ends + collarOut + BEYOND, outlet.height, outlet.width))
        ]
      }
    ],
    volume: null
  };
}

/** The wall of a folded reducer that slopes, and the profile of its outside and inside, out of that wall. */
export function profileFold(params: ReducerParams, section: ReducerParams['outlet'], t: number) {
  const { drops, length, begins, collarOut, up, right } = measureTaper(params, section);
  const wall = (Object.keys(drops) as WallName[]).reduce((a, b) =>
    Math.abs(drops[b]) > Math.abs(drops[a]) ? b : a
  );
  const drop = drops[wall];
  const { depth, half } = reachOf(wall, section);
  const lead = t * Math.tan(Math.atan2(drop, length) / 2);
  const [ends, whole] = [begins + length, begins + length + collarOut];
  const outline = (more: number, shift: number): Flat[] => [
    [0, -depth - more],
    [whole, -depth - more],
    [whole, depth - drop + more],
    [ends - shift, depth - drop + more],
    [begins - shift, depth + more],
    [0, depth + more]
  ];
  // The inside of the slope is parallel to its facing: both its bends lie upstream by t·tan(δ/2) where it closes.
  return { wall, drop, half, up, right, whole, outer: outline(t, 0), inner: outline(0, lead) };
}

function expectFold({ params, width, height, t }: Stuff): Expected {
  const said = params as unknown as ReducerParams;
  const { wall, half, up, right, whole, outer, inner } = profileFold(said, { width, height }, t);
  const plane = PLANES[wall];
  const stretch = inner.map(([x, out]): Flat => [x === 0 ? -BEYOND : x === whole ? whole + BEYOND : x, out]);
  const inside = (): Solid => extrudeProfile(plane, stretch, [-half, half]);
  return {
    board: [hollow(extrudeProfile(plane, outer, [-half - t, half + t]), inside())],
    ways: [{ port: 'outlet', at: [whole, up, right], flow: [1, 0, 0], plug: () => [inside()] }],
    volume: measureFold(said, { width, height }, t)
  };
}

/**
 * A·[B·n − Δ(L/2 + x1)] − a·[b·n − Δ(L/2 + x1 + t·tan(δ/2))], n = x0 + L + x1: A, a across the slope, B, b the larger
 * depth, x0 the collar at the larger end, x1 that at the smaller.
 */
export function measureFold(params: ReducerParams, section: ReducerParams['outlet'], t: number): number {
  const { drops, length, begins, collarOut } = measureTaper(params, section);
  const [drop, other] = (
    [
      ['top', 'bottom'],
      ['right', 'left']
    ] as const
  )
    .map(([a, b]) => drops[a] + drops[b])
    .map(Math.abs) as [number, number];
  const [depthOf, acrossOf] = drop > other ? (['height', 'width'] as const) : (['width', 'height'] as const);
  const fall = Math.max(drop, other);
  const a = section[acrossOf];
  const b = Math.max(section[depthOf], params.outlet[depthOf]);
  const small = params.outlet[depthOf] < section[depthOf] ? collarOut : begins;
  const n = begins + length + collarOut;
  const lead = t * Math.tan(Math.atan2(fall, length) / 2);
  return (
    (a + 2 * t) * ((b + 2 * t) * n - fall * (length / 2 + small)) -
    a * (b * n - fall * (length / 2 + small + lead))
  );
}

interface TakeoffParams {
  readonly length: number;
  readonly wall: WallName;
  readonly station: number;
  readonly aside?: number;
  readonly branch: { readonly across: number; readonly along: number };
  readonly angle?: number;
  readonly neck?: number;
  readonly entry?: string;
  readonly shoe?: number;
  readonly fit?: string;
  readonly play?: number;
}

function expectTakeoff(stuff: Stuff): Expected {
  const { width, height, t } = stuff;
  const params = stuff.params as unknown as TakeoffParams;
  const { length, wall, station, aside = 0, branch, angle = 90, neck = 200 } = params;
  const plane = PLANES[wall];
  const { depth } = reachOf(wall, stuff);
  const facing = depth + t;
  const half = branch.across / 2;
  const [sine, cosine] = [Math.sin(angle * RADIANS), angle === 90 ? 0 : Math.cos(angle * RADIANS)];
  /** A point from where the branch's axis meets the facing: along the branch, and square to it, downstream positive. */
  const onBranch = (along: number, beside: number): Flat => [
    station + along * cosine + beside * sine,
    facing + along * sine - beside * cosine
  ];
  /** Where a line along the branch meets a plane so far from the main's axis. */
  const meet = (out: number, beside: number): Flat =>
    onBranch((out - facing + beside * cosine) / sine, beside);
  const enters = params.fit === 'enter';
  const end = neck + ((branch.along / 2 + t) * cosine) / sine;
  const quad = (reach: number, from: number, to: number): Flat[] => [
    meet(from, -reach),
    meet(from, reach),
    onBranch(to, reach),
    onBranch(to, -reach)
  ];
  const strip = (reach: number, low: number, high: number): Flat[] => [
    meet(low, -reach),
    meet(low, reach),
    meet(high, reach),
    meet(high, -reach)
  ];
  const across = (reach: number): readonly [number, number] => [aside - reach, aside + reach];
  const inside = branch.along / 2;
  const plug = (): Solid => extrudeProfile(plane, quad(inside, 0, end + BEYOND), across(half));
  const at = placeInPlane(plane, onBranch(end, 0), aside);
  const flow: Vec3 = [cosine, plane.out[1] * sine, plane.out[2] * sine];
  const main = { port: 'outlet', at: [length, 0, 0] as Vec3, flow: [1, 0, 0] as Vec3 };
  const ways = (more: () => readonly Solid[]): Way[] => [
    { ...main, plug: () => [makeBox(0, length, height, width)] },
    { port: 'branch', at, flow, plug: () => [plug(), ...more()] }
  ];
  if (params.entry === 'shoe') {
    const { outer, inner, foot } = profileShoe(params, t);
    const lay = (profile: readonly Flat[]): Flat[] => profile.map(([x, out]) => [station + x, facing + out]);
    const opening = lay([
      [-foot - t - BEYOND, -t - BEYOND],
      [-foot + BEYOND, BEYOND],
      [inside, BEYOND],
      [inside, -t - BEYOND]
    ]);
    const hole = (): Solid => extrudeProfile(plane, opening, across(half));
    const air = lay([
      [-foot - BEYOND, -BEYOND],
      [inside, -BEYOND],
      [inside, neck + BEYOND],
      [-inside, neck + BEYOND],
      [-inside, foot - inside]
    ]);
    const shaft = (): Solid => extrudeProfile(plane, air, across(half));
    return {
      board: [
        hollow(makeTube(0, length, stuff), hole()),
        hollow(extrudeProfile(plane, lay(outer), across(half + t)), shaft())
      ],
      ways: ways(() => [hole(), shaft()]),
      volume:
        measureTube(length, stuff) -
        branch.across * t * (branch.along + foot - inside + t / 2) +
        Math.abs(measureProfile(outer)) * (branch.across + 2 * t) -
        Math.abs(measureProfile(inner)) * branch.across
    };
  }
  const play = enters ? (params.play ?? 1) : 0;
  const around = enters ? t : 0;
  const open = strip(inside + around, depth - BEYOND, facing + BEYOND).map(([x, out], i): Flat => [
    x + (i === 1 || i === 2 ? play : -play),
    out
  ]);
  const foot = enters ? depth : facing;
  const stub = hollow(
    extrudeProfile(plane, quad(inside + t, foot, end), across(half + t)),
    extrudeProfile(plane, quad(inside, foot - BEYOND, end + BEYOND), across(half))
  );
  const hole = extrudeProfile(plane, open, across(half + around + play));
  // A stub's axis is as long between its square end and its slanting foot as its wall is in the mean.
  const axis = end + (facing - foot) / sine;
  const area = (branch.along + 2 * t) * (branch.across + 2 * t) - branch.along * branch.across;
  const gap = ((branch.along + 2 * around) / sine + 2 * play) * (branch.across + 2 * around + 2 * play);
  return {
    board: [hollow(makeTube(0, length, stuff), hole), stub],
    ways: ways(() => []),
    volume: measureTube(length, stuff) - t * gap + area * axis
  };
}

/** A shoe seen across, from where the branch's axis meets the facing: outside, inside, and where its slope begins. */
export function profileShoe(
  { branch, neck = 200, shoe }: Pick<TakeoffParams, 'branch' | 'neck' | 'shoe'>,
  t: number
) {
  const half = branch.along / 2;
  const rise = shoe ?? Math.max(100, branch.along / 4);
  const foot = half + rise;
  const outer: Flat[] = [
    [-foot - t * Math.SQRT2, 0],
    [half + t, 0],
    [half + t, neck],
    [-half - t, neck],
    [-half - t, rise + t * Math.tan(22.5 * RADIANS)]
  ];
  const inner: Flat[] = [
    [-foot, 0],
    [half, 0],
    [half, neck],
    [-half, neck],
    [-half, rise]
  ];
  return { outer, inner, foot };
}

interface PartParams {
  readonly inside?: number;
  readonly length?: number;
  readonly turn?: number;
  readonly pieces?: number;
  readonly throatIn?: number;
  readonly gore?: number;
  readonly throatOut?: number;
}

/** Mitered ducts side by side, from left to right or from the top down; a turning one leaves to its own side. */
function expectDivided(stuff: Stuff, names: readonly string[]): Expected {
  const { params, width, height, t } = stuff;
  const isWide = params['divide'] !== 'height';
  const [whole, across] = isWide ? [width, height] : [height, width];
  const toward = params['toward'] as string | undefined;
  const order = toward === 'right' || toward === 'bottom' ? [...names].reverse() : names;
  const parts = order.map((name) => params[name] as PartParams);
  const told = parts.flatMap(({ inside }) => inside ?? []).reduce((sum, one) => sum + one, 0);
  const untold = parts.filter(({ inside }) => inside === undefined).length;
  const rest = (whole - 2 * t * (parts.length - 1) - told) / untold;
  const insides = parts.map(({ inside }) => inside ?? rest);
  const board: Solid[] = [];
  const ways: Way[] = [
    {
      port: 'inlet',
      at: [0, 0, 0],
      flow: [1, 0, 0],
      plug: () => [makeBox(-BEYOND, 0, height, width)]
    }
  ];
  let volume = 0;
  order.forEach((name, i) => {
    const before = insides.slice(0, i).reduce((sum, inside) => sum + inside + 2 * t, 0);
    const middle = -(whole / 2 + t) + before + insides[i]! / 2 + t;
    // The last turns right or down, any other that turns turns left or up.
    const way = i === order.length - 1 ? 1 : -1;
    const plane = isWide ? PLANES[way === 1 ? 'right' : 'left'] : PLANES[way === 1 ? 'bottom' : 'top'];
    const path = layPath(parts[i]!, insides[i]! + 2 * t);
    const start = way * middle;
    const reach = across / 2;
    for (let k = 0; k + 1 < path.length; k++) {
      const solid = extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2 + t, start, 0), [
        -reach - t,
        reach + t
      ]);
      const bore = extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2, start, BEYOND), [
        -reach,
        reach
      ]);
      board.push(hollow(solid, bore));
      const [[x, y], [u, v]] = [path[k]!, path[k + 1]!];
      volume += ((insides[i]! + 2 * t) * (across + 2 * t) - insides[i]! * across) * Math.hypot(u - x, v - y);
    }
    const plug = (): Solid[] =>
      path
        .slice(1)
        .map((_, k) =>
          extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2, start, 0), [-reach, reach])
        );
    const [end, last] = [path[path.length - 1]!, path[path.length - 2]!];
    const run = Math.hypot(end[0] - last[0], end[1] - last[1]);
    ways.push({
      port: name,
      at: placeInPlane(plane, [end[0], end[1] + start], 0),
      flow: placeInPlane(plane, [(end[0] - last[0]) / run, (end[1] - last[1]) / run], 0),
      plug
    });
  });
  return { board, ways, volume };
}

/** The points of a bend's axis: its throats and gores are the shortest outside edges, c = D/2·tan α at either side. */
function layPath(part: PartParams, deep: number): Flat[] {
  if (part.turn === undefined) {
    return [
      [0, 0],
      [part.length!, 0]
    ];
  }
  const { turn, pieces = 3, throatIn = 200, gore = 150, throatOut = 200 } = part;
  const step = (turn / (pieces - 1)) * RADIANS;
  const c = (deep / 2) * Math.tan(step / 2);
  const lengths = [throatIn + c, ...Array.from({ length: pieces - 2 }, () => gore + 2 * c), throatOut + c];
  const points: Flat[] = [[0, 0]];
  lengths.forEach((length, k) => {
    const [x, y] = points[k]!;
    points.push([x + length * Math.cos(k * step), y + length * Math.sin(k * step)]);
  });
  return points;
}

/** A piece of a path seen across: between the lines that halve its angles, `reach` to both sides of its axis. */
function profilePiece(
  path: readonly Flat[],
  k: number,
  reach: number,
  start: number,
  beyond: number
): Flat[] {
  const direction = (i: number): Flat => {
    const [[x, y], [u, v]] = [path[i]!, path[i + 1]!];
    const run = Math.hypot(u - x, v - y);
    return [(u - x) / run, (v - y) / run];
  };
  const own = direction(k);
  const corner = (joint: number, side: number, more: number): Flat => {
    const others =
      joint === 0 || joint === path.length - 1 ? [own, own] : [direction(joint - 1), direction(joint)];
    const [p, q] = others as [Flat, Flat];
    const [nx, ny] = [-(p[1] + q[1]) / 2, (p[0] + q[0]) / 2];
    // The half sum of two unit normals has the length cos α, its square brings the corner to the side's line.
    const scale = (side * reach) / (nx * nx + ny * ny);
    const [x, y] = path[joint]!;
    return [x + nx * scale + own[0] * more, y + ny * scale + own[1] * more + start];
  };
  return [corner(k, 1, -beyond), corner(k, -1, -beyond), corner(k + 1, -1, beyond), corner(k + 1, 1, beyond)];
}
