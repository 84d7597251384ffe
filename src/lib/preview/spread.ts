import type { Pose } from '../kernel/assembly/pose.ts';
import type { Body, Fitting } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { add, dot, scale, type Vec3 } from '../kernel/geometry/vector.ts';
import { growSection } from '../kernel/straight/section.ts';
import { measureSize, openJoints } from './explode.ts';

/** Gaps as shares of the fitting's size: between pieces laid out apart, and between rows that lie side by side. */
const LAID_OUT_GAP = 0.12;
const ROW_GAP = 0.35;

/** How much further apart the pieces laid out are when it is fully exploded. */
const EXPLODED_ROW_GAP = 0.7;

const NOWHERE: Vec3 = [0, 0, 0];

/** Where straights may lie beside the fitting, best first: before it as it is first seen, then below it. */
const SIDES: readonly Vec3[] = [
  [0, 0, 1],
  [0, -1, 0],
  [0, 0, -1],
  [0, 1, 0]
];

/**
 * How far every body is shown from its pose, mm, in the order of the fitting's bodies. `explode` (0 … 1) opens the joints
 * of what is joined. What is not joined yet is shown in rows, one for each straight and one for the panels: the first
 * straight where it belongs, the other rows side by side from there, clear of the fitting as it will be. In a row the
 * pieces that are cut apart are laid out in line, clear of what lies before them, because a piece rolled over no longer
 * fits beside its neighbours.
 */
export function spreadBodies(fitting: Fitting, poses: readonly Pose[], explode: number): Vec3[] {
  const opened = openJoints(fitting, explode);
  const rows = placeRows(fitting, opened);
  const gap = (LAID_OUT_GAP + explode * EXPLODED_ROW_GAP) * measureSize(fitting);
  const first = fitting.straights[0]?.name;
  const aside: number[] = [];
  const shown: Vec3[][] = [];
  const offsets: Vec3[] = [];
  fitting.bodies.forEach((body, k) => {
    const pose = poses[k]!;
    const corners = listOuterCorners(body).map((corner) => movePoint(pose.placement, corner));
    const row = nameRow(body);
    const before = body.kind === 'panel' ? -1 : findLastOf(fitting.bodies.slice(0, k), row);
    // What is joined lies where the first straight lay, and before nothing of the others.
    const isAhead = (other: number): boolean =>
      nameRow(fitting.bodies[other]!) === row && (row === first || !poses[other]!.joined);
    let offset = opened[k]!;
    aside.push(0);
    if (!pose.joined) {
      const start = add(rows.get(row)!, [-pose.row, 0, 0]);
      if (before >= 0) {
        const inLine = isAhead(before) && isInLine(poses[before]!) ? shown[before]! : null;
        const ahead = shown.filter((_, other) => isAhead(other)).flat();
        const clear = measureClearance(
          corners.map((corner) => add(corner, start)),
          inLine,
          ahead
        );
        const isParted = [pose, poses[before]!].some(({ separated, joined }) => separated || joined);
        if (!isParted) aside[k] = aside[before]!;
        else if (clear !== null) aside[k] = Math.max(aside[before]!, clear + gap);
      }
      offset = add(start, [aside[k]!, 0, 0]);
    }
    shown.push(corners.map((corner) => add(corner, offset)));
    offsets.push(offset);
  });
  return offsets;
}

/** The row of the panels; rows of pieces are named after their straight. */
const PANELS = '';

function nameRow(body: Body): string {
  return body.kind === 'panel' ? PANELS : body.straight;
}

function findLastOf(bodies: readonly Body[], row: string): number {
  return bodies.map(nameRow).lastIndexOf(row);
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

/**
 * Where every row is moved to before its bodies are joined, by its name, mm. The side is the one on which the finished
 * fitting reaches out least, so that no row has to give way while it grows.
 */
function placeRows(fitting: Fitting, opened: readonly Vec3[]): Map<string, Vec3> {
  const between = ROW_GAP * measureSize(fitting);
  const corners = fitting.bodies.flatMap((body, k) =>
    listOuterCorners(body).map((corner) => add(movePoint(body.placement, corner), opened[k]!))
  );
  const reaches = SIDES.map((side) =>
    Math.max(measureFirstRow(fitting, side), ...corners.map((corner) => dot(corner, side)))
  );
  const least = Math.min(...reaches);
  const side = SIDES[reaches.findIndex((reach) => reach < least + 1)]!;
  const rows = new Map<string, Vec3>();
  let reach = least;
  for (const [name, width] of measureRows(fitting)) {
    if (name === fitting.straights[0]?.name) {
      rows.set(name, NOWHERE);
      continue;
    }
    rows.set(name, scale(side, reach + between + width / 2));
    reach += between + width;
  }
  return rows;
}

/** How far the first straight reaches to a side however it is turned about its length, mm. */
function measureFirstRow({ straights, bodies }: Fitting, side: Vec3): number {
  const [straight] = straights;
  const first = bodies.find((body) => body.kind === 'piece' && body.straight === straight?.name);
  return straight && first ? dot(first.placement.t, side) + measureRoom(straight) / 2 : 0;
}

/** The rows with their widths, mm. */
function measureRows({ straights, bodies }: Fitting): [name: string, width: number][] {
  const widths = bodies.flatMap(({ kind, walls }) => {
    if (kind !== 'panel') return [];
    const across = walls.flatMap(({ outer, inner }) => [...outer, ...inner].map(([, , z]) => z));
    return [Math.max(...across) - Math.min(...across)];
  });
  return [
    ...straights.map((straight): [string, number] => [straight.name, measureRoom(straight)]),
    ...(widths.length > 0 ? [[PANELS, Math.max(...widths)] as [string, number]] : [])
  ];
}

/** Room for a straight to be turned about its length, mm. */
function measureRoom({ section, thickness }: Fitting['straights'][number]): number {
  const { width, height } = growSection(section, thickness);
  return Math.hypot(width, height);
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

function listOuterCorners(body: Body): readonly Vec3[] {
  return body.walls.flatMap(({ outer }) => outer);
}
