import type { Step } from '../kernel/fitting/step.ts';
import { FACE_CLOCK, growSection, measureFace, type Face } from '../kernel/straight/section.ts';
import type { Cut } from '../kernel/straight/cut.ts';
import { measureEdges, type Piece, type Straight } from '../kernel/straight/straight.ts';
import { formatAngle } from '../quantity/angle.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import {
  drawArcArrow,
  drawArrow,
  drawBlade,
  drawBoard,
  drawSection,
  fillWith,
  fitInto,
  writeOn
} from './step-ink.ts';
import { findPlainFace } from './straight.ts';
import { unrollCut, unrollFaces } from './unroll.ts';

/** The pictures of turning, cutting and drawing apart; mm on paper, y down. */

/** How far along a face a line may run on its picture. */
const MOST_RUN = 17;

/**
 * The face that is up, from the datum end on the left, with the mark at its true angle, and the blade on the facing as
 * it is held: stations run to the right, so what leans downstream leans to the right.
 */
export function drawCutting(step: Step, straight: Straight): Item[] {
  const face = step.face!;
  const [start, end, bevel] = ['start', 'end', 'bevel'].map((key) => Number(step.data[key])) as [
    number,
    number,
    number
  ];
  const [left, right, centre] = [1.5, 21, 10];
  const width = measureFace(growSection(straight.section, straight.thickness), face);
  // Bottom and left are met from their far edge: clockwise round the duct it comes first.
  const run = face === 'top' || face === 'right' ? start - end : end - start;
  // A line that runs far along the face is drawn on a narrower one, so that all of it is seen.
  const tall = Math.min(16, (MOST_RUN * width) / Math.abs(run));
  const [top, bottom] = [centre - tall / 2, centre + tall / 2];
  const half = ((run / width) * tall) / 2;
  const middle = (left + right) / 2;
  const sense = step.data['lean'] === 'upstream' ? -1 : 1;
  const [foot, level]: Point = [28, 17.5];
  return [
    fillWith('board', boxPoints(left, top, right, bottom)),
    drawLine(
      [
        [right, top],
        [left, top],
        [left, bottom],
        [right, bottom]
      ],
      'visible'
    ),
    drawLine(
      [
        [middle + half, top],
        [middle - half, bottom]
      ],
      'cut'
    ),
    ...drawBlade([foot, level], sense * bevel),
    writeOn(step.cuts[0]!, [foot, 3], { width: 11 }),
    writeOn(formatAngle(bevel), [foot, 6.8], { width: 11 })
  ];
}

/** The section from its end, looking downstream, as it lies before the turn; the wall that comes up is filled. */
export function drawTurning(step: Step, straight: Straight, before: Face): Item[] {
  const outside = growSection(straight.section, straight.thickness);
  const lying = before === 'left' || before === 'right';
  const size = lying ? { width: outside.height, height: outside.width } : outside;
  const centre: Point = [12, 10.3];
  const [radius, round] = [7, 8.6];
  const scale = radius / Math.hypot(size.width / 2, size.height / 2);
  const [x, y] = [(size.width / 2) * scale, (size.height / 2) * scale];
  const { outer, inner } = drawSection(size, [centre[0] - x, centre[1] - y, centre[0] + x, centre[1] + y]);
  const clock = (FACE_CLOCK[step.face!] - FACE_CLOCK[before] + 360) % 360;
  const side = clock / 90;
  const wall = [outer[side]!, outer[(side + 1) % 4]!, inner[(side + 1) % 4]!, inner[side]!];
  // A wall on the left comes up clockwise, any other counter-clockwise.
  const start = clock === 270 ? 180 : 90 - clock;
  return [
    ...drawBoard(wall, 'narrow'),
    drawClosed(outer, 'visible'),
    drawClosed(inner, 'narrow'),
    ...drawArcArrow(centre, round, round, start, 90),
    writeOn(`${Number(step.data['quarters']) * 90}°`, [27.5, 10.3], { width: 12 })
  ];
}

