import { SAME_BEVEL } from '../kernel/straight/board.ts';
import { markCut, type Cut, type FaceMark } from '../kernel/straight/cut.ts';
import { CORNERS, growSection, type Corner, type Face } from '../kernel/straight/section.ts';
import type { LineMark, Piece, Straight } from '../kernel/straight/straight.ts';
import { listRing, outlineOpening, turnOutline, type CutOutline } from './cut-outline.ts';
import type { Box, LineKind, Point } from './figure.ts';
import { findFlaps, type Flap } from './flaps.ts';
import type { Side } from './manner.ts';
import { unrollLineMarks } from './mark-lines.ts';
import type { Line } from './tiles.ts';
import { outlinePiece, unrollCut, unrollFaces, unrollInside } from './unroll.ts';

/** A face of the unrolled straight, from top to bottom of the drawing, mm. */
export interface LaidFace {
  readonly face: Face;
  readonly top: number;
  readonly bottom: number;
}

/** A cut as its template shows it: on every face its line on the facing and that on the inside, and how the blade is held. */
export interface LaidCut {
  readonly cut: Cut;
  readonly marks: readonly {
    readonly face: Face;
    readonly outer: Line;
    readonly inner: Line;
    readonly held: FaceMark;
  }[];
}

/**
 * A straight unrolled as a template shows it, stations to the right: outside up as unrollFaces has it; inside up the
 * mirror image of that, its faces from bottom to top in the order of FACES. Either the strip along one cut or all there is.
 */
export interface LaidStraight {
  readonly straight: Straight;
  readonly side: Side;
  readonly whole: boolean;
  /** The place of its first piece in the fitting. */
  readonly first: number;
  readonly height: number;
  /** In the order of FACES. */
  readonly faces: readonly LaidFace[];
  readonly corners: readonly { readonly corner: Corner; readonly y: number; readonly seam: boolean }[];
  readonly cuts: readonly LaidCut[];
  /** Their outlines on the facing and on the inside, that dropped square onto the facing. */
  readonly pieces: readonly {
    readonly piece: Piece;
    readonly outer: readonly Point[];
    readonly inner: readonly Point[];
  }[];
  readonly lineMarks: readonly { readonly mark: LineMark; readonly line: Line }[];
  readonly openings: readonly CutOutline[];
  readonly flaps: readonly Flap[];
}

/** Lays out the strip along a cut, or without one the whole of a straight. */
export function layStraight(
  straight: Straight,
  cut: Cut | null,
  { side = 'outside', first = 0 }: { side?: Side; first?: number } = {}
): LaidStraight {
  const unrolled = unrollFaces(straight);
  const { faces, edges } = unrolled;
  const height = edges[edges.length - 1]!;
  const turn = ([x, y]: Point): Point => [x, turnLevel(y, height, side)];
  const turnLine = ([from, to]: Line): Line => [turn(from), turn(to)];
  const outside = growSection(straight.section, straight.thickness);
  const whole = cut === null;
  const cuts = (whole ? straight.cuts : [cut]).map((one): LaidCut => {
    const mark = unrollCut(straight, one);
    const inside = unrollInside(straight, one);
    const held = markCut(one, outside, straight.thickness);
    return {
      cut: one,
      marks: faces.map(({ face }, i) => ({
        face,
        outer: turnLine([mark[i]!, mark[i + 1]!]),
        inner: turnLine(inside[i]!),
        held: holdBlade(held[i]!, side)
      }))
    };
  });
  const shown = whole
    ? straight.pieces
    : straight.pieces.filter(({ startCut, endCut }) => startCut === cut || endCut === cut);
  return {
    straight,
    side,
    whole,
    first,
    height,
    faces: faces.map(({ face, from, to }) => {
      const ends = [from, to].map((y) => turnLevel(y, height, side));
      return { face, top: Math.min(...ends), bottom: Math.max(...ends) };
    }),
    corners: edges.map((y, i) => {
      const corner = CORNERS[i % CORNERS.length]!;
      return { corner, y: turnLevel(y, height, side), seam: straight.makeUp.seams.includes(corner) };
    }),
    cuts,
    pieces: shown.map((piece) => ({
      piece,
      outer: outlinePiece(straight, piece).map(turn),
      inner: outlinePiece(straight, piece, 'inside').map(turn)
    })),
    lineMarks: whole
      ? unrollLineMarks(straight).map(({ mark, from, to }) => ({ mark, line: turnLine([from, to]) }))
      : [],
    openings: whole
      ? straight.openings.map((opening) => {
          const cut = turnOutline(outlineOpening(opening, straight), side, height);
          // The edges of its face are there already.
          return { ...cut, guides: cut.guides.filter(({ line }) => line === 'axis') };
        })
      : [],
    flaps: whole
      ? findFlaps(straight, unrolled).map((flap) => ({
          ...flap,
          points: flap.points.map(turn),
          y: turnLevel(flap.y, height, side)
        }))
      : []
  };
}

