import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies } from '../kernel/fitting/fitting.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import type { Piece, Straight } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { outlinePanel, turnOutline, type CutOutline } from './cut-outline.ts';
import type { Box, Figure, Item, LineKind, Point, Stroke, Text } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { layStraight, type LaidCut, type LaidStraight } from './laid-straight.ts';
import { breakLines, LETTERING, measureOnPaper } from './lettering.ts';
import type { Manner, Side } from './manner.ts';
import { describeMark } from './mark-lines.ts';
import { findFitting } from './paper-mark-out.ts';
import { keepOffLine, placeText, startRoom, type Room } from './room.ts';
import { moveItem } from './stack.ts';
import {
  labelLineMark,
  nameCorners,
  nameEnds,
  nameFaces,
  nameFlaps,
  nameOpenings,
  namePieces
} from './template-labels.ts';
import { labelOutline, traceOutline } from './template-outline.ts';

/**
 * The layers of a flat pattern, in drawing order: a straight's blank with its seams and flaps; corners and grooves;
 * closed outlines of pieces and panels on the facing and on the inside; closed outlines of openings likewise; cuts face by
 * face on the facing and on the inside; slits and trims; middle lines; what is said of edges and bevels; names and notes.
 */
export const PATTERN_LAYERS = [
  ...(['straight', 'fold', 'outside-outline', 'inside-outline', 'opening', 'opening-inside'] as const),
  ...(['cut', 'cut-inside', 'line-mark', 'middle-line', 'bevel', 'text'] as const)
] as const;
type PatternLayer = (typeof PATTERN_LAYERS)[number];
type Layers = Partial<Record<PatternLayer, readonly Item[]>>;

/** Between parts, round a part for its texts, from a title to its part, lines of the notes and how wide they are, mm. */
const BETWEEN = 25;
const MARGIN = 60;
const UNDER_TITLE = 6;
const LINE_PITCH = 6;
const NOTE_WIDTH = 400;

/** Where a text is tried along a cut, as shares of its line, and how far beside it, mm. */
const ALONG = [0.5, 0.35, 0.65, 0.2, 0.8];
const BESIDE = [3, -3, 6, -6];

/**
 * Everything of a fitting that is cut flat, at full size, mm, part under part: every straight unrolled with its openings,
 * then every panel. Outside up, or inside up as its mirror image, and says which. Cut lines, panels and openings carry
 * their bevels. Null where the fitting could not be built.
 */
export function drawPattern(model: Model, index: number, side: Side): Figure | null {
  const { built, resolved } = findFitting(model, index);
  if (!built) return null;
  const { fitting } = built;
  const words = speak(model.show.language);
  const manner: Manner = { scale: 1, words, say: makeSpeech(model.show) };
  const { pattern } = speakOfPrint(words.language);
  const parts = [
    ...fitting.straights.map((straight) => ({
      title: pattern.straight(straight.name),
      layers: drawWhole(straight, side, manner)
    })),
    ...listPanelBodies(fitting).map((body) => {
      const { face } = body.panel;
      return {
        title: pattern.panel(body.name, face && words.faces[face]),
        layers: drawPanel(turnOutline(outlinePanel(body), side), side, manner)
      };
    })
  ];
  return stackParts(writeNotes(resolved.tag, side, manner), parts);
}

