// Fittings that change a duct's size, divide it, open or close it, of parameters that chance draws and geometry allows.
import { DEFAULT_BOARD } from '../../src/lib/kernel/document/job.ts';
import type { Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import { build, ENDLESS } from '../duct.ts';
import { between, count, pick, type GeneratedFitting, type Random } from './generated-fittings.ts';
import { makeRandom } from './generated-paths.ts';
import { PLANES, type WallName } from './profiles.ts';

type Params = Readonly<Record<string, unknown>>;
interface Section {
  readonly width: number;
  readonly height: number;
}
interface Stuff {
  readonly random: Random;
  readonly section: Section;
  readonly thickness: number;
}

const WALLS = Object.keys(PLANES) as WallName[];
const RADIANS = Math.PI / 180;

/** An opening keeps so much more than the thickness from the corners of its wall, mm. */
const BESIDE = 25;

const round = (random: Random, low: number, high: number): number => Math.round(between(random, low, high));

/** Now and then a parameter is left out, so that its default is. */
const often = (random: Random, params: Params): Params => (random() < 0.7 ? params : {});

const PARAMS: Readonly<Record<string, (stuff: Stuff) => Params>> = {
  reducer: (stuff) => (stuff.random() < 0.5 ? drawPanels(stuff) : drawFold(stuff)),
  takeoff: (stuff) => drawTakeoff(stuff),
  'split-bend': (stuff) => {
    const { random } = stuff;
    const { divide, shares } = drawShares(stuff, 2);
    const toward = pick(random, divide === 'width' ? ['left', 'right'] : ['top', 'bottom']);
    const told = count(random, 0, 2);
    return {
      ...(divide === 'height' || random() < 0.5 ? { divide } : {}),
      toward,
      turned: { ...(told !== 1 ? { inside: shares[0] } : {}), ...drawTurned(random) },
      straight: { ...(told !== 0 ? { inside: shares[1] } : {}), length: round(random, 50, 1500) }
    };
  },
  wye: (stuff) => {
    const { random } = stuff;
    const { divide, shares } = drawShares(stuff, 2);
    const told = count(random, 0, 3);
    return {
      divide,
      first: { ...(told % 2 === 0 ? { inside: shares[0] } : {}), ...drawTurned(random) },
      second: { ...(told >= 2 ? { inside: shares[1] } : {}), ...drawTurned(random) }
    };
  },
  'three-way': (stuff) => {
    const { random } = stuff;
    const { divide, shares } = drawShares(stuff, 3);
    const told = random() < 0.5;
    return {
      divide,
      first: { inside: shares[0], ...drawTurned(random) },
      middle: { ...(told ? { inside: shares[1] } : {}), length: round(random, 50, 1500) },
      second: { inside: shares[2], ...drawTurned(random) }
    };
  },
  cap: ({ random, thickness }) => ({
    ...often(random, { set: pick(random, ['in', 'on']) }),
    ...often(random, { length: between(random, thickness + 1, 900) })
  }),
  opening: (stuff) => {
    const length = round(stuff.random, 600, 1100);
    return { length, ...drawOpening(stuff, 0, length) };
  },
  box: (stuff) => {
    const { random } = stuff;
    const slots = count(random, 1, 3);
    const slot = round(random, 300, 370);
    return {
      length: slots * slot,
      ...often(random, { set: pick(random, ['in', 'on']) }),
      openings: Array.from({ length: slots }, (_, i) => {
        const walls = WALLS.filter(() => random() < 0.4);
        return (walls.length > 0 ? walls : ['top' as const]).map((wall) =>
          drawOpening(stuff, i * slot, (i + 1) * slot, wall)
        );
      }).flat()
    };
  }
};

/** The families that branches are generated of. */
export const GENERATED_BRANCHES = Object.keys(PARAMS);

/** A fitting of a family that geometry allows, from a board that yields all its straights in one. */
export function generateBranch(random: Random, family: string): GeneratedFitting {
  const thickness = round(random, 10, 45);
  const section = { width: round(random, 300, 700), height: round(random, 300, 700) };
  const params = PARAMS[family]!({ random, section, thickness });
  return { said: { family, section, params }, stock: { board: { ...ENDLESS, thickness } } };
}

/** The same fitting from boards of the usual size, so that long parts of it are made of several straights. */
export function takeUsualBoard({ said, stock }: GeneratedFitting): GeneratedFitting {
  const { length, width } = DEFAULT_BOARD;
  return { said, stock: { ...stock, board: { ...stock.board, length, width } } };
}

/** Any two sections, one in front of the other wherever the alignment says. */
function drawPanels({ random, section }: Stuff): Params {
  const same = random() < 0.15;
  const outlet = {
    width: same ? section.width : round(random, 80, 900),
    height: round(random, 80, 900)
  };
  const aligned = (words: readonly string[]): string | number =>
    random() < 0.6 ? pick(random, words) : round(random, -250, 250);
  const collar = (): number => (random() < 0.2 ? 0 : between(random, 1, 400));
  return {
    outlet,
    ...often(random, { alignY: aligned(['top', 'center', 'bottom']) }),
    ...often(random, { alignZ: aligned(['left', 'center', 'right']) }),
    ...(random() < 0.7 || outlet.height === section.height
      ? { length: between(random, 40, 1500) }
      : { slope: between(random, 3, 60) }),
    ...often(random, { collarIn: collar() }),
    ...often(random, { collarOut: collar() }),
    ...often(random, { method: 'panels' })
  };
}

/** One wall of the larger section is laid down, the three others go straight on. */
function drawFold({ random, section, thickness }: Stuff): Params {
  const wall = pick(random, WALLS);
  const depth = wall === 'top' || wall === 'bottom' ? 'height' : 'width';
  const opens = random() < 0.4;
  const drop = round(random, 5, 180);
  const length = between(random, 80, 900);
  const slope = Math.atan2(drop, length);
  const lead = thickness * Math.tan(slope / 2);
  const short = length * (1 / Math.cos(slope) - 1) + 2 * lead;
  const [large, small] = [lead + between(random, 1, 300), short + between(random, 1, 300)];
  const ways = { top: ['bottom', -0.5], bottom: ['top', 0.5], right: ['left', -0.5], left: ['right', 0.5] };
  const [opposite, half] = ways[wall] as [string, number];
  const less = opens ? -drop : drop;
  const align = random() < 0.7 ? opposite : half * less;
  return {
    outlet: { ...section, [depth]: section[depth] - less },
    ...(depth === 'height' ? { alignY: align } : { alignZ: align }),
    length,
    collarIn: opens ? small : large,
    collarOut: opens ? large : small,
    method: 'fold',
    ...often(random, { finish: pick(random, ['strip', 'trim']) })
  };
}

function drawTakeoff({ random, section, thickness }: Stuff): Params {
  const wall = pick(random, WALLS);
  const shod = random() < 0.3;
  const angle = shod || random() < 0.3 ? 90 : pick(random, [30, 45, 60, between(random, 30, 90)]);
  const fit = shod ? 'butt' : pick(random, ['butt', 'enter']);
  const play = fit === 'enter' ? pick(random, [0, 1, 3]) : 0;
  const free = widthOf(section, wall) + 2 * thickness - 2 * (thickness + BESIDE);
  const beside = fit === 'enter' ? 2 * (thickness + play) : 0;
  const across = between(random, 30, free - beside);
  const along = between(random, 40, 400);
  const spare = (free - beside - across) / 2;
  const shoe = shod && random() < 0.7 ? between(random, 20, 250) : Math.max(100, along / 4);
  const sine = Math.sin(angle * RADIANS);
  const upstream = shod ? shoe + thickness : thickness / Math.tan(angle * RADIANS);
  const reach = (along + 2 * thickness) / (2 * sine) + play + thickness + 2;
  const station = reach + upstream + between(random, 0, 400);
  return {
    wall,
    length: station + reach + between(random, 0, 400),
    station,
    ...(random() < 0.6 ? { aside: between(random, -spare, spare) } : {}),
    branch: { across, along },
    ...(angle === 90 && random() < 0.5 ? {} : { angle }),
    ...(shod
      ? {
          entry: 'shoe',
          neck: shoe + thickness * Math.tan(22.5 * RADIANS) + between(random, 1, 400),
          ...(shoe === Math.max(100, along / 4) ? {} : { shoe })
        }
      : {
          neck: between(random, 1, 500),
          fit,
          ...(fit === 'enter' && (play !== 1 || random() < 0.5) ? { play } : {})
        })
  };
}

function widthOf({ width, height }: Section, wall: WallName): number {
  return wall === 'top' || wall === 'bottom' ? width : height;
}

/** An opening between two stations, of any shape, upright or bevelled either way. */
function drawOpening(
  { random, section, thickness }: Stuff,
  from: number,
  to: number,
  wall: WallName = pick(random, WALLS)
): Params {
  const bevel = random() < 0.5 ? 0 : between(random, -30, 30);
  const lip = thickness * Math.tan(bevel * RADIANS);
  const outward = 2 * Math.max(0, -lip);
  const free = widthOf(section, wall) - 2 * BESIDE - outward;
  const most = to - from - 2 * (thickness + 1) - outward;
  const least = 2 * Math.max(0, lip) + 10;
  const isRound = random() < 0.5;
  const across = between(random, least, isRound ? Math.min(free, most) : free);
  const along = isRound ? across : between(random, least, most);
  const [beside, before] = [(free - across) / 2, (most - along) / 2];
  return {
    wall,
    station: (from + to) / 2 + between(random, -before, before),
    ...(random() < 0.6 ? { aside: between(random, -beside, beside) } : {}),
    ...(isRound
      ? { shape: 'round', diameter: across }
      : { shape: pick(random, ['rectangular', 'rectangle']), along, across }),
    ...(bevel === 0 && random() < 0.5 ? {} : { bevel })
  };
}

/** What is left of the main's inside once a double wall is taken off at each division, in shares. */
function drawShares({ random, section, thickness }: Stuff, parts: 2 | 3) {
  const divide = pick(random, ['width', 'height'] as const);
  const whole = section[divide] - 2 * thickness * (parts - 1);
  const draws = Array.from({ length: parts }, () => between(random, 1, 2));
  const total = draws.reduce((sum, one) => sum + one, 0);
  const shares = draws.map((one) => Math.max(20, Math.floor((whole * one) / total)));
  const others = shares.slice(0, -1).reduce((sum, one) => sum + one, 0);
  return { divide, shares: [...shares.slice(0, -1), whole - others] };
}

function drawTurned(random: Random): Params {
  const pieces = count(random, 2, 5);
  const turn = Math.min(90 * (pieces - 1), pick(random, [30, 45, 90, 180, between(random, 5, 180)]));
  return {
    turn,
    ...(pieces === 3 && random() < 0.5 ? {} : { pieces }),
    ...often(random, { throatIn: between(random, 1, 600) }),
    ...often(random, { gore: between(random, 1, 400) }),
    ...often(random, { throatOut: between(random, 1, 600) })
  };
}

/** So many fittings of a family with wanted parameters, as the kernel builds them. */
export function* drawFittings(
  { seed, runs }: { readonly seed: number; readonly runs: number },
  family: string,
  wanted: (params: Params) => boolean
): Generator<{ drawn: GeneratedFitting; fitting: Fitting; t: number; what: string }> {
  const random = makeRandom(seed);
  for (let found = 0; found < runs;) {
    const drawn = generateBranch(random, family);
    if (!wanted(drawn.said.params)) continue;
    found++;
    const { fitting } = build(drawn.said, drawn.stock);
    yield { drawn, fitting, t: drawn.stock.board.thickness, what: JSON.stringify(drawn) };
  }
}
