// npm run --silent sheet -- JOB.json --out DIR …: twice as a command, otherwise in this process.
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { runBatch } from '../../src/cli/batch.ts';
import { FORMATS, nameExport } from '../../src/lib/exports/export.ts';
import { EXPORTS } from '../../src/lib/exports/index.ts';
import { evaluate } from '../../src/lib/kernel/evaluate.ts';
import { checkJob } from '../../src/lib/kernel/document/read.ts';
import { writeSheet } from '../../src/lib/sheet/sheet.ts';
import { DEMO_JOB } from '../../src/lib/state/demo.ts';
import { readPdf } from '../pdf.ts';

const PLENTY = 120_000;
const root = fileURLToPath(new URL('../../', import.meta.url));
const IMPOSSIBLE = {
  family: 'path',
  section: { width: 400, height: 250 },
  params: { lengths: [50, 50], joints: [{ turn: 90, heel: 0 }] }
};
const SHORT = { family: 'straight', section: { width: 400, height: 250 }, params: { length: 500 } };
const SMALL = {
  family: 'bend',
  section: { width: 120, height: 100 },
  params: { turn: 45, pieces: 2, heel: 'right' }
};
const job = (fittings: readonly object[], name = 'Attic') => ({
  format: 'gorewright-job',
  version: 1,
  name,
  fittings
});

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gorewright-batch-'));
  vi.stubEnv('INIT_CWD', folder);
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

function save(name: string, content: unknown): void {
  writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content));
}

/** Runs the batch here, with what it says on its two outputs. */
async function run(...args: string[]): Promise<{ status: number; lines: string[]; stderr: string }> {
  let [stdout, stderr] = ['', ''];
  const out = vi
    .spyOn(process.stdout, 'write')
    .mockImplementation((text) => ((stdout += String(text)), true));
  const err = vi
    .spyOn(process.stderr, 'write')
    .mockImplementation((text) => ((stderr += String(text)), true));
  try {
    const status = await runBatch(args);
    return { status, lines: stdout.split('\n').slice(0, -1), stderr };
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
}

const list = (name: string): string[] => readdirSync(join(folder, name)).sort();
const read = (name: string): Buffer => readFileSync(join(folder, name));

describe('the batch, as a command', () => {
  const command = (...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(
      'npm',
      ['--prefix', root, 'run', '--silent', 'sheet', '--', ...args],
      { cwd: folder, env: { ...process.env, INIT_CWD: folder }, encoding: 'utf8' }
    );
    return { status, stdout, stderr };
  };

  it(
    'writes the files of the demo job below the folder it is typed in, one a line',
    { timeout: PLENTY },
    () => {
      save('job.json', DEMO_JOB);
      const { status, stdout, stderr } = command('job.json', '--out', 'for/site', '--csv', '--svg');
      expect([status, stderr]).toEqual([0, '']);
      const lines = stdout.trimEnd().split('\n');
      expect(lines.map((line) => line.replace('for/site/', '')).sort()).toEqual(list('for/site'));
      const sheet = JSON.parse(
        read('for/site/Village-library-reading-room-supply.sheet.json').toString()
      ) as unknown;
      expect(sheet).toEqual(JSON.parse(JSON.stringify(writeSheet(evaluate(DEMO_JOB)))));
    }
  );

  it('refuses wrong use in one line, status 2, and writes nothing', { timeout: PLENTY }, () => {
    save('job.json', DEMO_JOB);
    const { status, stdout, stderr } = command('job.json', '--out', 'out', '--paint');
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^usage: npm run --silent sheet -- JOB\.json .*\n$/);
    expect(existsSync(join(folder, 'out'))).toBe(false);
  });
});

