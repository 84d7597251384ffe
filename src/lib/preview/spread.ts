import type { Pose } from '../kernel/assembly/pose.ts';
import type { Body, Fitting } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, dot, norm, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import { growSection } from '../kernel/straight/section.ts';

/**
 * Gaps as shares of the longer outside measure of the section: fully exploded, between pieces laid out apart,
 * and between straights that lie side by side.
 */
const EXPLODED_GAP = 0.7;
const LAID_OUT_GAP = 0.12;
const ROW_GAP = 0.35;

const NOWHERE: Vec3 = [0, 0, 0];

/** Where straights may lie beside the fitting, best first: before it as it is first seen, then below it. */
const SIDES: readonly Vec3[] = [
  [0, 0, 1],
  [0, -1, 0],
  [0, 0, -1],
  [0, 1, 0]
];

/**
 * How far every body is shown from its pose, mm, in the order of the fitting's bodies. `explode` (0 … 1) opens
 * every joint of what is joined square to its cut, each body carrying on from the one before it. What is not
 * joined yet is shown in rows, one for each straight: the first where the fitting begins, the others side by side
 * from there, clear of the fitting as it will be. In a row the pieces that are cut apart are laid out in line, clear of what
 * lies before them, because a piece rolled over no longer fits beside its neighbours.
 */
export function spreadBodies(fitting: Fitting, poses: readonly Pose[], explode: number): Vec3[] {
  const opened = openJoints(fitting, poses, explode);
  const rows = placeRows(fitting, explode);
  const gap = (LAID_OUT_GAP + explode * EXPLODED_GAP) * measureSize(fitting);
  const before = listBefore(fitting);
  const [first] = fitting.straights;
  const aside: number[] = [];
  const shown: Vec3[][] = [];
  const offsets: Vec3[] = [];
  fitting.bodies.forEach((body, k) => {
    const pose = poses[k]!;
    const corners = listOuterCorners(body).map((corner) => movePoint(pose.placement, corner));
    const neighbour = before[k]!;
    // What is joined lies where the first straight lay, and before nothing of the others.
    const isAhead = (other: number): boolean =>
      fitting.bodies[other]!.straight === body.straight &&
      (body.straight === first!.name || !poses[other]!.joined);
    let offset = opened[k]!;
    aside.push(0);
    if (!pose.joined) {
      const row = add(rows.get(body.straight)!, [-findDatum(pose), 0, 0]);
      if (fitting.bodies[neighbour]?.straight === body.straight) {
        const inLine = isAhead(neighbour) && isInLine(poses[neighbour]!) ? shown[neighbour]! : null;
        const ahead = shown.filter((_, other) => isAhead(other)).flat();
        const clear = measureClearance(
          corners.map((corner) => add(corner, row)),
          inLine,
          ahead
        );
        const isParted = [pose, poses[neighbour]!].some(({ separated, joined }) => separated || joined);
        if (!isParted) aside[k] = aside[neighbour]!;
        else if (clear !== null) aside[k] = Math.max(aside[neighbour]!, clear + gap);
      }
      offset = add(row, [aside[k]!, 0, 0]);
    }
    shown.push(corners.map((corner) => add(corner, offset)));
    offsets.push(offset);
  });
  return offsets;
}

/** How bodies are shown: their poses, and how far each is moved from its pose, mm. */
export interface Arrangement {
  readonly poses: readonly Pose[];
  readonly offsets: readonly Vec3[];
}

/** The arrangement of poses while a step is done, from how the bodies are shown before and after it. */
export function blendArrangements(
  poses: readonly Pose[],
  before: Arrangement,
  after: Arrangement,
  progress: number
): Arrangement {
  const offsets = before.offsets.map((offset, k) =>
    add(scale(offset, 1 - progress), scale(after.offsets[k]!, progress))
  );
  return { poses, offsets };
}

/** Where the outside corners of the fitting lie as it is shown, mm. */
export function listShownCorners(fitting: Fitting, { poses, offsets }: Arrangement): Vec3[] {
  return fitting.bodies.flatMap((body, k) =>
    listOuterCorners(body).map((corner) => add(movePoint(poses[k]!.placement, corner), offsets[k]!))
  );
}

