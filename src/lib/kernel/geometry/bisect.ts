/**
 * Where a decreasing function takes a value, between two arguments: halved until the two neighbours are the same double
 * number. Null where the value is not between those at the ends.
 */
export function solveDecreasing(
  value: (argument: number) => number,
  target: number,
  low: number,
  high: number
): number | null {
  if (!(value(low) >= target && value(high) <= target)) return null;
  let [left, right] = [low, high];
  for (;;) {
    const middle = left + (right - left) / 2;
    if (middle <= left || middle >= right)
      return Math.abs(value(left) - target) <= Math.abs(value(right) - target) ? left : right;
    if (value(middle) >= target) left = middle;
    else right = middle;
  }
}
