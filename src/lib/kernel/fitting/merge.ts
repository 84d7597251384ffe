import type { Body, Fitting, Joint } from './fitting.ts';

/** A fitting that is nothing yet. */
const NOTHING: Fitting = { straights: [], shaping: [], axes: [], bodies: [], joints: [], ports: [] };

/** Parts of one fitting, whose names differ, put together in their order; then what joins them. */
export function mergeParts(parts: readonly Partial<Fitting>[], joints: readonly Joint[] = []): Fitting {
  const merged = parts.reduce<Fitting>(
    (all, part) => ({
      straights: [...all.straights, ...(part.straights ?? [])],
      shaping: [...all.shaping, ...(part.shaping ?? [])],
      axes: [...all.axes, ...(part.axes ?? [])],
      bodies: [...all.bodies, ...(part.bodies ?? [])],
      joints: [...all.joints, ...(part.joints ?? [])],
      ports: [...all.ports, ...(part.ports ?? [])]
    }),
    NOTHING
  );
  return { ...merged, joints: [...merged.joints, ...joints] };
}

/** The joints between every body of one side and every body of the other: the first carries how they are made. */
export function joinAll(
  pairs: readonly (readonly [Body['name'], Body['name']])[],
  at: Joint['at'],
  made: { readonly steps: Fitting['shaping']; readonly glue: number; readonly outline: number }
): Joint[] {
  return pairs.map((bodies, i): Joint => ({
    bodies,
    at,
    closing: { kind: 'made', ...(i === 0 ? made : { steps: [], glue: 0, outline: 0 }) }
  }));
}
