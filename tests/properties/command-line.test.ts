// npm run --silent sheet and solve, as anybody would run them: a few runs of the real commands.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sheetSchema } from '../../src/lib/sheet/schema.ts';
import { proposalsSchema } from '../../src/lib/sheet/proposals-schema.ts';
import { USAGE } from '../../src/cli/job-argument.ts';
import { writeSheetOf } from '../duct.ts';
import { compilePublished } from './answers.ts';

const PLENTY = 120_000;
const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gorewright-'));
  mkdirSync(join(folder, 'ducts'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const runSheet = (args: string[], typedIn = folder) => runScript('sheet', args, typedIn);
const runSolve = (args: string[]) => runScript('solve', args, folder);

/** Runs a command with the folder it is typed in, as npm tells it. */
function runScript(script: string, args: string[], typedIn: string) {
  const { status, stdout, stderr } = spawnSync(
    'npm',
    ['--prefix', root, 'run', '--silent', script, '--', ...args],
    {
      cwd: typedIn,
      env: { ...process.env, INIT_CWD: typedIn },
      encoding: 'utf8'
    }
  );
  return { status, stdout, stderr };
}

function save(name: string, content: unknown): void {
  writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content));
}

const SECTION = { width: 400, height: 250 };
const job = (...fittings: unknown[]) => ({ format: 'gorewright-job', version: 1, name: 'Attic', fittings });
const bend = (params: object) => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, heel: 'right', ...params }
});

describe('npm run --silent sheet', () => {
  it('prints the sheet of ducts that can be built, status 0', { timeout: PLENTY }, () => {
    const attic = job(bend({}), { family: 'straight', section: SECTION, params: { length: 1180 } });
    save('attic.json', attic);
    const { status, stdout, stderr } = runSheet(['attic.json']);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const sheet = sheetSchema.parse(JSON.parse(stdout));
    expect(sheet).toEqual(writeSheetOf(attic));
    expect(stdout.endsWith('}\n')).toBe(true);
  });

  it('prints the sheet all the same when one duct cannot be built, status 1', { timeout: PLENTY }, () => {
    save('ducts/attic.json', job(bend({}), bend({ gore: 0 })));
    const { status, stdout, stderr } = runSheet([join('ducts', 'attic.json')]);
    expect(stderr).toBe('');
    expect(status).toBe(1);
    const { fittings } = sheetSchema.parse(JSON.parse(stdout));
    expect(fittings.map(({ buildable }) => buildable)).toEqual([true, false]);
  });

  it('takes the file from the folder the command was typed in', { timeout: PLENTY }, () => {
    save('ducts/here.json', job());
    const { status, stdout } = runSheet(['here.json'], join(folder, 'ducts'));
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toEqual({
      format: 'gorewright-sheet',
      version: 1,
      name: 'Attic',
      fittings: []
    });
  });

  const refusals: [string, string[], string | null, string][] = [
    [
      'a duct of an impossible turn, told with file, path, fault and what was expected',
      ['turn.json'],
      JSON.stringify(job(bend({ turn: 270, pieces: 99 }))),
      'turn.json: fittings[0].params.turn is 270, expected at most 180\n'
    ],
    [
      'the first fault as written, not the worst',
      ['order.json'],
      '{"format":"gorewright-job","fittings":[{"section":{"width":400,"height":-1},"params":{},"family":"horn"}],"version":9.5}',
      'order.json: fittings[0].section.height is -1, expected at least 20\n'
    ],
    ['a text of several lines that is no JSON, in one line', ['note.json'], 'duct\nof\n\ntwo pieces\n', ''],
    [
      'a file that is not there',
      ['missing.json'],
      null,
      'missing.json: cannot be read (ENOENT), expected a job document\n'
    ],
    ['a folder', ['ducts'], null, 'ducts: cannot be read (EISDIR), expected a job document\n'],
    ['no file at all', [], null, `${USAGE}\n`],
    ['two files at once', ['a.json', 'b.json'], null, `${USAGE}\n`]
  ];
  it.each(refusals)('refuses %s, status 2', { timeout: PLENTY }, (_what, args, content, line) => {
    if (content !== null) save(args[0]!, content);
    const { status, stdout, stderr } = runSheet(args);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.endsWith('\n')).toBe(true);
    expect(stderr.trimEnd()).not.toMatch(/[\n\r]/);
    if (line) expect(stderr).toBe(line);
    else expect(stderr).toMatch(/^note\.json: is not JSON \(.+\), expected a JSON document\n$/);
  });
});

describe('npm run --silent solve', () => {
  const site = (at: readonly (number | null)[], obstacles: readonly object[] = []) => ({
    ...job(),
    site: { section: SECTION, end: { at, flow: [1, 0, 0], up: [0, 1, 0] }, clearance: 25, obstacles }
  });
  const beam = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000], clearance: 40 };

  it('prints what leads under a beam, best first, status 0', { timeout: PLENTY }, () => {
    save('beam.json', site([2600, 0, 0], [beam]));
    const { status, stdout, stderr } = runSolve(['beam.json']);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(compilePublished('gorewright-proposals')(JSON.parse(stdout))).toBe(true);
    const { proposals, refused } = proposalsSchema.parse(JSON.parse(stdout));
    const joints = proposals.map((proposal) => proposal.joints);
    expect(joints).toEqual([...joints].sort((a, b) => a - b));
    expect(proposals.map(({ clearance }) => clearance!.obstacle)).toEqual(proposals.map(() => 'beam'));
    expect(refused.map(({ family, limit }) => [family, limit])).toContainEqual(['straight', 'obstacle']);
  });

  it('prints why nothing leads there, status 1', { timeout: PLENTY }, () => {
    save('far.json', site([50_000, 0, 0]));
    const { status, stdout } = runSolve(['far.json']);
    expect(status).toBe(1);
    const { proposals, refused } = proposalsSchema.parse(JSON.parse(stdout));
    expect(proposals).toEqual([]);
    expect(refused).toContainEqual({
      family: 'straight',
      reason: expect.stringContaining('47000') as string,
      limit: 'straight',
      short: 47000
    });
  });

  it('refuses a job without a site, and an obstacle without extent, status 2', { timeout: PLENTY }, () => {
    save('none.json', job());
    expect(runSolve(['none.json'])).toEqual({
      status: 2,
      stdout: '',
      stderr: 'none.json: site is missing, expected a site to solve\n'
    });
    save('inside-out.json', site([2600, 0, 0], [{ ...beam, max: [1100, 400, 2000] }]));
    const { status, stdout, stderr } = runSolve(['inside-out.json']);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^inside-out\.json: site\.obstacles\[0\]\.max\[0\] is 1100, expected /);
  });
});
