import { atan2Degrees } from '../kernel/geometry/angle.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import type { LineMark, Straight } from '../kernel/straight/straight.ts';
import { drawMeasures, type Measure } from './dimensions.ts';
import type { Item, Point, Stroke, Subject } from './figure.ts';
import { measureLabel, placeRows, type Label } from './mark-labels.ts';
import { listAngles, writeStation } from './mark-stations.ts';
import { isUpright } from './mark-table.ts';
import type { Manner } from './manner.ts';
import type { Room } from './room.ts';
import { unrollFaces } from './unroll.ts';
import { unrollPoint } from './unroll-point.ts';

/** From a mark to its label, paper mm. */
const GAP = 1.2;

/** How near to its own line that between mark and label begins, paper mm: no other mark fits in. */
const OWN_LINE = 0.4;

/** Where a label is tried along a mark, as shares of its length. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];

/** A line mark on the unrolled faces. */
interface UnrolledMark {
  readonly mark: LineMark;
  readonly about: Subject;
  readonly from: Point;
  readonly to: Point;
}

/** The line marks of a straight as they lie on its unrolled faces. */
export function unrollLineMarks(straight: Straight): UnrolledMark[] {
  return straight.marks.map((mark) => ({
    mark,
    about: { cut: mark.name, face: mark.face },
    from: unrollPoint(straight, mark.face, mark.from),
    to: unrollPoint(straight, mark.face, mark.to)
  }));
}

/** The line marks: cuts, slits and trims as cuts, grooves as folds. */
export function drawLineMarks(straight: Straight): Stroke[] {
  return unrollLineMarks(straight).map(({ mark, about, from, to }) => ({
    kind: 'stroke',
    line: mark.kind === 'groove' ? 'fold' : 'cut',
    points: [from, to],
    about
  }));
}

/** Angle of a line mark from square across the face, degrees, 0 … 90; 90 along the duct. */
export function measureLineAngle({ from, to }: Pick<LineMark, 'from' | 'to'>): number {
  return atan2Degrees(Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1]));
}

/**
 * What is written at the line marks: the stations of their ends, once each, how far these are from the face's first edge,
 * and beside each its name, its kind, its angle from square and its bevel.
 */
export function labelLineMarks(
  straight: Straight,
  manner: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const marks = unrollLineMarks(straight);
  const across = drawMeasures(measureAcross(straight, marks, manner), { scale: manner.scale, room });
  const parts = [
    across,
    ...listEnds(straight, marks).map(({ at, about }) => {
      const station = { text: manner.say.figure(at[0]), at, about };
      const items = writeStation(station, listAngles(station, manner.scale), manner.scale, room);
      return { items: items ?? [], leftOut: items ? 0 : 1 };
    }),
    ...marks.map((mark) => labelMark(straight, mark, manner, room))
  ];
  return {
    items: parts.flatMap(({ items }) => items),
    leftOut: parts.reduce((sum, { leftOut }) => sum + leftOut, 0)
  };
}

/** What stands beside a line mark: its name and kind, its angle from square where it is askew, its bevel. */
export function describeMark(mark: LineMark, { say, words }: Manner): Label {
  const angle = measureLineAngle(mark);
  const askew = say.angle(angle) !== say.angle(0) && say.angle(angle) !== say.angle(90);
  const bevel: Label[number][] = isUpright(mark, say)
    ? []
    : mark.lean
      ? [[{ blade: mark, text: say.angle(mark.bevel) }]]
      : [[{ text: words.page.flat.bevel(say.angle(mark.bevel)) }]];
  return [
    [{ text: mark.name, bold: true }, { text: words.page.flat.kinds[mark.kind] }],
    ...(askew ? [[{ text: words.paper.marks.line(say.angle(angle)) }]] : []),
    ...bevel
  ];
}

/** The ends of the marks, each place once, but for those at the ends of the straight. */
function listEnds(straight: Straight, marks: readonly UnrolledMark[]): { at: Point; about: Subject }[] {
  const ends: { at: Point; about: Subject }[] = [];
  for (const { from, to, about } of marks) {
    for (const at of [from, to]) {
      const known = ends.some((end) => Math.hypot(end.at[0] - at[0], end.at[1] - at[1]) < SAME_LENGTH);
      const inside = at[0] > SAME_LENGTH && at[0] < straight.length - SAME_LENGTH;
      if (inside && !known) ends.push({ at, about });
    }
  }
  return ends;
}

/** From the first edge of its face to every end of a mark that lies within the face. */
function measureAcross(straight: Straight, marks: readonly UnrolledMark[], { say }: Manner): Measure[] {
  const { faces } = unrollFaces(straight);
  return listEnds(straight, marks).flatMap(({ at, about }): Measure[] => {
    const { from, to } = faces.find(({ face }) => face === about.face)!;
    if (at[1] - from < SAME_LENGTH || to - at[1] < SAME_LENGTH) return [];
    const edge: Point = [at[0], unrollPoint(straight, about.face!, [0, 0])[1]];
    return [{ from: edge, to: at, away: 0, text: say.figure(Math.abs(at[1] - edge[1])), about }];
  });
}

function labelMark(
  straight: Straight,
  { mark, about, from, to }: UnrolledMark,
  manner: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const { scale } = manner;
  const full = describeMark(mark, manner);
  const [name] = full as [Label[number]];
  const face = unrollFaces(straight).faces.find((other) => other.face === mark.face)!;
  for (const label of [full, [name], [name.slice(0, 1)]]) {
    const { width, height } = measureLabel(label);
    const [w, h, gap] = [width / scale, height / scale, GAP / scale];
    const spots = PLACES.flatMap((share) => {
      const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
      const beside = (corner: Point, [dx, dy]: Point): { corner: Point; tie: [Point, Point] } => ({
        corner,
        tie: [
          [x + (dx * OWN_LINE) / scale, y + (dy * OWN_LINE) / scale],
          [x + dx * gap, y + dy * gap]
        ]
      });
      return [
        beside([x + gap, y - h / 2], [1, 0]),
        beside([x - gap - w, y - h / 2], [-1, 0]),
        beside([x - w / 2, y + gap], [0, 1]),
        beside([x - w / 2, y - gap - h], [0, -1])
      ];
    }).filter(({ corner: [x, y] }) => y > face.from && y + h < face.to && x > 0 && x + w < straight.length);
    const items = placeRows(
      label,
      spots.map(({ corner }) => corner),
      scale,
      about,
      room,
      spots.map(({ tie }) => tie)
    );
    if (items) return { items, leftOut: label === full ? 0 : 1 };
  }
  return { items: [], leftOut: 1 };
}
