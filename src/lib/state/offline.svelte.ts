import { dev } from '$app/environment';
import { asset } from '$app/paths';
import type { Asked, CarryFault, CarryStep } from './carry-messages.ts';

/** The page as it is kept in the browser for where there is no network, and its newer version. */
export interface Offline {
  /** Whether the browser can keep the page; null until it is known. */
  readonly isPossible: boolean | null;
  /** How many parts are kept, of how many; null until it is known. */
  readonly held: { readonly done: number; readonly of: number } | null;
  readonly isCarrying: boolean;
  /** Why not everything could be kept, when that was last asked for. */
  readonly fault: CarryFault | null;
  /** Whether a newer version is there than the one that is open. */
  readonly isRenewed: boolean;
  /** Keeps everything. */
  carry(): Promise<void>;
  /** Loads the page anew, in its newest version; what it holds has to be saved before. */
  loadAnew(): Promise<void>;
}

/** Asks the browser to keep the page; call it while a component is made. */
export function keepOffline(): Offline {
  let isPossible = $state<boolean | null>(null);
  let held = $state.raw<Offline['held']>(null);
  let isCarrying = $state(false);
  let fault = $state.raw<CarryFault | null>(null);
  let isRenewed = $state(false);
  let registration: ServiceWorkerRegistration | undefined;
  let isLeaving = false;

  $effect(() => {
    const host = dev ? undefined : navigator.serviceWorker;
    if (!host) {
      isPossible = false;
      return;
    }
    const hadWorker = host.controller !== null;
    const onchange = (): void => {
      if (!hadWorker) keepUsed();
      // Another page asked the new version to take over.
      else if (!isLeaving) isRenewed = true;
    };
    const look = (): void => {
      if (document.visibilityState === 'visible') registration?.update().catch(() => null);
    };
    host.addEventListener('controllerchange', onchange);
    document.addEventListener('visibilitychange', look);
    void begin();
    return () => {
      host.removeEventListener('controllerchange', onchange);
      document.removeEventListener('visibilitychange', look);
    };
  });

  async function begin(): Promise<void> {
    try {
      registration = await navigator.serviceWorker.register(asset('/service-worker.js'));
      watch(registration);
      isPossible = true;
    } catch {
      // A browser that keeps nothing, as in a private window, refuses.
      isPossible = false;
      return;
    }
    const active = await findActive(registration).catch(() => null);
    if (active && !isCarrying) ask(active, 'held');
  }

  function watch(watched: ServiceWorkerRegistration): void {
    const note = (): void => {
      if (watched.waiting && watched.active) isRenewed = true;
    };
    note();
    watched.addEventListener('updatefound', () => {
      const { installing } = watched;
      if (installing) void settle(installing).then(note);
    });
  }

  /** Hears a worker's steps until it is through or has failed. */
  function ask(active: ServiceWorker, asked: Exclude<Asked, 'take-over'>): void {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<CarryStep>) => {
      if ('fault' in data) fault = data.fault;
      else held = data;
      const isOver = asked === 'held' || 'fault' in data || data.done === data.of;
      // What is still under way when one part fails is told no more.
      if (isOver) port1.close();
      if (isOver && asked === 'carry') isCarrying = false;
      // Perhaps what it did not give is of a version that is no longer there.
      if ('fault' in data && data.fault === 'refused') registration?.update().catch(() => null);
    };
    active.postMessage(asked satisfies Asked, [port2]);
  }

  return {
    get isPossible() {
      return isPossible;
    },
    get held() {
      return held;
    },
    get isCarrying() {
      return isCarrying;
    },
    get fault() {
      return fault;
    },
    get isRenewed() {
      return isRenewed;
    },
    async carry() {
      if (isCarrying) return;
      isCarrying = true;
      fault = null;
      try {
        // A page that was not kept yet is asked for again.
        registration = await navigator.serviceWorker.register(asset('/service-worker.js'));
        const active = await findActive(registration);
        // Without it a browser that runs out of room may throw away what is kept.
        void navigator.storage?.persist?.();
        ask(active, 'carry');
      } catch {
        isCarrying = false;
        fault = 'unreachable';
      }
    },
    async loadAnew() {
      if (!registration?.waiting) await registration?.update().catch(() => null);
      if (registration?.installing) await settle(registration.installing);
      const waiting = registration?.waiting;
      if (waiting) {
        isLeaving = true;
        waiting.postMessage('take-over' satisfies Asked);
        await reach(waiting, ['activated', 'redundant']);
      }
      location.reload();
    }
  };
}

/** What was fetched before there was a service worker is asked for once more, so that it keeps it. */
function keepUsed(): void {
  for (const { name } of performance.getEntriesByType('resource')) {
    if (name.includes('/_app/immutable/')) fetch(name).catch(() => null);
  }
}

/** The worker that answers for the page, once it does. @throws where its parts could not be fetched */
async function findActive(registration: ServiceWorkerRegistration): Promise<ServiceWorker> {
  const first = registration.active ?? registration.waiting ?? registration.installing;
  if (!first) throw new Error('no service worker');
  await reach(first, ['activated', 'redundant']);
  if (first.state === 'redundant') throw new Error('the service worker could not fetch the page');
  return first;
}

/** Waits until a worker is installed, or cannot be. */
function settle(worker: ServiceWorker): Promise<void> {
  return reach(worker, ['installed', 'activating', 'activated', 'redundant']);
}

function reach(worker: ServiceWorker, states: readonly ServiceWorkerState[]): Promise<void> {
  return new Promise((resolve) => {
    const look = (): void => {
      if (!states.includes(worker.state)) return;
      worker.removeEventListener('statechange', look);
      resolve();
    };
    worker.addEventListener('statechange', look);
    look();
  });
}
