import { SAME_BEVEL } from '../kernel/straight/board.ts';
import { clipItems, clipLine } from './clip.ts';
import type { CutOutline } from './cut-outline.ts';
import { describeEdges, drawEdgeBlade } from './edge-blade.ts';
import type { Box, Figure, Item, Point, Stroke } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import type { Manner } from './manner.ts';
import { keepOffLine, startRoom } from './room.ts';
import { GLYPH, labelEdge, labelGuide, nameOutline, type ShownEdge } from './template-outline-labels.ts';
import { drawCross } from './template.ts';
import type { Tile } from './tiles.ts';

/** An edge shorter than this on a page has no label there, mm. */
const LEAST_EDGE = 12;

/**
 * The template of an outline, one tile of it, meant for full size, scale 1. Wide: the outline on the facing; dashed: on
 * the inside; on every edge in sight its length, its bevel with set-back, and the blade laid over along the edge.
 */
export function drawOutlineTemplate(cut: CutOutline, manner: Manner, { window, crosses }: Tile): Figure {
  const { scale } = manner;
  const { outer, inner, bevels, about, diameter } = cut;
  const isUpright = bevels.every((bevel) => bevel <= SAME_BEVEL);
  const outline = clipItems([{ ...drawClosed(outer, 'cut'), about }], window);
  const inside = isUpright ? [] : clipItems([{ ...drawClosed(inner, 'hidden'), about }], window);
  const guides = clipItems(
    cut.guides.map(({ line, points }) => drawLine(points, line)),
    window
  );
  const edges = diameter === null ? listEdgesInside(cut, window) : [];
  const blades = edges.flatMap((edge) =>
    edge.bevel > SAME_BEVEL
      ? drawEdgeBlade(edge, edge.middle, { base: GLYPH.base / scale, reach: GLYPH.reach / scale })
      : []
  );
  const marks = crosses.flatMap(drawCross(scale));

  const room = startRoom(
    boxPoints(window.left * scale, window.top * scale, window.right * scale, window.bottom * scale)
  );
  for (const item of [...outline, ...inside, ...guides, ...blades, ...marks]) {
    const { points, closed } = item as Stroke;
    keepOffLine(room, closed ? [...points, points[0]!] : points, scale);
  }
  const labels = [
    ...edges.flatMap((edge) => labelEdge(edge, manner, room)),
    ...cut.guides.flatMap((guide) => labelGuide(guide, manner, window, room)),
    ...nameOutline(cut, manner, window, room)
  ];
  const board: Item[] =
    cut.straight === null ? clipItems([{ kind: 'fill', fill: 'board', points: outer, about }], window) : [];
  return {
    layers: [
      { name: 'pieces', items: board },
      { name: 'guides', items: guides },
      { name: 'inside', items: inside },
      { name: 'cuts', items: outline },
      { name: 'blades', items: blades },
      { name: 'crosses', items: marks },
      { name: 'labels', items: labels }
    ]
  };
}

/** The parts of the edges that a page shows, each with its own middle. */
function listEdgesInside({ outer, inner, bevels }: CutOutline, window: Box): ShownEdge[] {
  return describeEdges(outer, inner, bevels).flatMap((edge) => {
    const part = clipLine(edge.from, edge.to, window);
    if (!part) return [];
    const [a, b] = part;
    const shown = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (shown < LEAST_EDGE) return [];
    return [{ ...edge, shown, middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as Point }];
  });
}
