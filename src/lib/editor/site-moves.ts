import { findNormal } from '../kernel/geometry/convex.ts';
import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { add, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import { snap, type LengthSnap } from '../kernel/families/snap.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { placeObstacle, type Obstacle, type SiteEnd } from '../kernel/site/site.ts';
import type { View } from '../figures/view.ts';
import type { BoxSide } from '../words/site-drawing.ts';

export type Axis = 0 | 1 | 2;

export const AXES: readonly Axis[] = [0, 1, 2];

/** Why a dragged side or end lies where it does. */
export type SiteReason = 'clearance' | 'outlet' | 'round';

/** What a drag asks for, and why it sits there. */
export interface Moved<T> {
  readonly to: T;
  readonly reason: SiteReason | null;
}

/** One side of a box: along which of its axes, at the greater or the smaller end of it. */
export interface Side {
  readonly name: BoxSide;
  readonly axis: Axis;
  readonly sense: 1 | -1;
}

export const SIDES: readonly Side[] = [
  { name: 'near', axis: 0, sense: -1 },
  { name: 'far', axis: 0, sense: 1 },
  { name: 'under', axis: 1, sense: -1 },
  { name: 'top', axis: 1, sense: 1 },
  { name: 'left', axis: 2, sense: -1 },
  { name: 'right', axis: 2, sense: 1 }
];

/** A side comes to within this of a place that is worth keeping and lies there, mm: more than a round number attracts. */
const REACH = 15;

/** A drag leaves a box at least this wide, mm; a document may say any width from 0. */
const LEAST_WIDTH = 1;

/** Half the depth of a box that is drawn, mm: it is said afterwards. */
export const DRAWN_DEPTH = 1000;

/** Faces of the duct whose normal is nearer to an axis than this, as a cosine, lie square to it. */
const SQUARE = 1 - 1e-9;

/** Figures of a dragged box are kept to a thousandth of a millimetre: a turned one else shows what rounding left. */
const KEPT_PER_MM = 1000;

/** The axes along which something moves when it is dragged in a view. */
export function listSeenAxes({ right, down }: View): Axis[] {
  return AXES.filter((axis) => right[axis] !== 0 || down[axis] !== 0);
}

/** Middle of a box, half its size along its own axes, and where these point, turned about the vertical. */
export interface StandingBox {
  readonly middle: Vec3;
  readonly half: Vec3;
  readonly axes: readonly [Vec3, Vec3, Vec3];
}

export function standBox(obstacle: Obstacle): StandingBox {
  const { min, max } = obstacle;
  return {
    middle: mapAxes((axis) => (min[axis] + max[axis]) / 2),
    half: mapAxes((axis) => (max[axis] - min[axis]) / 2),
    axes: placeObstacle(obstacle).normals as [Vec3, Vec3, Vec3]
  };
}

/** The middle of a side, in the frame of the site. */
export function placeSide({ middle, half, axes }: StandingBox, { axis, sense }: Side): Vec3 {
  return add(middle, scale(axes[axis], sense * half[axis]));
}

/** Where the outside faces of a duct lie that are square to an axis and turned to its greater or smaller end, mm. */
export function listLevels({ bodies }: Fitting, axis: Axis, sense: 1 | -1): number[] {
  const levels = bodies.flatMap(({ walls, placement }) =>
    walls.flatMap(({ outer }) => {
      const normal = turnDirection(placement, findNormal(outer[0]!, outer[1]!, outer[2]!));
      return sense * normal[axis] > SQUARE ? [movePoint(placement, outer[0]!)[axis]] : [];
    })
  );
  return [...new Set(levels)];
}

/** Where a side of a box is just as far from a face of the duct as it wants, mm along its axis. */
function listWanted(fitting: Fitting, { axis, sense }: Side, wanted: number): number[] {
  return listLevels(fitting, axis, sense === 1 ? -1 : 1).map((level) => level - sense * wanted);
}

/**
 * A box moved by so much. Its sides snap to where they are just as far from the duct as the box wants, else its smaller
 * end to round numbers and steps; `lengths` null frees them. Only the axes of `seen` move.
 */
export function moveBox(
  obstacle: Obstacle,
  by: Vec3,
  seen: readonly Axis[],
  fitting: Fitting,
  wanted: number,
  lengths: LengthSnap | null
): Moved<Obstacle> {
  const { min, max } = obstacle;
  let reason: SiteReason | null = null;
  const moves = mapAxes((axis) => {
    if (!seen.includes(axis)) return 0;
    const size = max[axis] - min[axis];
    const [low, high] = SIDES.filter((side) => side.axis === axis) as [Side, Side];
    const places = isSquare(obstacle, axis)
      ? [
          ...listWanted(fitting, low, wanted),
          ...listWanted(fitting, high, wanted).map((place) => place - size)
        ]
      : [];
    const snapped = snapTo(min[axis] + by[axis], places, 'clearance', lengths);
    if (by[axis] !== 0) reason = pickReason(reason, snapped.reason);
    return snapped.value - min[axis];
  });
  return {
    to: {
      ...obstacle,
      min: mapAxes((a) => keep(min[a] + moves[a])),
      max: mapAxes((a) => keep(max[a] + moves[a]))
    },
    reason
  };
}

/**
 * A side of a box moved outward by so much, the opposite one staying where it is. It snaps like a box that is moved; of a
 * side that is turned, the width of the box does.
 */
export function moveSide(
  obstacle: Obstacle,
  side: Side,
  outward: number,
  fitting: Fitting,
  wanted: number,
  lengths: LengthSnap | null
): Moved<Obstacle> {
  const { axis, sense } = side;
  const { min, max } = obstacle;
  const least = lengths?.step ?? LEAST_WIDTH;
  if (isSquare(obstacle, axis)) {
    const from = sense === 1 ? max[axis] : min[axis];
    const { value, reason } = snapTo(
      from + sense * outward,
      listWanted(fitting, side, wanted),
      'clearance',
      lengths
    );
    const to = sense === 1 ? Math.max(value, min[axis] + least) : Math.min(value, max[axis] - least);
    return {
      to:
        sense === 1
          ? { ...obstacle, max: setAxis(max, axis, to) }
          : { ...obstacle, min: setAxis(min, axis, to) },
      reason: to === value ? reason : null
    };
  }
  const { middle, half, axes } = standBox(obstacle);
  const width = 2 * half[axis];
  const snapped = snapTo(width + outward, [], 'clearance', lengths);
  const grown = Math.max(snapped.value, least);
  const moved = add(middle, scale(axes[axis], (sense * (grown - width)) / 2));
  const halves = setAxis(half, axis, grown / 2);
  return {
    to: {
      ...obstacle,
      min: mapAxes((a) => keep(moved[a] - halves[a])),
      max: mapAxes((a) => keep(moved[a] + halves[a]))
    },
    reason: snapped.reason
  };
}

/** The place of the end moved by so much; it snaps to where the fitting ends. A coordinate that is free stays so. */
export function moveEnd(
  { at }: SiteEnd,
  by: Vec3,
  seen: readonly Axis[],
  { ports }: Fitting,
  lengths: LengthSnap | null
): Moved<SiteEnd['at']> {
  const outlet = ports.find(({ name }) => name === 'outlet')?.at;
  let reason: SiteReason | null = null;
  const move = (axis: Axis): number | null => {
    const from = at[axis];
    if (from === null || !seen.includes(axis)) return from;
    const snapped = snapTo(from + by[axis], outlet ? [outlet[axis]] : [], 'outlet', lengths);
    if (by[axis] !== 0) reason = pickReason(reason, snapped.reason);
    return keep(snapped.value);
  };
  return { to: [move(0), move(1), move(2)], reason };
}

/** A box over a rectangle that was drawn from the one corner to the other, as deep as is said on both sides of `about`. */
export function spanBox(
  name: string,
  from: Vec3,
  to: Vec3,
  {
    seen,
    about,
    depth,
    lengths
  }: { seen: readonly Axis[]; about: Vec3; depth: number; lengths: LengthSnap | null }
): Obstacle {
  const step = lengths?.step ?? 1;
  const round = (value: number): number => keep(Math.round(value / step) * step);
  const span = mapAxes((axis) => [round(from[axis]), round(to[axis])].sort((a, b) => a - b));
  return {
    name,
    kind: 'box',
    min: mapAxes((axis) => (seen.includes(axis) ? span[axis]![0]! : round(about[axis]) - depth)),
    max: mapAxes((axis) => (seen.includes(axis) ? span[axis]![1]! : round(about[axis]) + depth))
  };
}

/** Turned about the vertical, only top and underside are square to an axis of the site. */
function isSquare({ turn = 0 }: Obstacle, axis: Axis): boolean {
  return axis === 1 || turn === 0;
}

function snapTo(
  value: number,
  places: readonly number[],
  reason: SiteReason,
  lengths: LengthSnap | null
): { readonly value: number; readonly reason: SiteReason | null } {
  if (!lengths) return { value: keep(value), reason: null };
  const snapped = snap(value, { ...lengths, blades: places, bladeReach: REACH });
  return { value: snapped.value, reason: snapped.reason === 'blade' ? reason : snapped.reason };
}

/** What is worth more is said: a round number only where there is nothing else. */
function pickReason(one: SiteReason | null, other: SiteReason | null): SiteReason | null {
  return one === null || one === 'round' ? (other ?? one) : one;
}

function keep(value: number): number {
  return Math.round(value * KEPT_PER_MM) / KEPT_PER_MM + 0;
}

function setAxis(point: Vec3, axis: Axis, value: number): Vec3 {
  return mapAxes((a) => (a === axis ? keep(value) : point[a]));
}

function mapAxes<T>(read: (axis: Axis) => T): [T, T, T] {
  return [read(0), read(1), read(2)];
}
