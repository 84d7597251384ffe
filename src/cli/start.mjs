// npm start: from a fresh clone to the page in the browser.
import { makeReady, root } from './ready.mjs';

makeReady();
process.chdir(root);
const { build, preview } = await import('vite');
await build({ logLevel: 'warn' });
const port = Number(process.env.PORT || 4173);
const server = await preview({
  // A port that was asked for is kept or refused; the usual one gives way to the next free one.
  preview: { host: '127.0.0.1', port, strictPort: Boolean(process.env.PORT) },
  logLevel: 'warn'
});
console.log(`Gorewright is open at ${server.resolvedUrls?.local[0]} (Ctrl+C ends it)`);