/** The pieces on either side of the cuts, a support under each. */
export function drawSupports(step: Step, straight: Straight): Item[] {
  const parts = placeParts(straight, findCuts(step, straight), 0, [1.5, 1.5, 32.5, 12.5]);
  return [
    ...parts.flatMap((points) => drawBoard(points)),
    ...parts.map(([, , [right], [left]]) => {
      const [middle, half] = [(left + right) / 2, Math.min(2.5, (right - left) / 2)];
      return drawClosed([
        [middle - half * 0.6, 14],
        [middle + half * 0.6, 14],
        [middle + half, 18.5],
        [middle - half, 18.5]
      ]);
    })
  ];
}

/** The pieces on either side of the cut, drawn apart. */
export function drawSeparating(step: Step, straight: Straight): Item[] {
  const parts = placeParts(straight, findCuts(step, straight), 0.35, [1.5, 1.5, 32.5, 14]);
  const xs = parts.flat().map(([x]) => x);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  return [
    ...parts.flatMap((points) => drawBoard(points)),
    ...drawArrow([left + 7, 17], [left + 1, 17]),
    ...drawArrow([right - 7, 17], [right - 1, 17])
  ];
}

/** The outline of one piece on the face where its cuts show best, in a box. */
export function placePiece(
  straight: Straight,
  piece: Piece,
  box: readonly [number, number, number, number]
): Point[] {
  const at = findPlainFace(straight);
  return fitInto([outlinePart(straight, takePart(straight, piece), at, 0)], box)[0]!;
}

/** Corners of a part: its start and end at the face's first edge, its end and start at the other. */
type Outline = [Point, Point, Point, Point];

interface Part {
  readonly start: Cut | null;
  readonly end: Cut | null;
  /** Shortest edge, mm. */
  readonly short: number;
}

function findCuts(step: Step, straight: Straight): readonly Cut[] {
  return straight.cuts.filter(({ name }) => step.cuts.includes(name));
}

function takePart({ section, thickness }: Straight, piece: Piece): Part {
  const lengths = measureEdges(piece, section, thickness).map(({ length }) => length);
  return { start: piece.startCut, end: piece.endCut, short: Math.min(...lengths) };
}

/** What lies on either side of the cuts, one part after another, `apart` face widths between them. */
function placeParts(
  straight: Straight,
  cuts: readonly Cut[],
  apart: number,
  box: readonly [number, number, number, number]
): Outline[] {
  const at = findPlainFace(straight);
  const { from, to } = unrollFaces(straight).faces[at]!;
  const near = straight.pieces.filter(({ startCut, endCut }) =>
    [startCut, endCut].some((cut) => cut !== null && cuts.includes(cut))
  );
  const parts = near.map((piece) => takePart(straight, piece));
  // Beyond a cut without a piece there is an off-cut.
  const first = cuts[0]!;
  const last = cuts[cuts.length - 1]!;
  if (!near.some(({ endCut }) => endCut === first)) parts.unshift({ start: null, end: first, short: 0 });
  if (!near.some(({ startCut }) => startCut === last)) parts.push({ start: last, end: null, short: 0 });
  let left = 0;
  const outlines = parts.map((part) => {
    const outline = outlinePart(straight, part, at, left);
    left = (outline[1][0] + outline[2][0]) / 2 + apart * (to - from);
    return outline;
  });
  return fitInto(outlines, box) as Outline[];
}

/**
 * A part on a face, the middle of its start at `left`: its ends at their true angles, its length within what a picture
 * shows.
 */
function outlinePart(straight: Straight, { start, end, short }: Part, at: number, left: number): Outline {
  const { from, to } = unrollFaces(straight).faces[at]!;
  const width = to - from;
  const lean = (cut: Cut | null): number => {
    if (!cut) return 0;
    const points = unrollCut(straight, cut);
    return (points[at]![0] - points[at + 1]![0]) / 2;
  };
  const [a, b] = [lean(start), lean(end)];
  const shown = Math.max(0.3 * width, Math.min(0.8 * width, short));
  const right = left + shown + Math.abs(b - a);
  return [
    [left + a, 0],
    [right + b, 0],
    [right - b, width],
    [left - a, width]
  ];
}
