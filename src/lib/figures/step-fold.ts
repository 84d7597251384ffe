import type { Step } from '../kernel/fitting/step.ts';
import { tanDegrees } from '../kernel/geometry/angle.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { formatAngle } from '../quantity/angle.ts';
import type { Item, Point } from './figure.ts';
import { cutLengthwise, measureCheek, outlineCheek, THICK } from './fold-cheek.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import {
  drawArcArrow,
  drawArrow,
  drawBlade,
  drawBoard,
  drawTape,
  fillWith,
  fitInto,
  writeOn
} from './step-ink.ts';

/** The pictures of a wall of a straight that is folded down to a slope; it is drawn up, the datum end on the left. */

/** Where pictures of the whole straight lie, and those that have figures beside them; mm on paper. */
const WHOLE = [1.5, 3.5, 32.5, 18] as const;
const BESIDE = { left: 1.5, right: 22, foot: [28, 17.5] } as const;

/** Facing and inside of the wall where it is cut across. */
const [FACING, INSIDE] = [7, 13];

/** The sloping wall from above, slit along both its edges from where the slope begins. */
export function drawSlits(straight: Straight): Item[] {
  const { begins, whole, across } = measureCheek(straight);
  const [wall, first, second] = fitInto(
    [
      boxPoints(0, 0, whole, across),
      [
        [begins, 0],
        [whole, 0]
      ],
      [
        [begins, across],
        [whole, across]
      ]
    ],
    [1.5, 2, 32.5, 18]
  );
  return [...drawBoard(wall!, 'narrow'), drawLine(first!, 'cut'), drawLine(second!, 'cut')];
}

/** The wall cut lengthwise, outside up: a wedge out of the inside, its point on the facing; the facing stays whole. */
export function drawSlopeGroove(step: Step): Item[] {
  const { left, right, foot } = BESIDE;
  const slope = Number(step.data['slope']);
  const middle = (left + right) / 2;
  const half = widen(slope / 2);
  return [
    ...drawBoard(
      [
        [left, FACING],
        [middle, FACING],
        [middle - half, INSIDE],
        [left, INSIDE]
      ],
      'narrow'
    ),
    ...drawBoard(
      [
        [right, FACING],
        [middle, FACING],
        [middle + half, INSIDE],
        [right, INSIDE]
      ],
      'narrow'
    ),
    drawLine(
      [
        [left, FACING],
        [right, FACING]
      ],
      'visible'
    ),
    writeOn(formatAngle(slope), [foot[0], (FACING + INSIDE) / 2], { width: 11 })
  ];
}

/** The wall cut lengthwise, outside up, where the slope ends: a wedge right through, open on the facing. */
export function drawWedge(step: Step): Item[] {
  const { left, right, foot } = BESIDE;
  const bevel = Number(step.data['bevel']);
  const middle = (left + right) / 2;
  const half = widen(bevel);
  return [
    ...drawBoard([
      [left, FACING],
      [middle - half, FACING],
      [middle, INSIDE],
      [left, INSIDE]
    ]),
    ...drawBoard([
      [right, FACING],
      [middle + half, FACING],
      [middle, INSIDE],
      [right, INSIDE]
    ]),
    ...drawBlade(foot, -bevel),
    writeOn(formatAngle(bevel), [foot[0], 6], { width: 11 })
  ];
}

/** A cheek: what lies beyond the slope comes off; beside it the blade at its bevel. */
export function drawSlopeCut(straight: Straight): Item[] {
  const { begins, ends, whole, drop, bevel } = measureCheek(straight);
  const [left, off, cut] = fitInto(
    [
      outlineCheek(straight),
      [
        [begins, 0],
        [whole, 0],
        [whole, drop]
      ],
      [
        [begins, 0],
        [ends, drop],
        [whole, drop]
      ]
    ],
    [BESIDE.left, 3.5, BESIDE.right, 18]
  );
  return [
    ...drawBoard(left!, 'narrow'),
    drawLine(off!, 'hidden'),
    drawLine(cut!, 'cut'),
    ...drawBlade(BESIDE.foot, bevel),
    writeOn(formatAngle(bevel), [BESIDE.foot[0], 6], { width: 11 })
  ];
}

/** A cheek, and what is cut off square at the small end. */
export function drawTrim(straight: Straight): Item[] {
  const { whole, drop } = measureCheek(straight);
  const off = 0.25;
  const [left, rest, cut] = fitInto(
    [
      outlineCheek(straight),
      [
        [whole, drop],
        [whole + off, drop],
        [whole + off, 1],
        [whole, 1]
      ],
      [
        [whole, drop],
        [whole, 1]
      ]
    ],
    WHOLE
  );
  return [...drawBoard(left!, 'narrow'), drawLine(rest!, 'hidden'), drawLine(cut!, 'cut')];
}

/** The straight cut lengthwise: the wall from where it lay down onto the slope. */
export function drawSlopeFold(straight: Straight): Item[] {
  const cheek = measureCheek(straight);
  const { begins, whole } = cheek;
  const [lay, hinge, before, ...boards] = fitInto(
    [
      boxPoints(begins, 0, whole, THICK),
      [[begins, THICK / 2]],
      [[whole, THICK / 2]],
      ...cutLengthwise(cheek, 0)
    ],
    WHOLE
  );
  const [[x, y], [far]] = [hinge![0]!, before![0]!];
  const radius = (far - x) * 0.62;
  const end = -(Math.atan2(cheek.drop, cheek.ends - begins) * 180) / Math.PI;
  return [
    drawClosed(lay!, 'phantom'),
    ...boards.flatMap((points) => drawBoard(points)),
    ...drawArcArrow([x, y - 0.6], radius, radius, 4, Math.min(end + 6, -2))
  ];
}

/** The straight cut lengthwise: a strip of board goes into the gap at the end of the slope. */
export function drawGapFilling(straight: Straight): Item[] {
  const cheek = measureCheek(straight);
  const gap = 0.16;
  const { ends, drop } = cheek;
  const [strip, ...boards] = fitInto(
    [
      boxPoints(ends + 0.01, drop - 0.42, ends + gap - 0.01, drop - 0.42 + THICK),
      ...cutLengthwise(cheek, gap)
    ],
    WHOLE
  );
  const [[left, top], , [right, bottom]] = strip as [Point, Point, Point];
  const middle = (left + right) / 2;
  return [
    ...boards.flatMap((points) => drawBoard(points)),
    ...drawBoard(strip!),
    ...drawArrow([middle, bottom + 0.4], [middle, bottom + (bottom - top) * 2])
  ];
}

/** A cheek, under tape along the slope's edge. */
export function drawSlopeTape(straight: Straight): Item[] {
  const { begins, ends, whole, drop } = measureCheek(straight);
  const [outline, line] = fitInto(
    [
      outlineCheek(straight),
      [
        [begins, 0],
        [ends, drop],
        [whole, drop]
      ]
    ],
    WHOLE
  );
  const points = line as [Point, Point, Point];
  const deep = 2.2;
  const tape = [...points, ...points.map(([x, y]): Point => [x, y + deep]).reverse()];
  return [...drawBoard(outline!), fillWith('air', tape), ...drawTape(tape)];
}

/** Half a wedge at the inside of the board, wide enough to be seen, mm on paper. */
function widen(angle: number): number {
  return Math.max(0.8, (INSIDE - FACING) * tanDegrees(angle));
}
