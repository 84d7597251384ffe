import { clipItems, clipLine } from './clip.ts';
import type { Box, Figure, Item, LineKind, Point, Stroke, Text } from './figure.ts';
import { boxPoints, drawLine } from './ink.ts';
import { styleCut, type LaidStraight } from './laid-straight.ts';
import { LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import { listLabels, placeLabel } from './mark-labels.ts';
import { describeMark } from './mark-lines.ts';
import { keepOffLine, placeText, startRoom, type Room } from './room.ts';
import {
  labelLineMark,
  nameCorners,
  nameEnds,
  nameFaces,
  nameFlaps,
  nameOpenings,
  namePieces,
  nameSides,
  writeCorners
} from './template-labels.ts';
import { labelOutline, traceOutline } from './template-outline.ts';
import { drawCross } from './template-page.ts';
import type { Tile } from './tiles.ts';

/** Stations are ticked every so many mm, where inches are shown every two inches. */
const TICKS = { mm: 50, in: 50.8 } as const;
const TICK = 2.5;

/** Where a label is tried along a mark, as shares of what the page shows of it. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8];

/**
 * A page of the template of a straight, stations to the right. On the side that is up wide: marks, outlines of openings,
 * ends and seams of the whole; dashed: what comes through on the other side; narrow: the corners with station ticks;
 * crosses where pages meet. Texts stand on what the page shows. Meant for full size, scale 1.
 */
export function drawTemplate(laid: LaidStraight, manner: Manner, { window, crosses }: Tile): Figure {
  const { straight, side, whole, cuts } = laid;
  const { scale } = manner;
  const { cutLines, inside } = drawCuts(laid);
  const outline = drawOutline(laid);
  const lineMarks = laid.lineMarks.map(({ mark, line }): Stroke => ({
    ...drawLine(line, mark.kind === 'groove' ? 'fold' : 'cut'),
    about: { cut: mark.name, face: mark.face }
  }));
  const openings = laid.openings.map((cut) => traceOutline(cut, manner, window));
  const ticks = tickStations(laid, manner, window);
  const marks = clipItems(crosses.flatMap(drawCross(scale)), window);

  const room = startRoom(
    boxPoints(window.left * scale, window.top * scale, window.right * scale, window.bottom * scale)
  );
  const drawn = [
    ...clipItems([...cutLines, ...inside, ...outline, ...lineMarks, ...ticks.strokes], window),
    ...openings.flatMap((traced) => [
      ...traced.outline,
      ...traced.inside,
      ...traced.guides,
      ...traced.blades
    ]),
    ...marks
  ];
  for (const item of drawn) {
    const { points, closed } = item as Stroke;
    keepOffLine(room, closed ? [...points, points[0]!] : points, scale);
  }
  const labels: Item[] = [
    ...cuts.flatMap((cut) => writeCorners(cut, manner, room)),
    ...cuts.flatMap(({ cut, marks: own }) =>
      own.flatMap(({ face, outer, inner, held }) => {
        const [from, to] = styleCut(side, held.bevel).outer === 'cut' ? outer : inner;
        const part = clipLine(from, to, window);
        if (!part) return [];
        for (const label of listLabels(cut.name, held, manner)) {
          const about = { cut: cut.name, face };
          const items = placeLabel(label, part, straight.length, about, scale, room, PLACES);
          if (items) return items;
        }
        return [];
      })
    ),
    ...openings.flatMap((traced) => labelOutline(traced, manner, window, room)),
    ...laid.lineMarks.flatMap(({ mark, line }) =>
      labelLineMark(describeMark(mark, manner), line, mark, manner, window, room)
    ),
    ...(whole ? [] : nameSides(laid, manner, window, room)),
    ...nameFaces(laid, manner, window, room),
    ...(whole
      ? [nameOpenings, namePieces, nameEnds].flatMap((name) => name(laid, manner, window, room))
      : []),
    ...[nameCorners, nameFlaps].flatMap((name) => name(laid, manner, window, room)),
    ...ticks.write(room)
  ];
  const fills = laid.pieces.map(({ piece, outer: points }): Item => ({
    kind: 'fill',
    fill: { piece: laid.first + straight.pieces.indexOf(piece) },
    points,
    about: { piece: piece.name }
  }));
  return {
    layers: [
      { name: 'pieces', items: clipItems(fills, window) },
      ...openings.map(({ air }) => ({ name: 'air', items: air })),
      { name: 'outline', items: clipItems(outline, window) },
      { name: 'ticks', items: clipItems(ticks.strokes, window) },
      { name: 'guides', items: openings.flatMap(({ guides }) => guides) },
      {
        name: 'inside',
        items: [...clipItems(inside, window), ...openings.flatMap((traced) => traced.inside)]
      },
      {
        name: 'cuts',
        items: [
          ...clipItems([...cutLines, ...lineMarks], window),
          ...openings.flatMap((traced) => traced.outline)
        ]
      },
      { name: 'blades', items: openings.flatMap(({ blades }) => blades) },
      { name: 'crosses', items: marks },
      { name: 'labels', items: labels }
    ]
  };
}

/** The cuts, their lines on the facing and on the inside, each as the side that is up has it. */
function drawCuts({ cuts, side }: LaidStraight): { cutLines: Stroke[]; inside: Stroke[] } {
  const lines = cuts.flatMap(({ cut, marks }) =>
    marks.map(({ face, outer, inner, held }) => ({
      outer,
      inner,
      about: { cut: cut.name, face },
      styles: styleCut(side, held.bevel)
    }))
  );
  return {
    cutLines: lines.map(({ outer, about, styles }) => ({ ...drawLine(outer, styles.outer), about })),
    inside: lines.flatMap(({ inner, about, styles }) =>
      styles.inner ? [{ ...drawLine(inner, styles.inner), about }] : []
    )
  };
}

/** Corners, ends and flaps; of the whole the seams wide, as its ends are. */
function drawOutline({ straight, whole, height, corners, flaps }: LaidStraight): Stroke[] {
  const last = corners.length - 1;
  const isEdge = (i: number): boolean => whole && (i === 0 || i === last || corners[i]!.seam);
  const level = (y: number, line: LineKind): Stroke =>
    drawLine(
      [
        [0, y],
        [straight.length, y]
      ],
      line
    );
  return [
    ...corners.map(({ y }, i) => level(y, isEdge(i) ? 'visible' : 'fold')),
    ...[0, straight.length].map((x) =>
      drawLine(
        [
          [x, 0],
          [x, height]
        ],
        'visible'
      )
    ),
    ...flaps.map(({ points }) => drawLine(points, points.length > 2 ? 'visible' : 'phantom'))
  ];
}

/** Ticks on the corner lines at round stations, with their figures. */
function tickStations(
  { straight, corners }: LaidStraight,
  { scale, say }: Manner,
  { left, right, top, bottom }: Box
): { strokes: Stroke[]; write: (room: Room) => Text[] } {
  const pitch = say.unit === 'in' ? TICKS.in : TICKS.mm;
  const first = Math.ceil(Math.max(left, 0) / pitch);
  const last = Math.floor(Math.min(right, straight.length) / pitch);
  const stations = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * pitch);
  const at = corners
    .filter(({ y }) => y > top && y < bottom)
    .flatMap(({ y }) => stations.map((x): Point => [x, y]));
  return {
    strokes: at.map(([x, y]) =>
      drawLine([
        [x, y - TICK / scale],
        [x, y + TICK / scale]
      ])
    ),
    write: (room) =>
      at.flatMap(([x, y]) => {
        const spots = [-1, 1].map((beside) => ({
          at: [x, y + (beside * (TICK + LETTERING.figures)) / scale] as Point,
          anchor: 'middle' as const
        }));
        return placeText(room, scale, { text: say.figure(x), height: LETTERING.figures }, spots) ?? [];
      })
  };
}
