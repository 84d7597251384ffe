import { CORNERS, FACES } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Figure, Item, Layer, Point, Stroke } from './figure.ts';
import { findFlaps } from './flaps.ts';
import { hatchPolygon } from './hatch.ts';
import type { Manner } from './manner.ts';
import { labelFace } from './mark-labels.ts';
import { drawLineMarks, labelLineMarks, unrollLineMarks } from './mark-lines.ts';
import { drawOpenings, labelOpenings, unrollOpenings } from './mark-openings.ts';
import { writeStations } from './mark-stations.ts';
import { dimensionStraight, drawFlow, nameFaces, writeCaption } from './mark-surround.ts';
import { keepOffLine, startRoom } from './room.ts';
import { listOffcuts, outlineSpan, unrollCut, unrollFaces, unrollPiece, type Unrolled } from './unroll.ts';

/**
 * The marks of a straight: its four faces unrolled at one scale both ways, outside up, stations to the right from the
 * datum end, faces one under another in the order of FACES. The datum end is at x = 0, the top-left corner at y = 0.
 * `first` is the place of its first piece in the fitting. Without a caption nothing is said of how to read it. Layers:
 * pieces, outline, flap, openings and line-marks where there are any, cuts, figures, names, dimensions, caption.
 */
export function drawMarks(straight: Straight, manner: Manner, first = 0, captioned = true): Figure {
  const { scale } = manner;
  const unrolled = unrollFaces(straight);
  const bottom = unrolled.edges[unrolled.edges.length - 1]!;
  const room = startRoom();
  const flow = drawFlow(manner, room);
  for (const line of listBarriers(straight, unrolled)) keepOffLine(room, line, scale);
  for (const line of listFeatureLines(straight)) keepOffLine(room, line, scale);
  const flaps = findFlaps(straight, unrolled);
  const [below, onFaces] = [flaps.filter(({ y }) => y > bottom), flaps.filter(({ y }) => y < bottom)];
  for (const { points } of onFaces) keepOffLine(room, points, scale);
  const openings = labelOpenings(straight, manner, room);
  const lineMarks = labelLineMarks(straight, manner, room);
  const stations = writeStations(straight, manner, room, Math.max(0, ...below.map(({ reach }) => reach)));
  // Leaders may cross the flap below the last face, names may not.
  for (const { points } of below) keepOffLine(room, points, scale);
  const labels = FACES.map((_, at) => labelFace(straight, at, manner, room));
  const [holes, lines] = [drawOpenings(straight, manner, openings.items), drawLineMarks(straight)];
  const figures = [
    ...openings.items,
    ...lineMarks.items,
    ...stations.items,
    ...labels.flatMap((label) => label.figures)
  ];
  const layers: Layer[] = [
    { name: 'pieces', items: fillPieces(straight, first, figures, scale) },
    { name: 'outline', items: drawOutline(straight, unrolled) },
    { name: 'flap', items: flaps.map(({ points }): Stroke => ({ kind: 'stroke', line: 'hidden', points })) },
    ...(holes.length > 0 ? [{ name: 'openings', items: holes }] : []),
    ...(lines.length > 0 ? [{ name: 'line-marks', items: lines }] : []),
    { name: 'cuts', items: drawCuts(straight, unrolled) },
    { name: 'figures', items: figures },
    {
      name: 'names',
      items: [
        ...labels.flatMap(({ names }) => names),
        ...nameFaces(straight, unrolled, flaps, manner, room),
        ...flow
      ]
    }
  ];

  const dimensions = dimensionStraight(straight, unrolled, { layers }, manner, room);
  layers.push({ name: 'dimensions', items: dimensions.items });
  if (!captioned) return { layers };
  const leftOut = [openings, lineMarks, stations, ...labels, dimensions].reduce(
    (sum, part) => sum + part.leftOut,
    0
  );
  layers.push({ name: 'caption', items: writeCaption({ layers }, leftOut, manner) });
  return { layers };
}

/** Lines that no text may cross: the cuts, the corners, the ends. */
function listBarriers(straight: Straight, { edges }: Unrolled): (readonly [Point, Point])[] {
  const { length, cuts } = straight;
  const bottom = edges[edges.length - 1]!;
  return [
    ...edges.map(
      (y) =>
        [
          [0, y],
          [length, y]
        ] as const
    ),
    [
      [0, 0],
      [0, bottom]
    ],
    [
      [length, 0],
      [length, bottom]
    ],
    ...cuts.flatMap((cut) => {
      const points = unrollCut(straight, cut);
      return points.slice(1).map((point, i) => [points[i]!, point] as const);
    })
  ];
}

/** The outlines of openings and the line marks: no text may cross them either. */
function listFeatureLines(straight: Straight): (readonly Point[])[] {
  return [
    ...unrollOpenings(straight).flatMap(({ outer, inner }) =>
      [outer, inner].map((ring) => [...ring, ring[0]!])
    ),
    ...unrollLineMarks(straight).map(({ from, to }) => [from, to])
  ];
}

/** Pieces filled by their place in the fitting, off-cuts filled and hatched. */
function fillPieces(straight: Straight, first: number, labels: readonly Item[], scale: number): Item[] {
  const pieces = straight.pieces.flatMap((piece, index) =>
    unrollPiece(straight, piece).map((span): Item => ({
      kind: 'fill',
      fill: { piece: first + index },
      points: outlineSpan(span),
      about: { piece: piece.name, face: span.face }
    }))
  );
  const offcuts = listOffcuts(straight).flatMap((offcut): Item[] => {
    const points = outlineSpan(offcut);
    return [{ kind: 'fill', fill: 'offcut', points }, ...hatchPolygon(points, labels, scale)];
  });
  return [...pieces, ...offcuts];
}

/** The outline and the seams wide, the other corners as folds. */
function drawOutline({ length, makeUp }: Straight, { edges }: Unrolled): Stroke[] {
  const bottom = edges[edges.length - 1]!;
  const inner = edges.slice(1, -1).map((y, i): Stroke => ({
    kind: 'stroke',
    line: makeUp.seams.includes(CORNERS[i + 1]!) ? 'visible' : 'fold',
    points: [
      [0, y],
      [length, y]
    ]
  }));
  const outline: Stroke = {
    kind: 'stroke',
    line: 'visible',
    closed: true,
    points: [
      [0, 0],
      [length, 0],
      [length, bottom],
      [0, bottom]
    ]
  };
  return [...inner, outline];
}

function drawCuts(straight: Straight, { faces }: Unrolled): Stroke[] {
  return straight.cuts.flatMap((cut) => {
    const points = unrollCut(straight, cut);
    return faces.map(({ face }, i): Stroke => ({
      kind: 'stroke',
      line: 'cut',
      points: [points[i]!, points[i + 1]!],
      about: { cut: cut.name, face }
    }));
  });
}
