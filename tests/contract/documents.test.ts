import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url);

/** Paths of this project named in backquotes or as links. */
function listPaths(text: string): string[] {
  const quoted = [...text.matchAll(/`((?:src|tests|static|\.ci)[^`\s]*)`/g)].map(([, path]) => path!);
  const linked = [...text.matchAll(/\]\(((?!https?:)[^)]+)\)/g)].map(([, path]) => path!);
  return [...quoted, ...linked];
}

describe.each(['README.md', 'DEVELOPERS.md', 'src/lib/kernel/README.md'])('%s', (name) => {
  const paths = listPaths(readFileSync(new URL(name, root), 'utf8'));

  it('names only files and folders that exist', () => {
    expect(paths.filter((path) => !existsSync(new URL(path, root)))).toEqual([]);
  });
});

it('the documents name some paths at all', () => {
  expect(listPaths(readFileSync(new URL('DEVELOPERS.md', root), 'utf8')).length).toBeGreaterThan(20);
});
