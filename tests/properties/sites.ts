// Sites with a fitting planted in them: where it ends is where the site's duct goes on, and boxes stand round it that it
// keeps clear of by 30 mm or more. Nothing of the solver, and no distance of the kernel's, is used.
import type { Job } from '../../src/lib/kernel/document/job.ts';
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../../src/lib/kernel/document/job.ts';
import type { Obstacle } from '../../src/lib/kernel/site/site.ts';
import { listMakeUps } from '../../src/lib/kernel/straight/blank.ts';
import type { Board, Shop } from '../../src/lib/kernel/straight/board.ts';
import { evaluateOne } from '../duct.ts';
import { between, count, pick, type Random } from '../oracle/generated-fittings.ts';
import { free, measureOverlap, type Solid } from '../oracle/manifold.ts';
import { measureDistance, spanLegs, standObstacle } from '../oracle/outside.ts';
import { layOutLegs, measureShortest, reachOut, surround, type Joint, type Legs, type Size } from './legs.ts';
import { combine, walkLegs, walkPath, type Vector } from './turtle.ts';

export const KINDS = ['straight or bend', 'offset', 'rolling offset', 'double offset', 'free path'] as const;
export type Kind = (typeof KINDS)[number];

/** The fitting that stands in a generated site. */
export interface Planted {
  readonly family: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly joints: number;
  /** The sum of what its joints turn, degrees. */
  readonly turn: number;
}

export interface PlantedSite {
  readonly job: Job & { readonly site: NonNullable<Job['site']> };
  readonly planted: Planted;
}

/** What a fitting is planted under. */
interface Ground {
  readonly section: Size;
  readonly board: Board;
  readonly shop: Shop;
  /** The longest straight that one board yields, mm. */
  readonly longest: number;
}

/** Every box keeps so far from what is planted, mm. */
const KEPT = 30;

/** The least and the most of a shift, mm. A box that blocks the straight way finds no room beside a smaller one. */
const SHIFTS = [80, 900] as const;

/**
 * A site with a fitting planted: of the kind, from one straight that one board yields, no end piece and no gore below the
 * shop's minima. Its end is where the planted fitting ends. At least two boxes stand near it, exactly 30 mm off or a little
 * more, and but for a straight one in the way of a duct that goes straight. The same row of numbers gives the same site.
 */
export function generateSite(random: Random, kind: Kind): PlantedSite {
  for (;;) {
    const ground = drawGround(random);
    const drawn = ground && drawFitting(random, kind, ground);
    if (!drawn) continue;
    const { section, board, shop } = ground;
    const { family, params, legs } = drawn;
    const solids = spanLegs(legs, section, board.thickness);
    const ducts = spanDucts(legs, ground);
    const blocking = family === 'straight' ? [] : blockWay(random, solids, ducts, drawn, ground);
    const boxes = blocking && [
      ...blocking,
      ...Array.from({ length: count(random, 2, 5) }, () => placeNear(random, solids, ducts, legs))
    ];
    free([...solids, ...ducts]);
    if (!boxes) continue;
    const { at, flow, up } = walkPath(legs.lengths, legs.joints);
    const clearance = random() < 0.5 ? 25 : KEPT - 1e-3;
    const obstacles = boxes.map(({ box, gap }, i): Obstacle => ({
      name: `${box.kind} ${i + 1}`,
      ...box,
      ...(random() < 0.3 ? { clearance: pick(random, [gap - 1e-3, between(random, 0, KEPT - 1e-3)]) } : {})
    }));
    const end = { at, flow, up: random() < 0.2 ? combine([-1, up]) : up };
    return {
      job: {
        format: 'gorewright-job',
        version: 1,
        board,
        shop,
        site: { section, end, clearance, obstacles }
      },
      planted: { family, params, joints: legs.joints.length, turn: sum(legs.joints.map(({ turn }) => turn)) }
    };
  }
}

