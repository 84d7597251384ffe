import { scale as scaleBy, add, type Vec3 } from '../kernel/geometry/vector.ts';
import type { SiteModel } from '../kernel/evaluate.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { growSection } from '../kernel/straight/section.ts';
import type { SiteDrawingWords } from '../words/site-drawing.ts';
import { drawFlow } from './drawing.ts';
import type { Box, Item, Point, Stroke } from './figure.ts';
import { wrapHull } from './hull.ts';
import { LETTERING } from './lettering.ts';
import { avoidLine, placeText, type Room } from './room.ts';
import { findEnd, placeSection, strokeOutline, type Place } from './site-outline.ts';
import { project, type View } from './view.ts';

/** How much of the duct that goes on is drawn, paper mm: its flow arrow stands in it. */
const STUB = 16;

/** From the end to its label, paper mm. */
const LABEL_AWAY = 3;

/** A way that the view shows shorter than this, paper mm, has no line. */
const LEAST_LINE = 1;

/** The inlet of every site. */
const INLET: Place = { at: [0, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] };

/**
 * Where the fitting has to end: the outside of the duct there, its flow, a long chain line along every coordinate that is
 * free, and the duct that goes on beyond both ends. `seen`: the part of the figure that is drawn, mm.
 */
export function drawEnds(
  { site, findings }: SiteModel,
  fitting: Fitting,
  thickness: number,
  view: View,
  seen: Box,
  paperScale: number,
  room: Room
): Stroke[] {
  const outside = growSection(site.section, thickness);
  const end = findEnd(site.end, fitting);
  const wrong = findings.some(({ code }) => code === 'end-missed') ? { tone: 'wrong' as const } : {};
  const outline = wrapFlat(placeSection(end, outside).map((corner) => project(view, corner)));
  const strokes: Stroke[] = [
    ...drawStub(INLET, scaleBy(INLET.flow, -1), outside, view, paperScale),
    ...drawStub(end, end.flow, outside, view, paperScale),
    { kind: 'stroke', line: 'visible', points: outline, closed: true, ...wrong },
    ...drawFlow({ name: 'outlet', at: end.at, flow: end.flow }, view, paperScale),
    ...drawReach(site.end.at, end, view, seen, paperScale)
  ];
  for (const { points } of strokes) avoidLine(room, points, paperScale);
  return strokes;
}

/** What the end is called, beside it, and what is only to be reached. */
export function nameEnd(
  { site }: SiteModel,
  fitting: Fitting,
  thickness: number,
  view: View,
  seen: Box,
  paperScale: number,
  room: Room,
  words: SiteDrawingWords
): Item[] {
  const end = findEnd(site.end, fitting);
  const corners = placeSection(end, growSection(site.section, thickness)).map((corner) =>
    project(view, corner)
  );
  const [ax, ay] = project(view, end.at);
  const [fx, fy] = project(view, scaleBy(end.flow, STUB / 2 / paperScale));
  const [low, high] = [
    Math.max(...corners.map(([, y]) => y)) + LABEL_AWAY / paperScale,
    Math.min(...corners.map(([, y]) => y)) - LABEL_AWAY / paperScale
  ];
  const beyond = [ax + 2.3 * fx, ay + 2.3 * fy] as const;
  const name = placeText(room, paperScale, { text: words.end, height: LETTERING.labels }, [
    { at: [ax + fx, low], anchor: 'middle' },
    { at: [ax + fx, high], anchor: 'middle' },
    { at: beyond, anchor: fx < 0 ? 'end' : 'start' }
  ]);
  const free = listFree(site.end.at).flatMap((axis) => {
    const line = findReach(axis, end, view, seen, paperScale);
    if (!line) return [];
    const text = axis === 1 ? words.line : words.level;
    const [from, to] = line;
    const spots = [0.5, 0.25, 0.75, 0.1, 0.9].flatMap((share) =>
      [-2.4, 2.4].map((aside) => ({
        at: stepAside(from, to, share, aside / paperScale),
        anchor:
          Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]) ? ('start' as const) : ('middle' as const)
      }))
    );
    const placed = placeText(room, paperScale, { text, height: LETTERING.labels }, spots);
    return placed ? [placed] : [];
  });
  return [...(name ? [name] : []), ...free];
}

