import { sinDegrees, cosDegrees } from '../kernel/geometry/angle.ts';
import { markCut, type FaceMark } from '../kernel/straight/cut.ts';
import { FACES, growSection } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Item, Point, Subject } from './figure.ts';
import { LETTERING, measureText } from './lettering.ts';
import { isUpright } from './mark-table.ts';
import type { Manner } from './manner.ts';
import { placeText, type Outline, type Room } from './room.ts';
import { unrollCut, unrollFaces, unrollPiece } from './unroll.ts';

/** Sizes on paper, mm. */
const GAP = 1.2;
const ROW = 4;
const ROW_ROOM = 3.2;
const GLYPH_WIDTH = 5;
const BLADE = 3.4;

/** Where a label is tried along a mark and a name along a piece, as shares of the width of the face. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];

/** The level of a label that names the cut and nothing else. */
const LEAST = 4;

/** What stands beside a mark, row by row; the blade is a glyph with its bevel in figures. */
type Part =
  { readonly text: string; readonly bold?: true } | { readonly blade: BladeHold; readonly text: string };
type BladeHold = Pick<FaceMark, 'bevel' | 'lean'>;
export type Label = readonly (readonly Part[])[];

export interface FaceLabels {
  readonly figures: Item[];
  readonly names: Item[];
  /** How many labels and names found no room or say less than all. */
  readonly leftOut: number;
}

/**
 * The labels of the marks on one face (by its place in FACES) and the names of the pieces on it. All labels of a face
 * say the same things: cut, line angle, bevel, set-back; where they are crowded less and less, at last the cut alone.
 */
export function labelFace(straight: Straight, at: number, manner: Manner, room: Room): FaceLabels {
  const marks = straight.cuts.map(
    (cut) => markCut(cut, growSection(straight.section, straight.thickness), straight.thickness)[at]!
  );
  const labels = marks.map((mark, i) => listLabels(straight.cuts[i]!.name, mark, manner));
  const attempt = (level: number, space: Room): FaceLabels | null => {
    const mayMiss = level === LEAST;
    const label = (i: number): Item[] | null => {
      const cut = straight.cuts[i]!;
      const line = unrollCut(straight, cut).slice(at, at + 2) as [Point, Point];
      const about = { cut: cut.name, face: FACES[at]! };
      return placeLabel(labels[i]![level]!, line, straight.length, about, manner.scale, space);
    };
    const figures = placeAll(straight.cuts.length, label, mayMiss);
    if (!figures) return null;
    const names = placeAll(straight.pieces.length, (i) => namePiece(straight, at, i, manner, space), mayMiss);
    return names && { figures: figures.items, names: names.items, leftOut: figures.leftOut + names.leftOut };
  };
  for (let level = 0; level <= LEAST; level++) {
    const space = room.fork();
    const found = attempt(level, space);
    if (!found) continue;
    room.join(space);
    return level === 0 ? found : { ...found, leftOut: found.leftOut + straight.cuts.length };
  }
  throw new Error('the least labels are placed or left out');
}

/** Places one after another; null as soon as one finds no room and none may be missed. */
function placeAll(
  count: number,
  place: (i: number) => Item[] | null,
  mayMiss: boolean
): { items: Item[]; leftOut: number } | null {
  const placed: Item[] = [];
  let leftOut = 0;
  for (let i = 0; i < count; i++) {
    const items = place(i);
    if (items) placed.push(...items);
    else if (mayMiss) leftOut++;
    else return null;
  }
  return { items: placed, leftOut };
}

/** The labels of a mark from full to least; first what needs no saying goes: a square line, an upright blade. */
export function listLabels(cut: string, mark: FaceMark, { words, say }: Manner): Label[] {
  const { marks } = words.paper;
  const [square, upright] = [say.angle(mark.line) === say.angle(0), isUpright(mark, say)];
  const name: Part[] = [{ text: cut, bold: true }];
  const line: Part[] = [{ text: square ? marks.square : marks.line(say.angle(mark.line)) }];
  const blade: Part[] = [{ blade: mark, text: say.angle(mark.bevel) }];
  const setback: Part[] = [{ text: marks.setback(say.figure(mark.setback)) }];
  const [odd, tilted] = [square ? [] : [line], upright ? [] : [blade]];
  return [
    [name, line, blade, ...(upright ? [] : [setback])],
    [name, line, blade],
    [name, ...odd, ...tilted],
    [name, ...(square ? [blade] : [line])],
    [name]
  ];
}

/**
 * Places a label beside a mark from one edge of its face to the other, within the length of the straight; to the right
 * first, near the middle first; null where it finds no room.
 */
