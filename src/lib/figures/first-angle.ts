import type { Figure, Item, Point } from './figure.ts';
import { measureOnPaper } from './lettering.ts';
import { findView, type View } from './view.ts';

/** Between the elevation and the plan, paper mm. */
const GAP = 10;

/** How far the plan lies under the elevation, mm of the thing drawn, at the scale for which that was found. */
export interface Lowered {
  paperScale: number;
  by: number;
  /** The level between the two, mm on the figure. */
  split: number;
}

/** Elevation and plan in one figure, and where the plan lies in it at a scale. */
export interface Pair {
  draw(paperScale: number): Figure;
  findLowered(paperScale: number): Readonly<Lowered>;
}

/**
 * Elevation and plan at one scale, the plan under the elevation and every place along the duct straight under itself:
 * first-angle arrangement (ISO 5456-2; from memory). `last` is where the plan was last and is written anew, but stays
 * where it is while something is `held`.
 */
export function pairViews(
  drawView: (view: View, paperScale: number) => Figure,
  last: Lowered,
  held: boolean
): Pair {
  let drawn: { readonly paperScale: number; readonly figure: Figure } | null = null;

  function draw(paperScale: number): Figure {
    if (drawn?.paperScale === paperScale) return drawn.figure;
    const [elevation, plan] = (['elevation', 'plan'] as const).map((name) =>
      drawView(findView(name, null), paperScale)
    ) as [Figure, Figure];
    if (!held || last.paperScale !== paperScale) {
      Object.assign(last, measureLowered(elevation, plan, paperScale));
    }
    const lowered = plan.layers.map(({ name, items }) => ({
      name: `${name} in plan`,
      items: items.map((item) => lower(item, last.by))
    }));
    drawn = { paperScale, figure: { layers: [...elevation.layers, ...lowered] } };
    return drawn.figure;
  }

  return {
    draw,
    findLowered(paperScale) {
      draw(paperScale);
      return last;
    }
  };
}

function measureLowered(elevation: Figure, plan: Figure, paperScale: number): Lowered {
  const bottom = measureOnPaper(elevation, paperScale)?.bottom ?? 0;
  const top = measureOnPaper(plan, paperScale)?.top ?? 0;
  return { paperScale, by: (bottom - top + GAP) / paperScale, split: (bottom + GAP / 2) / paperScale };
}

function lower(item: Item, by: number): Item {
  const move = ([x, y]: Point): Point => [x, y + by];
  return item.kind === 'text' ? { ...item, at: move(item.at) } : { ...item, points: item.points.map(move) };
}
