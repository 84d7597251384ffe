import { writeRequest, type ExportRequest, type ExportStep } from '$lib/exports/request.ts';

/** Writes exports, one at a time, in a worker. */
export interface Exporting {
  /** What is being written. */
  readonly asked: ExportRequest | null;
  /** Pages done, of how many; null until the first one is. */
  readonly progress: { readonly done: number; readonly of: number } | null;
  /** What was asked for and could not be written. */
  readonly failed: ExportRequest | null;
  /** Begins to write; while another is being written nothing happens. */
  ask(request: ExportRequest): void;
  /** Ends the writing; nothing is saved. */
  cancel(): void;
}

/**
 * A worker of its own, which begins with the first request; where the browser has none for modules the page writes itself,
 * page by page. `onwritten` hears every file, and what was asked.
 */
export function createExporting(
  onwritten: (written: Uint8Array<ArrayBuffer> | string, request: ExportRequest) => void
): Exporting {
  let worker: Worker | null = null;
  let asked = $state.raw<ExportRequest | null>(null);
  let progress = $state.raw<Exporting['progress']>(null);
  let failed = $state.raw<ExportRequest | null>(null);

  function hear(step: ExportStep): void {
    if ('done' in step) {
      progress = step;
      return;
    }
    const request = asked!;
    asked = null;
    onwritten(step.written, request);
  }

  function fail(): void {
    const request = asked;
    cancel();
    failed = request;
  }

  /** Null where the browser refuses. */
  function hire(): Worker | null {
    try {
      // The bundler finds the worker by this very expression; nothing on the page depends on the address.
      // eslint-disable-next-line svelte/prefer-svelte-reactivity
      const hired = new Worker(new URL('../../lib/workers/export.ts', import.meta.url), { type: 'module' });
      hired.onmessage = ({ data }: MessageEvent<ExportStep>) => hear(data);
      hired.onerror = fail;
      return hired;
    } catch {
      return null;
    }
  }

  async function writeHere(request: ExportRequest): Promise<void> {
    const isOver = (): boolean => asked !== request;
    try {
      const written = await writeRequest(request, async (done, of) => {
        // So that the page can hear that it is cancelled.
        await new Promise((resolve) => setTimeout(resolve));
        if (isOver()) throw new Error('cancelled');
        hear({ done, of });
      });
      if (!isOver()) hear({ written });
    } catch (error) {
      if (isOver()) return;
      fail();
      throw error;
    }
  }

  function cancel(): void {
    worker?.terminate();
    worker = null;
    asked = null;
    progress = null;
  }

  return {
    get asked() {
      return asked;
    },
    get progress() {
      return progress;
    },
    get failed() {
      return failed;
    },
    ask(request) {
      if (asked) return;
      asked = request;
      progress = null;
      failed = null;
      worker ??= hire();
      if (worker) worker.postMessage(request);
      else void writeHere(request);
    },
    cancel
  };
}