export function placeLabel(
  label: Label,
  [start, end]: readonly [Point, Point],
  length: number,
  about: Subject,
  scale: number,
  room: Room,
  places: readonly number[] = PLACES
): Item[] | null {
  const { width, height } = measureLabel(label);
  const lineAt = (y: number): number =>
    start[0] + ((end[0] - start[0]) * (y - start[1])) / (end[1] - start[1]);
  const corners = places
    .flatMap((share): Point[] => {
      const top = start[1] + (end[1] - start[1]) * share - height / 2 / scale;
      const crossed = [lineAt(top), lineAt(top + height / scale)];
      return [
        [Math.max(...crossed) + GAP / scale, top],
        [Math.min(...crossed) - (GAP + width) / scale, top]
      ];
    })
    .filter(([x]) => x > 0 && x + width / scale < length);
  return placeRows(label, corners, scale, about, room);
}

/** The size of a label on paper, mm. */
export function measureLabel(label: Label): { width: number; height: number } {
  return { width: Math.max(...label.map(measureRow)), height: (label.length - 1) * ROW + ROW_ROOM };
}

/**
 * Places a label with its top left corner at the first free of several points; null where none is. `ties`: of each point
 * a line from the label to what it names, with nothing in between.
 */
export function placeRows(
  label: Label,
  corners: readonly Point[],
  scale: number,
  about: Subject,
  room: Room,
  ties: readonly (readonly [Point, Point])[] = []
): Item[] | null {
  const { width, height } = measureLabel(label);
  const found = room.take(
    corners.map((corner, i) => () => [
      outlineBox(corner, width, height, scale),
      ...(ties[i] ? [ties[i].map(([x, y]): Point => [x * scale, y * scale])] : [])
    ])
  );
  const corner = corners[found];
  return corner ? label.flatMap((row, i) => drawRow(row, corner, i, scale, about)) : null;
}

function outlineBox([x, y]: Point, width: number, height: number, scale: number): Outline {
  const [left, top] = [x * scale, y * scale];
  return [
    [left, top],
    [left + width, top],
    [left + width, top + height],
    [left, top + height]
  ];
}

function measureRow(row: readonly Part[]): number {
  return row.reduce((sum, part) => sum + measurePart(part) + GAP, -GAP);
}

function measurePart(part: Part): number {
  const text = measureText(part.text, LETTERING.figures, 'bold' in part);
  return 'blade' in part ? GLYPH_WIDTH + GAP + text : text;
}

function drawRow(row: readonly Part[], corner: Point, index: number, scale: number, about: Subject): Item[] {
  const y = corner[1] + (index * ROW + ROW_ROOM / 2) / scale;
  let x = corner[0];
  return row.flatMap((part) => {
    const left = x;
    x += (measurePart(part) + GAP) / scale;
    const text = (at: number): Item => ({
      kind: 'text',
      text: part.text,
      at: [at, y],
      height: LETTERING.figures,
      anchor: 'start',
      ...('bold' in part ? { bold: true } : {}),
      about
    });
    if (!('blade' in part)) return [text(left)];
    return [...drawBlade(part.blade, [left, y], scale, about), text(left + (GLYPH_WIDTH + GAP) / scale)];
  });
}

/**
 * The blade on the facing: a stroke on a base line, tilted as it is held. Stations run to the right, so a blade whose
 * top leans downstream leans to the right.
 */
function drawBlade({ bevel, lean }: BladeHold, [x, y]: Point, scale: number, about: Subject): Item[] {
  const sense = lean === 'downstream' ? 1 : -1;
  const foot = y + LETTERING.figures / 2 / scale;
  const middle = x + GLYPH_WIDTH / 2 / scale;
  return [
    {
      kind: 'stroke',
      line: 'narrow',
      points: [
        [x, foot],
        [x + GLYPH_WIDTH / scale, foot]
      ],
      about
    },
    {
      kind: 'stroke',
      line: 'cut',
      points: [
        [middle, foot],
        [middle + (sense * BLADE * sinDegrees(bevel)) / scale, foot - (BLADE * cosDegrees(bevel)) / scale]
      ],
      about
    }
  ];
}

/** The name of a piece, in the middle of it where there is room, smaller if need be. */
function namePiece(
  straight: Straight,
  at: number,
  index: number,
  { scale }: Manner,
  room: Room
): Item[] | null {
  const piece = straight.pieces[index]!;
  const { from, to, face } = unrollFaces(straight).faces[at]!;
  const { start, end } = unrollPiece(straight, piece)[at]!;
  const middle = (share: number): number =>
    [start, end].reduce((sum, line) => sum + line[0][0] * (1 - share) + line[1][0] * share, 0) / 2;
  const spots = PLACES.map((share) => ({
    at: [middle(share), from + (to - from) * share] as Point,
    anchor: 'middle' as const
  }));
  for (const height of [LETTERING.names, LETTERING.figures]) {
    const name = { text: piece.name, height, bold: true as const, about: { piece: piece.name, face } };
    const text = placeText(room, scale, name, spots);
    if (text) return [text];
  }
  return null;
}
