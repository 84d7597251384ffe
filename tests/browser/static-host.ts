import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf'
};

/** A server that knows nothing but a folder, as any host of static files: the site stands in a folder of it. */
export interface StaticHost {
  readonly url: string;
  /** Every path that was asked for and not there. */
  readonly missing: readonly string[];
  /** The folder that is served; another one is another version put in its place. */
  folder: string;
  start(): Promise<void>;
  /** Ends it and everything that is still connected to it. */
  stop(): Promise<void>;
}

const PLACE = '/tools/gorewright/';

/** Serves a folder on a free port, which it keeps when it is started again. */
export async function hostStatically(folder: string): Promise<StaticHost> {
  const missing: string[] = [];
  let port = 0;
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url!, 'http://host').pathname);
    const name = path.endsWith('/') ? `${path}index.html` : path;
    const type = TYPES[extname(name)];
    const file = name.startsWith(PLACE) ? join(host.folder, normalize(name.slice(PLACE.length))) : '';
    readFile(type ? file : '').then(
      (content) => {
        // Nothing may come from the browser's own memory of answers instead of what the page keeps.
        response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' });
        response.end(request.method === 'HEAD' ? undefined : content);
      },
      () => {
        missing.push(path);
        response.writeHead(404).end();
      }
    );
  });
  const host: StaticHost = {
    folder,
    missing,
    get url() {
      return `http://127.0.0.1:${port}${PLACE}`;
    },
    async start() {
      await new Promise<void>((done) => server.listen(port, '127.0.0.1', done));
      port = (server.address() as AddressInfo).port;
    },
    async stop() {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    }
  };
  await host.start();
  return host;
}
