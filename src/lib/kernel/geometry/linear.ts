/** One condition of a linear model: value + gradient·step should be at least 0. */
export interface Row {
  readonly value: number;
  readonly gradient: readonly number[];
}

/** A part smaller than this, beside the largest there is, is rounding. */
const ROUNDING = 1e-12;

/** More exchanges than this are a sign that rounding goes round in circles. */
const MOST_EXCHANGES = 400;

/**
 * The step that makes slope·step + penalty·(the worst shortfall of the rows) least, each part of it between the two ends
 * of its reach (the lower at most 0, the upper at least 0). A linear programme, solved through its dual by the simplex
 * method (Dantzig, 1963), so the table has one line for each part of the step however many rows there are. Null where
 * rounding leaves no answer.
 */
export function findStep(
  slope: readonly number[],
  rows: readonly Row[],
  reach: readonly (readonly [low: number, high: number])[],
  penalty: number
): number[] | null {
  const parts = slope.length;
  const columns = rows.length + parts;
  // Line i says that the weighted gradients do not exceed slope i; the last line, that the weights do not exceed the
  // penalty. Columns: the weights of the rows, of the upper ends of the reach, and what is left of every line.
  const width = columns + parts + 2;
  const right = width - 1;
  const table = Array.from({ length: parts + 1 }, (_, i) => {
    const line = new Float64Array(width);
    rows.forEach(({ gradient }, j) => (line[j] = i < parts ? gradient[i]! : 1));
    if (i < parts) line[rows.length + i] = -1;
    line[columns + i] = 1;
    line[right] = i < parts ? slope[i]! : penalty;
    return line;
  });
  // What a weight gains: by how much its row is missed at the lower ends of the reach.
  const gain = new Float64Array(width);
  rows.forEach(({ value, gradient }, j) => {
    gain[j] = -value - gradient.reduce((sum, part, i) => sum + part * reach[i]![0], 0);
  });
  reach.forEach(([low, high], i) => (gain[rows.length + i] = low - high));
  const basis = table.map((_, i) => columns + i);
  const exchange = (line: number, column: number): void => {
    const pivot = table[line]!;
    const by = 1 / pivot[column]!;
    for (let k = 0; k < width; k++) pivot[k]! *= by;
    for (const other of [...table, gain]) {
      if (other === pivot) continue;
      const share = other[column]!;
      if (share === 0) continue;
      for (let k = 0; k < width; k++) other[k]! -= share * pivot[k]!;
      other[column] = 0;
    }
    basis[line] = column;
  };
  // Where the slope falls, the step begins at the upper end.
  for (let i = 0; i < parts; i++) if (slope[i]! < 0) exchange(i, rows.length + i);
  for (let round = 0; round < MOST_EXCHANGES; round++) {
    const column = findEntering(gain, right, round);
    if (column === null) return readStep(gain, columns, reach);
    const line = findLeaving(table, basis, column, right);
    if (line === null) return null;
    exchange(line, column);
  }
  return null;
}

/** The weight that gains most; after many rounds the first that gains, which never goes round in circles (Bland, 1977). */
function findEntering(gain: Float64Array, right: number, round: number): number | null {
  let [best, most] = [-1, 0];
  let size = 1;
  for (let k = 0; k < right; k++) size = Math.max(size, Math.abs(gain[k]!));
  for (let k = 0; k < right; k++) {
    if (gain[k]! <= ROUNDING * size || gain[k]! <= most) continue;
    [best, most] = [k, gain[k]!];
    if (round > MOST_EXCHANGES / 2) break;
  }
  return best < 0 ? null : best;
}

function findLeaving(
  table: readonly Float64Array[],
  basis: readonly number[],
  column: number,
  right: number
): number | null {
  let [best, least] = [-1, Infinity];
  table.forEach((line, i) => {
    if (line[column]! <= ROUNDING) return;
    const ratio = line[right]! / line[column]!;
    if (ratio < least || (ratio === least && basis[i]! < basis[best]!)) [best, least] = [i, ratio];
  });
  return best < 0 ? null : best;
}

/** The step is what the lines that are left over would gain. */
function readStep(
  gain: Float64Array,
  columns: number,
  reach: readonly (readonly [number, number])[]
): number[] | null {
  const step = reach.map(([low, high], i) => Math.min(high, Math.max(low, low - gain[columns + i]!)));
  return step.every(Number.isFinite) ? step : null;
}
