import { SAME_BEVEL } from '../kernel/straight/board.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { clipLine } from './clip.ts';
import type { CutOutline, Guide } from './cut-outline.ts';
import type { OutlineEdge } from './edge-blade.ts';
import type { Box, Item, Point, Text } from './figure.ts';
import { boxPoints, drawLine } from './ink.ts';
import { findTextRoom, LETTERING, measureText } from './lettering.ts';
import type { Manner, Side } from './manner.ts';
import type { Room } from './room.ts';

/** The blade laid over at an edge, letters from its line, the arrow of the flow, from row to row; paper mm. */
export const GLYPH = { base: 4, reach: 8 } as const;
const OFF = 3.4;
const ARROW = 16;
const BARB = { length: 3, half: 1.2 } as const;
const ROW = 5;

/** How far a label may reach beyond its edge, paper mm. */
const OVERHANG = 12;

/** An edge as a page shows it: its middle is that of what is seen, which is so long, mm. */
export interface ShownEdge extends OutlineEdge {
  readonly shown: number;
}

/** The whole edge's length, its bevel and set-back, along it inside or outside, shorter where there is little room. */
export function labelEdge(edge: ShownEdge, { scale, words, say }: Manner, room: Room): Text[] {
  const { template } = speakOfPrint(words.language);
  const { marks } = words.paper;
  const isTilted = edge.bevel > SAME_BEVEL;
  const length = say.length(edge.length);
  const bevel = isTilted ? template.bevel(say.angle(edge.bevel)) : '';
  const setback = isTilted ? marks.setback(say.figure(edge.setback)) : '';
  const texts = [[length, bevel, setback], [length, bevel], [bevel || length]].map((parts) =>
    parts.filter((part) => part !== '').join(' · ')
  );
  for (const text of new Set(texts)) {
    const half = measureText(text, LETTERING.figures) / 2;
    const beside = half + GLYPH.reach / 2 + 2;
    // Beside what is seen of the edge, not beyond it.
    const most = (edge.shown * scale) / 2 + OVERHANG;
    const shifts = [1, -1, 2, -2, 1.5, -1.5].map((share) => share * beside);
    const spots = [-1, 1].flatMap((side) =>
      shifts
        .filter((shift) => Math.abs(shift) + half <= most)
        .map((shift): Text => ({
          kind: 'text',
          text,
          at: [
            edge.middle[0] + (edge.outward[0] * side * OFF + edge.along[0] * shift) / scale,
            edge.middle[1] + (edge.outward[1] * side * OFF + edge.along[1] * shift) / scale
          ],
          height: LETTERING.figures,
          anchor: 'middle',
          angle: edge.angle
        }))
    );
    const placed = placeAny(spots, scale, room);
    if (placed) return [placed];
  }
  return [];
}

/** What a middle line says, along it. */
export function labelGuide(
  { points, says, line }: Guide,
  { scale, words, say }: Manner,
  window: Box,
  room: Room
): Text[] {
  if (!says) return [];
  const part = clipLine(points[0], points[1], window);
  if (!part || line !== 'axis') return [];
  const { template } = speakOfPrint(words.language);
  const text =
    'station' in says
      ? template.station(say.length(says.station))
      : template.across(say.length(says.across), words.faces[says.edge]);
  const isUpright = 'station' in says;
  const spots = [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((share) =>
    [-1, 1].map((side): Text => {
      const [x, y] = [0, 1].map((axis) => part[0][axis]! + (part[1][axis]! - part[0][axis]!) * share);
      const aside = (side * OFF) / scale;
      return {
        kind: 'text',
        text,
        at: isUpright ? [x! + aside, y!] : [x!, y! + aside],
        height: LETTERING.figures,
        anchor: 'middle',
        ...(isUpright ? { angle: 90 } : {})
      };
    })
  );
  const placed = placeAny(spots, scale, room);
  return placed ? [placed] : [];
}

/** Name, face and which side is up, and the arrow of the flow, once on every page where there is room. */
export function nameOutline(
  { name, straight, face, diameter, about, outer }: CutOutline,
  side: Side,
  { scale, words, say }: Manner,
  window: Box,
  room: Room
): Item[] {
  const { template } = speakOfPrint(words.language);
  const { marks } = words.paper;
  const rows = [
    name,
    [...(face ? [template.face(words.faces[face])] : []), template.up[side]].join(', '),
    ...(diameter === null ? [] : [template.diameter(say.length(diameter))])
  ];
  const heights = rows.map((_, i) => (i === 0 ? LETTERING.title : LETTERING.figures));
  const width = Math.max(...rows.map((row, i) => measureText(row, heights[i]!, i === 0)), ARROW);
  const height = (rows.length + 1.6) * ROW;
  const shares = [0.5, 0.3, 0.7, 0.15, 0.85];
  // What is said of a panel stands on it where there is room.
  const isOnBoard = ([x, y]: Point): boolean =>
    straight !== null ||
    boxPoints(x, y, x + width / scale, y + height / scale).every((point) => isInside(point, outer));
  const places = shares.flatMap((down) =>
    shares.map((right): Point => [
      window.left + right * (window.right - window.left) - width / 2 / scale,
      window.top + down * (window.bottom - window.top) - height / 2 / scale
    ])
  );
  const corners = [...places.filter(isOnBoard), ...places.filter((place) => !isOnBoard(place))];
  const found = room.take(
    corners.map(([x, y]) => () => [boxPoints(x * scale, y * scale, x * scale + width, y * scale + height)])
  );
  const corner = corners[found];
  if (!corner) return [];
  const [left, top] = corner;
  const middle = left + width / 2 / scale;
  const level = top + ((rows.length + 0.7) * ROW) / scale;
  const tip: Point = [middle + ARROW / 2 / scale, level];
  return [
    ...rows.map((text, i): Item => ({
      kind: 'text',
      text,
      at: [middle, top + ((i + 0.5) * ROW) / scale],
      height: heights[i]!,
      anchor: 'middle',
      ...(i === 0 ? { bold: true as const } : {}),
      about
    })),
    drawLine([[middle - ARROW / 2 / scale, level], tip]),
    drawLine([
      [tip[0] - BARB.length / scale, level - BARB.half / scale],
      tip,
      [tip[0] - BARB.length / scale, level + BARB.half / scale]
    ]),
    {
      kind: 'text',
      text: marks.flow,
      at: [middle, level + (0.7 * ROW) / scale],
      height: LETTERING.labels,
      anchor: 'middle'
    }
  ];
}

/** Whether a point lies inside an outline: a ray from it crosses the outline an odd number of times. */
export function isInside([x, y]: Point, outline: readonly Point[]): boolean {
  const crossed = outline.filter(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    return ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay);
  });
  return crossed.length % 2 === 1;
}

function placeAny(texts: readonly Text[], scale: number, room: Room): Text | null {
  const found = room.take(texts.map((text) => () => [findTextRoom(text, scale)]));
  return texts[found] ?? null;
}
