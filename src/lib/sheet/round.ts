/** Rounding of the sheet, and only there: lengths, angles, areas and volumes to a thousandth. Minus zero is zero. */
export function round(value: number): number {
  return roundTo(value, 1e3);
}

/** Unit directions, to a millionth. */
export function roundDirection(value: number): number {
  return roundTo(value, 1e6);
}

/** An angle round the clock: one that rounds up to a full turn is 0. */
export function roundClock(degrees: number): number {
  const rounded = round(degrees);
  return rounded >= 360 ? 0 : rounded;
}

function roundTo(value: number, steps: number): number {
  if (!Number.isFinite(value * steps)) throw new Error(`the sheet cannot hold ${value}`);
  return Math.round(value * steps) / steps + 0;
}
