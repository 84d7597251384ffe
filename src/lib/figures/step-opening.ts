import type { Step } from '../kernel/fitting/step.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import type { FacePoint, Opening, Straight } from '../kernel/straight/straight.ts';
import { formatAngle } from '../quantity/angle.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { drawBlade, fillWith, fitInto, writeOn } from './step-ink.ts';
import { unrollPoint } from './unroll-point.ts';
import { unrollFaces } from './unroll.ts';

/** How much of the face is shown before and behind an opening, as a share of its length. */
const AROUND = 0.35;

/**
 * An opening on its face, outside up, the datum end on the left, at one scale both ways: wide its outline on the facing,
 * dashed that on the inside where it is another; beside it the blade at its steepest edge, as it leans there.
 */
export function drawOpening(step: Step, straight: Straight): Item[] {
  const opening = findOpening(step, straight);
  const { from: top, to: bottom } = unrollFaces(straight).faces.find(({ face }) => face === opening.face)!;
  const place = (point: FacePoint): Point => unrollPoint(straight, opening.face, point);
  const stations = [...opening.outer, ...opening.inner].map(([station]) => station);
  const [from, to] = [Math.min(...stations), Math.max(...stations)];
  const around = (to - from) * AROUND;
  const [strip, outer, inner] = fitInto(
    [boxPoints(from - around, top, to + around, bottom), opening.outer.map(place), opening.inner.map(place)],
    [1.5, 2, 21, 18]
  ) as [Point[], Point[], Point[]];
  const [leftTop, rightTop, rightBottom, leftBottom] = strip as [Point, Point, Point, Point];
  const { bevel, lean } = findSteepest(opening);
  const foot: Point = [28, 17.5];
  return [
    fillWith('board', strip),
    drawLine([leftTop, rightTop], 'visible'),
    drawLine([leftBottom, rightBottom], 'visible'),
    fillWith('air', outer),
    ...(opening.edges.some((edge) => edge.bevel > SAME_BEVEL) ? [drawClosed(inner, 'hidden')] : []),
    drawClosed(outer, 'cut'),
    ...drawBlade(foot, bevel * lean),
    writeOn(opening.name, [foot[0], 3], { width: 11 }),
    writeOn(formatAngle(bevel), [foot[0], 6.8], { width: 11 })
  ];
}

/** The opening that the step names; where it names none, the straight's only one. */
function findOpening(step: Step, { openings, name }: Straight): Opening {
  const said = Object.values(step.data);
  const found = openings.find((opening) => said.includes(opening.name)) ?? openings[0];
  if (!found) throw new Error(`the straight ${name} has no opening for the picture of a step`);
  return found;
}

/** The steepest bevel of an opening's edges, degrees, and whether the blade's top leans downstream (1) or upstream. */
function findSteepest({ edges, outer, inner }: Opening): { bevel: number; lean: 1 | -1 } {
  const bevels = edges.map(({ bevel }) => bevel);
  const bevel = Math.max(...bevels);
  const at = bevels.indexOf(bevel);
  // The blade's point comes out on the inside outline, so its top leans the other way.
  return { bevel, lean: inner[at]![0] > outer[at]![0] ? -1 : 1 };
}
