import { closeSync, mkdirSync, openSync, rmSync, writeSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import { findFromTyped } from './job-argument.ts';

/** A folder that files are written to, each under a name of its own; `said` is how the user names the folder. */
export class OutputFolder {
  readonly #said: string;
  readonly #path: string;
  /** The names that are taken, as a file system would compare them that knows neither case nor forms of letters. */
  readonly #taken = new Set<string>();

  /** Makes the folder where there is none. Throws what the file system says. */
  constructor(said: string) {
    this.#said = said;
    this.#path = findFromTyped(said);
    mkdirSync(this.#path, { recursive: true });
  }

  /**
   * Writes a file under this name, or where that is taken under the first free one with a number, and answers its path
   * as the user would type it. What lay there before is replaced, a link itself and not what it leads to.
   */
  write(wanted: string, parts: Iterable<Uint8Array | string>): string {
    const name = this.#findFree(wanted);
    const path = join(this.#path, name);
    rmSync(path, { force: true });
    const file = openSync(path, 'wx');
    try {
      for (const part of parts) writeWhole(file, typeof part === 'string' ? Buffer.from(part) : part);
    } finally {
      closeSync(file);
    }
    return join(this.#said, name);
  }

  #findFree(wanted: string): string {
    if (basename(wanted) !== wanted) throw new Error(`${JSON.stringify(wanted)} is no name of a file`);
    const extension = extname(wanted);
    const stem = wanted.slice(0, wanted.length - extension.length);
    for (let number = 1; ; number++) {
      const name = number === 1 ? wanted : `${stem}-${number}${extension}`;
      const key = Buffer.from(name).toString().normalize('NFKC').toLowerCase();
      if (this.#taken.has(key)) continue;
      this.#taken.add(key);
      return name;
    }
  }
}

function writeWhole(file: number, bytes: Uint8Array): void {
  for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at);
}
