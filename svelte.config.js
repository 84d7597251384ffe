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
    paths: { relative: true },
    // The page registers it itself, to tell of a new version. Schemas and README's picture are not asked for by the page.
    serviceWorker: { register: false, files: (path) => !/^(schema|pictures)\//.test(path) },
    csp: {
      mode: 'hash',
      directives: {
        'default-src': ['none'],
        'script-src': ['self'],
        'style-src': ['self'],
        // The one style attribute, which hides SvelteKit's announcer of a page's title.
        'style-src-attr': ['unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
        'img-src': ['self', 'data:', 'blob:'],
        'font-src': ['self'],
        'connect-src': ['self'],
        'worker-src': ['self'],
        'manifest-src': ['self'],
        'object-src': ['none'],
        'base-uri': ['none'],
        'form-action': ['none'],
        'require-trusted-types-for': ['script'],
        'trusted-types': ['svelte-trusted-html', 'default']
      }
    }
  }
};
