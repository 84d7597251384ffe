import paper from 'paper/dist/paper-core';
import type { Point } from './figure.ts';

type Item = paper.Path | paper.CompoundPath;

/**
 * Coordinates are snapped to a thousandth of a millimetre: where edges lie about 1e-8 mm apart paper answers grossly
 * wrong shapes (nothing, or half the area), where they coincide or lie further apart it does not.
 */
const SNAPS_PER_MM = 1000;

const scope = new paper.PaperScope();
scope.setup(new scope.Size(1, 1));
scope.settings.insertItems = false;

/**
 * The part of a simple polygon inside another: rings clockwise on paper (y down), no point repeated to close one; none
 * where they only touch. Throws when the areas do not add up.
 */
export function clipOutline(polygon: readonly Point[], clip: readonly Point[]): Point[][] {
  const path = makePath(polygon);
  const window = makePath(clip);
  if (!path || !window) return [];
  const inside = path.intersect(window, { insert: false }) as Item;
  const outside = path.subtract(window, { insert: false }) as Item;
  checkAreas('clip', measure(path), measure(inside) + measure(outside), [path, window]);
  return listRings(inside);
}

/** The areas before and after may differ by a strip as wide as the snap along both outlines. */
function checkAreas(what: string, before: number, after: number, items: readonly Item[]): void {
  const allowed = items.reduce((sum, item) => sum + item.length, 0) / SNAPS_PER_MM;
  if (Math.abs(before - after) <= allowed) return;
  const shapes = items.map((item) => item.pathData).join(' and ');
  throw new Error(`the ${what} of ${shapes} has the areas ${before} before and ${after} after, mm²`);
}

function measure(item: Item): number {
  return Math.abs(item.area);
}

function makePath(polygon: readonly Point[]): paper.Path | null {
  for (const [x, y] of polygon) {
    if (!Number.isFinite(x) || !Number.isFinite(y))
      throw new Error(`an outline has no point at [${x}, ${y}]`);
  }
  const segments = polygon.map(([x, y]) => [snap(x), snap(y)]);
  const path = new scope.Path({ segments, closed: true, insert: false });
  return measure(path) > 0 ? path : null;
}

function listRings(item: Item): Point[][] {
  const turned = item.reorient(true, true) as Item;
  return ('segments' in turned ? [turned] : (turned.children as paper.Path[]))
    .map((path) => path.segments.map(({ point }): Point => [snap(point.x), snap(point.y)]))
    .filter((ring) => ring.length >= 3);
}

function snap(value: number): number {
  return Math.round(value * SNAPS_PER_MM) / SNAPS_PER_MM + 0;
}
