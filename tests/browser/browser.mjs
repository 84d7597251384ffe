// Finds a Chromium that starts, whatever the machine: a laptop, a CI container as root, no download site in reach.
import { chromium } from '@playwright/test';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { root } from '../../src/cli/ready.mjs';

const cache = join(root, 'node_modules/.cache/gorewright');
const memory = join(cache, 'browser');
const unpacked = join(cache, 'chromium');

/** The ways to a browser's path, in the order they are tried. @type {[string, () => string | undefined][]} */
const ways = [
  ['the one found before', recall],
  ["Playwright's own", findPlaywrights],
  ["Playwright's own, downloaded", downloadPlaywrights],
  ["the system's", findSystems],
  ['the npm package @sparticuz/chromium', unpackPackaged],
  ["Debian's, by apt-get", installDebians]
];

/**
 * Answers Playwright's launch options for a Chromium that was seen to start. CHROMIUM_PATH decides if it is set.
 * @throws {Error} if CHROMIUM_PATH does not start, or if no way leads to a browser
 */
export async function findBrowser() {
  const asked = process.env.CHROMIUM_PATH;
  if (asked) {
    if (await starts(asked)) return describeLaunch(asked);
    throw new Error(`CHROMIUM_PATH is ${asked}, which does not start.`);
  }
  for (const [name, find] of ways) {
    const path = find();
    if (!path || !(await starts(path))) continue;
    if (find !== recall) console.error(`Browser for the tests: ${name}, ${path}`);
    mkdirSync(cache, { recursive: true });
    writeFileSync(memory, path);
    return describeLaunch(path);
  }
  throw new Error('No Chromium found. Install Chrome or Chromium, or set CHROMIUM_PATH to one.');
}

/** @param {string} path */
async function starts(path) {
  if (!existsSync(path)) return false;
  try {
    const browser = await chromium.launch({ ...describeLaunch(path), timeout: 30_000 });
    await browser.close();
    return true;
  } catch {
    return false;
  }
}

/** @param {string} executablePath */
function describeLaunch(executablePath) {
  const env = /** @type {Record<string, string>} */ ({ ...process.env });
  if (process.platform === 'linux') env.FONTCONFIG_FILE = writeFontList();
  if (dirname(executablePath) === unpacked) env.LD_LIBRARY_PATH = join(unpacked, 'al2023/lib');
  // The flag gives WebGL in software to machines without a graphics card.
  return { executablePath, env, args: ['--enable-unsafe-swiftshader'] };
}

/** Writes a font list that holds one font on every machine: where there is none, text has no size and is not seen. */
function writeFontList() {
  const path = join(cache, 'fonts.conf');
  mkdirSync(cache, { recursive: true });
  writeFileSync(
    path,
    `<?xml version="1.0"?>
<fontconfig>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
  <dir>${join(root, 'node_modules/dejavu-fonts-ttf/ttf')}</dir>
  <cachedir>${join(cache, 'fonts')}</cachedir>
</fontconfig>
`
  );
  return path;
}

function recall() {
  return existsSync(memory) ? readFileSync(memory, 'utf8') : undefined;
}

function findPlaywrights() {
  const path = chromium.executablePath();
  return existsSync(path) ? path : undefined;
}

function downloadPlaywrights() {
  const cli = join(root, 'node_modules/@playwright/test/cli.js');
  const { status } = run(process.execPath, [cli, 'install', 'chromium'], 90_000, 'ignore');
  if (status !== 0) console.error("Playwright's own browser could not be downloaded; trying others.");
  return findPlaywrights();
}

function findSystems() {
  const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];
  const folders = (process.env.PATH ?? '').split(delimiter);
  const paths = [
    ...folders.flatMap((folder) => names.map((name) => join(folder, name))),
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe'
  ];
  return paths.find((path) => existsSync(path));
}

function unpackPackaged() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined;
  mkdirSync(unpacked, { recursive: true });
  // In a process of its own, because the package changes the environment of the one that loads it. It unpacks into
  // the temporary folder, and its system libraries only where it takes the machine for a cloud function.
  const script = "import chromium from '@sparticuz/chromium'; await chromium.executablePath();";
  spawnSync(process.execPath, ['--input-type=module', '--eval', script], {
    cwd: root,
    env: { ...process.env, TMPDIR: unpacked, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' },
    stdio: ['ignore', 2, 2]
  });
  return join(unpacked, 'chromium');
}

function installDebians() {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return undefined;
  run('apt-get', ['update'], 120_000);
  run('apt-get', ['install', '--yes', '--no-install-recommends', 'chromium'], 300_000);
  return findSystems();
}

/** @param {string} command @param {string[]} args @param {number} timeout in ms @param {2 | 'ignore'} says */
function run(command, args, timeout, says = 2) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return spawnSync(command, args, { cwd: root, env, timeout, stdio: ['ignore', says, says] });
}