/** A straight unrolled, all of its lines and what is said of them. */
function drawWhole(straight: Straight, side: Side, manner: Manner): Layers {
  const laid = layStraight(straight, null, { side });
  const { corners, height, lineMarks, flaps } = laid;
  const last = corners.length - 1;
  const along = (y: number, line: LineKind): Stroke =>
    drawLine(
      [
        [0, y],
        [straight.length, y]
      ],
      line
    );
  const inner = corners.filter((_, i) => i > 0 && i < last);
  const marked = lineMarks.map(({ mark, line }) => ({
    ...drawLine(line, mark.kind === 'groove' ? 'fold' : 'cut'),
    bevels: [mark.bevel],
    about: { cut: mark.name, face: mark.face }
  }));
  const openings = laid.openings.map((cut) => drawOutline(cut, side));
  const lines: Layers = {
    straight: [
      drawClosed(boxPoints(0, 0, straight.length, height)),
      ...inner.filter(({ seam }) => seam).map(({ y }) => along(y, 'visible')),
      ...flaps.map(({ points }) => drawLine(points, 'phantom'))
    ],
    fold: [
      ...inner.filter(({ seam }) => !seam).map(({ y }) => along(y, 'fold')),
      ...marked.filter(({ line }) => line === 'fold')
    ],
    'outside-outline': laid.pieces.map(({ piece, outer }) =>
      drawPiece(piece, outer, lineOf(side, 'outside'))
    ),
    'inside-outline': laid.pieces.map(({ piece, inner }) => drawPiece(piece, inner, lineOf(side, 'inside'))),
    opening: openings.map(({ facing }) => facing),
    'opening-inside': openings.map(({ inside }) => inside),
    ...drawCuts(laid),
    'line-mark': marked.filter(({ line }) => line === 'cut'),
    'middle-line': laid.openings.flatMap(({ guides }) =>
      guides.map(({ line, points }) => drawLine(points, line))
    )
  };
  const window = widen(measureOnPaper(gather(lines), 1)!);
  const room = keepOff(lines);
  const traced = laid.openings.map((cut) => traceOutline(cut, manner, window));
  return {
    ...lines,
    bevel: [
      ...laid.cuts.flatMap((cut) => writeBlades(cut, side, manner, room)),
      ...laid.openings.flatMap((cut) => writeRound(cut, manner, room)),
      ...traced.flatMap((outline) => labelOutline(outline, manner, window, room)),
      ...lineMarks.flatMap(({ mark, line }) =>
        labelLineMark(describeMark(mark, manner), line, mark, manner, window, room)
      )
    ],
    text: [nameFaces, nameOpenings, namePieces, nameEnds, nameCorners, nameFlaps].flatMap((name) =>
      name(laid, manner, window, room)
    )
  };
}

function drawPiece({ name }: Piece, outline: readonly Point[], line: LineKind): Stroke {
  return { ...drawClosed(outline, line), about: { piece: name } };
}

/** A panel, turned to the side that is up. */
function drawPanel(cut: CutOutline, side: Side, manner: Manner): Layers {
  const { facing, inside } = drawOutline(cut, side);
  const lines: Layers = { 'outside-outline': [facing], 'inside-outline': [inside] };
  const window = widen(measureOnPaper(gather(lines), 1)!);
  const room = keepOff(lines);
  const name = { text: cut.name, height: LETTERING.names, bold: true as const, about: cut.about };
  const { left, right, top, bottom } = window;
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  const named = placeText(room, 1, name, [{ at: middle, anchor: 'middle' }]);
  return {
    ...lines,
    bevel: labelOutline(traceOutline(cut, manner, window), manner, window, room),
    text: named ? [named] : []
  };
}

/** Both outlines of a panel or an opening that is turned to the side that is up: the outer one lies on that side. */
function drawOutline(
  { outer, inner, bevels, about }: CutOutline,
  side: Side
): { facing: Stroke; inside: Stroke } {
  const [onFacing, onInside] = side === 'outside' ? [outer, inner] : [inner, outer];
  const same = bevels.every((bevel) => bevel === bevels[0]);
  const rest = { bevels: same ? bevels.slice(0, 1) : bevels, about };
  return {
    facing: { ...drawClosed(onFacing, cutOn(side, 'outside')), ...rest },
    inside: { ...drawClosed(onInside, cutOn(side, 'inside')), ...rest }
  };
}

/** The cuts on every face; on the inside only where the blade is tilted, else the two are one. */
function drawCuts({ cuts, side }: LaidStraight): Layers {
  const faces = cuts.flatMap(({ cut, marks }) =>
    marks.map((mark) => ({
      ...mark,
      rest: { bevels: [mark.held.bevel], about: { cut: cut.name, face: mark.face } }
    }))
  );
  return {
    cut: faces.map(({ outer, held, rest }) => ({
      ...drawLine(outer, held.bevel > SAME_BEVEL ? cutOn(side, 'outside') : 'cut'),
      ...rest
    })),
    'cut-inside': faces
      .filter(({ held }) => held.bevel > SAME_BEVEL)
      .map(({ inner, rest }) => ({ ...drawLine(inner, cutOn(side, 'inside')), ...rest }))
  };
}

