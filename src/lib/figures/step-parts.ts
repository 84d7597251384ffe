import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPieceBodies } from '../kernel/fitting/fitting.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import { growSection } from '../kernel/straight/section.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints } from './ink.ts';
import { drawArrow, drawSection, drawTape, fitInto, PICTURE } from './step-ink.ts';

/** The pictures of ducts side by side, from their end, looking downstream; mm on paper, y down. */

/** Space between parts before they meet, and the arrows that press them together. */
const APART = 2;
const ARROW = 4;

/** How wide a strip of tape is drawn, and how thick. */
const TAPE = { half: 4, thick: 0.9 } as const;

/** The first pieces of the parts, pressed against each other. */
export function drawPartsJoining(step: Step, built: BuiltModel): Item[] {
  const { rings, stacked } = placeParts(step, built, APART);
  const [first, last] = [measureBox(rings[0]!), measureBox(rings[rings.length - 1]!)];
  const arrows = stacked
    ? [
        ...drawArrow([17, first.top - ARROW], [17, first.top - 0.7]),
        ...drawArrow([17, last.bottom + ARROW], [17, last.bottom + 0.7])
      ]
    : [
        ...drawArrow([first.left - ARROW, 10], [first.left - 0.7, 10]),
        ...drawArrow([last.right + ARROW, 10], [last.right + 0.7, 10])
      ];
  return [...rings.flatMap(drawRing), ...arrows];
}

/** The parts as one, strips of tape over where they meet. */
export function drawPartsTape(step: Step, built: BuiltModel): Item[] {
  const { rings, stacked } = placeParts(step, built, 0);
  const boxes = rings.map(measureBox);
  const tape = boxes.slice(1).flatMap(({ left, top, right, bottom }, i): Item[] => {
    const before = boxes[i]!;
    const half = stacked
      ? Math.min(TAPE.half, before.bottom - before.top, bottom - top)
      : Math.min(TAPE.half, before.right - before.left, right - left);
    const strips = stacked
      ? [
          boxPoints(left - TAPE.thick, top - half, left, top + half),
          boxPoints(right, top - half, right + TAPE.thick, top + half)
        ]
      : [
          boxPoints(left - half, top - TAPE.thick, left + half, top),
          boxPoints(left - half, bottom, left + half, bottom + TAPE.thick)
        ];
    return strips.flatMap(drawTape);
  });
  return [...rings.flatMap(drawRing), ...tape];
}

/** The ends of the parts at their datum, where they belong, `apart` mm of the picture between them. */
function placeParts(
  step: Step,
  { fitting }: BuiltModel,
  apart: number
): { rings: Point[][]; stacked: boolean } {
  const pieces = listPieceBodies(fitting);
  const named = pieces.filter(({ name }) => step.pieces.includes(name));
  // Left or top first, as they come on the picture.
  const parts = (named.length > 1 ? named : pieces)
    .filter(({ piece, placement }) => piece.from === 0 && Math.abs(placement.t[0]) < SAME_LENGTH)
    .sort(({ placement: { t: a } }, { placement: { t: b } }) => a[2] - a[1] - (b[2] - b[1]));
  const outlines = parts.map(({ straight, placement }) => {
    const { section, thickness } = fitting.straights.find(({ name }) => name === straight)!;
    const { width, height } = growSection(section, thickness);
    const [, y, z] = placement.t;
    return boxPoints(z - width / 2, -y - height / 2, z + width / 2, -y + height / 2);
  });
  const [first, second] = parts.map(({ placement: { t } }) => t);
  const stacked =
    first !== undefined &&
    second !== undefined &&
    Math.abs(second[1] - first[1]) > Math.abs(second[2] - first[2]);
  const room = 2 + (apart > 0 ? ARROW : 0) + (apart * (outlines.length - 1)) / 2;
  const placed = fitInto(
    outlines,
    stacked ? [4, room, PICTURE.width - 4, PICTURE.height - room] : [room, 2.5, PICTURE.width - room, 17.5]
  );
  const rings = placed.map((points, i) => {
    const shift = (i - (placed.length - 1) / 2) * apart;
    return points.map(([x, y]): Point => (stacked ? [x, y + shift] : [x + shift, y]));
  });
  return { rings, stacked };
}

function drawRing(outer: readonly Point[]): Item[] {
  const { left, top, right, bottom } = measureBox(outer);
  return drawSection({ width: right - left, height: bottom - top }, [left, top, right, bottom]).items;
}

function measureBox(points: readonly Point[]): { left: number; top: number; right: number; bottom: number } {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}
