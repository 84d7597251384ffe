import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Board } from './board.ts';
import { CORNERS, growSection, type Corner, type Section } from './section.ts';

/** Which way a blank lies: `across` has its perimeter along the board's length, `along` has the straight along it. */
export type Lay = 'across' | 'along';

/** How many blanks a straight is folded from. */
export type Make = 'one piece' | 'two angles' | 'trough and lid' | 'four panels';

export type End = 'male' | 'female' | 'plain' | 'miter';

/** A way to make a straight from board. */
export interface MakeUp {
  readonly lay: Lay;
  readonly make: Make;
  /** Widths of its blanks across the duct, mm, flaps included. */
  readonly blanks: readonly number[];
  /** Corners of the duct that are seams. */
  readonly seams: readonly Corner[];
  /** Longest straight one board yields this way, mm. */
  readonly yield: number;
  /** Whether both ends of a full-length straight carry the board's joining profile. */
  readonly moulded: boolean;
}

/**
 * All ways in which the board is wide enough for this section, best first for a straight of the given length: across
 * in one piece where it fits, else those that are long enough, then fewest seams, then least board; a tie lies across.
 * Empty when the section is too large for the board whatever the make-up.
 */
export function listMakeUps(
  section: Section,
  board: Board,
  length: number,
  seam: Corner,
  lay?: Lay
): MakeUp[] {
  const lays: readonly Lay[] = lay ? [lay] : ['across', 'along'];
  const fitting = lays.flatMap((way) =>
    listMakes(section, board, seam)
      .map(({ make, blanks, seams }) => ({ lay: way, make, blanks, seams, ...findYield(board, way) }))
      .filter((candidate) => Math.max(...candidate.blanks) <= findRoom(board, way) + SAME_LENGTH)
  );
  const rank = (m: MakeUp): number[] => {
    const short = m.yield + SAME_LENGTH < length ? 1 : 0;
    const preferred = !short && m.lay === 'across' && m.make === 'one piece' ? 0 : 1;
    return [short, preferred, m.seams.length, m.blanks.reduce((sum, width) => sum + width, 0)];
  };
  return fitting
    .map((makeUp) => ({ makeUp, rank: rank(makeUp) }))
    .sort((a, b) => compareRanks(a.rank, b.rank))
    .map(({ makeUp }) => makeUp);
}

/** The longest straight a board yields across its length, up to the shoulder of its male end, mm. */
export function findYield(board: Board, lay: Lay): { yield: number; moulded: boolean } {
  const along = lay === 'across' ? board.width : board.length;
  const moulded = (lay === 'across') === (board.profile === 'long');
  return { yield: moulded ? along - board.spigot : along, moulded };
}

function findRoom(board: Board, lay: Lay): number {
  return lay === 'across' ? board.length : board.width;
}

/** Blank widths follow the outside facing, on which the folds hinge: 2(A + B) round the duct, and a flap a seam. */
function listMakes(
  section: Section,
  board: Board,
  seam: Corner
): { make: Make; blanks: number[]; seams: Corner[] }[] {
  const { width, height } = growSection(section, board.thickness);
  const at = CORNERS.indexOf(seam);
  const corner = (steps: number): Corner => CORNERS[(at + steps) % 4]!;
  // The lid is the wall that begins at the seam corner, clockwise: its two edges are the seams.
  const lid = at % 2 === 0 ? width : height;
  const girth = 2 * (width + height);
  return [
    { make: 'one piece', blanks: [girth + board.flap], seams: [seam] },
    {
      make: 'two angles',
      blanks: [girth / 2 + board.flap, girth / 2 + board.flap],
      seams: [corner(0), corner(2)]
    },
    { make: 'trough and lid', blanks: [girth - lid + 2 * board.flap, lid], seams: [corner(0), corner(1)] },
    {
      make: 'four panels',
      blanks: [width, height, width, height].map((side) => side + board.flap),
      seams: [...CORNERS]
    }
  ];
}

function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
