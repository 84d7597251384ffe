/** An angle in degrees as a figure with its sign, at most so many decimals, none for nothing: 22.5°, 90°. */
export function formatAngle(degrees: number, decimals = 1): string {
  return `${Number(degrees.toFixed(decimals)) + 0}°`;
}

/** Reads an angle in degrees typed by a person; a comma counts as a decimal point. Null for anything else. */
export function parseAngle(text: string): number | null {
  const match = /^\s*([+\-\u2212]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*°?\s*$/.exec(text);
  if (!match) return null;
  return (match[1] && match[1] !== '+' ? -1 : 1) * Number(match[2]!.replace(',', '.'));
}
