import type { LineMark, Piece } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { clipLine } from './clip.ts';
import type { Box, Item, Point, Subject, Text } from './figure.ts';
import { listFacesIn, type LaidCut, type LaidStraight } from './laid-straight.ts';
import { LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import { measureLabel, placeRows, type Label } from './mark-labels.ts';
import { clipOutline } from './outline.ts';
import { placeText, type Room } from './room.ts';
import { isInside } from './template-outline-labels.ts';
import { boxPoints } from './ink.ts';
import type { Line } from './tiles.ts';

/** Where a text is tried across what a page shows, as shares of it. */
const LEVELS = [0.3, 0.5, 0.7, 0.15, 0.85];
const ALONG = [0.5, 0.25, 0.75, 0.1, 0.9];

/** The same along corner lines, where ticks stand close. */
const BETWEEN = Array.from({ length: 21 }, (_, i) => 0.5 + (i % 2 === 0 ? 0.02 : -0.02) * i);

/** From the edge of a page to a text, from a line to a label beside it, and from a corner line to its name, paper mm. */
const INSET = 3;
const BESIDE = [1.2, 4, 8] as const;
const OFF_CORNER = 2;

/** The stations where the mark meets the corners. */
export function writeCorners({ cut, marks }: LaidCut, { scale, say }: Manner, room: Room): Text[] {
  const ends = [marks[0]!.outer[0], ...marks.map(({ outer }) => outer[1])];
  return ends.flatMap(([x, y]) => {
    const spots = [
      [1, 1],
      [-1, 1],
      [1, -1],
      [-1, -1]
    ].flatMap(([right, down]) =>
      [1.5, 6].map((gap) => ({
        at: [x + (right! * gap) / scale, y + (down! * (LETTERING.figures + gap / 2)) / scale] as Point,
        anchor: right! > 0 ? ('start' as const) : ('end' as const)
      }))
    );
    const text = {
      text: say.figure(x),
      height: LETTERING.names,
      bold: true as const,
      about: { cut: cut.name }
    };
    return placeText(room, scale, text, spots) ?? [];
  });
}

/** What lies on either side of the cut, on every face in sight. */
export function nameSides(laid: LaidStraight, { scale, words }: Manner, window: Box, room: Room): Text[] {
  const { template } = speakOfPrint(words.language);
  const { pieces, cuts } = laid;
  const find = (end: 'startCut' | 'endCut'): Piece | undefined =>
    pieces.find(({ piece }) => piece[end] === cuts[0]!.cut)?.piece;
  const [near, far] = [find('endCut'), find('startCut')];
  const name = (piece: Piece | undefined): string => piece?.name ?? template.offcut;
  const write = (
    text: string,
    piece: Piece | undefined,
    x: number,
    anchor: Text['anchor'],
    levels: number[]
  ) => place(text, anchored(x, anchor, levels), scale, room, piece && { piece: piece.name });
  const [left, right] = spanOf(laid, window);
  return listFacesIn(laid, window).flatMap((face) => [
    ...write(template.upstream(name(near)), near, left + INSET / scale, 'start', listLevels(face)),
    ...write(template.downstream(name(far)), far, right - INSET / scale, 'end', listLevels(face))
  ]);
}

/** Which face it is, which side is up and where the air goes, on every face in sight. */
export function nameFaces(laid: LaidStraight, { scale, words }: Manner, window: Box, room: Room): Text[] {
  const { template } = speakOfPrint(words.language);
  const [left, right] = spanOf(laid, window);
  return listFacesIn(laid, window).flatMap(({ face, ...span }) => {
    const levels = listLevels(span);
    const spots = [
      ...anchored(left + INSET / scale, 'start', levels),
      ...anchored(right - INSET / scale, 'end', levels),
      ...anchored((left + right) / 2, 'middle', levels)
    ];
    const told = [template.face(words.faces[face]), template.up[laid.side]];
    return place([...told, template.flow].join(', '), spots, scale, room, { face });
  });
}

/** The names of openings, in what a page shows of them, as large as names of pieces. */
export function nameOpenings({ openings }: LaidStraight, { scale }: Manner, window: Box, room: Room): Text[] {
  return openings.flatMap(({ name, outer, about }) => {
    const text = { text: name, height: LETTERING.names, bold: true as const, about };
    return placeText(room, scale, text, listSpots(outer, window)) ?? [];
  });
}

/** The names of the pieces, on every face in sight. */
export function namePieces(laid: LaidStraight, { scale }: Manner, window: Box, room: Room): Text[] {
  const [left, right] = spanOf(laid, window);
  return listFacesIn(laid, window).flatMap(({ face, top, bottom }) =>
    laid.pieces.flatMap(({ piece, outer }) => {
      const spots = listSpots(outer, { left, top, right, bottom }).filter(
        ({ at }) => !laid.openings.some((opening) => isInside(at, opening.outer))
      );
      const about = { piece: piece.name, face };
      const text = { text: piece.name, height: LETTERING.names, bold: true as const, about };
      return placeText(room, scale, text, spots) ?? [];
    })
  );
}

/** Which end of the straight is which, on every face in sight. */
export function nameEnds(laid: LaidStraight, { scale, words }: Manner, window: Box, room: Room): Text[] {
  const { template } = speakOfPrint(words.language);
  const { length } = laid.straight;
  const ends = [
    { x: 0, text: template.datumEnd, at: INSET / scale, anchor: 'start' as const },
    { x: length, text: template.farEnd, at: length - INSET / scale, anchor: 'end' as const }
  ];
  return ends
    .filter(({ x }) => x >= window.left && x <= window.right)
    .flatMap(({ text, at, anchor }) =>
      listFacesIn(laid, window).flatMap((face) =>
        place(text, anchored(at, anchor, listLevels(face)), scale, room)
      )
    );
}

/** The names of the corners, along their lines. */
export function nameCorners(laid: LaidStraight, { scale, words }: Manner, window: Box, room: Room): Text[] {
  const [left, right] = spanOf(laid, window);
  return laid.corners
    .filter(({ y }) => y >= window.top && y <= window.bottom)
    .flatMap(({ corner, y }) => {
      const spots = BETWEEN.flatMap((share) =>
        [-1, 1].map((side) => ({
          at: [left + share * (right - left), y + (side * OFF_CORNER) / scale] as Point,
          anchor: 'middle' as const
        }))
      );
      const text = speakOfPrint(words.language).template.corner(words.corners[corner]);
      return placeText(room, scale, { text, height: LETTERING.labels }, spots) ?? [];
    });
}

/** That a flap is one, on what a page shows of it. */
export function nameFlaps(laid: LaidStraight, { scale, words }: Manner, window: Box, room: Room): Text[] {
  const [left, right] = spanOf(laid, window);
  return laid.flaps.flatMap(({ y }) => {
    const spots = ALONG.map((share) => ({
      at: [left + share * (right - left), y] as Point,
      anchor: 'middle' as const
    }));
    return place(words.paper.marks.flap, spots, scale, room);
  });
}

/** What a line mark is, beside what a page shows of it, or less of that where there is little room. */
export function labelLineMark(
  label: Label,
  line: Line,
  { name, face }: LineMark,
  { scale }: Manner,
  window: Box,
  room: Room
): Item[] {
  const part = clipLine(line[0], line[1], window);
  if (!part) return [];
  const [from, to] = part;
  for (const rows of [label, label.slice(0, 1)]) {
    const { width, height } = measureLabel(rows);
    const corners = ALONG.flatMap((share) => {
      const [x, y] = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])];
      return BESIDE.flatMap((gap): Point[] => [
        [x + gap / scale, y - height / 2 / scale],
        [x - (gap + width) / scale, y - height / 2 / scale],
        [x - width / 2 / scale, y + gap / scale],
        [x - width / 2 / scale, y - (gap + height) / scale]
      ]);
    });
    const items = placeRows(rows, corners, scale, { cut: name, face }, room);
    if (items) return items;
  }
  return [];
}

