// npm run --silent sheet, as anybody would run it: a few runs of the real command.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sheetSchema } from '../../src/lib/sheet/schema.ts';
import { writeSheetOf } from '../duct.ts';

const PLENTY = 120_000;
const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gorewright-'));
  mkdirSync(join(folder, 'ducts'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the command with the folder it is typed in, as npm tells it. */
function runSheet(args: string[], typedIn = folder) {
  const { status, stdout, stderr } = spawnSync(
    'npm',
    ['--prefix', root, 'run', '--silent', 'sheet', '--', ...args],
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
    ['no file at all', [], null, 'usage: npm run --silent sheet -- JOB.json\n'],
    ['two files at once', ['a.json', 'b.json'], null, 'usage: npm run --silent sheet -- JOB.json\n']
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
