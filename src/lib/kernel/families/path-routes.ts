import type { JointTurn } from '../fitting/mitered-path.ts';
import {
  followPoints,
  frameLegs,
  placeBeforeEnd,
  type Route,
  type RouteForm,
  type RouteTask
} from '../fitting/route.ts';
import { atan2Degrees } from '../geometry/angle.ts';
import { movePoint } from '../geometry/motion.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { growSection } from '../straight/section.ts';
import { LONGEST, SHARPEST_TURN } from './limits.ts';
import { combine, LENGTH, scatter, SHIFT, spanSite, spread, straightenClock } from './routes.ts';

/** More joints are not looked for. */
const MOST_JOINTS = 4;

/** How many places of the points between are tried, by how many points there are. */
const TRIED = [1, 60, 120];

/** Free paths of one to four joints: two lengths at the ends, and the points between where the duct turns. */
export function listPathRoutes(task: RouteTask): RouteForm[] {
  const forms = spread(1, MOST_JOINTS, MOST_JOINTS).map((joints) => describePath(task, joints));
  // Without a turn one joint does nothing.
  const { flow } = task.end;
  return atan2Degrees(Math.hypot(flow[1], flow[2]), flow[0]) > 0 ? forms : forms.slice(1);
}

interface PathParams {
  readonly lengths: readonly number[];
  readonly joints: readonly JointTurn[];
}

function describePath(task: RouteTask, joints: number): RouteForm {
  const { end, setting, longest } = task;
  const free = end.at.filter((coordinate) => coordinate === null).length;
  const between = Math.max(0, joints - 2);
  const layOut = ([first, last, ...rest]: readonly number[]): Route => {
    const points: Vec3[] = [[first!, 0, 0]];
    for (let i = 0; i < between; i++)
      points.push(rest.slice(free + 3 * i, free + 3 * i + 3) as unknown as Vec3);
    if (joints > 1) points.push(placeBeforeEnd(end, rest, last!));
    return followPoints(points, first!, last!, end.flow);
  };
  const outside = growSection(setting.section, setting.board.thickness);
  const { minThroat } = setting.shop;
  const reach = (outside.width + outside.height) / 4;
  const least = minThroat + reach / 2;
  const ends = between > 0 ? [least, least + reach] : spread(least, Math.max(least, longest / 2), 5);
  const spans = ([0, 1, 2] as const).map((axis) => spanSite(task, axis));
  const freeSpans = spans.filter((_, axis) => end.at[axis] === null);
  const place = (shares: readonly number[], ranges: readonly (readonly [number, number])[]): number[] =>
    ranges.map(([low, high], i) => low + (high - low) * shares[i]!);
  const starts =
    between === 0
      ? combine(ends, ends, ...freeSpans.map((span) => spread(...span, 4)))
      : scatter(TRIED[between]!, free + 3 * between + 1).map(([share, ...shares], k) => [
          ends[k % 2]!,
          least + share! * 2 * reach,
          ...place(shares, freeSpans),
          ...sortAlong(place(shares.slice(free), [...spans, ...spans].slice(0, 3 * between)))
        ]);
  return {
    joints,
    fixed: joints === 1,
    needlessAfter: joints,
    variables: [
      LENGTH,
      LENGTH,
      ...Array.from({ length: free + 3 * between }, () => ({ ...SHIFT, low: -LONGEST }))
    ],
    starts,
    layOut,
    writeParams: (measures) => {
      const { legs, turns } = layOut(measures);
      return {
        lengths: [...legs],
        joints: turns.map(({ turn, heel }) => ({
          // What is a right angle but for rounding would not be read as one.
          turn: Math.min(turn, SHARPEST_TURN),
          heel: straightenClock(heel)
        }))
      };
    },
    readParams: (params) => {
      const { lengths, joints: said } = params as Partial<PathParams>;
      if (lengths?.length !== joints + 1 || said?.length !== joints) return null;
      const frames = frameLegs({ legs: lengths, turns: said });
      const last = frames[joints]!;
      const outlet = movePoint(last, [lengths[joints]!, 0, 0]);
      return [
        lengths[0]!,
        lengths[joints]!,
        ...outlet.filter((_, axis) => end.at[axis] === null),
        ...frames.slice(2, -1).flatMap(({ t }) => [...t])
      ];
    }
  };
}

/** Two points in the order in which the duct reaches them. */
function sortAlong(points: number[]): number[] {
  return points.length === 6 && points[0]! > points[3]!
    ? [...points.slice(3), ...points.slice(0, 3)]
    : points;
}
