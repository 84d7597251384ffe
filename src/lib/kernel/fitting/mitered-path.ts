import { cosDegrees, normalizeDegrees, sinDegrees } from '../geometry/angle.ts';
import { compose, IDENTITY, movePoint, rotateAbout, shiftAlongX, type Motion } from '../geometry/motion.ts';
import { measureReach, type Cut } from '../straight/cut.ts';
import type { Stretch } from '../straight/divide.ts';
import { add, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { growSection } from '../straight/section.ts';
import { layOutStraights, type LaidPiece, type Numbering } from './laid-straights.ts';
import type { Finding } from './finding.ts';
import type { Body, Fitting, Joint, ParamReference, Port, Setting } from './fitting.ts';
import { startWalls, type EndEdges } from './wall.ts';

/** A joint of a path: the duct turns by `turn` degrees away from the clock angle `heel`, in the carried frame. */
export interface Turn {
  readonly turn: number;
  readonly heel: number;
  readonly turnedBy: ParamReference;
}

/** What a joint does to the duct: how far it turns, and the clock angle of its heel, degrees. */
export type JointTurn = Pick<Turn, 'turn' | 'heel'>;

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

/** Where a path begins that is a part of a fitting, and how its names go on. */
export interface PathStart {
  readonly numbering: Numbering;
  /** Takes the path's own frame to the fitting's frame. */
  readonly at: Motion;
  /** Names of the ports at its two ends; null where the end is none. */
  readonly ports: readonly [string | null, string | null];
  /** Whether its two ends are ends of the fitting though they are no ports by themselves. */
  readonly open?: readonly [boolean, boolean];
  /** Edges of its walls at its two ends that are made otherwise than the ends of its straights. */
  readonly endEdges: readonly [EndEdges, EndEdges];
}

const AT_THE_ORIGIN: PathStart = {
  numbering: { straights: 0, cuts: 0, pieces: 0 },
  at: IDENTITY,
  ports: ['inlet', 'outlet'],
  endEdges: [{}, {}]
};

/**
 * A duct along the legs, turning at the joints (one fewer), made from one straight by plane cuts: nothing is lost,
 * neighbours share a cut, every other piece is rolled over by half a turn. Cut i lies at the sum of the legs before it,
 * miter half the turn, heel the joint's heel plus half a turn for every joint before it. Piece k in the fitting is
 * W_k · flip^k · shift(−s_k), with W_k = W_(k−1) · shift(ℓ_(k−1)) · turn_k. Where one straight is longer than a board
 * yields it is divided over several; flips and names go on, only stations begin again.
 */
export function buildMiteredPath(
  legs: readonly Leg[],
  turns: readonly Turn[],
  setting: Setting,
  start: PathStart = AT_THE_ORIGIN
): Built {
  if (legs.length !== turns.length + 1) {
    throw new Error(`a path of ${legs.length} legs has ${legs.length - 1} joints, not ${turns.length}`);
  }
  const cuts = placeCuts(legs, turns, start.numbering.cuts);
  const laid = layOutStraights(measureStretches(legs, cuts, setting), cuts, setting, {
    numbering: start.numbering,
    open: start.open ?? [start.ports[0] !== null, start.ports[1] !== null]
  });
  if ('code' in laid) return { fitting: null, findings: [laid] };

  const frames = carryFrames(legs, turns, start.at);
  const pieces = laid.flatMap(({ pieces }) => pieces);
  const walls = new Map(
    laid.map(({ straight }, i) => {
      const first = i === 0 ? start.endEdges[0] : {};
      const last = i === laid.length - 1 ? start.endEdges[1] : {};
      return [straight, startWalls(straight, [first, last])];
    })
  );
  const bodies = pieces.map(({ piece, straight, leg, datum }): Body => ({
    kind: 'piece',
    name: piece.name,
    straight: straight.name,
    piece,
    walls: walls.get(straight)!(piece),
    placement: placePiece(frames[leg]!, piece.flipped, datum - findStart(cuts, leg)),
    sizedBy: legs[leg]!.sizedBy,
    least: findLeast(leg, cuts, setting)
  }));
  const last = frames[legs.length - 1]!;
  const outletAt = movePoint(last, [legs[legs.length - 1]!.axis, 0, 0]);
  const [first, final] = [pieces[0]!, pieces[pieces.length - 1]!];
  const [inlet, outlet] = start.ports;
  const openAt = (
    name: string | null,
    { piece, straight }: LaidPiece,
    end: 0 | 1,
    { x, y }: Motion,
    at: Vec3
  ): Port[] =>
    name === null
      ? []
      : [{ name, body: piece.name, at, flow: x, up: y, section: setting.section, end: straight.ends[end] }];
  return {
    fitting: {
      straights: laid.map(({ straight }) => straight),
      shaping: () => [],
      closed: [],
      axes: [[...frames.map(({ t }) => t), outletAt]],
      bodies,
      joints: listJoints(pieces, turns, frames, start.numbering.cuts),
      ports: [
        ...openAt(inlet, first, 0, frames[0]!, frames[0]!.t),
        ...openAt(outlet, final, 1, last, outletAt)
      ]
    },
    findings: []
  };
}

/** The frame of its leg, shifted along it, and turned by half a turn about it where the piece is rolled over. */
function placePiece({ x, y, z, t }: Motion, flipped: boolean, along: number): Motion {
  const at = add(t, scale(x, along));
  return flipped ? { x, y: subtract(NOWHERE, y), z: subtract(NOWHERE, z), t: at } : { x, y, z, t: at };
}

const NOWHERE: Vec3 = [0, 0, 0];

/**
 * The frame at the start of every leg: x along it, y the carried up. A turn by θ with heel φ rotates by −θ about
 * cos φ·z − sin φ·y, so the duct leaves away from the heel; nothing else rotates the frame.
 */
export function carryFrames(
  legs: readonly { readonly axis: number }[],
  turns: readonly JointTurn[],
  start: Motion = IDENTITY
): Motion[] {
  const frames: Motion[] = [start];
  turns.forEach((joint, i) => {
    frames.push(compose(compose(frames[i]!, shiftAlongX(legs[i]!.axis)), turnAtJoint(joint)));
  });
  return frames;
}

/** What a joint does to the frame, at its own place. */
export function turnAtJoint({ turn, heel }: JointTurn): Motion {
  return rotateAbout([0, -sinDegrees(heel), cosDegrees(heel)], cosDegrees(turn), -sinDegrees(turn));
}

/** The cuts of the undivided straight. */
function placeCuts(legs: readonly Leg[], turns: readonly Turn[], before: number): Cut[] {
  let station = 0;
  return turns.map(({ turn, heel }, i) => {
    station += legs[i]!.axis;
    return {
      name: `C${before + i + 1}`,
      station,
      miter: turn / 2,
      // Reduced first: half a turn would be lost in the rounding of a very large angle.
      heel: normalizeDegrees(normalizeDegrees(heel) + 180 * (i % 2))
    };
  });
}

/** Where a leg begins on the undivided straight. */
function findStart(cuts: readonly Cut[], leg: number): number {
  return cuts[leg - 1]?.station ?? 0;
}

function findLeast(leg: number, cuts: readonly Cut[], { shop }: Setting): number {
  if (cuts.length === 0) return 0;
  return leg === 0 || leg === cuts.length ? shop.minThroat : shop.minGore;
}

function measureStretches(legs: readonly Leg[], cuts: readonly Cut[], setting: Setting): Stretch[] {
  const outside = growSection(setting.section, setting.board.thickness);
  const reach = (cut: Cut | undefined): number => (cut ? measureReach(outside, cut.miter, cut.heel) : 0);
  return legs.map(({ axis }, k) => ({
    axis,
    from: findStart(cuts, k),
    to: cuts[k]?.station ?? findStart(cuts, k) + axis,
    startReach: reach(cuts[k - 1]),
    endReach: reach(cuts[k]),
    least: findLeast(k, cuts, setting)
  }));
}

/** Every body meets the next: at a joint of the path in a cut, inside a leg end to end. */
function listJoints(
  pieces: readonly LaidPiece[],
  turns: readonly Turn[],
  frames: readonly Motion[],
  cutsBefore: number
): Joint[] {
  return pieces.slice(1).map((after, i): Joint => {
    const before = pieces[i]!;
    const bodies: Joint['bodies'] = [before.piece.name, after.piece.name];
    if (before.leg === after.leg) {
      return {
        bodies,
        at: movePoint(frames[after.leg]!, [after.along, 0, 0]),
        closing: { kind: 'ends', ends: [before.straight.ends[1], after.straight.ends[0]] }
      };
    }
    const { turn, turnedBy } = turns[before.leg]!;
    return {
      bodies,
      at: frames[after.leg]!.t,
      closing: {
        kind: 'miter',
        cut: `C${cutsBefore + after.leg}`,
        straight: before.straight.name,
        miter: turn / 2,
        turnedBy
      }
    };
  });
}
