/** A record without one of its fields. */
export function leaveOut<T extends object, K extends keyof T>(record: T, field: K): Omit<T, K> {
  const left: Partial<T> = { ...record };
  delete left[field];
  return left as Omit<T, K>;
}
