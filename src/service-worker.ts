/// <reference no-default-lib="true"/>
/// <reference lib="esnext" />
/// <reference lib="webworker" />
/// <reference types="@sveltejs/kit" />
import { base, build, files, prerendered, version } from '$service-worker';
import type { Asked, CarryFault, CarryStep } from './lib/state/carry-messages.ts';

// Keeps the page for where there is no network: what is used of it, and the rest when it is carried. A new version waits
// until every page of the old one is closed, or one of them asks for it.

const worker = globalThis as unknown as ServiceWorkerGlobalScope;

/** Other sites of the same origin keep theirs. */
const OURS = `gorewright ${base} `;
const CACHE = OURS + version;
/** Is there once everything was wanted: of later versions it is then fetched before they are offered. */
const WISH = `gorewright-carried ${base}`;
const PAGE = `${base}/`;
const EVERYTHING: readonly string[] = [...build, ...files, ...prerendered];
/** How many parts are fetched at a time. */
const ABREAST = 4;
/** After so long a part counts as out of reach, ms. */
const PATIENCE = 120_000;

class Unkept extends Error {
  constructor(
    readonly fault: CarryFault,
    path: string
  ) {
    super(`${path}: ${fault}`);
  }
}

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));

worker.addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (method !== 'GET' || origin !== location.origin) return;
  // What an address asks behind ? is for the page.
  const path = pathname === `${PAGE}index.html` ? PAGE : pathname;
  if (isLasting(path) || EVERYTHING.includes(path)) event.respondWith(answer(event, path));
});

worker.addEventListener('message', (event) => {
  const asked = event.data as Asked;
  if (asked === 'take-over') void worker.skipWaiting();
  else event.waitUntil(tell(asked, event.ports[0]!));
});

async function install(): Promise<void> {
  const first = await listFirst();
  await keep((await caches.has(WISH)) ? EVERYTHING : first);
}

/** What the page names. What else a view wants, such as fonts, the page asks for. */
async function listFirst(): Promise<string[]> {
  await keep([PAGE]);
  const html = await (await find(PAGE))!.text();
  const named = EVERYTHING.filter((path) => html.includes(`"./${path.slice(PAGE.length)}"`));
  for (const [, path] of html.matchAll(/"\.\/(_app\/[^"]+)"/g)) {
    if (named.includes(PAGE + path)) continue;
    // It was fetched while another version was put in its place; the next visit tries again.
    await caches.delete(CACHE);
    throw new Error(`the page is of another version: it names ${path}`);
  }
  return [PAGE, ...named];
}

async function activate(): Promise<void> {
  // A page of the last version may still be open elsewhere, and want its own parts.
  const versions = (await caches.keys()).filter((name) => name.startsWith(OURS));
  await Promise.all(versions.slice(0, -2).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

async function answer(event: FetchEvent, path: string): Promise<Response> {
  const kept = await find(path);
  if (kept) return kept;
  const response = await fetch(event.request);
  if (response.ok && EVERYTHING.includes(path)) {
    const copy = response.clone();
    const cache = await caches.open(CACHE);
    // Where there is no room the page goes on with what it has.
    event.waitUntil(cache.put(path, copy).catch(() => {}));
  }
  return response;
}

/** Whether a part's name changes with what is in it. */
function isLasting(path: string): boolean {
  return path.startsWith(`${base}/_app/immutable/`);
}

/** A part as it is kept; one that lasts may have been kept by another version. */
async function find(path: string): Promise<Response | undefined> {
  const cache = await caches.open(CACHE);
  const here = await cache.match(path, { ignoreVary: true });
  return here ?? (isLasting(path) ? caches.match(path, { ignoreVary: true }) : undefined);
}

/** Keeps parts; hears how many there are. @throws Unkept */
async function keep(paths: readonly string[], hear: (done: number) => void = () => {}): Promise<void> {
  const cache = await caches.open(CACHE);
  const left = [...paths];
  let done = 0;
  function giveUp(why: unknown): never {
    left.length = 0;
    throw why;
  }
  async function keepOnwards(): Promise<void> {
    for (let path = left.shift(); path !== undefined; path = left.shift()) {
      if (!(await cache.match(path, { ignoreVary: true }))) await keepOne(cache, path).catch(giveUp);
      hear(++done);
    }
  }
  await Promise.all(Array.from({ length: ABREAST }, keepOnwards));
}

async function keepOne(cache: Cache, path: string): Promise<void> {
  try {
    const response = (await find(path)) ?? (await fetchPart(path));
    // A redirected answer is none to a page that is opened.
    if (!response.ok || response.redirected) throw new Unkept('refused', path);
    await cache.put(path, response);
  } catch (error) {
    if (error instanceof Unkept) throw error;
    const isFull = error instanceof DOMException && error.name === 'QuotaExceededError';
    throw new Unkept(isFull ? 'full' : 'unreachable', path);
  }
}

function fetchPart(path: string): Promise<Response> {
  return fetch(path, {
    cache: isLasting(path) ? 'default' : 'no-cache',
    signal: AbortSignal.timeout(PATIENCE)
  });
}

async function tell(asked: Exclude<Asked, 'take-over'>, port: MessagePort): Promise<void> {
  const say = (step: CarryStep): void => port.postMessage(step);
  const of = EVERYTHING.length;
  if (asked === 'held') {
    const kept = await Promise.all(EVERYTHING.map(find));
    say({ done: kept.filter(Boolean).length, of });
    return;
  }
  try {
    await caches.open(WISH);
    await keep(EVERYTHING, (done) => say({ done, of }));
  } catch (error) {
    say({ fault: error instanceof Unkept ? error.fault : 'full' });
  }
}
