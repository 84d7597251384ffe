import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import svelte from 'eslint-plugin-svelte';
import { defineConfig } from 'eslint/config';
import globals from 'globals';
import { dirname, relative, resolve, sep } from 'node:path';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

/**
 * Which folder of src may import which others: one way only, type imports too. A folder may always import
 * itself. A name that ends in / is the files that lie in that folder, without those below. Tests may import anything.
 */
const kernelParts = 'geometry straight fitting families pattern assembly checks stock air site document';
const kernel = [...kernelParts.split(' '), 'sources.ts', ''].map((part) => `lib/kernel/${part}`);
const trade = ['lib/kernel/geometry', 'lib/kernel/straight', 'lib/kernel/sources.ts'];
const fitting = [...trade, 'lib/kernel/fitting'];
const sayable = [...kernel, 'lib/quantity', 'lib/words'];
const answers = [...sayable, 'lib/figures', 'lib/sheet', 'lib/solids'];
const seen = [...sayable, 'lib/figures', 'lib/state', 'lib/ui'];
const arrow = {
  'lib/kernel/geometry': [],
  'lib/kernel/sources.ts': [],
  'lib/kernel/straight': trade,
  'lib/kernel/fitting': trade,
  'lib/kernel/families': fitting,
  'lib/kernel/pattern': fitting,
  'lib/kernel/assembly': fitting,
  'lib/kernel/checks': fitting,
  'lib/kernel/stock': fitting,
  'lib/kernel/air': fitting,
  'lib/kernel/site': fitting,
  'lib/kernel/document': [...fitting, 'lib/kernel/families', 'lib/kernel/site'],
  'lib/kernel/': kernel,
  'lib/quantity': [],
  'lib/words': [...kernel, 'lib/quantity'],
  'lib/figures': sayable,
  'lib/sheet': sayable,
  'lib/solids': kernel,
  'lib/exports': answers,
  'lib/workers': [...answers, 'lib/exports'],
  'lib/state': kernel,
  'lib/ui': sayable,
  'lib/editor': seen,
  'lib/preview': [...seen, 'lib/solids'],
  cli: [...answers, 'lib/exports'],
  routes: ['lib/', 'cli', 'routes'],
  'service-worker.ts': ['lib/state']
};

/** Packages that one folder alone may import. */
const homes = {
  konva: 'lib/editor',
  three: 'lib/preview',
  jspdf: 'lib/exports',
  '@gltf-transform': 'lib/exports',
  '@tarikjabiri': 'lib/exports',
  fflate: 'lib/exports',
  uqr: 'lib/exports',
  paper: 'lib/figures',
  'idb-keyval': 'lib/state'
};

/** Folders that run without the page: no framework, and relative imports that Node can follow too. */
const pageless = [...answers, 'lib/exports', 'cli'];

const importArrow = {
  meta: { type: 'problem', schema: [] },
  create(context) {
    const src = resolve(import.meta.dirname, 'src');
    const file = relative(src, context.filename).split(sep).join('/');
    const from = findFolder(file);

    function check(node, source) {
      if (typeof source?.value !== 'string') return;
      const why = judgeImport(source.value);
      if (why)
        context.report({ node: source, message: `${from ?? file} may not import ${source.value}: ${why}.` });
    }

    function judgeImport(name) {
      if (!from) return 'its folder has no place in the arrow of eslint.config.js';
      const free = pageless.includes(from);
      if (!name.startsWith('.') && !name.startsWith('$lib')) {
        if (!arrow[from].length) return 'it stands on nothing but itself';
        const home = homes[name.split('/')[0]];
        if (home && home !== from) return `only ${home} may`;
        if (free && /^(\$|svelte|@sveltejs)/.test(name)) return 'it has to run without the page';
        if (name.startsWith('node:') && from !== 'cli') return 'it has to run in a browser';
        if (from.startsWith('lib/kernel') && name.split('/')[0] !== 'zod')
          return 'the kernel stands on itself and zod';
        return undefined;
      }
      if (free && name.startsWith('$lib')) return 'here imports are relative, Node does not know $lib';
      if (free && !/\.\w+(\?\w+)?$/.test(name)) return 'the extension is missing';
      const path = name.startsWith('$lib')
        ? name.replace('$lib', 'lib')
        : relative(src, resolve(dirname(context.filename), name))
            .split(sep)
            .join('/');
      const to = findFolder(path);
      if (to === from || arrow[from].some((may) => to === may || (may === 'lib/' && path.startsWith(may)))) {
        return undefined;
      }
      return `imports go one way, and ${to ?? path} is not below it`;
    }

    return {
      ImportDeclaration: (node) => check(node, node.source),
      ExportNamedDeclaration: (node) => check(node, node.source),
      ExportAllDeclaration: (node) => check(node, node.source),
      ImportExpression: (node) => check(node, node.source),
      TSImportType: (node) => check(node, node.source)
    };
  }
};

/** @param {string} path below src @returns {string | undefined} the entry of the arrow it belongs to */
function findFolder(path) {
  const folders = Object.keys(arrow).filter((folder) => path === folder || path.startsWith(`${folder}/`));
  return folders[0] ?? Object.keys(arrow).find((folder) => folder === path.replace(/[^/]*$/, ''));
}

export default defineConfig(
  { ignores: ['build/', '.svelte-kit/', '.reports/', 'node_modules/', 'static/'] },
  js.configs.recommended,
  ...ts.configs.recommended,
  ...svelte.configs.recommended,
  prettier,
  ...svelte.configs.prettier,
  { languageOptions: { globals: { ...globals.browser, ...globals.node } } },
  {
    files: ['**/*.ts', '**/*.svelte'],
    // TypeScript knows better which names exist.
    rules: { 'no-undef': 'off' }
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, extraFileExtensions: ['.svelte'], svelteConfig } }
  },
  {
    files: ['src/**/*.{ts,mjs,svelte}'],
    ignores: ['src/**/*.test.ts', 'src/*.d.ts'],
    plugins: { gorewright: { rules: { 'import-arrow': importArrow } } },
    rules: { 'gorewright/import-arrow': 'error' }
  },
  {
    files: ['src/lib/kernel/**/*.ts'],
    ignores: ['**/*.test.ts'],
    rules: {
      'no-console': 'error',
      // The same job has the same answer everywhere and always: no page, no clock, no chance.
      'no-restricted-globals': [
        'error',
        ...['window', 'document', 'navigator', 'localStorage', 'globalThis', 'process', 'fetch'],
        ...['console', 'Date', 'performance', 'setTimeout', 'setInterval', 'requestAnimationFrame', 'crypto']
      ],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random' }]
    }
  }
);
