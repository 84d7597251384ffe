import type { Body } from '../kernel/fitting/fitting.ts';
import { turnDirection } from '../kernel/geometry/motion.ts';
import { dot } from '../kernel/geometry/vector.ts';
import { SEEN, see, seeRun, type BodyShape } from './drawing-body.ts';
import type { Point, Stroke } from './figure.ts';
import { wrapHull } from './hull.ts';
import type { View } from './view.ts';
import type { Facing, Run } from './wall-outline.ts';

/** Lines on paper this close, mm of the thing drawn, are one. */
const SAME_LINE = 1e-3;

/** Where an edge is bevelled by more than this, degrees, its line on the inside is clear of that on the facing. */
const FAR_IN = 25;

/**
 * The inside, dashed: of a duct the two corner lines that are outermost in this view, of a panel the lines of its corners,
 * once where they lie over each other.
 */
export function drawInside(shapes: readonly BodyShape[], view: View): Stroke[] {
  const lines = shapes.flatMap(({ body, facings, cornerLines }) =>
    (body.kind === 'piece'
      ? seePieceInside(body, cornerLines, view)
      : seePanelInside(body, facings, view)
    ).map((points): Stroke => ({ kind: 'stroke', line: 'hidden', points, about: { piece: body.name } }))
  );
  return lines.filter(
    ({ points }, i) =>
      !lines
        .slice(0, i)
        .some((other) => isSameLine(points, other.points) || isSameLine(points, [...other.points].reverse()))
  );
}

function seePieceInside(body: Body, cornerLines: readonly Run[], view: View): Point[][] {
  const lines = cornerLines.map((run) => seeRun(run, body, view, 'inner'));
  const longest = lines.reduce((a, b) => (measureSpan(b) > measureSpan(a) ? b : a));
  const length = measureSpan(longest);
  if (length < SAME_LINE) return [];
  const [from, to] = [longest[0]!, longest[longest.length - 1]!];
  const across: Point = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  // A line with a bend in it is as far out as its middle.
  const offset = (line: readonly Point[]): number =>
    line.reduce((sum, [x, y]) => sum + x * across[0] + y * across[1], 0) / line.length;
  const sorted = [...lines].sort((a, b) => offset(a) - offset(b));
  return [sorted[0]!, sorted[sorted.length - 1]!];
}

function seePanelInside(body: Body, facings: readonly Facing[], view: View): Point[][] {
  return facings.flatMap(({ normal, rims }) => {
    const turned = dot(view.eye, turnDirection(body.placement, normal));
    // Edge-on the outline is a line there and back.
    if (Math.abs(turned) <= SEEN) return rims.map((run) => wrapHull(seeRun(run, body, view, 'inner')));
    if (turned < 0) return [];
    return rims.flatMap(({ edges }) =>
      edges
        .filter(({ bevel }) => bevel > FAR_IN)
        .map(({ inner }) => inner.map((corner) => see(body, view, corner)))
    );
  });
}

function measureSpan(line: readonly Point[]): number {
  const [from, to] = [line[0]!, line[line.length - 1]!];
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}

function isSameLine(a: readonly Point[], b: readonly Point[]): boolean {
  return a.length === b.length && a.every(([x, y], i) => Math.hypot(x - b[i]![0], y - b[i]![1]) < SAME_LINE);
}