/** The middle of the stub beyond the end, where it can be taken hold of. */
export function findGrip(site: SiteModel['site'], fitting: Fitting, view: View, paperScale: number): Point {
  const end = findEnd(site.end, fitting);
  return project(view, add(end.at, scaleBy(end.flow, STUB / paperScale)));
}

/** The duct that goes on: its outside as a thin double-dot line, as of a neighbouring part (ISO 128, line 05.1), broken off. */
function drawStub(
  place: Place,
  onward: Vec3,
  outside: { readonly width: number; readonly height: number },
  view: View,
  paperScale: number
): Stroke[] {
  const way = scaleBy(onward, STUB / paperScale);
  const [wx, wy] = project(view, way);
  // Seen along itself it lies behind its own end.
  if (Math.hypot(wx, wy) * paperScale < LEAST_LINE) return [];
  const near = placeSection(place, outside).map((corner) => project(view, corner));
  const far = near.map(([x, y]): Point => [x + wx, y + wy]);
  const hull = wrapHull([...near, ...far]);
  const isFar = (point: Point): boolean => far.includes(point);
  const corners = hull.map((at, i) => ({
    at,
    broken: isFar(at) && isFar(hull[(i + 1) % hull.length]!)
  }));
  return strokeOutline(corners, 'phantom', paperScale);
}

/** The hull of the corners of a section; seen along its plane the line that they make. */
function wrapFlat(corners: readonly Point[]): readonly Point[] {
  const hull = wrapHull(corners);
  if (hull.length > 2) return hull;
  const sorted = [...corners].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return [sorted[0]!, sorted[sorted.length - 1]!];
}

function drawReach(
  at: SiteModel['site']['end']['at'],
  end: Place,
  view: View,
  seen: Box,
  paperScale: number
): Stroke[] {
  return listFree(at).flatMap((axis): Stroke[] => {
    const points = findReach(axis, end, view, seen, paperScale);
    return points ? [{ kind: 'stroke', line: 'axis', points }] : [];
  });
}

function listFree(at: SiteModel['site']['end']['at']): (0 | 1 | 2)[] {
  return ([0, 1, 2] as const).filter((axis) => at[axis] === null);
}

/** The line through the end along a free coordinate, from side to side of what is seen; null seen along itself. */
function findReach(
  axis: 0 | 1 | 2,
  end: Place,
  view: View,
  seen: Box,
  paperScale: number
): [Point, Point] | null {
  const unit: Vec3 = [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
  const way = project(view, unit);
  const from = project(view, end.at);
  if (
    Math.hypot(...way) * Math.hypot(seen.right - seen.left, seen.bottom - seen.top) * paperScale <
    LEAST_LINE
  )
    return null;
  const sides = [
    [seen.left, seen.right],
    [seen.top, seen.bottom]
  ] as const;
  let [back, forth] = [-Infinity, Infinity];
  sides.forEach((limits, i) => {
    if (way[i] === 0) return;
    const [a, b] = limits.map((limit) => (limit - from[i]!) / way[i]!) as [number, number];
    back = Math.max(back, Math.min(a, b));
    forth = Math.min(forth, Math.max(a, b));
  });
  return [
    [from[0] + back * way[0], from[1] + back * way[1]],
    [from[0] + forth * way[0], from[1] + forth * way[1]]
  ];
}

function stepAside(from: Point, to: Point, share: number, aside: number): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return [from[0] + share * (to[0] - from[0]) - aside * dy, from[1] + share * (to[1] - from[1]) + aside * dx];
}