/** Where a level of the unrolled faces lies on the side that is up. */
function turnLevel(y: number, height: number, side: Side): number {
  return side === 'inside' ? height - y : y;
}

/** The blade held from the other side leans the other way. */
function holdBlade(mark: FaceMark, side: Side): FaceMark {
  if (side === 'outside') return mark;
  return { ...mark, lean: mark.lean === 'downstream' ? 'upstream' : 'downstream' };
}

/** The kinds of line of a cut on the facing and on the inside: wide on the side that is up, dashed below; upright they are one. */
export function styleCut(side: Side, bevel: number): { outer: LineKind; inner: LineKind | null } {
  if (bevel <= SAME_BEVEL) return { outer: 'cut', inner: null };
  return side === 'outside' ? { outer: 'cut', inner: 'hidden' } : { outer: 'hidden', inner: 'cut' };
}

/** What has to be on the pages: of a strip its mark and where that comes through, of the whole every line. */
export function listLaidLines(laid: LaidStraight): Line[] {
  const { straight, whole, height, cuts, corners, lineMarks, openings, flaps } = laid;
  const level = (y: number): Line => [
    [0, y],
    [straight.length, y]
  ];
  return [
    ...listMarkLines(laid),
    ...cuts.flatMap(({ marks }) => marks.map(({ inner }) => inner)),
    ...(whole
      ? [
          ...corners.map(({ y }) => level(y)),
          ...[0, straight.length].map((x): Line => [
            [x, 0],
            [x, height]
          ]),
          ...lineMarks.map(({ line }) => line),
          ...openings.flatMap(({ outer, inner }) => [outer, inner].flatMap(listRing)),
          ...flaps.flatMap(({ points }) => points.slice(1).map((point, i): Line => [points[i]!, point]))
        ]
      : [])
  ];
}

/** The marks of its cuts on the facing. */
function listMarkLines({ cuts }: LaidStraight): Line[] {
  return cuts.flatMap(({ marks }) => marks.map(({ outer }) => outer));
}

/** What a small map of it shows beside its corners: marks, and of the whole openings and ends. */
export function listMappedLines(laid: LaidStraight): Line[] {
  const { straight, whole, height, lineMarks, openings } = laid;
  return [
    ...listMarkLines(laid),
    ...lineMarks.map(({ line }) => line),
    ...openings.flatMap(({ outer }) => listRing(outer)),
    ...(whole ? [0, straight.length] : []).map((x): Line => [
      [x, 0],
      [x, height]
    ])
  ];
}

/** The faces that a window shows, as far as it shows them. */
export function listFacesIn({ faces }: LaidStraight, { top, bottom }: Box): LaidFace[] {
  return faces
    .map(({ face, ...span }) => ({
      face,
      top: Math.max(span.top, top),
      bottom: Math.min(span.bottom, bottom)
    }))
    .filter((shown) => shown.bottom > shown.top);
}
