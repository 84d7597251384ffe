import type { Pose } from '../kernel/assembly/pose.ts';
import type { Body, Fitting } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, norm, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import { growSection } from '../kernel/straight/section.ts';

/**
 * Gaps as shares of the longer outside measure of the section: fully exploded, and between pieces laid out
 * apart.
 */
const EXPLODED_GAP = 0.7;
const LAID_OUT_GAP = 0.12;

const NOWHERE: Vec3 = [0, 0, 0];

/**
 * How far every body is shown from its pose, mm, in the order of the fitting's bodies. Two reasons: `explode`
 * (0 … 1) opens every joint square to its cut, each body carrying on from the one before it; and pieces that
 * are cut apart but not yet joined are laid out in line, clear of what lies before them, because a piece
 * rolled over no longer fits beside its neighbours.
 */
export function spreadBodies(fitting: Fitting, poses: readonly Pose[], explode: number): Vec3[] {
  const { section, thickness } = fitting.straights[0]!;
  const outside = growSection(section, thickness);
  const size = Math.max(outside.width, outside.height);
  const names = fitting.bodies.map(({ name }) => name);
  const opened: Vec3[] = [];
  const aside: number[] = [];
  const shown: Vec3[][] = [];
  fitting.bodies.forEach((body, k) => {
    const pose = poses[k]!;
    const before = names.indexOf(
      fitting.joints.find(({ bodies }) => bodies[1] === body.name)?.bodies[0] ?? ''
    );
    const neighbour = poses[before];
    const apart = neighbour ? scale(findOpening(neighbour, pose), explode * EXPLODED_GAP * size) : NOWHERE;
    opened.push(add(opened[before] ?? NOWHERE, apart));
    const corners = listOuterCorners(body).map((corner) =>
      add(movePoint(pose.placement, corner), opened[k]!)
    );

    const isFree = pose.separated || (neighbour?.separated ?? false);
    const inLine = neighbour && isInLine(neighbour) ? shown[before]! : null;
    const clear = isFree ? measureClearance(corners, inLine, shown.flat()) + LAID_OUT_GAP * size : 0;
    aside.push(pose.joined ? 0 : Math.max(aside[before] ?? 0, clear));
    shown.push(corners.map((corner) => add(corner, [aside[k]!, 0, 0])));
  });
  return opened.map((offset, k) => add(offset, [aside[k]!, 0, 0]));
}

/** Where the outside corners of the fitting lie as it is shown, mm. */
export function listShownCorners(fitting: Fitting, poses: readonly Pose[], offsets: readonly Vec3[]): Vec3[] {
  return fitting.bodies.flatMap((body, k) =>
    listOuterCorners(body).map((corner) => add(movePoint(poses[k]!.placement, corner), offsets[k]!))
  );
}

/**
 * How far along x a body has to go to touch what lies before it, mm. Where its neighbour lies in line with
 * it, they touch as the two sides of a cut do, or at one corner edge if one of them is rolled over; else it
 * goes beyond all that is ahead.
 */
function measureClearance(
  corners: readonly Vec3[],
  inLine: readonly Vec3[] | null,
  ahead: readonly Vec3[]
): number {
  const starts = findReach(corners, Math.min);
  const ends = findReach(inLine ?? [], Math.max);
  const gaps = [...starts].flatMap(([edge, start]) => (ends.has(edge) ? [ends.get(edge)! - start] : []));
  if (gaps.length === starts.size) return Math.max(...gaps);
  return ahead.length > 0 ? Math.max(...ahead.map(([x]) => x)) - Math.min(...corners.map(([x]) => x)) : 0;
}

function isInLine({ placement }: Pose): boolean {
  return placement.x[0] > 1 - 1e-9;
}

/** How far the corner edges of a body that lies along x reach, by where they lie across it. */
function findReach(corners: readonly Vec3[], choose: (a: number, b: number) => number): Map<string, number> {
  const reach = new Map<string, number>();
  for (const [x, y, z] of corners) {
    const edge = `${Math.round(y * 1e3)} ${Math.round(z * 1e3)}`;
    reach.set(edge, choose(reach.get(edge) ?? x, x));
  }
  return reach;
}

/** Half way between the directions of flow of two bodies: square to the cut where they are joined. */
function findOpening(before: Pose, after: Pose): Vec3 {
  const between = add(before.placement.x, after.placement.x);
  const size = norm(between);
  return size > 1e-9 ? scale(between, 1 / size) : after.placement.x;
}

function listOuterCorners(body: Body): readonly Vec3[] {
  return body.walls.flatMap(({ outer }) => outer);
}
