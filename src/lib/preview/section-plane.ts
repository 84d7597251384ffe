import type { Pose } from '../kernel/assembly/pose.ts';
import {
  findMiddle,
  type Body,
  type Fitting,
  type PanelBody,
  type PieceBody
} from '../kernel/fitting/fitting.ts';
import { invertMotion, movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { add, cross, distance, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { Plane } from '../solids/clip.ts';
import type { Arrangement } from './spread.ts';

/**
 * How the fitting is cut open: lengthwise through its axes, upright (the right half is taken away) or level (the upper
 * half is), or square across the duct (what lies upstream is).
 */
export type SectionKind = 'upright' | 'level' | 'across';

export const SECTION_KINDS: readonly SectionKind[] = ['upright', 'level', 'across'];

export interface SectionPlane {
  readonly kind: SectionKind;
  /** Of a section across: where on the axes, one after another, as a share of their length, 0 … 1. */
  readonly at: number;
}

/** A body lies along x when its direction comes this near to 1: only rounding lies between. */
const ALONG_X = 1 - 1e-9;

/** A point nearer to an axis than this lies on it, mm. */
const ON_AXIS = 1e-3;

/**
 * The section plane as every body sees it, in its own frame, in the order of the fitting's bodies; null for one that it
 * leaves whole. A section lengthwise follows the duct: it is carried along as the duct's own up and right are, so it
 * passes through every miter without a step. A piece not joined yet is cut as it lies, a panel by itself is left whole. A
 * section across is one plane through all that is shown.
 */
export function placeSectionPlanes(
  fitting: Fitting,
  arrangement: Arrangement,
  section: SectionPlane
): (Plane | null)[] {
  const { kind } = section;
  if (kind === 'across') return cutAcross(fitting, arrangement, section.at);
  const stretches = listStretches(fitting);
  return fitting.bodies.map((body, k) => {
    if (body.kind === 'piece') return cutPiece(body, arrangement.poses[k]!, kind, stretches);
    return arrangement.poses[k]!.joined ? cutPanel(body, kind, fitting, stretches) : null;
  });
}

/** A straight part of an axis, from point to point in the fitting's frame, mm, and the unit direction of its flow. */
interface Stretch {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly flow: Vec3;
}

function listStretches({ axes }: Fitting): Stretch[] {
  return axes.flatMap((axis) =>
    axis.slice(1).flatMap((to, i): Stretch[] => {
      const along = subtract(to, axis[i]!);
      const length = norm(along);
      return length > 0 ? [{ from: axis[i]!, to, flow: scale(along, 1 / length) }] : [];
    })
  );
}

/** Through the axis of a piece; on its way to its joint it is cut as it will be. */
function cutPiece(
  body: PieceBody,
  { joined, placement }: Pose,
  kind: 'upright' | 'level',
  stretches: readonly Stretch[]
): Plane {
  const direction: Vec3 = kind === 'upright' ? [0, 0, 1] : [0, 1, 0];
  if (!joined && placement.x[0] > ALONG_X) {
    return { normal: turnDirection(invertMotion(placement), direction), at: 0 };
  }
  const { flow } = findNearest(stretches, movePoint(body.placement, findMiddle(body)));
  // Seen from its far end right and left change places, up stays up.
  const isAgainst = kind === 'upright' && dot(flow, body.placement.x) < 0;
  return { normal: scale(direction, body.piece.flipped !== isAgainst ? -1 : 1), at: 0 };
}

/** Through the axis that passes a panel. */
function cutPanel(
  { placement, ...body }: PanelBody,
  kind: 'upright' | 'level',
  { ports }: Fitting,
  stretches: readonly Stretch[]
): Plane {
  const { from, to, flow } = findNearest(stretches, movePoint(placement, findMiddle({ placement, ...body })));
  const port = ports.find(({ at }) => Math.min(distance(at, to), distance(at, from)) < ON_AXIS);
  const right = cross(flow, port?.up ?? (Math.abs(flow[1]) > ALONG_X ? [-1, 0, 0] : [0, 1, 0]));
  const direction = kind === 'upright' ? right : cross(right, flow);
  const normal = scale(direction, 1 / norm(direction));
  return {
    normal: turnDirection(invertMotion(placement), normal),
    at: dot(normal, subtract(from, placement.t))
  };
}

/** One plane square to the axis at a share of the length of all axes; it goes with the body that is there. */
function cutAcross(fitting: Fitting, { poses, offsets }: Arrangement, share: number): Plane[] {
  const { at, flow } = findOnAxes(fitting, share);
  const carrier = findCarrier(fitting.bodies, at, flow);
  const home = invertMotion(fitting.bodies[carrier]!.placement);
  const { placement } = poses[carrier]!;
  const normal = scale(turnDirection(placement, turnDirection(home, flow)), -1);
  const through = add(movePoint(placement, movePoint(home, at)), offsets[carrier]!);
  return poses.map((pose, k) => ({
    normal: turnDirection(invertMotion(pose.placement), normal),
    at: dot(normal, through) - dot(normal, add(pose.placement.t, offsets[k]!))
  }));
}

function findOnAxes(fitting: Fitting, share: number): { at: Vec3; flow: Vec3 } {
  const stretches = listStretches(fitting);
  let rest = share * stretches.reduce((sum, { from, to }) => sum + distance(from, to), 0);
  for (const { from, to, flow } of stretches) {
    const length = distance(from, to);
    if (rest <= length) return { at: add(from, scale(flow, rest)), flow };
    rest -= length;
  }
  const last = stretches[stretches.length - 1]!;
  return { at: last.to, flow: last.flow };
}

/** The piece on whose axis a point lies, else the panel nearest to it: its place in the fitting. */
function findCarrier(bodies: readonly Body[], at: Vec3, flow: Vec3): number {
  const away = bodies.map((body) => {
    if (body.kind === 'panel') return distance(at, movePoint(body.placement, findMiddle(body)));
    const { placement, piece } = body;
    if (Math.abs(dot(placement.x, flow)) < ALONG_X) return Infinity;
    const [x, y, z] = movePoint(invertMotion(placement), at);
    const beyond = Math.max(piece.from - x, x - piece.from - piece.axis, 0);
    return Math.hypot(beyond, y, z) < ON_AXIS ? 0 : Infinity;
  });
  const nearest = Math.min(...away);
  return nearest < Infinity ? away.indexOf(nearest) : 0;
}

function findNearest(stretches: readonly Stretch[], point: Vec3): Stretch {
  const away = stretches.map(({ from, to, flow }) => {
    const along = Math.min(Math.max(dot(subtract(point, from), flow), 0), distance(from, to));
    return distance(point, add(from, scale(flow, along)));
  });
  return stretches[away.indexOf(Math.min(...away))]!;
}
