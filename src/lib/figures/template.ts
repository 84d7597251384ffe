import { markCut, type Cut } from '../kernel/straight/cut.ts';
import { growSection } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { clipItems } from './clip.ts';
import type { Box, Figure, Item, Layer, Point, Stroke, Text } from './figure.ts';
import { LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import { listLabels, placeLabel } from './mark-labels.ts';
import { placeText, startRoom, type Room } from './room.ts';
import { findSides, nameSides, writeCorners } from './template-labels.ts';
import type { Line, Tile } from './tiles.ts';
import { unrollCut, unrollFaces, unrollInside, unrollPiece } from './unroll.ts';

/** Stations are ticked every so many mm, where inches are shown every two inches. */
const TICKS = { mm: 50, in: 50.8 } as const;
const TICK = 2.5;
const CROSS = 4;

/** Without a tile the strip reaches so far beyond the mark, mm. */
const BEYOND = 40;

/** What a template of a cut has to show: the mark, and where it comes through on the inside, face by face. */
export function listTemplateLines(straight: Straight, cut: Cut): Line[] {
  const mark = unrollCut(straight, cut);
  return [...mark.slice(1).map((point, i): Line => [mark[i]!, point]), ...unrollInside(straight, cut)];
}

/**
 * The template of a cut: the strip of the unrolled faces along it, outside up, stations to the right, frame as in the
 * marks figure; a tile of it, or the whole. Wide: the mark; dashed: the line on the inside; narrow: the corners with
 * station ticks; crosses where pages meet. Meant for full size, scale 1. `first` is the place of the straight's first
 * piece in the fitting.
 */
export function drawTemplate(straight: Straight, cut: Cut, manner: Manner, tile?: Tile, first = 0): Figure {
  const { scale } = manner;
  const { window, crosses } = tile ?? { window: findStrip(straight, cut), crosses: [] };
  const index = straight.cuts.indexOf(cut);
  const mark = unrollCut(straight, cut);
  const { edges, faces } = unrollFaces(straight);
  const outside = growSection(straight.section, straight.thickness);
  const marks = markCut(cut, outside, straight.thickness);

  const cutLines = faces.map(({ face }, i): Stroke => ({
    kind: 'stroke',
    line: 'cut',
    points: [mark[i]!, mark[i + 1]!],
    about: { cut: cut.name, face }
  }));
  const inside = unrollInside(straight, cut)
    .map((points, i): Stroke => ({
      kind: 'stroke',
      line: 'hidden',
      points,
      about: { cut: cut.name, face: faces[i]!.face }
    }))
    .filter((_, i) => marks[i]!.bevel > 0);
  const folds = edges.map((y): Stroke => ({
    kind: 'stroke',
    line: 'fold',
    points: [
      [0, y],
      [straight.length, y]
    ]
  }));
  const ends = [0, straight.length].map((x): Stroke => ({
    kind: 'stroke',
    line: 'visible',
    points: [
      [x, 0],
      [x, edges[edges.length - 1]!]
    ]
  }));
  const ticks = tickStations(straight, manner, window);

  const room = startRoom(cornersOf(window, scale));
  const drawn = [...cutLines, ...inside, ...folds, ...ticks.strokes, ...crosses.flatMap(drawCross(scale))];
  for (const { points } of drawn) room.keep(points.map(([x, y]): Point => [x * scale, y * scale]));
  const labels = [
    ...writeCorners(mark, cut, manner, room),
    ...faces.flatMap(({ from, to }, i) => {
      // A label stands on the part of the face that this page shows.
      const [top, bottom] = [Math.max(from, window.top), Math.min(to, window.bottom)];
      if (bottom <= top) return [];
      const places = [0.5, 0.35, 0.65, 0.2, 0.8].map(
        (part) => (top + part * (bottom - top) - from) / (to - from)
      );
      for (const label of listLabels(cut.name, marks[i]!, manner)) {
        const items = placeLabel(straight, i, index, label, manner, room, places);
        if (items) return items;
      }
      return [];
    }),
    ...nameSides(straight, cut, manner, window, room),
    ...ticks.write(room)
  ];
  const layers: Layer[] = [
    { name: 'pieces', items: clipItems(fillSides(straight, cut, first), window) },
    { name: 'outline', items: clipItems([...folds, ...ends], window) },
    { name: 'ticks', items: clipItems(ticks.strokes, window) },
    { name: 'inside', items: clipItems(inside, window) },
    { name: 'cuts', items: clipItems(cutLines, window) },
    { name: 'crosses', items: crosses.flatMap(drawCross(scale)) },
    { name: 'labels', items: labels }
  ];
  return { layers };
}

function findStrip(straight: Straight, cut: Cut): Box {
  const stations = unrollCut(straight, cut).map(([x]) => x);
  const { edges } = unrollFaces(straight);
  return {
    left: Math.min(...stations) - BEYOND,
    right: Math.max(...stations) + BEYOND,
    top: -BEYOND / 2,
    bottom: edges[edges.length - 1]! + BEYOND / 2
  };
}

function cornersOf({ left, top, right, bottom }: Box, scale: number): Point[] {
  return [
    [left * scale, top * scale],
    [right * scale, top * scale],
    [right * scale, bottom * scale],
    [left * scale, bottom * scale]
  ];
}

function fillSides(straight: Straight, cut: Cut, first: number): Item[] {
  const { near, far } = findSides(straight, cut);
  return [near, far].flatMap((piece): Item[] => {
    if (!piece) return [];
    const { start, end } = unrollPiece(straight, piece);
    const fill = { piece: first + straight.pieces.indexOf(piece) };
    return [{ kind: 'fill', fill, points: [...start, ...end.reverse()], about: { piece: piece.name } }];
  });
}

/** Ticks on the corner lines at round stations, with their figures. */
function tickStations(
  straight: Straight,
  { scale, say }: Manner,
  { left, right, top, bottom }: Box
): { strokes: Stroke[]; write: (room: Room) => Text[] } {
  const pitch = say.unit === 'in' ? TICKS.in : TICKS.mm;
  const first = Math.ceil(Math.max(left, 0) / pitch);
  const last = Math.floor(Math.min(right, straight.length) / pitch);
  const stations = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * pitch);
  const at = unrollFaces(straight)
    .edges.filter((y) => y > top && y < bottom)
    .flatMap((y) => stations.map((x): Point => [x, y]));
  return {
    strokes: at.map(([x, y]) => ({
      kind: 'stroke',
      line: 'narrow',
      points: [
        [x, y - TICK / scale],
        [x, y + TICK / scale]
      ]
    })),
    write: (room) =>
      at.flatMap(([x, y]) => {
        const spots = [-1, 1].map((side) => ({
          at: [x, y + (side * (TICK + LETTERING.figures)) / scale] as Point,
          anchor: 'middle' as const
        }));
        return placeText(room, scale, { text: say.figure(x), height: LETTERING.figures }, spots) ?? [];
      })
  };
}

/** A cross where pages meet. */
export function drawCross(scale: number): (at: Point) => Stroke[] {
  const arm = CROSS / scale;
  return ([x, y]) => [
    {
      kind: 'stroke',
      line: 'narrow',
      points: [
        [x - arm, y],
        [x + arm, y]
      ]
    },
    {
      kind: 'stroke',
      line: 'narrow',
      points: [
        [x, y - arm],
        [x, y + arm]
      ]
    }
  ];
}
