// Makes a fresh clone ready to run: plain Node, no packages needed. Everything it says goes to stderr,
// because the commands that run after it own stdout.
import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

/** The folder of package.json. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

/**
 * Checks the Node version and installs the packages of the lock file where they are missing or older than it.
 * Ends the process with status 1 and a plain message if that cannot be done.
 */
export function makeReady() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    stop(`Gorewright needs Node 20.19 or newer; this is Node ${process.versions.node}.`);
  }
  // npm writes this file last, so an install that was broken off counts as none.
  if (readTime('node_modules/.package-lock.json') >= readTime('package-lock.json')) return;
  console.error('Installing packages with npm ci ...');
  const npm = spawnSync('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=warn'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32'
  });
  if (npm.status !== 0) stop('npm ci failed; see the messages above.');
}

/** @param {string} path @returns {number} when the file was written, in ms; 0 if there is none */
function readTime(path) {
  return statSync(join(root, path), { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

/** @param {string} message @returns {never} */
function stop(message) {
  console.error(message);
  process.exit(1);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) makeReady();
