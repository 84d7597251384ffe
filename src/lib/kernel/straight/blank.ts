import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Board } from './board.ts';
import { CORNERS, FACES, growSection, measureFace, type Corner, type Face, type Section } from './section.ts';

/** Which way a blank lies: `across` has its perimeter along the board's length, `along` has the straight along it. */
export type Lay = 'across' | 'along';

/** How many blanks a straight is folded from. */
export type Make = 'one piece' | 'two angles' | 'trough and lid' | 'four panels';

export type End = 'male' | 'female' | 'plain' | 'miter';

/** One piece of board, folded or flat, that makes some of the walls. */
export interface Blank {
  /** Its walls in clockwise order, looking downstream. */
  readonly walls: readonly Face[];
  /** Across the duct on the facing, mm, flaps included. */
  readonly width: number;
  /** The folds, mm across from the edge of the first wall. */
  readonly folds: readonly number[];
  readonly flaps: number;
}

/** A way to make a straight from board. */
export interface MakeUp {
  readonly lay: Lay;
  readonly make: Make;
  readonly blanks: readonly Blank[];
  /** Corners of the duct that are seams. */
  readonly seams: readonly Corner[];
  /** Longest straight one board yields this way, mm. */
  readonly yield: number;
  /** Whether both ends of a full-length straight carry the board's joining profile. */
  readonly moulded: boolean;
}

/**
 * All ways in which the board is wide enough for this section, across in one piece first; none when it is too large
 * whatever the make-up.
 */
export function* listMakeUps(section: Section, board: Board, seam: Corner, lay?: Lay): Generator<MakeUp> {
  const lays: readonly Lay[] = lay ? [lay] : ['across', 'along'];
  const outside = growSection(section, board.thickness);
  for (const way of lays) {
    const room = findRoom(board, way) + SAME_LENGTH;
    for (const make of MAKES) {
      const made = makeBlanks(make, outside, board.flap, seam);
      if (made.blanks.every(({ width }) => width <= room))
        yield { lay: way, ...made, ...findYield(board, way) };
    }
  }
}

/** The usual way, across in one piece; null where the board is too small for it, or another lay is asked for. */
export function findUsualMakeUp(section: Section, board: Board, seam: Corner, lay?: Lay): MakeUp | null {
  if (lay === 'along') return null;
  const made = makeBlanks('one piece', growSection(section, board.thickness), board.flap, seam);
  if (made.blanks[0]!.width > findRoom(board, 'across') + SAME_LENGTH) return null;
  return { lay: 'across', ...made, ...findYield(board, 'across') };
}

/** What a make-up needs for a path: how many straights, and their length together, mm. */
export interface Need {
  readonly makeUp: MakeUp;
  readonly straights: number;
  readonly length: number;
}

/**
 * The best of several ways: across in one piece where one such straight does, else fewest straights, then fewest seams,
 * then least board; a tie lies across. The usual way is looked at first and ends the search.
 */
export function pickMakeUp<T extends Need>(needs: Iterable<T>): T | null {
  let best: T | null = null;
  for (const need of needs) {
    if (isUsual(need)) return need;
    if (!best || compareRanks(rankNeed(need), rankNeed(best)) < 0) best = need;
  }
  return best;
}

function isUsual({ makeUp: { lay, make }, straights }: Need): boolean {
  return lay === 'across' && make === 'one piece' && straights === 1;
}

function rankNeed({ makeUp: { lay, seams, blanks }, straights, length }: Need): number[] {
  const board = length * blanks.reduce((sum, { width }) => sum + width, 0);
  return [straights, seams.length, board, lay === 'across' ? 0 : 1];
}

/** The longest straight a board yields, up to the shoulder of its male end, mm, and whether its ends are moulded. */
export function findYield(board: Board, lay: Lay): { yield: number; moulded: boolean } {
  const along = lay === 'across' ? board.width : board.length;
  const moulded = (lay === 'across') === (board.profile === 'long');
  return { yield: moulded ? along - board.spigot : along, moulded };
}

function findRoom(board: Board, lay: Lay): number {
  return lay === 'across' ? board.length : board.width;
}

const MAKES: readonly Make[] = ['one piece', 'two angles', 'trough and lid', 'four panels'];

/** How many walls each blank of a make has, clockwise from the seam, and how many flaps it carries. */
const DIVISIONS: Record<Make, readonly (readonly [walls: number, flaps: number])[]> = {
  'one piece': [[4, 1]],
  'two angles': [
    [2, 1],
    [2, 1]
  ],
  'trough and lid': [
    [1, 0],
    [3, 2]
  ],
  'four panels': [
    [1, 1],
    [1, 1],
    [1, 1],
    [1, 1]
  ]
};

/** Blanks follow the outside facing, on which the folds hinge: their widths add up to 2(A + B) and the flaps. */
function makeBlanks(
  make: Make,
  outside: Section,
  flap: number,
  seam: Corner
): { make: Make; blanks: Blank[]; seams: Corner[] } {
  const blanks: Blank[] = [];
  const seams: Corner[] = [];
  let at = CORNERS.indexOf(seam);
  for (const [count, flaps] of DIVISIONS[make]) {
    const walls = Array.from({ length: count }, (_, i) => FACES[(at + i) % 4]!);
    const folds: number[] = [];
    let width = 0;
    for (const wall of walls) {
      width += measureFace(outside, wall);
      folds.push(width);
    }
    folds.pop();
    seams.push(CORNERS[at % 4]!);
    blanks.push({ walls, width: width + flaps * flap, folds, flaps });
    at += count;
  }
  return { make, blanks, seams };
}

function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
