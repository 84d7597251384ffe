import type { SiteModel } from '../kernel/evaluate.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import type { Clearance } from '../kernel/site/clearance.ts';
import { placeObstacle } from '../kernel/site/site.ts';
import type { SiteDrawingWords } from '../words/site-drawing.ts';
import type { Speech } from '../words/words.ts';
import { strikeThrough } from './dimensions.ts';
import type { Item, Point, Stroke, Text } from './figure.ts';
import { wrapHull } from './hull.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { keepOffLine, type Outline, type Room } from './room.ts';
import { findCommon } from './site-outline.ts';
import { project, type View } from './view.ts';

/** Nearer together than this the two points are one on paper, mm: they are marked with a cross. */
const ONE_POINT = 0.5;

/** From the middle of the dimension line to its figure, paper mm; further ones have a leader. */
const AWAY = [2.2, 5, 8, 12, 17, 23];

/** Whether an obstacle is nearer than it wants. */
export function isTooNear({ value, wanted }: Clearance): boolean {
  return value < wanted - SAME_LENGTH;
}

/**
 * The tightest clearance and every one that is too small, each from the one nearest point to the other, with the true
 * distance as its figure, however the view shortens it; an overlap is called one, and marked in the middle of what the two
 * have in common as they are seen. What is too small is shown as wrong.
 */
export function drawClearances(
  { clearances, tightest }: SiteModel,
  fitting: Fitting,
  view: View,
  paperScale: number,
  room: Room,
  words: SiteDrawingWords,
  say: Speech
): Item[] {
  return clearances
    .filter((one) => one === tightest || isTooNear(one))
    .flatMap((one) => drawClearance(one, findEnds(one, fitting, view), paperScale, room, words, say));
}

/** The two nearest points as they are seen; where the two overlap there are none, and it is one point in both. */
function findEnds(
  { from, to, value, body, obstacle }: Clearance,
  { bodies }: Fitting,
  view: View
): [Point, Point] {
  if (value > 0) return [project(view, from), project(view, to)];
  const { walls, placement } = bodies.find(({ name }) => name === body)!;
  const outside = walls.flatMap(({ outer }) => outer.map((corner) => movePoint(placement, corner)));
  const [seen, box] = [outside, placeObstacle(obstacle).corners].map((corners) =>
    wrapHull(corners.map((corner) => project(view, corner)))
  );
  const common = findCommon(seen!, box!);
  // What only touches has no area in common.
  const points = common.length > 0 ? common : [project(view, from)];
  const middle: Point = [
    points.reduce((sum, [x]) => sum + x, 0) / points.length,
    points.reduce((sum, [, y]) => sum + y, 0) / points.length
  ];
  return [middle, middle];
}

function drawClearance(
  one: Clearance,
  [from, to]: readonly [Point, Point],
  scale: number,
  room: Room,
  words: SiteDrawingWords,
  say: Speech
): Item[] {
  const tone = isTooNear(one) ? { tone: 'wrong' as const } : {};
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const isPoint = length * scale < ONE_POINT;
  const along: Point = isPoint ? [0, 1] : [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const angle = (Math.atan2(-along[1], along[0]) * 180) / Math.PI;
  const lines: Stroke[] = isPoint
    ? [45, 135].map((at) => ({ ...strikeThrough(middle, at, scale), ...tone }))
    : [
        { kind: 'stroke', line: 'narrow', points: [from, to], ...tone },
        ...[from, to].map((at) => ({ ...strikeThrough(at, angle + 45, scale), ...tone }))
      ];
  for (const { points } of lines) keepOffLine(room, points, scale);

  const text = one.value < 0 ? words.overlap(say.figure(-one.value)) : say.figure(one.value);
  const spots = AWAY.flatMap((away, row) => {
    const ways = row === 0 ? listBeside(along) : [...listBeside(along), ...listAslant(along)];
    return ways.map((way) => placeFigure(text, middle, way, away, row > 0, scale, tone));
  });
  const found =
    spots[
      room.take(
        spots.map(
          ({ outlines }) =>
            () =>
              outlines
        )
      )
    ];
  return found ? [...lines, ...found.items] : lines;
}

/** Square to the dimension line to both sides. */
function listBeside([x, y]: Point): Point[] {
  const right: Point = y > 0 || (y === 0 && x < 0) ? [y, -x] : [-y, x];
  return [right, [-right[0], -right[1]]];
}

/** Halfway between along and beside, in all four quarters. */
function listAslant(along: Point): Point[] {
  return listBeside(along).flatMap(([x, y]) =>
    [1, -1].map((sense): Point => [
      (x + sense * along[0]) * Math.SQRT1_2,
      (y + sense * along[1]) * Math.SQRT1_2
    ])
  );
}

function placeFigure(
  text: string,
  middle: Point,
  [wx, wy]: Point,
  away: number,
  hasLeader: boolean,
  scale: number,
  tone: Pick<Text, 'tone'>
): { items: Item[]; outlines: Outline[] } {
  const height = LETTERING.figures;
  // A text begins, ends or has its middle where the leader meets it.
  const anchor = wx > 0.5 ? 'start' : wx < -0.5 ? 'end' : 'middle';
  const aside = anchor === 'middle' ? Math.sign(wy) * (height / 2 + 0.8) : 0;
  const foot: Point = [middle[0] + (wx * away) / scale, middle[1] + (wy * away) / scale];
  const gap = anchor === 'middle' ? 0 : Math.sign(wx) * 0.8;
  const figure: Text = {
    kind: 'text',
    text,
    at: [foot[0] + gap / scale, foot[1] + aside / scale],
    height,
    anchor,
    ...tone
  };
  const start: Point = [middle[0] + (wx * 0.6) / scale, middle[1] + (wy * 0.6) / scale];
  const leader: Stroke = { kind: 'stroke', line: 'narrow', points: [start, foot], ...tone };
  return {
    items: hasLeader ? [leader, figure] : [figure],
    outlines: [findTextRoom(figure, scale)]
  };
}
