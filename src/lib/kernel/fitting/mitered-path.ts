import { cosDegrees, sinDegrees, normalizeDegrees } from '../geometry/angle.ts';
import {
  compose,
  HALF_TURN_ABOUT_X,
  IDENTITY,
  movePoint,
  rotateAbout,
  shiftAlongX,
  type Motion
} from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { listMakeUps, type End, type MakeUp } from '../straight/blank.ts';
import type { Cut } from '../straight/cut.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import type { Finding } from './finding.ts';
import type { Body, Fitting, Joint, ParamReference, Setting } from './fitting.ts';
import { buildWalls } from './wall.ts';

/** A joint of a path: the duct turns by `turn` degrees away from the clock angle `heel`, in the carried frame. */
export interface Turn {
  readonly turn: number;
  readonly heel: number;
  readonly turnedBy: ParamReference;
}

/** A leg of a path: its length on the axis, mm, and the parameter that sets it. */
export interface Leg {
  readonly axis: number;
  readonly sizedBy: ParamReference;
}

/** What building gives: a fitting, or none where a finding says why there is none. */
export interface Built {
  readonly fitting: Fitting | null;
  readonly findings: readonly Finding[];
}

/**
 * A duct along the legs, turning at the joints (one fewer), made from one straight by plane cuts: nothing is lost,
 * neighbours share a cut, every other piece is rolled over by half a turn. Cut i lies at the sum of the legs before it,
 * miter half the turn, heel the joint's heel plus half a turn for every joint before it. Piece k in the fitting is
 * W_k · flip^k · shift(−s_k), with W_k = W_(k−1) · shift(ℓ_(k−1)) · turn_k.
 */
export function buildMiteredPath(legs: readonly Leg[], turns: readonly Turn[], setting: Setting): Built {
  if (legs.length !== turns.length + 1) {
    throw new Error(`a path of ${legs.length} legs has ${legs.length - 1} joints, not ${turns.length}`);
  }
  const { section, board, tag } = setting;
  const stations = accumulate(legs.map((leg) => leg.axis));
  const length = stations[legs.length]!;
  const makeUp = listMakeUps(section, board, length, setting.seam, setting.lay)[0];
  if (!makeUp) return { fitting: null, findings: [describeSmallBoard(setting)] };

  const cuts = turns.map<Cut>((turn, i) => ({
    name: `C${i + 1}`,
    station: stations[i + 1]!,
    miter: turn.turn / 2,
    // Reduced first: half a turn would be lost in the rounding of a very large angle.
    heel: normalizeDegrees(normalizeDegrees(turn.heel) + 180 * (i % 2))
  }));
  const pieces = legs.map<Piece>((leg, k) => ({
    name: `P${k + 1}`,
    from: stations[k]!,
    axis: leg.axis,
    startCut: cuts[k - 1] ?? null,
    endCut: cuts[k] ?? null,
    flipped: k % 2 === 1
  }));
  const straight: Straight = {
    name: `${tag}-A`,
    section,
    thickness: board.thickness,
    length,
    makeUp,
    ends: findEnds(makeUp, length, setting),
    cuts,
    pieces
  };

  const frames = carryFrames(legs, turns);
  const bodies = pieces.map<Body>((piece, k) => ({
    name: piece.name,
    straight: straight.name,
    piece,
    walls: buildWalls(straight, piece),
    placement: compose(
      frames[k]!,
      compose(piece.flipped ? HALF_TURN_ABOUT_X : IDENTITY, shiftAlongX(-piece.from))
    ),
    sizedBy: legs[k]!.sizedBy
  }));
  const joints = turns.map<Joint>((turn, i) => ({
    cut: cuts[i]!.name,
    straight: straight.name,
    bodies: [pieces[i]!.name, pieces[i + 1]!.name],
    at: frames[i + 1]!.t,
    miter: turn.turn / 2,
    turnedBy: turn.turnedBy
  }));
  const last = frames[legs.length - 1]!;
  const inlet = frames[0]!;
  return {
    fitting: {
      straights: [straight],
      bodies,
      joints,
      ports: [
        {
          name: 'inlet',
          body: pieces[0]!.name,
          at: inlet.t,
          flow: inlet.x,
          up: inlet.y,
          section,
          end: straight.ends[0]
        },
        {
          name: 'outlet',
          body: pieces[pieces.length - 1]!.name,
          at: movePoint(last, [legs[legs.length - 1]!.axis, 0, 0]),
          flow: last.x,
          up: last.y,
          section,
          end: straight.ends[1]
        }
      ]
    },
    findings: []
  };
}

/**
 * The frame at the start of every leg: x along it, y the carried up. A turn by θ with heel φ rotates by −θ about
 * cos φ·z − sin φ·y, so the duct leaves away from the heel; nothing else rotates the frame.
 */
export function carryFrames(
  legs: readonly { readonly axis: number }[],
  turns: readonly { readonly turn: number; readonly heel: number }[]
): Motion[] {
  const frames: Motion[] = [IDENTITY];
  turns.forEach(({ turn, heel }, i) => {
    const about = rotateAbout([0, -sinDegrees(heel), cosDegrees(heel)], cosDegrees(turn), -sinDegrees(turn));
    frames.push(compose(compose(frames[i]!, shiftAlongX(legs[i]!.axis)), about));
  });
  return frames;
}

/**
 * A straight's datum end keeps the moulding; its far end does only when nothing is cut off. Of the two moulded edges of
 * a board one is female and one male, so two ends of the same kind cannot both be moulded.
 */
function findEnds(makeUp: MakeUp, length: number, { ends }: Setting): [End, End] {
  if (!makeUp.moulded) return ['plain', 'plain'];
  const inlet = ends.inlet ?? (ends.outlet === 'female' ? 'male' : 'female');
  const wanted = ends.outlet ?? (inlet === 'male' ? 'female' : 'male');
  const whole = Math.abs(length - makeUp.yield) < SAME_LENGTH;
  return [inlet, whole && wanted !== inlet ? wanted : 'plain'];
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

function accumulate(lengths: readonly number[]): number[] {
  const sums = [0];
  for (const length of lengths) sums.push(sums[sums.length - 1]! + length);
  return sums;
}