describe('the batch', () => {
  const asked = FORMATS.map((format) => `--${format}`);

  it(
    'writes every export that applies of every fitting, those of the job once; twice the same bytes',
    async () => {
      const small = job([SMALL, { ...SHORT, quantity: 3 }]);
      save('job.json', small);
      const options = ['--paper', 'letter', '--revision', 'B', '--address', 'https://ducts.example/'];
      const first = await run('job.json', '--out', 'one', ...asked, ...options);
      const second = await run('job.json', '--out', 'two', ...asked, ...options);
      expect([first.status, first.stderr]).toEqual([0, '']);
      const model = evaluate((checkJob(small) as { job: Parameters<typeof evaluate>[0] }).job);
      const expected = EXPORTS.flatMap((one) => {
        const places = [0, 1].filter((index) => one.applies(model, index));
        return (one.covers === 'job' ? places.slice(0, 1) : places).map((i) => nameExport(one, model, i));
      });
      expect(list('one')).toEqual([...expected, 'Attic.sheet.json'].sort());
      expect(first.lines.map((line) => line.replace('one/', '')).sort()).toEqual(list('one'));
      expect(second.lines).toEqual(first.lines.map((line) => line.replace('one/', 'two/')));
      for (const name of list('one')) {
        expect(read(`one/${name}`).length, name).toBeGreaterThan(20);
        expect(read(`one/${name}`).equals(read(`two/${name}`)), name).toBe(true);
      }
      const [page] = await readPdf(new Uint8Array(read('one/Attic-F1-mark-out.pdf')));
      expect([page!.width, page!.height].map(Math.round).sort()).toEqual([216, 279]);
      expect(page!.texts.map(({ text }) => text)).toContain('B');
    },
    PLENTY
  );

  it('writes only what is asked for, and without formats the sheet', async () => {
    save('job.json', job([SHORT]));
    await run('job.json', '--out', 'sheet');
    expect(list('sheet')).toEqual(['Attic.sheet.json']);
    await run('job.json', '--out', 'tables', '--csv', '--decimal', 'comma');
    expect(list('tables')).toEqual(['Attic-F1-piece-table.csv', 'Attic-cut-list.csv', 'Attic.sheet.json']);
    expect(read('tables/Attic-cut-list.csv').toString()).toContain('F1;straight;F1-A;straight;1;500;');
  });

  it('writes the rest where a fitting cannot be built, and says which, status 1', async () => {
    save('job.json', job([IMPOSSIBLE, { ...SHORT, tag: 'S' }]));
    const { status, stderr } = await run('job.json', '--out', 'out', '--csv', '--svg');
    expect(status).toBe(1);
    expect(stderr).toBe('F1: cannot be built, the sheet says why\n');
    expect(list('out').filter((name) => /-S-|cut-list/.test(name)).length).toBeGreaterThan(2);
    expect(list('out').filter((name) => name.includes('-F1-'))).toEqual([]);
    const { fittings } = JSON.parse(read('out/Attic.sheet.json').toString()) as {
      fittings: { buildable: boolean }[];
    };
    expect(fittings.map(({ buildable }) => buildable)).toEqual([false, true]);
  });

  it('gives every file a name of its own where tags are alike', async () => {
    const tags = ['a/b', 'a b', 'A-B', 'Ａ-b', '\u00E9', 'e\u0301', '?', '!', 'x'.repeat(70), 'x'.repeat(71)];
    save('job.json', job(tags.map((tag, i) => ({ ...SHORT, tag, params: { length: 500 + i } }))));
    const { status, lines } = await run('job.json', '--out', 'out', '--csv');
    expect(status).toBe(0);
    expect(new Set(lines.map((line) => line.normalize('NFKC').toLowerCase())).size).toBe(tags.length + 2);
    const lengths = lines
      .filter((line) => line.includes('piece-table'))
      .map((line) => read(line).toString().split('\r\n')[1]!.split(',').slice(-5)[0]);
    expect(lengths).toEqual(tags.map((_, i) => String(500 + i)));
  });

  it.each(['..', '../../up', '/etc/hosts', 'C:\\up', '.', ''])(
    'of a job called %j writes into its folder and nowhere else',
    async (name) => {
      mkdirSync(join(folder, 'in', 'here'), { recursive: true });
      save('job.json', job([{ ...SHORT, tag: `${name}/../x` }], name));
      const { status } = await run('job.json', '--out', 'in/here', '--csv');
      expect(status).toBe(0);
      expect(list('in/here')).toHaveLength(3);
      expect([list('in'), list('.')]).toEqual([['here'], ['in', 'job.json']]);
    }
  );

  it('replaces a link, not what it leads to, and what an earlier run wrote', async () => {
    save('job.json', job([SHORT]));
    save('treasure.txt', 'gold');
    mkdirSync(join(folder, 'out'));
    symlinkSync(join(folder, 'treasure.txt'), join(folder, 'out', 'Attic-cut-list.csv'));
    for (let i = 0; i < 2; i++) expect((await run('job.json', '--out', 'out', '--csv')).status).toBe(0);
    expect(read('treasure.txt').toString()).toBe('gold');
    expect(read('out/Attic-cut-list.csv').toString()).toContain('F1-A');
  });

  it.each([
    [['--pdf'], /^usage: /],
    [['--out'], /^usage: /],
    [['--out', ''], /^usage: /],
    [['more.json', '--out', 'out'], /^usage: /],
    [['--out', 'out', '--pdf=yes'], /^usage: /],
    [['--out', 'out', '--paper', 'b5'], /^--paper is "b5", expected a4, a3, .*letter/],
    [['--out', 'out', '--side', 'under'], /^--side is "under", expected outside or inside/],
    [['--out', 'out', '--printed', '96.9'], /^--printed is "96.9", expected .* 97 to 103/],
    [['--out', 'out', '--printed', '1e2'], /^--printed is "1e2", expected/],
    [['--out', 'out', '--decimal', ','], /^--decimal is ",", expected point or comma/],
    [['--out', 'out', '--address', 'javascript:alert(1)'], /^--address is "javascript:alert\(1\)", expected/],
    [['--out', 'out', '--address', 'https://ducts.example/#j'], /^--address is/],
    [
      ['--out', 'out', '--since', 'old.json'],
      /^old\.json: cannot be read \(ENOENT\), expected a job document/
    ],
    [['--out', 'job.json', '--csv'], /^job\.json: cannot be written \(EEXIST\), expected a folder/]
  ])('refuses %j, status 2', async (args, line) => {
    save('job.json', job([SHORT]));
    const { status, lines, stderr } = await run('job.json', ...args);
    expect([status, lines]).toEqual([2, []]);
    expect(stderr).toMatch(line);
    expect(stderr.trimEnd()).not.toContain('\n');
    expect(list('.')).toEqual(['job.json']);
  });

  it.each(readdirSync(join(root, 'static', 'examples')))(
    'writes tables and figures of the example %s',
    async (name) => {
      const { status, lines, stderr } = await run(
        join(root, 'static', 'examples', name),
        '--out',
        'out',
        '--csv',
        '--svg'
      );
      expect([status, stderr]).toEqual([0, '']);
      expect(lines.length).toBeGreaterThan(3);
      expect(lines.map((line) => line.replace('out/', '')).sort()).toEqual(list('out'));
    },
    PLENTY
  );
});