/** Section, board and shop in usual sizes, often the usual ones; null where such a board makes no such duct. */
function drawGround(random: Random): Ground | null {
  const usual = random() < 0.4;
  const board = usual
    ? DEFAULT_BOARD
    : {
        ...DEFAULT_BOARD,
        thickness: pick(random, [20, 25, 30, 40, 50]),
        length: pick(random, [2400, 3000, 3500, 4000]),
        width: pick(random, [1000, 1200, 1250, 1500]),
        profile: pick(random, ['long', 'short'] as const),
        spigot: pick(random, [0, 20, 35])
      };
  const shop =
    usual || random() < 0.3
      ? DEFAULT_SHOP
      : {
          minThroat: pick(random, [100, 150, 200, 250]),
          minGore: pick(random, [60, 100, 150]),
          blades: pick(random, [[0, 22.5, 45], [0, 15, 30, 45], [0, 45], []]).map((angle) => ({ angle }))
        };
  const section =
    random() < 0.3
      ? { width: 400, height: 250 }
      : { width: 10 * count(random, 12, 60), height: 10 * count(random, 10, 50) };
  const yields = [...listMakeUps(section, board, 'top-left')].map((makeUp) => makeUp.yield);
  return yields.length === 0 ? null : { section, board, shop, longest: Math.max(...yields) };
}

interface Drawn {
  readonly family: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly legs: Legs;
}

/** A fitting of the kind; null where what chance draws keeps no minimum, is longer than a straight, or runs into itself. */
function drawFitting(random: Random, kind: Kind, ground: Ground): Drawn | null {
  const { section, board, shop, longest } = ground;
  const { family, params } = FITTINGS[kind](random, ground);
  const legs = layOutLegs({ family, section, params }, board.thickness);
  if (sum(legs.lengths) > longest) return null;
  if (legs.joints.length > 0) {
    const shortest = measureShortest(legs, surround(section, board.thickness));
    const isShort = shortest.some(
      (edge, k) => edge < (k === 0 || k === legs.joints.length ? shop.minThroat : shop.minGore) - 1e-9
    );
    if (isShort) return null;
  }
  return evaluateOne({ family, section, params }, { board, shop }).built && { family, params, legs };
}

/** A length that is often the least it may be. */
const drawFrom = (random: Random, least: number, spare: number): number =>
  random() < 0.3 ? least : least + between(random, 0, spare);

const sign = (random: Random): number => (random() < 0.5 ? -1 : 1);

function drawThroats(random: Random, { minThroat }: Shop, spare = 500) {
  return { throatIn: drawFrom(random, minThroat, spare), throatOut: drawFrom(random, minThroat, spare) };
}

type Said = Pick<Drawn, 'family' | 'params'>;

const FITTINGS: Readonly<Record<Kind, (random: Random, ground: Ground) => Said>> = {
  'straight or bend': (random, { shop, longest }) => {
    if (random() < 0.25)
      return {
        family: 'straight',
        params: { length: random() < 0.2 ? longest : between(random, 200, longest) }
      };
    const turn = random() < 0.6 ? pick(random, [22.5, 30, 45, 60, 90]) : between(random, 10, 150);
    const pieces = count(random, Math.max(2, Math.ceil(turn / 60) + 1), 5);
    return {
      family: 'bend',
      params: {
        turn,
        pieces,
        heel: pick(random, ['top', 'right', 'bottom', 'left']),
        gore: drawFrom(random, shop.minGore, 250),
        ...drawThroats(random, shop)
      }
    };
  },
  offset: (random, { shop }) => {
    const shift = sign(random) * between(random, ...SHIFTS);
    const turn = random() < 0.5 ? pick(random, [30, 45, 45, 60, 90]) : between(random, 12, 90);
    const plain = random() < 0.5 ? { rise: shift, roll: 0 } : { rise: 0, roll: shift };
    return {
      family: 'offset',
      params: { ...plain, turn, piecesPerTurn: 2, ...drawThroats(random, shop) }
    };
  },
  'rolling offset': (random, { shop }) => {
    const draw = (): number => sign(random) * between(random, 40, SHIFTS[1]);
    const turn = random() < 0.5 ? pick(random, [30, 45, 60]) : between(random, 12, 90);
    return {
      family: 'offset',
      params: { rise: draw(), roll: draw(), turn, piecesPerTurn: 2, ...drawThroats(random, shop) }
    };
  },
  'double offset': (random, { shop }) => {
    const shift = between(random, SHIFTS[0], 450);
    const clock = random() < 0.4 ? 90 * count(random, 0, 3) : between(random, 0, 360);
    const [rise, roll] = [
      shift * Math.cos((clock * Math.PI) / 180),
      shift * Math.sin((clock * Math.PI) / 180)
    ];
    const turn = random() < 0.6 ? pick(random, [45, 45, 30, 90]) : between(random, 15, 90);
    const level = drawFrom(random, Math.max(shop.minGore, 1), 400);
    return {
      family: 'double-offset',
      params: { rise, roll, turn, level, piecesPerTurn: 2, ...drawThroats(random, shop, 250) }
    };
  },
  'free path': (random, { section, board, shop }) => {
    const outside = surround(section, board.thickness);
    const joints = Array.from({ length: count(random, 3, 4) }, (): Joint => ({
      turn: random() < 0.3 ? pick(random, [22.5, 30, 45]) : between(random, 10, 60),
      heel: random() < 0.25 ? 90 * count(random, 0, 3) : between(random, 0, 360)
    }));
    const reaches = joints.map((joint) => reachOut(joint, outside));
    const reached = [0, ...reaches].map((reach, k) => reach + (reaches[k] ?? 0));
    // Opposite heels make a piece's edges alike, equal ones do not: what is spared is left over.
    const spared = measureShortest({ lengths: reached, joints }, outside);
    const lengths = reached.map((reach, k) => {
      const least = k === 0 || k === joints.length ? shop.minThroat : shop.minGore;
      return reach - spared[k]! + drawFrom(random, least, 250);
    });
    return { family: 'path', params: { lengths, joints } };
  }
};

