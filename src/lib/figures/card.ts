import type { Straight, Piece } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Figure, Item, Point, Stroke, Text } from './figure.ts';
import { hatchPolygon } from './hatch.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import type { Manner } from './manner.ts';
import { keepOffLine, placeText, startRoom, type Outline, type Room } from './room.ts';
import { unrollPoint } from './unroll-point.ts';
import { listOffcuts, outlinePiece, outlineSpan, unrollCut, unrollFaces, unrollPiece } from './unroll.ts';

/** Sizes on paper, mm: the flap that is glued, the arrow of the flow, rows of a label, names outside the card. */
const FLAP = 8;
const ARROW = 9;
const BARB = { length: 2.6, half: 1 } as const;
const ROW = 1.5;
const MARGIN = 2;
const ABOVE = 2.4;

/** Where a label is tried on a face, as shares of its width. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8];

export interface Card {
  readonly figure: Figure;
  /** How many names and labels found no room. */
  readonly leftOut: number;
}

/**
 * A straight unrolled as a card to be folded into a model, in the frame of the marks figure: wide what is cut, narrow
 * what is folded, below the last face a flap that is glued under the first. Every piece has its name on every face, and
 * TOP with the arrow of the flow on the face that is up in the fitting: the bottom of a piece that is rolled over.
 */
export function drawCard(straight: Straight, manner: Manner, first = 0): Card {
  const { scale, words } = manner;
  const { edges, faces } = unrollFaces(straight);
  const bottom = edges[edges.length - 1]!;
  const flap = Math.min(FLAP / scale, edges[1]! / 2);
  const cuts = straight.cuts.map((cut) => extendCut(unrollCut(straight, cut), bottom, flap));
  const folds = edges.slice(1).map((y) =>
    drawLine(
      [
        [0, y],
        [straight.length, y]
      ],
      'fold'
    )
  );
  const outline = drawClosed(boxPoints(0, 0, straight.length, bottom + flap), 'cut');
  const openings = straight.openings.map(({ face, outer }) =>
    drawClosed(
      outer.map((point) => unrollPoint(straight, face, point)),
      'cut'
    )
  );

  const room = startRoom();
  const closed = [outline, ...openings].map(({ points }) => [...points, points[0]!]);
  for (const points of [...cuts, ...folds.map((fold) => fold.points), ...closed])
    keepOffLine(room, points, scale);
  // What is cut out is not written on: its outline is convex.
  for (const { points } of openings) room.keep(points.map(([x, y]): Point => [x * scale, y * scale]));
  const labels = straight.pieces.map((piece) => labelPiece(straight, piece, manner, room));
  const outside: (Text | null)[] = [
    ...faces.map(({ face, from, to }) => {
      const spot = { at: [-MARGIN / scale, (from + to) / 2] as Point, anchor: 'end' as const };
      return placeText(room, scale, { text: words.faces[face], height: LETTERING.figures, about: { face } }, [
        spot
      ]);
    }),
    ...straight.cuts.map(({ name }, i) => {
      const [x] = cuts[i]![0]!;
      const spots = [0, 1, 2].map((row) => ({
        at: [x, -(ABOVE + row * 2 * ABOVE) / scale] as Point,
        anchor: 'middle' as const
      }));
      return placeText(room, scale, { text: name, height: LETTERING.figures, about: { cut: name } }, spots);
    }),
    placeText(room, scale, { text: speakOfPrint(words.language).card.flap, height: LETTERING.figures }, [
      { at: [-MARGIN / scale, bottom + flap / 2], anchor: 'end' }
    ])
  ];
  const named = [...labels.flat(), ...outside.map((text) => (text ? [text] : null))];
  return {
    figure: {
      layers: [
        {
          name: 'pieces',
          items: [
            ...fillParts(straight, first, scale),
            ...openings.map(({ points }): Item => ({ kind: 'fill', fill: 'air', points }))
          ]
        },
        { name: 'folds', items: folds },
        { name: 'cuts', items: [outline, ...cuts.map((points) => drawLine(points, 'cut')), ...openings] },
        { name: 'names', items: named.flatMap((items) => items ?? []) }
      ]
    },
    leftOut: named.filter((items) => items === null).length
  };
}

/** A cut over the four faces and on over the flap, which lies under the first face: there it runs as it does on that. */
function extendCut(points: readonly Point[], bottom: number, flap: number): Point[] {
  const [[x0, y0], [x1, y1]] = points as [Point, Point];
  return [...points, [x0 + ((x1 - x0) * flap) / (y1 - y0), bottom + flap]];
}

function fillParts(straight: Straight, first: number, scale: number): Item[] {
  const pieces = straight.pieces.map((piece, i): Item => ({
    kind: 'fill',
    fill: { piece: first + i },
    points: outlinePiece(straight, piece),
    about: { piece: piece.name }
  }));
  const offcuts = listOffcuts(straight).flatMap((offcut): Item[] => {
    const points = outlineSpan(offcut);
    return [{ kind: 'fill', fill: 'offcut', points }, ...hatchPolygon(points, [], scale)];
  });
  return [...pieces, ...offcuts];
}

/** What is written on each face of a piece; null where it finds no room. */
function labelPiece(
  straight: Straight,
  piece: Piece,
  { scale, words }: Manner,
  room: Room
): (Item[] | null)[] {
  const spans = unrollPiece(straight, piece);
  const up = piece.flipped ? 'bottom' : 'top';
  return unrollFaces(straight).faces.map(({ face, from, to }, i) => {
    const { start, end } = spans[i]!;
    const spots = PLACES.map((share): Point => {
      const stations = [start, end].map((line) => line[0][0] * (1 - share) + line[1][0] * share);
      return [(stations[0]! + stations[1]!) / 2, from + (to - from) * share];
    });
    const about = { piece: piece.name, face };
    for (const height of [LETTERING.names, LETTERING.figures, LETTERING.labels]) {
      const rows = face === up ? [piece.name, words.paper.top] : [piece.name];
      const width = Math.max(...rows.map((row) => measureText(row, height, true)), face === up ? ARROW : 0);
      const pitch = height + ROW;
      const tall = rows.length * pitch + (face === up ? 2 * BARB.half + ROW : 0);
      const found = room.take(spots.map((spot) => () => [boxAbout(spot, width, tall, scale)]));
      const spot = spots[found];
      if (!spot) continue;
      const top = spot[1] - tall / 2 / scale;
      const texts = rows.map((text, row): Item => ({
        kind: 'text',
        text,
        at: [spot[0], top + ((row + 0.5) * pitch) / scale],
        height,
        anchor: 'middle',
        bold: true,
        about
      }));
      const arrow = face === up ? drawFlow([spot[0], top + (tall - BARB.half - ROW / 2) / scale], scale) : [];
      return [...texts, ...arrow];
    }
    return null;
  });
}

function drawFlow([x, y]: Point, scale: number): Stroke[] {
  const [tail, tip] = [x - ARROW / 2 / scale, x + ARROW / 2 / scale];
  const barb = (side: number): Point => [tip - BARB.length / scale, y + (side * BARB.half) / scale];
  return [
    drawLine([
      [tail, y],
      [tip, y]
    ]),
    drawLine([barb(-1), [tip, y], barb(1)])
  ];
}

function boxAbout([x, y]: Point, width: number, height: number, scale: number): Outline {
  const [middle, level] = [x * scale, y * scale];
  return boxPoints(middle - width / 2, level - height / 2, middle + width / 2, level + height / 2);
}
