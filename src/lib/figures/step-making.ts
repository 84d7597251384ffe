import type { Step } from '../kernel/fitting/step.ts';
import { CORNERS, FACES, growSection, type Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import {
  drawArcArrow,
  drawArrow,
  drawBoard,
  drawSection,
  drawSpan,
  drawTape,
  fillWith,
  fitInto,
  PICTURE
} from './step-ink.ts';
import { unrollFaces } from './unroll.ts';

/** The pictures of making a straight; mm on paper, y down. */

/** Drawn thickness of board, where it is seen from its edge. */
const THICK = 3.2;

/** The blanks side by side, with arrows as long as they are wide and long. */
export function drawBlanks({ makeUp, length }: Straight): Item[] {
  const gap = Math.max(length, ...makeUp.blanks.map(({ width }) => width)) / 15;
  let left = 0;
  const outlines = makeUp.blanks.map(({ width }) => {
    const box = boxPoints(left, 0, left + width, length);
    left += width + gap;
    return box;
  });
  const placed = fitInto(outlines, [4.5, 1, 33, 16]);
  const [first, last] = [placed[0]!, placed[placed.length - 1]!];
  const [west, north] = first[0]!;
  const [east, south] = last[2]!;
  return [
    ...placed.flatMap((outline) => drawBoard(outline)),
    ...drawSpan([west, south + 2], [east, south + 2]),
    ...drawSpan([west - 2, north], [west - 2, south])
  ];
}

/** The blank seen from its end, inside up: a groove where it folds, half a groove at both edges. */
export function drawGrooves(step: Step, straight: Straight): Item[] {
  const walls = step.data['walls'] as readonly Face[];
  const [before, after] = [Number(step.data['before']), Number(step.data['after'])];
  const { faces } = unrollFaces(straight);
  const widths = walls.map((wall) => {
    const { from, to } = faces.find(({ face }) => face === wall)!;
    return to - from;
  });
  const [left, right] = [1.5, PICTURE.width - 1.5];
  const scale = (right - left) / widths.reduce((sum, width) => sum + width, 0);
  const [inside, facing] = [PICTURE.height / 2 - THICK, PICTURE.height / 2 + THICK];
  // Grooves are drawn as wide as the board is thick, beyond scale, or they would not be seen.
  const thick = facing - inside;
  const wide = (share: number): number =>
    Math.min((thick * share) / straight.thickness, Math.min(...widths) * scale * 0.4);
  let at = left;
  const items = widths.flatMap((width): Item[] => {
    const [start, end] = [at, at + width * scale];
    at = end;
    return drawBoard(
      before === after
        ? [
            [start, facing],
            [start + wide(after), inside],
            [end - wide(before), inside],
            [end, facing]
          ]
        : [
            [start + wide(after), facing],
            [start + wide(after), inside],
            [end - wide(before), inside],
            [end - wide(before), (inside + facing) / 2],
            [end, (inside + facing) / 2],
            [end, facing]
          ],
      'narrow'
    );
  });
  return [
    ...items,
    drawLine(
      [
        [left, facing],
        [right, facing]
      ],
      'visible'
    )
  ];
}

/** The edge of the blank with the flap: the wool comes off, the facing stays. */
export function drawFlap(): Item[] {
  const [edge, end, facing, inside] = [17, 32, 14, 8];
  return [
    ...drawBoard(
      [
        [2, facing],
        [2, inside],
        [edge - 6, inside],
        [edge, facing]
      ],
      'narrow'
    ),
    drawLine(
      [
        [2, facing],
        [end, facing]
      ],
      'visible'
    ),
    drawClosed(
      [
        [edge - 4, inside - 4],
        [end, inside - 4],
        [end, facing - 4],
        [edge + 2, facing - 4]
      ],
      'hidden'
    ),
    ...drawArrow([25, inside], [25, 1])
  ];
}

/**
 * The section while it is folded, seen from its end: of one blank the last wall still stands open, of several each is
 * drawn off the others.
 */
export function drawFolding({ makeUp, section, thickness }: Straight): Item[] {
  const { width, height } = growSection(section, thickness);
  const corner: Record<(typeof CORNERS)[number], Point> = {
    'top-left': [-width / 2, -height / 2],
    'top-right': [width / 2, -height / 2],
    'bottom-right': [width / 2, height / 2],
    'bottom-left': [-width / 2, height / 2]
  };
  const wallOf = (face: Face): [Point, Point] => {
    const i = FACES.indexOf(face);
    return [corner[CORNERS[i]!], corner[CORNERS[(i + 1) % 4]!]];
  };
  const single = makeUp.blanks.length === 1;
  const apart = Math.min(width, height) * 0.25;
  const lines = makeUp.blanks.map(({ walls }) => {
    const points = [wallOf(walls[0]!)[0], ...walls.map((wall) => wallOf(wall)[1])];
    if (single) return swingLast(points);
    const [x, y] = [0, 1].map((axis) => points.reduce((sum, point) => sum + point[axis]!, 0));
    return points.map((point): Point => [point[0] + Math.sign(x!) * apart, point[1] + Math.sign(y!) * apart]);
  });
  const placed = fitInto(lines, [7, 2.5, 27, 18.5]);
  return placed.flatMap((points) => {
    const [hinge, tip] = [points[points.length - 2]!, points[points.length - 1]!];
    return [
      drawLine(points, 'visible'),
      ...points.slice(1, -1).map((point) => drawClosed(boxAround(point, 0.6), 'narrow')),
      ...(single && points.length > 2 ? closeArrow(hinge, tip, points[0]!) : [])
    ];
  });
}

/** Both diagonals of an end. */
export function drawDiagonals({ section, thickness }: Straight): Item[] {
  const outside = growSection(section, thickness);
  const ring = drawSection(outside, [3, 1.5, 31, 18.5]);
  const [a, b, c, d] = ring.outer as [Point, Point, Point, Point];
  return [...ring.items, ...drawSpan(a, c), ...drawSpan(b, d)];
}

/** The seam from above: staples through the flap in a row, none near a mark but one on either side of it. */
export function drawStaples(step: Step): Item[] {
  const marked = Number(step.data['marks']) > 0;
  const seam = drawSeam();
  const staples = marked ? [4, 8, 12, 22, 26, 30] : [4, 8, 12, 17, 22, 26, 30];
  return [
    ...seam,
    ...staples.map((x) =>
      drawLine(
        [
          [x - 1, 10],
          [x + 1, 10]
        ],
        'cut'
      )
    ),
    ...(marked
      ? [
          drawLine(
            [
              [19, 1.5],
              [15, 18.5]
            ],
            'narrow'
          )
        ]
      : [])
  ];
}

/** The seam from above, under its tape as far as that is laid. */
export function drawSeamTape(): Item[] {
  return [...drawSeam(), ...drawTape(boxPoints(1.5, 4, 24, 15)), ...drawArrow([25.5, 9.5], [31, 9.5])];
}

/** A corner of the duct along its length: the seam and the edge of the flap under the facing's outside. */
function drawSeam(): Item[] {
  return [
    fillWith('board', boxPoints(1.5, 1.5, 32.5, 18.5)),
    drawLine(
      [
        [1.5, 6.5],
        [32.5, 6.5]
      ],
      'visible'
    ),
    drawLine(
      [
        [1.5, 12.5],
        [32.5, 12.5]
      ],
      'hidden'
    )
  ];
}

function boxAround([x, y]: Point, half: number): Point[] {
  return boxPoints(x - half, y - half, x + half, y + half);
}

/** The last wall of a folded line swung out about its fold. */
function swingLast(points: readonly Point[]): Point[] {
  if (points.length < 3) return [...points];
  const [hinge, tip] = [points[points.length - 2]!, points[points.length - 1]!];
  const [dx, dy] = [tip[0] - hinge[0], tip[1] - hinge[1]];
  const [cosine, sine] = [Math.cos(0.6), Math.sin(0.6)];
  // Walls run clockwise on paper, so outward is counter-clockwise.
  return [...points.slice(0, -1), [hinge[0] + dx * cosine + dy * sine, hinge[1] - dx * sine + dy * cosine]];
}

/** From where the last wall stands to the seam that it closes. */
function closeArrow(hinge: Point, tip: Point, seam: Point): Item[] {
  const angle = ([x, y]: Point): number => (Math.atan2(hinge[1] - y, x - hinge[0]) * 180) / Math.PI;
  const [from, to] = [angle(tip), angle(seam)];
  const turn = ((to - from + 540) % 360) - 180;
  const radius = Math.hypot(tip[0] - hinge[0], tip[1] - hinge[1]) * 0.75;
  return drawArcArrow(hinge, radius, radius, from + turn * 0.15, from + turn * 0.85);
}