/** The bevel at a cut, along it, on every face; where it finds no room the stroke still carries it. */
function writeBlades({ cut, marks }: LaidCut, side: Side, { say, words }: Manner, room: Room): Text[] {
  return marks.flatMap(({ face, outer, inner, held }) => {
    const [from, to] = side === 'outside' ? outer : inner;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy);
    // Read from the left or from below.
    const turned = (Math.atan2(-dy, dx) * 180) / Math.PI;
    const angle = turned > 90 ? turned - 180 : turned <= -90 ? turned + 180 : turned;
    const blade =
      held.lean === null || held.bevel <= SAME_BEVEL
        ? null
        : { bevel: say.angle(held.bevel), lean: words.leans[held.lean] };
    const text = speakOfPrint(words.language).pattern.blade(cut.name, blade);
    const spots = ALONG.flatMap((share) =>
      BESIDE.map((beside) => ({
        at: [
          from[0] + dx * share - (dy / length) * beside,
          from[1] + dy * share + (dx / length) * beside
        ] as Point,
        anchor: 'middle' as const
      }))
    );
    const about = { cut: cut.name, face };
    return placeText(room, 1, { text, height: LETTERING.figures, angle, about }, spots) ?? [];
  });
}

/** Diameter and bevel of a round opening, under its middle. */
function writeRound(
  { diameter, outer, bevels, about }: CutOutline,
  { say, words }: Manner,
  room: Room
): Text[] {
  if (diameter === null) return [];
  const text = speakOfPrint(words.language).pattern.round(say.length(diameter), say.angle(bevels[0]!));
  const [x, y] = [0, 1].map((axis) => outer.reduce((sum, at) => sum + at[axis]! / outer.length, 0));
  const spots = [2, -2, 3, -3].map((down) => ({
    at: [x!, y! + down * LINE_PITCH] as Point,
    anchor: 'middle' as const
  }));
  const placed = placeText(room, 1, { text, height: LETTERING.figures, about }, spots);
  return placed ? [placed] : [];
}

/** The title, which side is up, and how to read it; from the top left corner. */
function writeNotes(tag: string, side: Side, { words }: Manner): Text[] {
  const { pattern } = speakOfPrint(words.language);
  const rows = [
    { text: pattern.title(tag), height: LETTERING.title, bold: true },
    { text: pattern.sides[side], height: LETTERING.title, bold: true },
    ...breakLines(pattern.reading, LETTERING.names, NOTE_WIDTH).map((text) => ({
      text,
      height: LETTERING.names
    }))
  ];
  return rows.map(({ text, ...rest }, i) => writeLine(text, [0, (i + 1) * (LINE_PITCH + 2)], rest));
}

/** Parts under each other, each under its title, their layers put together. */
function stackParts(
  notes: readonly Text[],
  parts: readonly { readonly title: string; readonly layers: Layers }[]
): Figure {
  let bottom = measureOnPaper({ layers: [{ name: 'text', items: notes }] }, 1)!.bottom;
  const placed = parts.map(({ title, layers }) => {
    const box = measureOnPaper(gather(layers), 1)!;
    const level = bottom + BETWEEN;
    const shift: Point = [-box.left, level + UNDER_TITLE - box.top];
    bottom = shift[1] + box.bottom;
    return { heading: writeLine(title, [0, level], { height: LETTERING.title, bold: true }), layers, shift };
  });
  return {
    layers: PATTERN_LAYERS.map((name) => ({
      name,
      items: [
        ...(name === 'text' ? [...notes, ...placed.map(({ heading }) => heading)] : []),
        ...placed.flatMap(({ layers, shift }) => (layers[name] ?? []).map((item) => moveItem(item, shift)))
      ]
    })).filter(({ items }) => items.length > 0)
  };
}

function gather(layers: Layers): Figure {
  return { layers: Object.entries(layers).map(([name, items]) => ({ name, items: items ?? [] })) };
}

function keepOff(layers: Layers): Room {
  const room = startRoom();
  for (const { items } of gather(layers).layers) {
    for (const item of items) {
      if (item.kind !== 'stroke') continue;
      keepOffLine(room, item.closed ? [...item.points, item.points[0]!] : item.points, 1);
    }
  }
  return room;
}

function widen({ left, top, right, bottom }: Box): Box {
  return { left: left - MARGIN, top: top - MARGIN, right: right + MARGIN, bottom: bottom + MARGIN };
}

/** Wide on the side that is up, dashed below. */
const lineOf = (up: Side, on: Side): LineKind => (up === on ? 'visible' : 'hidden');
const cutOn = (up: Side, on: Side): LineKind => (up === on ? 'cut' : 'hidden');
