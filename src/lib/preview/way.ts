/** How long a piece or the eye takes to get to where it is to be, ms. */
const WAY_TIME = 420;

/** How much of a way is gone, 0 … 1: gently off and gently in. Times in ms. */
export function easeWay(begun: number, now: number): number {
  const part = Math.min(1, Math.max(0, now - begun) / WAY_TIME);
  return part * part * (3 - 2 * part);
}
