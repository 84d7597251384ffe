/** A pivot smaller than this, beside the largest entry there is, is rounding. */
const ROUNDING = 1e-9;

/**
 * Directions in which a point may move without changing what some rows, linear in its parts, amount to: they span the null
 * space of the rows (Gauss and Jordan's elimination, largest pivot first). `parts`: how many parts a point has.
 */
export function findFreeDirections(rows: readonly (readonly number[])[], parts: number): number[][] {
  const left = rows.map((row) => [...row]);
  const size = Math.max(0, ...rows.flat().map(Math.abs));
  /** The part that each row that was used settles. */
  const settled: { readonly row: readonly number[]; readonly part: number }[] = [];
  while (left.length > 0) {
    const [row, part] = findPivot(left);
    const pivot = left[row]![part]!;
    if (Math.abs(pivot) <= ROUNDING * size) break;
    const used = left.splice(row, 1)[0]!;
    for (let k = 0; k < parts; k++) used[k]! /= pivot;
    for (const other of [...left, ...settled.map((one) => one.row as number[])]) {
      const share = other[part]!;
      for (let k = 0; k < parts; k++) other[k]! -= share * used[k]!;
    }
    settled.push({ row: used, part });
  }
  const free = Array.from({ length: parts }, (_, k) => k).filter(
    (k) => !settled.some(({ part }) => part === k)
  );
  return free.map((k) => {
    const direction = Array.from({ length: parts }, (_, i): number => (i === k ? 1 : 0));
    for (const { row, part } of settled) direction[part] = 0 - row[k]!;
    return direction;
  });
}

function findPivot(rows: readonly (readonly number[])[]): [row: number, part: number] {
  let [best, at]: [number, [number, number]] = [-1, [0, 0]];
  rows.forEach((row, i) =>
    row.forEach((entry, k) => {
      if (Math.abs(entry) > best) [best, at] = [Math.abs(entry), [i, k]];
    })
  );
  return at;
}
