import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { findUsualMakeUp, listMakeUps, pickMakeUp, type End, type MakeUp } from '../straight/blank.ts';
import type { Cut } from '../straight/cut.ts';
import { divideStretches, type Span, type Stretch } from '../straight/divide.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import type { Finding } from './finding.ts';
import type { Setting } from './fitting.ts';

/** A piece, the straight it is cut from, and where it belongs on the path. */
export interface LaidPiece {
  readonly piece: Piece;
  readonly straight: Straight;
  readonly leg: number;
  /** Where its straight's datum lies on the undivided straight, mm. */
  readonly datum: number;
  /** How far from the start of its leg it begins on the axis, mm. */
  readonly along: number;
}

export interface LaidStraight {
  readonly straight: Straight;
  readonly pieces: readonly LaidPiece[];
}

/** How many straights, cuts and pieces of the fitting come before; their names go on from there. */
export interface Numbering {
  readonly straights: number;
  readonly cuts: number;
  readonly pieces: number;
}

export interface LayOut {
  readonly numbering: Numbering;
  /** Whether its two ends are ends of the fitting; where one is not it meets something else and is cut plain. */
  readonly open: readonly [boolean, boolean];
}

const WHOLE_FITTING: LayOut = { numbering: { straights: 0, cuts: 0, pieces: 0 }, open: [true, true] };

/** More straights than this are no fitting. */
const MOST_STRAIGHTS = 500;

/**
 * Lays a path out over straights, in the make-up and direction on the board that need fewest of them. `stretches` and
 * `cuts` are those of the undivided straight. A finding where the board is too small, or where nothing divides the path.
 */
export function layOutStraights(
  stretches: readonly Stretch[],
  cuts: readonly Cut[],
  setting: Setting,
  { numbering, open }: LayOut = WHOLE_FITTING
): LaidStraight[] | Finding {
  const { section, board, seam, lay } = setting;
  const total = stretches[stretches.length - 1]!.to;
  const tried: MakeUp[] = [];
  function* measureNeeds() {
    for (const makeUp of listMakeUps(section, board, seam, lay)) {
      tried.push(makeUp);
      const spans = total > makeUp.yield * MOST_STRAIGHTS ? null : divideStretches(stretches, makeUp.yield);
      if (!spans) continue;
      const length = spans.reduce((sum, { from, to }) => sum + to - from, 0);
      yield { makeUp, spans, straights: spans.length, length };
    }
  }
  // Mostly the usual way does in one straight, and the others need not be looked at.
  const usual = findUsualMakeUp(section, board, seam, lay);
  const whole = usual && total <= usual.yield ? divideStretches(stretches, usual.yield) : null;
  const best = whole ? { makeUp: usual!, spans: whole } : pickMakeUp(measureNeeds());
  if (!best) return tried.length === 0 ? describeSmallBoard(setting) : describeUndivided(total, tried);
  const { spans, makeUp } = best;
  const names = namePieces(spans, numbering.pieces);
  return spans.map((span, i): LaidStraight => {
    const straight: Straight = {
      name: `${setting.tag}-${nameStraight(numbering.straights + i)}`,
      section,
      thickness: board.thickness,
      length: span.to - span.from,
      makeUp,
      marks: [],
      openings: [],
      ends: findEnds(span, i === 0, i === spans.length - 1, makeUp, setting, open),
      ...placeParts(span, names[i]!, stretches, cuts)
    };
    const pieces = span.parts.map(({ stretch, from }, k) => ({
      piece: straight.pieces[k]!,
      straight,
      leg: stretch,
      datum: span.from,
      along: from - stretches[stretch]!.from
    }));
    return { straight, pieces };
  });
}