/** Where a name may stand on what a window shows of an outline: its middle, then half way to its corners. */
function listSpots(
  outline: readonly Point[],
  { left, top, right, bottom }: Box
): Pick<Text, 'at' | 'anchor'>[] {
  const shown = clipOutline(outline, boxPoints(left, top, right, bottom))[0] ?? [];
  const [x, y] = [0, 1].map((axis) => shown.reduce((sum, point) => sum + point[axis]! / shown.length, 0));
  return [[x, y] as Point, ...shown.map((corner): Point => [(corner[0] + x!) / 2, (corner[1] + y!) / 2])]
    .slice(0, shown.length)
    .map((at) => ({ at, anchor: 'middle' }));
}

/** From where to where a window shows the straight, stations. */
function spanOf({ straight }: LaidStraight, { left, right }: Box): [number, number] {
  return [Math.max(left, 0), Math.min(right, straight.length)];
}

function listLevels({ top, bottom }: { top: number; bottom: number }): number[] {
  return LEVELS.map((part) => top + part * (bottom - top));
}

function anchored(
  x: number,
  anchor: Text['anchor'],
  levels: readonly number[]
): Pick<Text, 'at' | 'anchor'>[] {
  return levels.map((y) => ({ at: [x, y], anchor }));
}

function place(
  text: string,
  spots: readonly Pick<Text, 'at' | 'anchor'>[],
  scale: number,
  room: Room,
  about?: Subject
): Text[] {
  const placed = placeText(
    room,
    scale,
    { text, height: LETTERING.figures, ...(about ? { about } : {}) },
    spots
  );
  return placed ? [placed] : [];
}
