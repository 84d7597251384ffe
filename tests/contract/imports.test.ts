import { ESLint } from 'eslint';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { findCycles } from './cycles.mjs';

const eslint = new ESLint();

/** Answers the ids of the rules that a file of src with this text would break. */
async function lint(path: string, text: string): Promise<(string | null)[]> {
  const [result] = await eslint.lintText(text, { filePath: join('src', path) });
  if (!result) throw new Error(`ESLint did not look at src/${path}`);
  return result.messages.map((message) => message.ruleId);
}

const arrow = 'gorewright/import-arrow';

describe('a part of the duct program imports only what lies below it', () => {
  it.each([
    ['geometry knows no straight', 'lib/kernel/geometry/x.ts', '../straight/cut.ts'],
    ['geometry knows no source', 'lib/kernel/geometry/x.ts', '../sources.ts'],
    ['geometry knows no package', 'lib/kernel/geometry/x.ts', 'zod'],
    ['a straight knows no fitting', 'lib/kernel/straight/x.ts', '../fitting/wall.ts'],
    ['a fitting knows no family', 'lib/kernel/fitting/x.ts', '../families/index.ts'],
    ['a family knows no job document', 'lib/kernel/families/x.ts', '../document/schema.ts'],
    ['a family knows no pattern', 'lib/kernel/families/x.ts', '../pattern/unroll.ts'],
    ['a pattern knows no family', 'lib/kernel/pattern/x.ts', '../families/index.ts'],
    ['a step of assembly knows no pattern', 'lib/kernel/assembly/x.ts', '../pattern/unroll.ts'],
    ['a check knows no job document', 'lib/kernel/checks/x.ts', '../document/schema.ts'],
    ['board stock knows no assembly', 'lib/kernel/stock/x.ts', '../assembly/order.ts'],
    ['air flow knows no family', 'lib/kernel/air/x.ts', '../families/index.ts'],
    ['the site knows no family', 'lib/kernel/site/x.ts', '../families/index.ts'],
    ['the job document knows no evaluation', 'lib/kernel/document/x.ts', '../evaluate.ts'],
    ['the kernel knows no words', 'lib/kernel/evaluate.ts', '../words/en.ts'],
    ['the kernel knows no quantity', 'lib/kernel/checks/x.ts', '../../quantity/length.ts'],
    ['the kernel knows no other package', 'lib/kernel/evaluate.ts', 'paper'],
    ['the kernel knows no Node', 'lib/kernel/evaluate.ts', 'node:fs'],
    ['a folder the arrow does not name is nowhere', 'lib/kernel/extras/x.ts', '../sources.ts'],
    ['a quantity knows no kernel', 'lib/quantity/x.ts', '../kernel/evaluate.ts'],
    ['words know no sheet', 'lib/words/x.ts', '../sheet/write.ts'],
    ['a figure knows no sheet', 'lib/figures/x.ts', '../sheet/write.ts'],
    ['a figure knows no canvas', 'lib/figures/x.ts', '../editor/draw.ts'],
    ['a sheet knows no figure', 'lib/sheet/x.ts', '../figures/figure.ts'],
    ['a solid knows no 3D scene', 'lib/solids/x.ts', '../preview/scene.ts'],
    ['a solid knows no figure', 'lib/solids/x.ts', '../figures/figure.ts'],
    ['an export knows no page state', 'lib/exports/x.ts', '../state/view.svelte.ts'],
    ['page state knows no figure', 'lib/state/x.ts', '../figures/figure.ts'],
    ['the editor knows no preview', 'lib/editor/x.ts', '../preview/scene.ts'],
    ['the editor knows no export', 'lib/editor/x.ts', '../exports/pdf.ts'],
    ['the preview knows no editor', 'lib/preview/x.ts', '../editor/draw.ts'],
    ['the preview knows no editor by its short name either', 'lib/preview/x.ts', '$lib/editor/draw.ts'],
    ['a field of the page knows no state', 'lib/ui/x.ts', '../state/view.svelte.ts'],
    ['a command knows no page state', 'cli/x.ts', '../lib/state/view.svelte.ts'],
    ['a command knows no short names', 'cli/x.ts', '$lib/sheet/write.ts'],
    ['a command names files in full', 'cli/x.ts', '../lib/sheet/write'],
    ['a command knows no page framework', 'cli/x.ts', 'svelte'],
    ['the canvas library stays in the editor', 'routes/x.ts', 'konva/lib/Core'],
    ['the 3D library stays in the preview', 'routes/x.ts', 'three'],
    ['the PDF library stays in the exports', 'lib/figures/x.ts', 'jspdf'],
    ['the glTF library stays in the exports', 'lib/preview/x.ts', '@gltf-transform/core'],
    ['the outline library stays in the figures', 'lib/editor/x.ts', 'paper/dist/paper-core'],
    ['the storage library stays in the state', 'routes/x.ts', 'idb-keyval']
  ])('%s', async (_title, path, name) => {
    expect(await lint(path, `import * as x from '${name}';\nexport const y = x;\n`)).toContain(arrow);
  });

  it.each([
    ['as a type', `export type X = import('../editor/draw.ts').X;\n`],
    ['as a type import', `import type { X } from '../editor/draw.ts';\nexport type Y = X;\n`],
    ['when it is used', `export const load = () => import('../editor/draw.ts');\n`],
    ['by passing it on', `export * from '../editor/draw.ts';\n`],
    ['by passing one name on', `export { x } from '../editor/draw.ts';\n`]
  ])('a figure may not reach the canvas %s', async (_title, text) => {
    expect(await lint('lib/figures/x.ts', text)).toContain(arrow);
  });

  it('a part of the page is held to the arrow as well', async () => {
    const text = `<script lang="ts">\n  import { x } from '../exports/pdf.ts';\n</script>\n\n{x}\n`;
    expect(await lint('lib/editor/Canvas.svelte', text)).toContain(arrow);
  });

  it.each([
    ['lib/kernel/straight/x.ts', '../geometry/vector.ts'],
    ['lib/kernel/checks/x.ts', '../sources.ts'],
    ['lib/kernel/document/x.ts', '../families/index.ts'],
    ['lib/kernel/document/x.ts', 'zod'],
    ['lib/kernel/evaluate.ts', './document/schema.ts'],
    ['lib/words/x.ts', '../kernel/fitting/finding.ts'],
    ['lib/figures/x.ts', 'paper/dist/paper-core'],
    ['lib/exports/x.ts', '../figures/figure.ts'],
    ['lib/exports/x.ts', 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url'],
    ['lib/editor/x.ts', 'konva/lib/Core'],
    ['lib/editor/x.ts', '$lib/figures/figure.ts'],
    ['cli/x.ts', 'node:fs'],
    ['cli/x.ts', '../lib/sheet/write.ts'],
    ['routes/gallery/x.ts', '$lib/exports/index.ts'],
    ['lib/kernel/families/x.test.ts', '../pattern/unroll.ts']
  ])('%s may import %s', async (path, name) => {
    expect(await lint(path, `import * as x from '${name}';\nexport const y = x;\n`)).toEqual([]);
  });
});

describe('the kernel answers the same for the same duct, everywhere and always', () => {
  it.each([
    ['no page', 'window.innerWidth', 'no-restricted-globals'],
    ['no document', 'document.title', 'no-restricted-globals'],
    ['no clock', 'new Date()', 'no-restricted-globals'],
    ['no chance', 'Math.random()', 'no-restricted-properties'],
    ['no console', 'console.log(1)', 'no-console']
  ])('it knows %s', async (_title, expression, rule) => {
    expect(await lint('lib/kernel/checks/x.ts', `export const x = ${expression};\n`)).toContain(rule);
    expect(await lint('routes/x.ts', `export const x = ${expression};\n`)).toEqual([]);
  });
});

describe('imports never lead in a circle', () => {
  it('an elbow that reaches itself through a type and a component is found', () => {
    const folder = mkdtempSync(join(tmpdir(), 'gorewright-'));
    writeFileSync(
      join(folder, 'elbow.ts'),
      `import type { Wall } from './wall.ts';\nexport type Elbow = Wall;\n`
    );
    writeFileSync(join(folder, 'wall.ts'), `export const load = () => import('./Page.svelte');\n`);
    writeFileSync(join(folder, 'Page.svelte'), `<script>\n  import './elbow.ts';\n</script>\n`);
    const { files, imports, cycles } = findCycles(folder);
    rmSync(folder, { recursive: true });
    expect({ files, imports }).toEqual({ files: 3, imports: 3 });
    expect(cycles).toHaveLength(1);
  });

  it('the program itself has none', () => {
    const { imports, cycles } = findCycles(join(import.meta.dirname, '../../src'));
    expect(cycles).toEqual([]);
    expect(imports).toBeGreaterThan(0);
  });
});
