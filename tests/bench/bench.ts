// npm run bench: figures beside a peer in the same run. They are printed with their goals; nothing passes or fails here.
import { benchDrag } from '../browser/drag-bench.ts';
import { build } from 'vite';
import type { benchKernel as Bench } from './kernel.ts';

console.log(`Node ${process.version}`);
// Built as the page is: what runs TypeScript as it stands pays for every name of a function again.
await build({
  configFile: false,
  logLevel: 'warn',
  build: { ssr: 'tests/bench/kernel.ts', outDir: '.reports/bench', emptyOutDir: true, minify: true }
});
const built = new URL('../../.reports/bench/kernel.js', import.meta.url).href;
const { benchKernel } = (await import(built)) as { benchKernel: typeof Bench };
benchKernel();
await benchDrag();