/** A box that stands clear of what is planted, and by how much, mm. */
interface Placed {
  readonly box: Omit<Obstacle, 'name'>;
  readonly gap: number;
}

const SIZES = {
  beam: [250, 350, 3000],
  tray: [3000, 80, 300],
  rack: [200, 400, 1500],
  post: [300, 3000, 300],
  lamp: [150, 60, 600],
  pipe: [60, 60, 2000]
} as const;

/** A box round a point, of any kind, some of them turned; `share` of its size. */
function drawBox(random: Random, at: Vector, share: number): Placed['box'] {
  const kind = pick(random, Object.keys(SIZES) as (keyof typeof SIZES)[]);
  const half = SIZES[kind].map((one) => (one / 2) * share * between(random, 0.5, 1));
  return {
    kind,
    min: [at[0] - half[0]!, at[1] - half[1]!, at[2] - half[2]!],
    max: [at[0] + half[0]!, at[1] + half[1]!, at[2] + half[2]!],
    ...(random() < 0.4 ? { turn: pick(random, [90, 45, between(random, -180, 180)]) } : {})
  };
}

/** Moves are no shorter than this, mm: a box that slides along the duct would never get clear of it. */
const LEAST_MOVE = 1e-3;

/**
 * Moves a box along a direction until it is so far from what is planted. What is not far enough yet has to be moved at least
 * by what is missing, so it never leaps over the first place that is.
 */
function moveClear(
  solids: readonly Solid[],
  box: Placed['box'],
  way: Vector,
  wanted: number,
  most: number
): Placed | null {
  for (let moved = 0; moved < most;) {
    const there: Placed['box'] = {
      ...box,
      min: combine([1, box.min], [moved, way]),
      max: combine([1, box.max], [moved, way])
    };
    const block = standObstacle({ name: '', ...there });
    const gap = measureDistance(solids, block);
    block.delete();
    if (gap >= wanted) return { box: there, gap };
    moved += Math.max(wanted - gap, LEAST_MOVE);
  }
  return null;
}

/** The ducts that come to the inlet and go on from the end: nothing stands in them. */
function spanDucts(legs: Legs, { section, board }: Ground): Solid[] {
  const { at, flow } = walkPath(legs.lengths, legs.joints);
  const last = legs.lengths.length - 1;
  const lengths = legs.lengths.map((length, k) => (k === last ? length + DUCT : length));
  const onward = spanLegs({ ...legs, lengths }, section, board.thickness);
  const [long] = onward.splice(last, 1) as [Solid];
  const after = long.trimByPlane([...flow], flow[0] * at[0] + flow[1] * at[1] + flow[2] * at[2]);
  const [straight] = spanLegs({ lengths: [DUCT], joints: [] }, section, board.thickness) as [Solid];
  const before = straight.translate([-DUCT, 0, 0]);
  free([...onward, long, straight]);
  return [before, after];
}

