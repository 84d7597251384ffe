import { CORNERS, FACES, type Corner } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { DIMENSION_PITCH, drawMeasures } from './dimensions.ts';
import type { Figure, Item, Point, Stroke, Subject, Text } from './figure.ts';
import type { Flap } from './flaps.ts';
import { breakLines, LETTERING, measureOnPaper } from './lettering.ts';
import type { Manner } from './manner.ts';
import { placeText, type Room } from './room.ts';
import type { Unrolled } from './unroll.ts';

/** Sizes on paper, mm: the column of names left of the datum end, the flow arrow above it, the lines of the caption. */
const MARGIN = 2;
const NAME_COLUMN = 14;
const NAME_ROW = 2.2;
const ARROW = 9;
const ARROW_ABOVE = 4.5;
const LINE_PITCH = 4;
const CAPTION_LEAST = 172;

/** Names of the faces, of the seams and of the flaps, left of the datum end. */
export function nameFaces(
  { makeUp }: Straight,
  { faces, edges }: Unrolled,
  flaps: readonly Flap[],
  { scale, words }: Manner,
  room: Room
): Text[] {
  const seams = edges.filter((_, i) => makeUp.seams.includes(CORNERS[i % CORNERS.length] as Corner));
  const names: { text: string; y: number; about?: Subject }[] = [
    ...faces.map(({ face, from, to }) => ({ text: words.faces[face], y: (from + to) / 2, about: { face } })),
    ...seams.map((y) => ({ text: words.paper.marks.seam, y })),
    ...flaps.map(({ y }) => ({ text: words.paper.marks.flap, y }))
  ];
  return names.flatMap(({ text, y, about }) => {
    const columns = [0, 1, 2].flatMap((column) =>
      [0, 1, -1].map((row): Pick<Text, 'at' | 'anchor'> => ({
        at: [-(MARGIN + column * NAME_COLUMN) / scale, y + (row * NAME_ROW) / scale],
        anchor: 'end'
      }))
    );
    const label = { text, height: LETTERING.figures, ...(about ? { about } : {}) };
    return placeText(room, scale, label, columns) ?? [];
  });
}

/** The widths of the faces at the far end, the whole length below everything. */
export function dimensionStraight(
  { length }: Straight,
  { edges }: Unrolled,
  sofar: Figure,
  { scale, say }: Manner,
  room: Room
): { items: Item[]; leftOut: number } {
  const bottom = edges[edges.length - 1]!;
  const below = measureOnPaper(sofar, scale)!.bottom - bottom * scale;
  const widths = FACES.map((_, i) => ({
    from: [length, edges[i]!] as Point,
    to: [length, edges[i + 1]!] as Point,
    away: DIMENSION_PITCH,
    text: say.figure(edges[i + 1]! - edges[i]!)
  }));
  const whole = {
    from: [length, bottom] as Point,
    to: [0, bottom] as Point,
    away: below + DIMENSION_PITCH,
    text: say.figure(length)
  };
  return drawMeasures([...widths, whole], { scale, room });
}

export function writeCaption(sofar: Figure, leftOut: number, { scale, words, say }: Manner): Text[] {
  const { marks } = words.paper;
  const { left, right, bottom: top } = measureOnPaper(sofar, scale)!;
  const width = Math.max(right - left, CAPTION_LEAST);
  const sentences = [marks.reading, marks.legend(say.unit), ...(leftOut > 0 ? [marks.leftOut] : [])];
  return breakLines(sentences.join(' '), LETTERING.figures, width).map((text, i) => ({
    kind: 'text',
    text,
    at: [left / scale, (top + LINE_PITCH * (i + 0.8)) / scale],
    height: LETTERING.figures,
    anchor: 'start'
  }));
}

/** Which way the air flows: an arrow above the datum end, outside the faces; everything else keeps off it. */
export function drawFlow({ scale, words }: Manner, room: Room): Item[] {
  const [tip, tail, y] = [-MARGIN / scale, -(MARGIN + ARROW) / scale, -ARROW_ABOVE / scale];
  const barb = (side: number): Point => [tip - ARROW / 3 / scale, y + (side * ARROW) / 9 / scale];
  const narrow = (points: readonly Point[]): Stroke => ({ kind: 'stroke', line: 'narrow', points });
  const [low, high] = [barb(-1)[1] * scale, barb(1)[1] * scale];
  room.keep([
    [tail * scale, low],
    [tip * scale, low],
    [tip * scale, high],
    [tail * scale, high]
  ]);
  const spot = { at: [tail - MARGIN / scale, y] as Point, anchor: 'end' as const };
  const name = placeText(room, scale, { text: words.paper.marks.flow, height: LETTERING.figures }, [spot]);
  return [
    narrow([
      [tail, y],
      [tip, y]
    ]),
    narrow([barb(1), [tip, y], barb(-1)]),
    ...(name ? [name] : [])
  ];
}
