import type { Step } from '../kernel/fitting/step.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Words } from '../words/words.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawLine } from './ink.ts';
import { drawArrow, drawBoard, fitInto, PICTURE, writeOn } from './step-ink.ts';
import { unrollCut, unrollFaces } from './unroll.ts';
import { unrollPoint } from './unroll-point.ts';

/** The pictures of marking and labelling; mm on paper, y down. */

/** The four faces unrolled with every mark, at one scale. */
export function drawAllMarks(straight: Straight): Item[] {
  const { edges } = unrollFaces(straight);
  const bottom = edges[edges.length - 1]!;
  const outline = boxPoints(0, 0, straight.length, bottom);
  const folds = edges.slice(1, -1).map((y): Point[] => [
    [0, y],
    [straight.length, y]
  ]);
  const onFaces = [...straight.marks, ...straight.openings].map((mark) => {
    const points = 'outer' in mark ? [...mark.outer, mark.outer[0]!] : [mark.from, mark.to];
    return points.map((point) => unrollPoint(straight, mark.face, point));
  });
  const [frame, ...lines] = fitInto(
    [outline, ...folds, ...straight.cuts.map((cut) => unrollCut(straight, cut)), ...onFaces],
    [1.5, 1, 32.5, 19]
  );
  return [
    ...drawBoard(frame!, 'narrow'),
    ...lines.map((points, i) => drawLine(points, i < folds.length ? 'fold' : 'cut'))
  ];
}

/** Two pieces from the side: TOP above the one that stays, below the one that will be rolled over. */
export function drawLabels(step: Step, words: Words): Item[] {
  const [staying, flipped] = ['staying', 'flipped'].map((key) => (step.data[key] as readonly string[])[0]);
  const pieces = [
    { name: staying, top: true },
    { name: flipped, top: false }
  ].filter(({ name }) => name !== undefined);
  const pitch = PICTURE.width / (pieces.length + 1);
  const [top, bottom] = [6.3, 14.3];
  return pieces.flatMap(({ name, top: up }, i): Item[] => {
    const middle = pitch * (i + 1) + (pieces.length > 1 ? (i - 0.5) * 5 : 0);
    return [
      ...drawBoard(boxPoints(middle - 7, top, middle + 7, bottom)),
      writeOn(name!, [middle, top + 2.6], { width: 12 }),
      ...drawArrow([middle - 4, bottom - 2], [middle + 4, bottom - 2]),
      writeOn(words.paper.top, [middle, up ? top - 2.6 : bottom + 2.8], { width: 14 })
    ];
  });
}
