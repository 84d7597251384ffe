import type { Facet } from '../solids/facets.ts';

/** Of the header and of every facet, bytes. */
const HEADER = 80;
const FACET = 50;

/**
 * Writes facets, mm, as a binary STL. Its header says the unit, which the format does not, and the name as far as it
 * has room; it never begins with `solid`, by which readers know the format of text. Coordinates are single floats.
 */
export function writeStl(name: string, facets: readonly Facet[]): Uint8Array {
  const bytes = new Uint8Array(HEADER + 4 + FACET * facets.length);
  new TextEncoder().encodeInto(`Gorewright, mm: ${name}`, bytes.subarray(0, HEADER));
  const view = new DataView(bytes.buffer);
  view.setUint32(HEADER, facets.length, true);
  facets.forEach(({ normal, corners }, f) => {
    const start = HEADER + 4 + FACET * f;
    [normal, ...corners].flat().forEach((value, i) => view.setFloat32(start + 4 * i, value, true));
  });
  return bytes;
}
