import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPanelBodies, type PanelBody } from '../kernel/fitting/fitting.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import type { Vec3 } from '../kernel/geometry/vector.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed } from './ink.ts';
import { drawArrow, drawBoard, drawTape, PICTURE, writeOn } from './step-ink.ts';

/** The pictures of panels that are joined: corners and caps cut across, collars cut lengthwise; mm on paper, y down. */

/** How far along a joint is. */
export type JointState = 'glue' | 'join' | 'tape';

/** Drawn thickness of board, and the steepest slope that is drawn, as a tangent. */
const THICK = 3.2;
const STEEPEST = 0.11;

/** Inner faces of a duct that is cut lengthwise. */
const INNER = { top: 7.2, bottom: 12.8 } as const;
const [PAGE_LEFT, PAGE_RIGHT] = [1.5, 32.5];

/** Two panels that meet at a corner of the duct, from its end: before they meet, or under their tape. */
export function drawCorner(step: Step, taped: boolean): Item[] {
  const apart = taped ? 0 : 3;
  const [right, top, far] = [24, 3.5, 4];
  const lying: Point[] = [
    [2, top],
    [right - apart, top],
    [right - apart - far, top + far],
    [2, top + far]
  ];
  const standing: Point[] = [
    [right + apart, top],
    [right + apart, 18.5],
    [right + apart - far, 18.5],
    [right + apart - far, top + far]
  ];
  const names = [
    writeOn(step.pieces[0] ?? '', [8, top + far + 2.6], { width: 12 }),
    writeOn(step.pieces[1] ?? '', [right + apart - far - 1.2, 15.5], { width: 8, anchor: 'end' })
  ].filter(({ text }) => text !== '');
  const boards = [...drawBoard(lying), ...drawBoard(standing), ...names];
  if (taped) {
    return [
      ...boards,
      ...drawTape([
        [15, top],
        [15, top - 1],
        [right + 1, top - 1],
        [right + 1, top + 9],
        [right, top + 9],
        [right, top]
      ])
    ];
  }
  // The glue lies near the inner faces.
  const bead: Point[] = [
    [right - apart - far + 0.4, top + far - 1.6],
    [right - apart - far + 1.6, top + far - 1.6],
    [right - apart - far + 1.2, top + far - 0.4],
    [right - apart - far + 0.4, top + far - 0.4]
  ];
  return [
    ...boards,
    drawClosed(bead, 'cut'),
    ...drawArrow([9, top + far / 2], [15, top + far / 2]),
    ...drawArrow([33, 11.5], [right + apart + 0.8, 11.5])
  ];
}

/**
 * A collar and the panels at its end, cut lengthwise, the slopes of two opposite walls as they run: inside flush, outside
 * a small step. The collar at the inlet comes from the left, the one at the outlet goes to the right.
 */
export function drawCollar(step: Step, { fitting }: BuiltModel, state: JointState): Item[] {
  const panels = listPanelBodies(fitting).filter(({ name }) => step.pieces.includes(name));
  const isInlet = fitting.ports.some(({ name, body }) => name === 'inlet' && step.pieces.includes(body));
  const slopes = findSlopes(panels);
  const gap = state === 'tape' ? 0 : 3;
  const [at, outward] = isInlet ? [13, -1] : [21, 1];
  const taperFrom = at - (outward * gap) / 2;
  const collarFrom = at + (outward * gap) / 2;
  const collarTo = isInlet ? PAGE_LEFT : PAGE_RIGHT;
  const taperTo = isInlet ? PAGE_RIGHT : PAGE_LEFT;
  const walls = (['top', 'bottom'] as const).map((side, i) => {
    const [inner, out] = [INNER[side], side === 'top' ? -1 : 1];
    // Both slopes are told as they rise to the right, up.
    const rise = slopes[i]!;
    const thick = THICK * Math.hypot(1, rise);
    const level = (x: number): number => inner - rise * (x - taperFrom);
    return {
      inner,
      out,
      collar: boxPoints(
        Math.min(collarFrom, collarTo),
        Math.min(inner, inner + out * THICK),
        Math.max(collarFrom, collarTo),
        Math.max(inner, inner + out * THICK)
      ),
      taper: [
        [taperFrom, inner],
        [taperTo, level(taperTo)],
        [taperTo, level(taperTo) + out * thick],
        [taperFrom, inner + out * thick]
      ] as Point[],
      tape: [
        [at + outward * 5, inner + out * THICK],
        [at, inner + out * thick],
        [at - outward * 5, level(at - outward * 5) + out * thick],
        [at - outward * 5, level(at - outward * 5) + out * (thick + 0.9)],
        [at, inner + out * (thick + 0.9)],
        [at + outward * 5, inner + out * (THICK + 0.9)]
      ] as Point[]
    };
  });
  const boards = walls.flatMap(({ collar, taper }) => [...drawBoard(collar), ...drawBoard(taper)]);
  if (state === 'tape') return [...boards, ...walls.flatMap(({ tape }) => drawTape(tape))];
  if (state === 'glue') {
    return [
      ...boards,
      ...walls.map(({ inner, out }) => {
        const [near, far] = [collarFrom - outward * 0.3, collarFrom - outward * 0.9];
        const [low, high] = [inner + out * 0.3, inner + out * 1.7];
        return drawClosed(
          boxPoints(Math.min(near, far), Math.min(low, high), Math.max(near, far), Math.max(low, high)),
          'cut'
        );
      })
    ];
  }
  const middle = (INNER.top + INNER.bottom) / 2;
  return [
    ...boards,
    ...drawArrow([at + outward * 9, middle], [at + outward * 3, middle]),
    ...drawArrow([at - outward * 9, middle], [at - outward * 3, middle])
  ];
}

