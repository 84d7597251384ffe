import { zipSync } from 'fflate';

/** The same files have the same bytes, whenever and wherever they are packed: a zip holds local time. */
const FIXED_DATE = new Date(2000, 0, 1);

/** Packs files, by their names, in the order given. */
export function writeZip(files: readonly (readonly [name: string, bytes: Uint8Array])[]): Uint8Array {
  return zipSync(Object.fromEntries(files), { mtime: FIXED_DATE });
}
