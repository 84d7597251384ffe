/** A part of the page that is fetched when it is first asked for, not before the first handle can be dragged. */
export interface Fetched<T> {
  /** null: not asked for, under way, or failed; once it is there it stays. */
  readonly part: T | null;
  /** Whether it did not arrive the last time it was asked for, also while it is asked for once more. */
  readonly failed: boolean;
  /** Fetches it, unless it is there; fulfilled however that ends. */
  ask(): Promise<void>;
}

export function createFetched<T>(fetchPart: () => Promise<T>): Fetched<T> {
  let part = $state.raw<T | null>(null);
  let failed = $state(false);
  return {
    get part() {
      return part;
    },
    get failed() {
      return failed;
    },
    async ask() {
      if (part) return;
      try {
        part = await fetchPart();
        failed = false;
      } catch {
        failed = true;
      }
    }
  };
}

/** Whether the page itself can be fetched from where it came. */
export async function isReachable(): Promise<boolean> {
  try {
    return (await fetch(location.href, { method: 'HEAD', cache: 'no-store' })).ok;
  } catch {
    return false;
  }
}
