import type { SaidFitting } from '../../src/lib/kernel/document/job.ts';
import type { BuiltModel, FittingModel } from '../../src/lib/kernel/evaluate.ts';
import { evaluateOne, type Stock } from '../duct.ts';
import { ANY, generatePath, makeRandom } from './generated-paths.ts';

/** A fitting as a document says it, with the stock it is made from. */
export interface GeneratedFitting {
  readonly said: SaidFitting;
  readonly stock: Stock & { readonly board: { readonly thickness: number } };
}

/** A generator of numbers in [0, 1). */
export type Random = () => number;
type Params = Readonly<Record<string, unknown>>;

/** A number of a range. */
export const between = (random: Random, low: number, high: number): number => low + (high - low) * random();
/** A whole number of a range, both ends included. */
export const count = (random: Random, low: number, high: number): number =>
  low + Math.floor(random() * (high - low + 1));
/** One of a list. */
export const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random() * from.length)]!;

/** Turns as a shop makes them, and any. */
const drawTurn = (random: Random, most: number): number =>
  random() < 0.4 ? pick(random, [22.5, 30, 45, 90]) : between(random, 3, most);

const PARAMS: Readonly<Record<string, (random: Random) => Params>> = {
  straight: (random) => ({ length: between(random, 100, 6000) }),
  bend: (random) => {
    const pieces = count(random, 2, 9);
    const driver = pieces === 2 ? 'gore' : pick(random, ['gore', 'radius', 'setback']);
    const sizes = { gore: [0, 600], radius: [300, 2500], setback: [500, 4000] } as const;
    const [low, high] = sizes[driver as keyof typeof sizes];
    return {
      turn: pieces === 2 ? between(random, 3, 90) : drawTurn(random, 180),
      pieces,
      heel: pick(random, ['top', 'right', 'bottom', 'left']),
      [driver]: between(random, low, high),
      ...drawThroats(random)
    };
  },
  offset: (random) => ({
    ...drawShift(random),
    ...pick(random, [
      { turn: drawTurn(random, 90) },
      { advance: between(random, 100, 2500) },
      { travel: between(random, 300, 3500) }
    ]),
    ...drawThroats(random)
  }),
  'double-offset': (random) => ({
    ...drawShift(random),
    turn: drawTurn(random, 90),
    level: between(random, 1, 1500),
    ...drawThroats(random)
  })
};

function drawShift(random: Random): Params {
  const size = (): number => between(random, -1200, 1200);
  const plain = random() < 0.3;
  return {
    rise: plain && random() < 0.5 ? 0 : size(),
    roll: plain ? 0 : size(),
    piecesPerTurn: count(random, 2, 4)
  };
}

function drawThroats(random: Random): Params {
  const rests = random() < 0.15 ? pick(random, ['throatIn', 'throatOut']) : null;
  const draw = (name: string): number | 'rest' => (name === rests ? 'rest' : between(random, 1, 1800));
  return { throatIn: draw('throatIn'), throatOut: draw('throatOut') };
}

/** The families that fittings are generated of. */
export const GENERATED = [...Object.keys(PARAMS), 'path'];

/** A fitting of a family, from a board of usual sizes, so that a long one is divided over several straights. */
export function generateFitting(random: Random, family: string): GeneratedFitting {
  const thickness = Math.round(between(random, 10, 50));
  const board = {
    thickness,
    length: Math.round(between(random, 2000, 4000)),
    width: Math.round(between(random, 700, 1500)),
    profile: pick(random, ['long', 'short'] as const),
    spigot: pick(random, [0, 20, 35])
  };
  const shop = { minThroat: pick(random, [0, 120, 200]), minGore: pick(random, [0, 60, 150]) };
  const draw = PARAMS[family];
  if (!draw) {
    const { section, thickness, lengths, joints } = generatePath(random, { ...ANY, spare: 1200 });
    const said = { family, section, params: { lengths, joints } };
    return { said, stock: { board: { ...board, thickness }, shop } };
  }
  const section = {
    width: Math.round(between(random, 60, 700)),
    height: Math.round(between(random, 60, 700))
  };
  return { said: { family, section, params: draw(random) }, stock: { board, shop } };
}

/** Generated fittings of all families in turn that the kernel calls buildable, each with what it builds. */
export function* listBuildableFittings(
  seed: number,
  wanted: number
): Generator<{ readonly drawn: GeneratedFitting; readonly model: FittingModel; readonly built: BuiltModel }> {
  const random = makeRandom(seed);
  for (let found = 0; found < wanted;) {
    const drawn = generateFitting(random, GENERATED[found % GENERATED.length]!);
    const model = evaluateOne(drawn.said, drawn.stock);
    if (!model.built) continue;
    found++;
    yield { drawn, model, built: model.built };
  }
}