/** The end of a duct cut lengthwise, and the panel that closes it: inside, flush with the end, or on it. */
export function drawCap(step: Step, { fitting }: BuiltModel, state: JointState): Item[] {
  const items = drawCapDownstream(step.data['set'] === 'on', state);
  const panel = listPanelBodies(fitting).find(({ name }) => step.pieces.includes(name));
  const straight = fitting.straights.find(({ pieces }) =>
    pieces.some(({ name }) => step.pieces.includes(name))
  );
  const isUpstream = panel && straight && panel.placement.t[0] < straight.length / 2;
  return isUpstream ? items.map(mirrorItem) : items;
}

function drawCapDownstream(isOn: boolean, state: JointState): Item[] {
  const [top, bottom] = [3, 17];
  const end = 20;
  const away = state === 'tape' ? 0 : 5;
  const cap = isOn
    ? boxPoints(end + away, top, end + away + THICK, bottom)
    : boxPoints(end - THICK + away, top + THICK, end + away, bottom - THICK);
  const boards = [
    ...drawBoard(boxPoints(PAGE_LEFT, top, end, top + THICK)),
    ...drawBoard(boxPoints(PAGE_LEFT, bottom - THICK, end, bottom)),
    ...drawBoard(cap)
  ];
  const sides = [
    { outer: top, inner: top + THICK, out: -1 },
    { outer: bottom, inner: bottom - THICK, out: 1 }
  ];
  if (state === 'tape') {
    // Round the edge: along the wall, and over what closes it.
    const over = isOn ? end + THICK : end;
    return [
      ...boards,
      ...sides.flatMap(({ outer, out }) =>
        drawTape([
          [over - 8, outer],
          [over - 8, outer + out * 0.9],
          [over + 0.9, outer + out * 0.9],
          [over + 0.9, outer - out * 6],
          [over, outer - out * 6],
          [over, outer]
        ])
      )
    ];
  }
  if (state === 'glue') {
    return [
      ...boards,
      ...sides.map(({ inner, out }) => {
        const [near, far] = isOn ? [end + 0.3, end + 0.9] : [end - 2.6, end - 0.9];
        const [low, high] = isOn
          ? [inner + out * 0.4, inner + out * 1.7]
          : [inner - out * 0.9, inner - out * 0.3];
        return drawClosed(boxPoints(near, Math.min(low, high), far, Math.max(low, high)), 'cut');
      })
    ];
  }
  return [...boards, ...drawArrow([33.2, 10], [end + away + (isOn ? THICK : 0) + 0.8, 10])];
}

/** The same seen from the other side; none of it is text. */
function mirrorItem(item: Item): Item {
  if (item.kind === 'text') return item;
  return { ...item, points: item.points.map(([x, y]): Point => [PICTURE.width - x, y]) };
}

/** How the first pair of opposite walls that slopes rises to the right, top (left) and bottom (right); tangents. */
function findSlopes(panels: readonly PanelBody[]): readonly [number, number] {
  const pairs: readonly (readonly [Face, Face, (point: Vec3) => number])[] = [
    ['top', 'bottom', ([, y]) => y],
    ['left', 'right', ([, , z]) => -z]
  ];
  const told = pairs.map(([first, second, height]) =>
    [first, second].map((face) => {
      const body = panels.find(({ panel }) => panel.face === face);
      return body ? measureRise(body, height) : 0;
    })
  );
  const pair = told.find((rises) => rises.some((rise) => Math.abs(rise) > 1e-9)) ?? told[0]!;
  const [top, bottom] = pair.map((rise) => Math.max(-STEEPEST, Math.min(STEEPEST, rise)));
  return [top!, bottom!];
}

function measureRise({ panel, placement }: PanelBody, height: (point: Vec3) => number): number {
  const placed = panel.outer
    .map(([clockwise, downstream]) => movePoint(placement, [downstream, 0, clockwise]))
    .sort((a, b) => a[0] - b[0]);
  const [a, b] = [placed[0]!, placed[placed.length - 1]!];
  return (height(b) - height(a)) / (b[0] - a[0] || 1);
}
