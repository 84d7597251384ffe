import { normalizeDegrees } from './geometry/angle.ts';
import { cross } from './geometry/vector.ts';
import { SAME_ANGLE, SAME_LENGTH } from './geometry/tolerance.ts';
import type { SaidFitting } from './document/job.ts';
import { evaluateFitting } from './evaluate.ts';
import { acceptsNumber } from './families/accept.ts';
import { path } from './families/path.ts';
import type { Finding } from './fitting/finding.ts';
import { listMiterJoints, listPieceBodies, type Fitting, type PieceBody } from './fitting/fitting.ts';
import type { JointTurn } from './fitting/mitered-path.ts';
import { measureMiss, measureReachOf, measureShortest, mendPath, type MadePath } from './site/as-made.ts';
import { straightenEnd, type SiteEnd } from './site/site.ts';
import { END_MET } from './site/standing.ts';
import type { Board, Shop } from './straight/board.ts';
import { growSection, type Section } from './straight/section.ts';

/** What was made, and what it measures where that is not what it should be: mm and degrees. */
export type Made =
  /** A piece with both its cuts; its shortest outside edge. */
  | { readonly kind: 'piece'; readonly piece: string; readonly shortest?: number }
  /** A cut, by what its joint turns. */
  | { readonly kind: 'cut'; readonly cut: string; readonly turn: number };

/** What is not as it was said any more: the shortest edge of a piece, mm; turn or heel of a joint, degrees. */
export interface Changed {
  readonly kind: 'length' | 'turn' | 'heel';
  /** The piece or the cut. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

export interface Remade {
  /** A free path: what is made as it is, the rest so that the end is met. */
  readonly fitting: SaidFitting;
  readonly changed: readonly Changed[];
}

/**
 * The fitting with what was made as it is, and the rest so that its end is met: the site's, or its own as it was said
 * where `target` is left out. A piece that is made keeps its length and both its cuts; what is not named is still to be
 * made. A turn that was measured leaves the axis where it was. Only a fitting cut from straights by whole planes, with two
 * ends, can be computed anew. It answers with a finding where the end is missed, and by how much. A name that the fitting
 * does not have is thrown. Tag and quantity stay as said: of several, the one that was made is to be a fitting of its own.
 */
export function recomputeAsMade(
  said: SaidFitting,
  { board, shop }: { readonly board: Board; readonly shop: Shop },
  made: readonly Made[],
  target?: SiteEnd
): Remade | Finding {
  const { built, findings } = evaluateFitting(said, 0, board, shop);
  if (!built) return findings.find(({ level }) => level === 'error')!;
  const designed = readPath(built.fitting);
  if (!designed) return lose('as-made-other', { family: said.family });
  const outside = growSection(said.section, board.thickness);
  const cuts = listMiterJoints(built.fitting).map(({ cut }) => cut);
  const least = designed.lengths.map((_, leg): number | null => {
    const isEnd = leg === 0 || leg === cuts.length;
    // What was said shorter than the shop's least may stay so.
    return Math.min(
      Math.max(SHORTEST_EDGE, isEnd ? shop.minThroat : shop.minGore),
      measureShortest(designed, leg, outside)
    );
  });
  const open = cuts.map(() => true);
  const joints = [...designed.joints];
  for (const one of made) {
    if (one.kind === 'piece') {
      const leg = findLeg(findPiece(built.fitting, one.piece));
      least[leg] = null;
      if (leg > 0) open[leg - 1] = false;
      if (leg < cuts.length) open[leg] = false;
    } else {
      const joint = findNamed(cuts, one.cut);
      open[joint] = false;
      const { turn } = joints[joint]!;
      if (!acceptsNumber(path, `params.joints[${joint}].turn`, one.turn))
        return lose('as-made-turn', { cut: one.cut, turn: one.turn }, turn);
      joints[joint] = { ...joints[joint]!, turn: one.turn };
    }
  }
  const lengths = [...designed.lengths];
  for (const one of made) {
    if (one.kind === 'cut' || one.shortest === undefined) continue;
    const body = findPiece(built.fitting, one.piece);
    const { piece } = body;
    const leg = findLeg(body);
    const ends = (all: readonly JointTurn[]) =>
      [piece.startCut ? all[leg - 1] : undefined, piece.endCut ? all[leg] : undefined] as const;
    const shortest = piece.axis + measureReachOf(...ends(designed.joints), outside);
    if (!(one.shortest > 0))
      return lose('as-made-length', { piece: one.piece, length: one.shortest }, shortest);
    // Its cuts may be others than they were said; then its axis is another though its shortest edge is the same.
    lengths[leg] = lengths[leg]! + one.shortest - measureReachOf(...ends(joints), outside) - piece.axis;
  }
  const [, outlet] = built.fitting.ports;
  const end = straightenEnd(target ?? outlet!);
  const mended = mendPath({ lengths, joints }, { least, open, outside }, end);
  const fitting: SaidFitting = {
    ...said,
    family: path.name,
    params: { lengths: mended.lengths, joints: mended.joints }
  };
  const again = evaluateFitting(fitting, 0, board, shop);
  if (!again.built) return again.findings.find(({ level }) => level === 'error')!;
  const { at, flow, up } = again.built.fitting.ports[1]!;
  const miss = measureMiss(at, { x: flow, y: up, z: cross(flow, up) }, end);
  if (miss.turn > END_MET.askew || miss.place > END_MET.away) {
    const held = mended.held.map((leg) => `P${leg + 1}`).join(', ');
    const cause = miss.turn > END_MET.askew ? 'turned' : held === '' ? 'aside' : 'short';
    return lose('as-made-lost', { ...miss, cause, held });
  }
  return { fitting, changed: compare(designed, mended, cuts, outside) };
}

