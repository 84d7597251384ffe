/** Small choices of the user that the browser keeps for the page: never part of a job, no loss where nothing is kept. */

/** What was kept under a name, as it was parsed; null where nothing is kept or the browser keeps nothing. */
export function recallHabit(name: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(name) ?? 'null');
  } catch {
    return null;
  }
}

/** Keeps a choice; where the browser keeps nothing it holds until the page is closed. */
export function keepHabit(name: string, value: unknown): void {
  try {
    localStorage.setItem(name, JSON.stringify(value));
  } catch {
    // Nothing to do: the page goes on with what it has.
  }
}
