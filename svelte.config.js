import adapter from '@sveltejs/adapter-static';
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

/** @type {import('@sveltejs/kit').Config} */
export default {
  preprocess: vitePreprocess(),
  compilerOptions: { runes: true },
  kit: {
    // strict: a page that is not prerendered is an error, so the site never needs a server of its own.
    adapter: adapter({ strict: true }),
    // relative: the built folder works under any path it is put.
    paths: { relative: true }
  }
};
