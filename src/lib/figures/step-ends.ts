import type { Item } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { drawArrow, drawBoard } from './step-ink.ts';

/** The pictures of ends, cut lengthwise; mm on paper, y down. */

const [PAGE_LEFT, PAGE_RIGHT] = [1.5, 32.5];
const WALLS = [
  [2, 6],
  [14, 18]
] as const;

/** Two plain ends, cut lengthwise: a line of glue near the inner faces. */
export function drawGlueEnds(): Item[] {
  return [
    ...drawWalls(1.5, 15),
    ...drawWalls(21, 32.5),
    ...[4.9, 15.1].map((y) => drawClosed(boxPoints(15.4, y - 0.8, 16, y + 0.8), 'cut'))
  ];
}

/** Two straights end to end, cut lengthwise: the male end before the female one, or plain ends before they meet. */
export function drawEndsMeeting(mating: boolean): Item[] {
  const arrows = [...drawArrow([6, 10], [12, 10]), ...drawArrow([28, 10], [22, 10])];
  if (!mating) return [...drawWalls(1.5, 14.5), ...drawWalls(19.5, 32.5), ...arrows];
  const step = 3;
  const halves = [
    [2, 6],
    [18, 14]
  ].flatMap(([outer, inner]): Item[] => {
    const middle = (outer! + inner!) / 2;
    return [
      ...drawBoard([
        [1.5, outer!],
        [13, outer!],
        [13, middle],
        [13 + step, middle],
        [13 + step, inner!],
        [1.5, inner!]
      ]),
      ...drawBoard([
        [32.5, outer!],
        [18, outer!],
        [18, middle],
        [18 + step, middle],
        [18 + step, inner!],
        [32.5, inner!]
      ])
    ];
  });
  return [...halves, ...arrows];
}

/** An end of the duct cut lengthwise: nothing raw is left to the air, which comes or goes there. */
export function drawSealedEnd(atInlet: boolean): Item[] {
  const [end, out] = atInlet ? [13, -1] : [21, 1];
  const far = atInlet ? PAGE_RIGHT : PAGE_LEFT;
  const walls = drawWalls(Math.min(end, far), Math.max(end, far));
  const wraps = WALLS.map(([top, bottom]) =>
    drawLine(
      [
        [end - out * 4, top! - 0.7],
        [end + out * 0.8, top! - 0.7],
        [end + out * 0.8, bottom! + 0.7],
        [end - out * 4, bottom! + 0.7]
      ],
      'cut'
    )
  );
  const flow = atInlet ? drawArrow([2, 10], [11, 10]) : drawArrow([23, 10], [32, 10]);
  return [...walls, ...wraps, ...flow];
}

/** Two walls side by side that stand in the air stream, cut lengthwise: their raw edge is nosed. */
export function drawNosing(): Item[] {
  return [
    ...drawBoard(boxPoints(13, 6.5, 32.5, 10), 'narrow'),
    ...drawBoard(boxPoints(13, 10, 32.5, 13.5), 'narrow'),
    drawLine(
      [
        [18, 5.8],
        [12.2, 5.8],
        [12.2, 14.2],
        [18, 14.2]
      ],
      'cut'
    ),
    ...drawArrow([2, 3], [11, 3]),
    ...drawArrow([2, 17], [11, 17])
  ];
}

/** The two walls of a duct cut lengthwise, the outside wide. */
function drawWalls(left: number, right: number): Item[] {
  return WALLS.flatMap(([top, bottom]) => drawBoard(boxPoints(left, top, right, bottom)));
}
