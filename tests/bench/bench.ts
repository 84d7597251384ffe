// npm run bench: figures beside a peer in the same run. They are printed with their goals; nothing passes or fails here.
import { benchDrag } from '../browser/drag-bench.ts';
import { benchExport } from '../browser/export-bench.ts';
import { build } from 'vite';
import type { benchKernel as BenchKernel } from './kernel.ts';
import type { benchSolver as BenchSolver } from './solver.ts';

console.log(`Node ${process.version}`);
// Built as the page is: what runs TypeScript as it stands pays for every name of a function again.
await build({
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: true,
    rollupOptions: { input: ['tests/bench/kernel.ts', 'tests/bench/solver.ts'] },
    outDir: '.reports/bench',
    emptyOutDir: true,
    minify: true
  }
});
const built = (name: string): string => new URL(`../../.reports/bench/${name}.js`, import.meta.url).href;
const { benchKernel } = (await import(built('kernel'))) as { benchKernel: typeof BenchKernel };
const { benchSolver } = (await import(built('solver'))) as { benchSolver: typeof BenchSolver };
benchKernel();
benchSolver();
await build({ logLevel: 'warn' });
await benchDrag();
await benchExport();
