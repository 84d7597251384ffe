import type { Figure, Item, Point } from './figure.ts';
import { measureOnPaper } from './lettering.ts';

/** Space between figures, paper mm. */
const BETWEEN = 8;

/**
 * Figures of one scale under one another as one, each from the left edge of the first; their layers carry the figure's
 * name before their own. A figure alone stays as it is.
 */
export function stackFigures(
  figures: readonly { readonly name: string; readonly figure: Figure }[],
  scale: number
): Figure {
  if (figures.length === 1) return figures[0]!.figure;
  let bottom = 0;
  return {
    layers: figures.flatMap(({ name, figure }) => {
      const box = measureOnPaper(figure, scale);
      if (!box) return [];
      const shift: Point = [-box.left / scale, (bottom - box.top) / scale];
      bottom += box.bottom - box.top + BETWEEN;
      return figure.layers.map((layer) => ({
        name: `${name}-${layer.name}`.replace(/\s+/g, '-'),
        items: layer.items.map((item) => moveItem(item, shift))
      }));
    })
  };
}

/** An item moved, mm of the thing drawn. */
export function moveItem(item: Item, [dx, dy]: Point): Item {
  const move = ([x, y]: Point): Point => [x + dx, y + dy];
  return item.kind === 'text' ? { ...item, at: move(item.at) } : { ...item, points: item.points.map(move) };
}