/** The pieces of one straight and the cuts that bound them, with stations from its own datum. */
function placeParts(
  span: Span,
  names: readonly string[],
  stretches: readonly Stretch[],
  cuts: readonly Cut[]
): { pieces: Piece[]; cuts: Cut[] } {
  const local = new Map<number, Cut>();
  const takeCut = (joint: number): Cut => {
    const cut = local.get(joint) ?? { ...cuts[joint]!, station: cuts[joint]!.station - span.from };
    local.set(joint, cut);
    return cut;
  };
  const pieces = span.parts.map(({ stretch, from, to }, k): Piece => {
    const whole = stretches[stretch]!;
    return {
      name: names[k]!,
      from: from - span.from,
      axis: from === whole.from && to === whole.to ? whole.axis : to - from,
      startCut: stretch > 0 && from === whole.from ? takeCut(stretch - 1) : null,
      endCut: stretch < cuts.length && to === whole.to ? takeCut(stretch) : null,
      flipped: stretch % 2 === 1
    };
  });
  return { pieces, cuts: [...local.values()] };
}

/** Pieces are numbered along the path; one that is divided has parts a, b, c … */
function namePieces(spans: readonly Span[], before: number): string[][] {
  const counts = new Map<number, number>();
  for (const { stretch } of spans.flatMap(({ parts }) => parts))
    counts.set(stretch, (counts.get(stretch) ?? 0) + 1);
  const seen = new Map<number, number>();
  return spans.map(({ parts }) =>
    parts.map(({ stretch }) => {
      const part = seen.get(stretch) ?? 0;
      seen.set(stretch, part + 1);
      return `P${before + stretch + 1}${counts.get(stretch)! > 1 ? countInLetters(part, 'a') : ''}`;
    })
  );
}

function nameStraight(index: number): string {
  return countInLetters(index, 'A');
}

/** a, b … z, aa, ab …, from 0. */
function countInLetters(index: number, first: 'a' | 'A'): string {
  const letter = String.fromCharCode(first.charCodeAt(0) + (index % 26));
  return index < 26 ? letter : countInLetters(Math.floor(index / 26) - 1, first) + letter;
}

/**
 * A straight's datum end keeps the moulding; its far end does only when nothing is cut off. Of the two moulded edges of
 * a board one is female and one male, so two ends of the same kind cannot both be moulded; all straights lie the same way.
 * A straight whose datum end is no end of the fitting loses that one and keeps the moulding of its far end.
 */
function findEnds(
  span: Span,
  first: boolean,
  last: boolean,
  makeUp: MakeUp,
  { ends }: Setting,
  open: LayOut['open']
): [End, End] {
  const near =
    ends.inlet === 'male' || (ends.inlet === undefined && ends.outlet === 'female') ? 'male' : 'female';
  const far = near === 'male' ? 'female' : 'male';
  const whole = makeUp.moulded && Math.abs(span.to - span.from - makeUp.yield) < SAME_LENGTH;
  const fromFarEdge = makeUp.moulded && first && last && !open[0];
  const wanted = last ? (open[1] ? (ends.outlet ?? far) : 'plain') : far;
  const isCutPlain = first && (ends.inlet === 'plain' || !open[0]);
  const datum: End = makeUp.moulded && !isCutPlain ? near : 'plain';
  const end: End = (whole || fromFarEdge) && wanted === far ? far : 'plain';
  return [span.startsAtJoint === null ? datum : 'miter', span.endsAtJoint === null ? end : 'miter'];
}

function describeSmallBoard({ section, board }: Setting): Finding {
  return {
    level: 'error',
    code: 'board-small',
    param: 'section',
    data: {
      width: section.width,
      height: section.height,
      boardLength: board.length,
      boardWidth: board.width
    },
    source: 'shop'
  };
}

/** What one straight of any make-up yields is too little for a part of the path, or for far too many. */
function describeUndivided(length: number, makeUps: readonly MakeUp[]): Finding {
  return {
    level: 'error',
    code: 'straight-undivided',
    data: { length, yield: Math.max(...makeUps.map((makeUp) => makeUp.yield)), most: MOST_STRAIGHTS },
    source: 'shop'
  };
}