/** How far the joined bodies are moved when their joints are opened, mm; a body not joined yet stays. */
function openJoints(fitting: Fitting, poses: readonly Pick<Pose, 'placement' | 'joined'>[], explode: number) {
  const gap = explode * EXPLODED_GAP * measureSize(fitting);
  const opened: Vec3[] = [];
  listBefore(fitting).forEach((before, k) => {
    const [neighbour, pose] = [poses[before], poses[k]!];
    const apart = neighbour && pose.joined ? scale(findOpening(neighbour, pose), gap) : NOWHERE;
    opened.push(pose.joined ? add(opened[before] ?? NOWHERE, apart) : NOWHERE);
  });
  return opened;
}

/**
 * Where every straight is moved to before it is joined, by its name, mm. The side is the one on which the finished
 * fitting reaches out least, so that no row has to give way while it grows.
 */
function placeRows(fitting: Fitting, explode: number): Map<string, Vec3> {
  const size = measureSize(fitting);
  const { section, thickness } = fitting.straights[0]!;
  const outside = growSection(section, thickness);
  // Room for a straight to be turned about its length.
  const width = Math.hypot(outside.width, outside.height);
  const finished = fitting.bodies.map(({ placement }) => ({ placement, joined: true }));
  const opened = openJoints(fitting, finished, explode);
  const corners = fitting.bodies.flatMap((body, k) =>
    listOuterCorners(body).map((corner) => add(movePoint(body.placement, corner), opened[k]!))
  );
  const reaches = SIDES.map((side) => Math.max(width / 2, ...corners.map((corner) => dot(corner, side))));
  const least = Math.min(...reaches);
  const side = SIDES[reaches.findIndex((reach) => reach < least + 1)]!;
  return new Map(
    fitting.straights.map(({ name }, i): [string, Vec3] => {
      const away = least + width / 2 + ROW_GAP * size + (i - 1) * (width + ROW_GAP * size);
      return [name, i === 0 ? NOWHERE : scale(side, away)];
    })
  );
}

/**
 * How far along x a body has to go to touch what lies before it, mm; null where nothing does. Where its
 * neighbour lies in line with it, they touch as the two sides of a cut do, or at one corner edge if one of them is
 * rolled over; else it goes beyond all that is ahead.
 */
function measureClearance(
  corners: readonly Vec3[],
  inLine: readonly Vec3[] | null,
  ahead: readonly Vec3[]
): number | null {
  const starts = findReach(corners, Math.min);
  const ends = findReach(inLine ?? [], Math.max);
  const gaps = [...starts].flatMap(([edge, start]) => (ends.has(edge) ? [ends.get(edge)! - start] : []));
  if (gaps.length === starts.size) return Math.max(...gaps);
  if (ahead.length === 0) return null;
  return Math.max(...ahead.map(([x]) => x)) - Math.min(...corners.map(([x]) => x));
}

/** The place of the body that every body is joined to; −1 for the first. */
function listBefore({ bodies, joints }: Fitting): number[] {
  const places = new Map(bodies.map(({ name }, i) => [name, i]));
  const before = bodies.map(() => -1);
  for (const joint of joints) before[places.get(joint.bodies[1])!] = places.get(joint.bodies[0])!;
  return before;
}

/** The longer outside measure of the section, mm. */
function measureSize({ straights }: Fitting): number {
  const { section, thickness } = straights[0]!;
  const { width, height } = growSection(section, thickness);
  return Math.max(width, height);
}

/** How far along x the straight of a body lies that is not joined yet, mm. */
function findDatum({ placement }: Pose): number {
  return placement.t[0];
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
function findOpening(before: Pick<Pose, 'placement'>, after: Pick<Pose, 'placement'>): Vec3 {
  const between = add(before.placement.x, after.placement.x);
  const size = norm(between);
  return size > 1e-9 ? scale(between, 1 / size) : after.placement.x;
}

function listOuterCorners(body: Body): readonly Vec3[] {
  return body.walls.flatMap(({ outer }) => outer);
}
