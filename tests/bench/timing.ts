const ROUNDS = 15;
/** A round lasts about so long, ms. */
const ROUND = 80;

let checksum = 0;

/**
 * Medians over several rounds, ms a run, and what share of the median half of the rounds lies within. All sides are warmed
 * first, and rounds of one alternate with rounds of the others, so that what the machine does beside it hits them alike.
 */
export function compare(...runs: (() => number)[]): { median: number; spread: number }[] {
  const counts = runs.map((run) => {
    const warmUntil = performance.now() + ROUND * 3;
    while (performance.now() < warmUntil) consume(run());
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
  return times.map((list) => {
    list.sort((a, b) => a - b);
    const at = (share: number): number => list[Math.floor(share * (ROUNDS - 1))]!;
    return { median: at(0.5), spread: (at(0.75) - at(0.25)) / at(0.5) };
  });
}

/** Keeps a result from being optimised away. */
function consume(value: number): void {
  checksum = (checksum + value) % 1e9;
}

/** Everything that was computed while timing, in one number. */
export function tellChecksum(): string {
  return `(checksum ${checksum.toFixed(0)})`;
}
