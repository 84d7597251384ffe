// npm run bench: how long the kernel takes for whole fittings, beside an independent mesh-boolean library that only cuts
// and measures the same pieces, in the same run. Figures are printed, nothing passes or fails here.
import { DEFAULT_BOARD, DEFAULT_SHOP, type SaidFitting } from '../../src/lib/kernel/document/job.ts';
import { evaluateFitting } from '../../src/lib/kernel/evaluate.ts';
import { growSection } from '../../src/lib/kernel/straight/section.ts';
import type { Straight } from '../../src/lib/kernel/straight/straight.ts';
import { cutOut, free, makeBox } from '../oracle/manifold.ts';

/** So large that nothing is divided: the peer cuts one tube. */
const BOARD = { ...DEFAULT_BOARD, length: 100_000, width: 100_000 };

const ROUNDS = 9;
/** A round lasts about so long, ms. */
const ROUND = 120;

const SECTION = { width: 400, height: 250 };

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

/** Everything the product knows of a fitting: marks, walls, checks, steps, quantities; every wall corner is read. */
function evaluateWhole(said: SaidFitting): number {
  const { built, findings } = evaluateFitting(said, 0, BOARD, DEFAULT_SHOP);
  if (!built) throw new Error(`not buildable: ${JSON.stringify(findings)}`);
  let sum = built.quantities.volume + built.steps.length;
  for (const { walls } of built.fitting.bodies) {
    for (const { outer, inner } of walls) {
      for (const corner of outer) sum += corner[0] + corner[1] + corner[2];
      for (const corner of inner) sum += corner[0] + corner[1] + corner[2];
    }
  }
  return sum;
}

/** The straight as the kernel cuts it, for the peer to cut. */
function findStraight(said: SaidFitting): Straight {
  return evaluateFitting(said, 0, BOARD, DEFAULT_SHOP).built!.fitting.straights[0]!;
}

/** One hollow tube, cut into its pieces; every volume is read, so nothing is left for later. */
function cutWithPeer({ section, thickness, length, pieces }: Straight): number {
  const outside = growSection(section, thickness);
  const outer = makeBox(0, length, outside.height, outside.width);
  const inner = makeBox(-1, length + 1, section.height, section.width);
  const tube = outer.subtract(inner);
  let volume = 0;
  for (const piece of pieces) {
    const cut = cutOut(tube, piece.startCut, piece.endCut);
    volume += cut.volume();
    cut.delete();
  }
  free([outer, inner, tube]);
  return volume;
}

/** Median of several rounds, ms a run. Both sides are warmed first, and rounds of one alternate with rounds of the other. */
function compare(...runs: (() => number)[]): number[] {
  const counts = runs.map((run) => {
    run();
    const from = performance.now();
    let count = 0;
    while (performance.now() - from < ROUND) {
      consume(run());
      count++;
    }
    return count;
  });
  const times = runs.map(() => [] as number[]);
  for (let round = 0; round < ROUNDS; round++) {
    runs.forEach((run, i) => {
      const from = performance.now();
      for (let n = 0; n < counts[i]!; n++) consume(run());
      times[i]!.push((performance.now() - from) / counts[i]!);
    });
  }
  return times.map((list) => list.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]!);
}

let checksum = 0;
function consume(value: number): void {
  checksum = (checksum + value) % 1e9;
}

const show = (ms: number): string => `${ms.toFixed(3).padStart(9)} ms`;

console.log(`Node ${process.version}, ${ROUNDS} rounds, medians`);
console.log(`${'evaluated whole'.padEnd(22)}${'kernel'.padStart(12)}${'peer'.padStart(12)}   kernel/peer`);
const ratios = CASES.map(([name, said]) => {
  const straight = findStraight(said);
  const wall = evaluateFitting(said, 0, BOARD, DEFAULT_SHOP).built!.quantities.volume;
  if (Math.abs(cutWithPeer(straight) / wall - 1) > 1e-6)
    throw new Error(`${name}: the two make different pieces`);
  const [ours, peer] = compare(
    () => evaluateWhole(said),
    () => cutWithPeer(straight)
  ) as [number, number];
  console.log(`${name.padEnd(22)}${show(ours)}${show(peer)}   ${(ours / peer).toFixed(4)}`);
  return ours / peer;
});
const mean = Math.exp(ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / ratios.length);
console.log(`geometric mean of kernel/peer: ${mean.toFixed(4)}`);

const [twenty, twoHundred] = compare(
  () => evaluateWhole(screw(20)),
  () => evaluateWhole(screw(200))
) as [number, number];
console.log(
  `path of 20 joints ${show(twenty)}, of 200 joints ${show(twoHundred)}: ${(twoHundred / twenty).toFixed(2)} times as long`
);
console.log(`(checksum ${checksum.toFixed(0)})`);
