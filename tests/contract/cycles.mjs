// npm run lint: no file of src may reach itself through its imports, type imports included.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import ts from 'typescript';

/**
 * Finds imports that lead in a circle.
 * @param {string} folder an absolute path; imports that leave it, and packages, are not followed
 * @returns {{ files: number, imports: number, cycles: string[] }} how much was read, and each circle as a > b > a
 */
export function findCycles(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => /\.(ts|mjs|svelte)$/.test(path));
  const imports = new Map(
    files.map((file) => [file, readImports(file, folder).filter((path) => files.includes(path))])
  );
  /** @type {Set<string>} */
  const done = new Set();
  /** @type {string[]} */
  const trail = [];
  /** @type {string[]} */
  const cycles = [];

  /** @param {string} file */
  function follow(file) {
    const start = trail.indexOf(file);
    if (start >= 0) {
      cycles.push([...trail.slice(start), file].map((path) => relative(folder, path)).join(' > '));
    } else if (!done.has(file)) {
      trail.push(file);
      imports.get(file)?.forEach(follow);
      trail.pop();
      done.add(file);
    }
  }

  files.forEach(follow);
  const count = [...imports.values()].reduce((sum, list) => sum + list.length, 0);
  return { files: files.length, imports: count, cycles };
}

/** @param {string} file @param {string} folder @returns {string[]} the paths its imports may mean */
function readImports(file, folder) {
  let text = readFileSync(file, 'utf8');
  if (file.endsWith('.svelte')) {
    text = [...text.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g)].map((script) => script[1]).join('\n');
  }
  return ts.preProcessFile(text, true, true).importedFiles.flatMap(({ fileName }) => {
    const name = fileName.replace(/\?.*/, '').replace(/^\$lib\//, `${join(folder, 'lib')}/`);
    if (!/^[./]/.test(name)) return [];
    const path = resolve(dirname(file), name);
    return ['', '.ts', '/index.ts'].map((end) => path + end);
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { files, imports, cycles } = findCycles(fileURLToPath(new URL('../../src', import.meta.url)));
  for (const cycle of cycles) console.error(`imports in a circle: ${cycle}`);
  console.error(`${files} files, ${imports} imports between them, ${cycles.length} circles`);
  process.exitCode = cycles.length ? 1 : 0;
}
