import { sveltekit } from '@sveltejs/kit/vite';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const absent = fileURLToPath(new URL('./src/lib/exports/absent.ts', import.meta.url));

export default defineConfig({
  resolve: { alias: { html2canvas: absent, canvg: absent, dompurify: absent } },
  plugins: [sveltekit()],
  build: {
    target: 'es2022',
    rolldownOptions: {
      checks: { pluginTimings: false },
      // What every first visit needs is one file: in thirty it is eight kilobytes more.
      output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } }
    }
  },
  // One file each: of their further ones SvelteKit does not tell the service worker.
  worker: { format: 'es', rolldownOptions: { output: { codeSplitting: false } } },
  test: {
    include: ['src/**/*.test.ts', 'tests/{reference,oracle,properties,golden,corpus,contract}/**/*.test.ts'],
    environment: 'node',
    testTimeout: 20_000,
    // By itself vitest leaves one core to whoever watches.
    maxWorkers: availableParallelism()
  }
});
