// How long the kernel takes to build a fitting's pieces, beside an independent mesh-boolean library that cuts the same
// pieces from one tube a straight and reads their volumes.
import { DEFAULT_BOARD, DEFAULT_SHOP, type SaidFitting } from '../../src/lib/kernel/document/job.ts';
import { resolveFitting } from '../../src/lib/kernel/document/resolve.ts';
import { evaluateFitting } from '../../src/lib/kernel/evaluate.ts';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import type { Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import { ROUND_CORNERS } from '../../src/lib/kernel/fitting/opening.ts';
import { growSection } from '../../src/lib/kernel/straight/section.ts';
import { FOLDED, SECTION } from '../duct.ts';
import { expectSolids, freeExpected } from '../oracle/expected-solids.ts';
import { GENERATED_BRANCHES } from '../oracle/generated-branches.ts';
import { cutOut, free, makeBox } from '../oracle/manifold.ts';
import { compare, tellChecksum } from './timing.ts';

/** So large that nothing is divided: the peer cuts one tube. */
const BOARD = { ...DEFAULT_BOARD, length: 100_000, width: 100_000 };

const bend = (pieces: number): SaidFitting => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, pieces, heel: 'right', radius: 900, throatIn: 250, throatOut: 250 }
});

/** A screw: every joint turns a little, its heel further round, so that the duct never meets itself. */
const screw = (joints: number): SaidFitting => ({
  family: 'path',
  section: SECTION,
  params: {
    lengths: Array.from({ length: joints + 1 }, () => 400),
    joints: Array.from({ length: joints }, (_, i) => ({ turn: 12, heel: 29 * i }))
  }
});

const CASES: [string, SaidFitting][] = [
  ['bend of 2 pieces', bend(2)],
  ['bend of 4 pieces', bend(4)],
  ['bend of 8 pieces', bend(8)],
  ['path of 20 joints', screw(20)]
];

/** From the parameters to the walls of all pieces. */
function makeBuild(said: SaidFitting): () => Fitting {
  const { family, values, setting } = resolveFitting(said, 0, BOARD, DEFAULT_SHOP);
  return () => {
    const { fitting, findings } = family.build(values as never, setting);
    if (!fitting) throw new Error(`not buildable: ${JSON.stringify(findings)}`);
    return fitting;
  };
}

/** Every corner of every wall is read. */
function readCorners({ bodies }: Fitting): number {
  let sum = 0;
  for (const { walls } of bodies) {
    for (const { outer, inner } of walls) {
      for (const corner of outer) sum += corner[0] + corner[1] + corner[2];
      for (const corner of inner) sum += corner[0] + corner[1] + corner[2];
    }
  }
  return sum;
}

/** One hollow tube a straight, cut into its pieces; every volume is read, so nothing is left for later. */
function cutWithPeer({ straights }: Fitting): number {
  let volume = 0;
  for (const { section, thickness, length, pieces } of straights) {
    const outside = growSection(section, thickness);
    const outer = makeBox(0, length, outside.height, outside.width);
    const inner = makeBox(-1, length + 1, section.height, section.width);
    const tube = outer.subtract(inner);
    for (const piece of pieces) {
      const cut = cutOut(tube, piece.startCut, piece.endCut);
      volume += cut.volume();
      cut.delete();
    }
    free([outer, inner, tube]);
  }
  return volume;
}

/** The families that branch, resize or close a duct, each by its own example; the folded reducer as well. */
const EXAMPLES: [string, SaidFitting][] = [
  ...FAMILIES.filter(({ name }) => GENERATED_BRANCHES.includes(name)).map(
    ({ name, example }): [string, SaidFitting] => [name, { family: name, section: SECTION, params: example }]
  ),
  ['reducer, folded', FOLDED]
];

/** The board of a fitting by the peer, from the parameters; every volume is read. */
function makeWithPeer(said: SaidFitting): number {
  const expected = expectSolids({ said, stock: { board: BOARD } }, { sides: ROUND_CORNERS, from: 0 });
  const volume = expected.board.reduce((sum, solid) => sum + solid.volume(), 0);
  freeExpected(expected);
  return volume;
}

const show = (ms: number): string => `${(ms * 1000).toFixed(1).padStart(10)} µs`;

/** Prints the ratio to the peer of every family that is more than a mitered path. */
function benchExamples(): void {
  console.log(
    'Every other family by its example, every corner of every wall read, beside manifold-3d making the same board'
  );
  const ratios = EXAMPLES.map(([name, said]) => {
    const build = makeBuild(said);
    const volume = evaluateFitting(said, 0, BOARD, DEFAULT_SHOP).built!.quantities.volume;
    if (Math.abs(makeWithPeer(said) / volume - 1) > 1e-6)
      throw new Error(`${name}: the two make different board`);
    const [ours, peer] = compare(
      () => readCorners(build()),
      () => makeWithPeer(said)
    );
    const ratio = peer!.median / ours!.median;
    console.log(
      `${name.padEnd(20)}${show(ours!.median)}${show(peer!.median)}   ${ratio.toFixed(1)} (within ${(100 * (ours!.spread + peer!.spread)).toFixed(0)} %)`
    );
    return ratio;
  });
  console.log(`least ${Math.min(...ratios).toFixed(1)} (goal: at least 10 for each family)`);
}

/** Prints the ratios to the peer, their mean, how time grows with the joints, and where the rest of the time goes. */
export function benchKernel(): void {
  console.log(
    'Pieces of a fitting, every corner of every wall read, beside manifold-3d cutting the same pieces'
  );
  console.log(`${''.padEnd(20)}${'kernel'.padStart(13)}${'peer'.padStart(13)}   times as fast`);
  const ratios = CASES.map(([name, said]) => {
    const build = makeBuild(said);
    const fitting = build();
    const volume = evaluateFitting(said, 0, BOARD, DEFAULT_SHOP).built!.quantities.volume;
    if (Math.abs(cutWithPeer(fitting) / volume - 1) > 1e-6)
      throw new Error(`${name}: the two make different pieces`);
    const [ours, peer] = compare(
      () => readCorners(build()),
      () => cutWithPeer(fitting)
    );
    const ratio = peer!.median / ours!.median;
    console.log(
      `${name.padEnd(20)}${show(ours!.median)}${show(peer!.median)}   ${ratio.toFixed(1)} (within ${(100 * (ours!.spread + peer!.spread)).toFixed(0)} %)`
    );
    return ratio;
  });
  const mean = Math.exp(ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / ratios.length);
  console.log(
    `geometric mean ${mean.toFixed(1)} (goal: at least 25), least ${Math.min(...ratios).toFixed(1)} (goal: at least 10)`
  );

  benchExamples();

  const [short, long] = [makeBuild(screw(20)), makeBuild(screw(200))];
  const [twenty, twoHundred] = compare(
    () => readCorners(short()),
    () => readCorners(long())
  );
  const growth = twoHundred!.median / twenty!.median;
  console.log(
    `path of 20 joints${show(twenty!.median)}, of 200${show(twoHundred!.median)}: ${growth.toFixed(1)} times as long (goal: at most 12)`
  );

  const [built, whole] = compare(
    () => readCorners(short()),
    () => evaluateFitting(screw(20), 0, BOARD, DEFAULT_SHOP).built!.steps.length
  );
  console.log(
    `the same path with checks, steps and quantities${show(whole!.median)}: ${(whole!.median / built!.median).toFixed(1)} times its pieces alone`
  );
  console.log(tellChecksum());
}