/** So much of the ducts before and after is looked at, mm. */
const DUCT = 2000;

/** Whether a box stands in one of some solids. */
function standsIn(box: Placed['box'], solids: readonly Solid[]): boolean {
  const block = standObstacle({ name: '', ...box });
  const isIn = solids.some((solid) => measureOverlap(block, solid) > 0);
  block.delete();
  return isIn;
}

/** Any direction, or any square to another. */
function drawWay(random: Random, square?: { readonly up: Vector; readonly right: Vector }): Vector {
  const clock = between(random, 0, 2 * Math.PI);
  if (square) return combine([Math.cos(clock), square.up], [Math.sin(clock), square.right]);
  const x = between(random, -1, 1);
  const ring = Math.sqrt(1 - x * x);
  return [x, ring * Math.cos(clock), ring * Math.sin(clock)];
}

const drawGap = (random: Random): number => KEPT + (random() < 0.6 ? 1e-6 : between(random, 0, 25));

/** A box beside the duct, at a place of its axis that chance draws. */
function placeNear(
  random: Random,
  solids: readonly Solid[],
  ducts: readonly Solid[],
  { lengths, joints }: Legs
): Placed {
  const legs = walkLegs(lengths, joints);
  for (;;) {
    const k = count(random, 0, lengths.length - 1);
    const at = combine([1, legs[k]!.at], [between(random, 0, lengths[k]!), legs[k]!.flow]);
    const way = random() < 0.7 ? drawWay(random, legs[k]) : drawWay(random);
    const placed = moveClear(
      solids,
      drawBox(random, at, between(random, 0.3, 1)),
      way,
      drawGap(random),
      3000
    );
    if (placed && !standsIn(placed.box, ducts)) return placed;
  }
}

/**
 * A box in the way of a duct that goes straight: on from the inlet, or from the inlet to the end. Null where none that is
 * tried gets clear of what is planted and still stands in the way.
 */
function blockWay(
  random: Random,
  solids: readonly Solid[],
  ducts: readonly Solid[],
  drawn: Drawn,
  { section, board }: Ground
): [Placed] | null {
  const { lengths, joints } = drawn.legs;
  const straight = { lengths: [sum(lengths)], joints: [] };
  const ways = [...spanLegs(straight, section, board.thickness), spanLine(walkPath(lengths, joints).at)];
  try {
    for (let tries = 0; tries < 30; tries++) {
      const [from, way] =
        drawn.family === 'double-offset' ? lookRound(drawn.legs) : lookAhead(random, drawn.legs);
      const box = drawBox(random, from, between(random, 0.1, 1));
      const placed = moveClear(solids, box, way, drawGap(random), 1000);
      if (placed && !standsIn(placed.box, ducts) && standsIn(placed.box, ways)) return [placed];
    }
    return null;
  } finally {
    free(ways);
  }
}

/** What a detour goes round: beside the middle of its level piece, and the direction away from that. */
function lookRound({ lengths, joints }: Legs): [Vector, Vector] {
  const { at, flow } = walkLegs(lengths, joints)[2]!;
  const aside = Math.hypot(at[1], at[2]);
  return [combine([1, [at[0], 0, 0]], [lengths[2]! / 2, flow]), [0, -at[1] / aside, -at[2] / aside]];
}

/** A place on the straight way, and any direction. */
function lookAhead(random: Random, { lengths, joints }: Legs): [Vector, Vector] {
  const ahead: Vector = [between(random, lengths[0]!, sum(lengths)), 0, 0];
  const { at } = walkPath(lengths, joints);
  return [random() < 0.5 ? ahead : combine([between(random, 0.2, 0.8), at]), drawWay(random)];
}

/** The line from the inlet to a point, as a rod of a millimetre. */
function spanLine(at: Vector): Solid {
  const [rod] = spanLegs({ lengths: [Math.hypot(...at)], joints: [] }, { width: 1, height: 1 }, 0) as [Solid];
  const degrees = (across: number, along: number): number => (Math.atan2(across, along) * 180) / Math.PI;
  // The library turns about z first, then about y; by the right hand about y what is ahead goes to the left.
  const line = rod.rotate([0, -degrees(at[2], at[0]), degrees(at[1], Math.hypot(at[0], at[2]))]);
  rod.delete();
  return line;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}
