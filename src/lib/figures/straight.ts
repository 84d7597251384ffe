import { markCut } from '../kernel/straight/cut.ts';
import { FACES, growSection } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Figure, Item, Point, Stroke } from './figure.ts';
import { hatchPolygon } from './hatch.ts';
import { LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import { placeText, startRoom } from './room.ts';
import { listOffcuts, outlineSpan, unrollCut, unrollFaces, unrollPiece, type FaceSpan } from './unroll.ts';

/** Space between the name of the face and the datum end, paper mm. */
const MARGIN = 2;

/**
 * The straight before it is cut, seen on one face: the one on which the cuts are cheeks, or where none is plain the one
 * with the smallest bevels. Outside up, stations to the right from the datum end; the face's first edge is at y = 0.
 * `first` is the place of its first piece in the fitting.
 */
export function drawStraight(straight: Straight, { scale, words }: Manner, first = 0): Figure {
  const { thickness, length, cuts, pieces } = straight;
  const at = findPlainFace(straight);
  const { face, from, to } = unrollFaces(straight).faces[at]!;
  const bottom = to - from;
  const onFace = (points: readonly Point[]): Point[] =>
    points.slice(at, at + 2).map(([x, y]) => [x, y - from]);
  const across = (y: number): Point[] => [
    [0, y],
    [length, y]
  ];
  const cover = (span: FaceSpan): Point[] => outlineSpan(span).map(([x, y]) => [x, y - from]);
  const fills = pieces.map((piece, index): Item => ({
    kind: 'fill',
    fill: { piece: first + index },
    points: cover(unrollPiece(straight, piece)[at]!),
    about: { piece: piece.name }
  }));
  const offcuts = listOffcuts(straight)
    .filter((offcut) => offcut.face === face)
    .flatMap((offcut): Item[] => [
      { kind: 'fill', fill: 'offcut', points: cover(offcut) },
      ...hatchPolygon(cover(offcut), [], scale)
    ]);
  const lines = cuts.map((cut): Stroke => ({
    kind: 'stroke',
    line: 'cut',
    points: onFace(unrollCut(straight, cut)),
    about: { cut: cut.name, face }
  }));
  const inside = [thickness, bottom - thickness].map((y): Stroke => ({
    kind: 'stroke',
    line: 'hidden',
    points: across(y)
  }));
  const outline: Stroke = {
    kind: 'stroke',
    line: 'visible',
    closed: true,
    points: [...across(0), ...across(bottom).reverse()]
  };

  const room = startRoom();
  for (const { points } of lines) room.keep(points.map(([x, y]): Point => [x * scale, y * scale]));
  const names = pieces.map((piece) => ({
    text: { text: piece.name, height: LETTERING.figures, bold: true as const, about: { piece: piece.name } },
    spot: { at: [piece.from + piece.axis / 2, bottom / 2] as Point, anchor: 'middle' as const }
  }));
  const title = {
    text: { text: words.faces[face], height: LETTERING.figures, about: { face } },
    spot: { at: [-MARGIN / scale, bottom / 2] as Point, anchor: 'end' as const }
  };
  return {
    layers: [
      { name: 'pieces', items: [...fills, ...offcuts] },
      { name: 'inside', items: inside },
      { name: 'outline', items: [outline] },
      { name: 'cuts', items: lines },
      {
        name: 'names',
        items: [title, ...names].flatMap(({ text, spot }) => placeText(room, scale, text, [spot]) ?? [])
      }
    ]
  };
}

/** The face, by its place in FACES, on which the blade has to tilt least over all cuts. */
export function findPlainFace({ section, thickness, cuts }: Straight): number {
  const outside = growSection(section, thickness);
  const tilts = FACES.map((_, i) =>
    cuts.reduce((sum, cut) => sum + markCut(cut, outside, thickness)[i]!.bevel, 0)
  );
  return tilts.indexOf(Math.min(...tilts));
}
