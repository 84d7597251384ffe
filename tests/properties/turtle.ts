// The rules of the fittings' frame, written again from their words alone: nothing here comes from the kernel.

export type Vector = readonly [number, number, number];

const RADIANS = Math.PI / 180;

export function combine(...parts: readonly (readonly [number, Vector])[]): Vector {
  const sum = (axis: 0 | 1 | 2): number => parts.reduce((total, [by, one]) => total + by * one[axis], 0);
  return [sum(0), sum(1), sum(2)];
}

export function measureGap(a: Vector, b: Vector): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** Where a walker along the duct stands: its place, the way it goes, its up and its right. */
export interface Stand {
  readonly at: Vector;
  readonly flow: Vector;
  readonly up: Vector;
  readonly right: Vector;
}

const START: Stand = { at: [0, 0, 0], flow: [1, 0, 0], up: [0, 1, 0], right: [0, 0, 1] };

function walk(stand: Stand, length: number): Stand {
  return { ...stand, at: combine([1, stand.at], [length, stand.flow]) };
}

/**
 * Turns away from the clock angle `heel`: the flow leans back from the heel's direction, the heel's direction leans
 * forward, and what is square to both stays. Up and right are carried with them.
 */
function turnAway({ at, flow, up, right }: Stand, turn: number, heel: number): Stand {
  const [c, s] = [Math.cos(heel * RADIANS), Math.sin(heel * RADIANS)];
  const [ct, st] = [Math.cos(turn * RADIANS), Math.sin(turn * RADIANS)];
  const outward = combine([c, up], [s, right]);
  const aside = combine([-s, up], [c, right]);
  const newOutward = combine([st, flow], [ct, outward]);
  return {
    at,
    flow: combine([ct, flow], [-st, outward]),
    up: combine([c, newOutward], [-s, aside]),
    right: combine([s, newOutward], [c, aside])
  };
}

/** The end of a path of axis lengths and joints. */
export function walkPath(
  lengths: readonly number[],
  joints: readonly { readonly turn: number; readonly heel: number }[]
): Stand {
  const legs = walkLegs(lengths, joints);
  return walk(legs[legs.length - 1]!, lengths[lengths.length - 1]!);
}

/** Where every leg of a path begins. */
export function walkLegs(
  lengths: readonly number[],
  joints: readonly { readonly turn: number; readonly heel: number }[]
): Stand[] {
  const stands = [START];
  joints.forEach(({ turn, heel }, i) => stands.push(turnAway(walk(stands[i]!, lengths[i]!), turn, heel)));
  return stands;
}

/** Stations of a mark at the two edges of each face, as a mark-out gives them. */
export type FaceStations = Readonly<
  Record<'top' | 'right' | 'bottom' | 'left', { readonly start: number; readonly end: number }>
>;

/** The plane of a cut: x = station + p·y + q·z. */
export interface FoldedPlane {
  readonly station: number;
  readonly miter: number;
  readonly heel: number;
  /** How far the four corners are from one plane, mm. */
  readonly warp: number;
  /** How far the marks of neighbouring faces miss each other at the corners, mm. */
  readonly gap: number;
}

/**
 * Folds the marks of a cut back into space. Top and bottom run from the edge to the left face to the edge to the right
 * face, right and left from the edge to the top face to the edge to the bottom face; the outside is A wide and B high.
 */
export function foldMarks(marks: FaceStations, A: number, B: number): FoldedPlane {
  const { top, right, bottom, left } = marks;
  const corners = {
    topLeft: [top.start, left.start],
    topRight: [top.end, right.start],
    bottomRight: [right.end, bottom.end],
    bottomLeft: [bottom.start, left.end]
  } as const;
  const [tl, tr, br, bl] = Object.values(corners).map(([a, b]) => (a + b) / 2) as [
    number,
    number,
    number,
    number
  ];
  const p = (tl + tr - bl - br) / (2 * B);
  const q = (tr + br - tl - bl) / (2 * A);
  const heel = Math.atan2(q, p) / RADIANS;
  return {
    station: (tl + tr + br + bl) / 4,
    miter: Math.atan(Math.hypot(p, q)) / RADIANS,
    heel: heel < 0 ? heel + 360 : heel,
    warp: Math.abs(tl + br - tr - bl) / 4,
    gap: Math.max(...Object.values(corners).map(([a, b]) => Math.abs(a - b)))
  };
}

/** What the blade does on a face with an outward normal (0, ny, nz), from the plane itself. */
export function findBlade(
  { miter, heel }: { miter: number; heel: number },
  [ny, nz]: readonly [number, number],
  thickness: number
): { setback: number; depth: number; leansDownstream: boolean } {
  const slope = Math.tan(miter * RADIANS);
  const plane: Vector = [1, -slope * Math.cos(heel * RADIANS), -slope * Math.sin(heel * RADIANS)];
  const normal: Vector = [0, ny, nz];
  // Along the mark, and in the cut square to the mark: the way of the blade.
  const along = cross(plane, normal);
  const raw = cross(along, plane);
  const size = Math.hypot(...raw);
  const down = combine([-Math.sign(dot(raw, normal)) / size, raw]);
  const depth = thickness / -dot(down, normal);
  const inside = combine([depth, down], [thickness, normal]);
  return { setback: Math.hypot(...inside), depth, leansDownstream: -down[0] > 0 };
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
