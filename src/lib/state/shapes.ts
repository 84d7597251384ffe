import type { BuiltModel, Model } from '../kernel/evaluate.ts';

/** The last shape of every fitting that could be built, by tag: it stays with its fitting wherever that stands in the list. */
export type Shapes = ReadonlyMap<string, BuiltModel>;

export const NO_SHAPES: Shapes = new Map();

/** The shapes after a change: of what can be built now, else as before. */
export function rememberShapes(before: Shapes, model: Model): Shapes {
  const shapes = new Map<string, BuiltModel>();
  for (const { resolved, built } of model.fittings) {
    const shape = built ?? before.get(resolved.tag);
    if (shape) shapes.set(resolved.tag, shape);
  }
  return shapes;
}