/** Where the shop has no minimum a piece still stays one, mm. */
const SHORTEST_EDGE = 1;

/** The path along which a fitting is cut; null where it is more than that. */
function readPath(fitting: Fitting): MadePath | null {
  const { bodies, ports, joints, straights } = fitting;
  const pieces = listPieceBodies(fitting);
  const isPlain =
    pieces.length === bodies.length &&
    ports.length === 2 &&
    joints.every(({ closing }) => closing.kind !== 'made') &&
    straights.every(({ marks, openings }) => marks.length === 0 && openings.length === 0);
  if (!isPlain) return null;
  const lengths: number[] = [];
  for (const body of pieces) {
    const leg = findLeg(body);
    lengths[leg] = (lengths[leg] ?? 0) + body.piece.axis;
  }
  const cuts = straights.flatMap((straight) => straight.cuts);
  return {
    lengths,
    joints: listMiterJoints(fitting).map(({ cut, miter }, i) => {
      const { heel } = cuts.find(({ name }) => name === cut)!;
      // Every other piece is rolled over, and the heel of its cut with it.
      return { turn: 2 * miter, heel: normalizeDegrees(heel - 180 * (i % 2)) };
    })
  };
}

function findPiece(fitting: Fitting, name: string): PieceBody {
  const pieces = listPieceBodies(fitting);
  return pieces[
    findNamed(
      pieces.map((body) => body.name),
      name
    )
  ]!;
}

/** Pieces are numbered along the path; the parts of one that is divided carry its number and a letter. */
function findLeg({ name }: PieceBody): number {
  return Number.parseInt(name.slice(1), 10) - 1;
}

function findNamed(names: readonly string[], name: string): number {
  const at = names.indexOf(name);
  if (at < 0) throw new Error(`the fitting has no ${name} among ${names.join(', ')}`);
  return at;
}

function compare(before: MadePath, after: MadePath, cuts: readonly string[], outside: Section): Changed[] {
  const lengths = before.lengths.map((_, leg): Changed => ({
    kind: 'length',
    name: `P${leg + 1}`,
    from: measureShortest(before, leg, outside),
    to: measureShortest(after, leg, outside)
  }));
  const angles = cuts.flatMap((name, i) =>
    (['turn', 'heel'] as const).map((kind): Changed => ({
      kind,
      name,
      from: before.joints[i]![kind],
      to: after.joints[i]![kind]
    }))
  );
  return [
    ...lengths.filter(({ from, to }) => Math.abs(to - from) > SAME_LENGTH),
    ...angles.filter(({ from, to }) => Math.abs(to - from) > SAME_ANGLE)
  ];
}

function lose(
  code: 'as-made-other' | 'as-made-turn' | 'as-made-length' | 'as-made-lost',
  data: Finding['data'],
  would?: number
): Finding {
  return { level: 'error', code, data, source: 'geometry', ...(would === undefined ? {} : { would }) };
}
