import type { Body, Fitting, Joint, MadeJoint } from './fitting.ts';

/** A fitting that is nothing yet. */
const NOTHING: Fitting = {
  straights: [],
  shaping: tellNothing,
  axes: [],
  bodies: [],
  joints: [],
  closed: [],
  ports: []
};

function tellNothing(): [] {
  return [];
}

/** Parts of one fitting, whose names differ, put together in their order; then what joins them. */
export function mergeParts(parts: readonly Partial<Fitting>[], joints: readonly Joint[] = []): Fitting {
  const gather = <K extends Exclude<keyof Fitting, 'shaping'>>(key: K): Fitting[K][number][] =>
    parts.flatMap((part) => (part[key] ?? NOTHING[key]) as readonly Fitting[K][number][]);
  return {
    straights: gather('straights'),
    shaping: () => parts.flatMap((part) => part.shaping?.() ?? []),
    axes: gather('axes'),
    bodies: gather('bodies'),
    joints: [...gather('joints'), ...joints],
    closed: gather('closed'),
    ports: gather('ports')
  };
}

/** The joints between every body of one side and every body of the other: the first carries how they are made. */
export function joinAll(
  pairs: readonly (readonly [Body['name'], Body['name']])[],
  at: Joint['at'],
  made: Omit<MadeJoint, 'kind'>
): Joint[] {
  return pairs.map((bodies, i): Joint => ({
    bodies,
    at,
    closing: { kind: 'made', ...(i === 0 ? made : { steps: tellNothing, glue: 0, outline: 0 }) }
  }));
}
