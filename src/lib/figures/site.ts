import type { SiteModel } from '../kernel/evaluate.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { dot, norm, subtract } from '../kernel/geometry/vector.ts';
import type { Clearance } from '../kernel/site/clearance.ts';
import { findWanted, type Obstacle, type Site } from '../kernel/site/site.ts';
import type { SiteDrawingWords } from '../words/site-drawing.ts';
import type { Speech } from '../words/words.ts';
import { drawFitting } from './drawing.ts';
import type { Box, Figure, Item, Point, Stroke, Text } from './figure.ts';
import { hatchPolygon } from './hatch.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { avoidLine, isInside, startRoom, type Room } from './room.ts';
import { drawClearances, isTooNear } from './site-clearance.ts';
import { drawEnds, nameEnd } from './site-end.ts';
import { breakOff, findWindow, outlineObstacle, strokeOutline, type Corner } from './site-outline.ts';
import type { View } from './view.ts';

/** A box lies in front where its nearest point is that much nearer to the eye, as a cosine. */
const IN_FRONT = 1e-6;

/** Two lines of a label, paper mm between their middles, and from the middle of a box to where a label is tried. */
const LINE = 3.4;
const LABEL_ASIDE = [-8, 8, -13, 13, -19, 19, -26, 26];
const LABEL_OUTSIDE = 3;

/** Where along a side of a box its label is tried outside, as shares of the side. */
const ALONG = [0.5, 0.2, 0.8, 0, 1];

/** What a figure of a site is drawn with. */
export interface SitePicture {
  readonly site: SiteModel;
  /** Of the board, mm. */
  readonly thickness: number;
  /** The obstacle that is being dragged, which is then drawn whole; null for none. */
  readonly driven: number | null;
  /** One that is drawn however far away it stands; null for none. */
  readonly reached: number | null;
  readonly words: SiteDrawingWords;
}

/** An obstacle as the figure shows it. */
interface SeenBox {
  readonly obstacle: Obstacle;
  readonly corners: readonly Corner[];
  readonly clearance: Clearance | undefined;
  /** Whether it lies between the eye and the fitting, or in the fitting. */
  readonly over: boolean;
}

/**
 * The fitting in its site: obstacles as their boxes stand, hatched where they lie beside or behind the fitting, as thin
 * double-dot lines over it where they lie in front (ISO 128, line 05.1; from memory) or run into it; the place of the
 * end, the duct that goes on beyond both, and the clearance where it is least.
 */
export function drawInSite(
  fitting: Fitting,
  { site: stand, thickness, driven, reached, words }: SitePicture,
  view: View,
  paperScale: number,
  say: Speech
): Figure {
  const { site, clearances } = stand;
  const window = findWindow(fitting, site, thickness, view, findReached(site, reached));
  const boxes = site.obstacles.flatMap((obstacle, i): SeenBox[] => {
    const corners = seeBox(obstacle, view, i === driven ? null : window);
    if (corners.length < 3) return [];
    const clearance = clearances[i];
    return [{ obstacle, corners, clearance, over: clearance !== undefined && isOver(clearance, view) }];
  });
  const room = startRoom();
  for (const { corners } of boxes) avoidLine(room, closeRing(corners), paperScale);
  const ends = drawEnds(stand, fitting, thickness, view, window, paperScale, room);
  const drawn = drawFitting(fitting, view, paperScale, say, room);
  const dimensions = drawClearances(stand, fitting, view, paperScale, room, words, say);
  const rims = drawn.layers
    .filter(({ name }) => name === 'outline')
    .flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [] : [item.points])));
  const labels = [
    ...boxes.flatMap((box) => nameBox(box, rims, site, paperScale, room, words, say)),
    ...nameEnd(stand, fitting, thickness, view, window, paperScale, room, words)
  ];
  const texts = [...drawn.layers.flatMap(({ items }) => items), ...dimensions, ...labels].filter(
    (item) => item.kind === 'text'
  );
  return {
    layers: [
      {
        name: 'site',
        items: boxes.filter(({ over }) => !over).flatMap((box) => strokeBox(box, paperScale, texts))
      },
      ...drawn.layers,
      { name: 'ends', items: ends },
      {
        name: 'site over',
        items: boxes.flatMap((box) =>
          box.over ? strokeBox(box, paperScale, texts) : strokeHidden(box, rims)
        )
      },
      { name: 'clearance', items: dimensions },
      { name: 'site names', items: labels }
    ]
  };
}

/** The obstacle that is drawn wherever it stands; null where none is. */
export function findReached({ obstacles }: Site, reached: number | null): Obstacle | null {
  return (reached !== null && obstacles[reached]) || null;
}

/** The outline of an obstacle as it stands, mm on the figure, broken off at a window; null: whole. */
export function seeBox(obstacle: Obstacle, view: View, window: Box | null): Corner[] {
  const outline = outlineObstacle(obstacle, view);
  return window ? breakOff(outline, window) : outline.map((at) => ({ at, broken: false }));
}

/** The nearest points say it: toward the eye, or in the fitting. */
function isOver({ from, to, value }: Clearance, view: View): boolean {
  const way = subtract(to, from);
  return value <= 0 || dot(view.eye, way) > IN_FRONT * norm(way);
}

function strokeBox({ corners, clearance, over }: SeenBox, scale: number, texts: readonly Text[]): Stroke[] {
  const tone = clearance && isTooNear(clearance) ? { tone: 'wrong' as const } : {};
  const outline = strokeOutline(corners, over ? 'phantom' : 'narrow', scale, tone);
  if (over) return outline;
  return [
    ...hatchPolygon(
      corners.map(({ at }) => at),
      texts,
      scale
    ).map((stroke): Stroke => ({ ...stroke, tone: 'around' })),
    ...outline
  ];
}

/** The outline of a box behind the fitting, dashed, where there is fitting before it. */
function strokeHidden({ corners }: SeenBox, rims: readonly (readonly Point[])[]): Stroke[] {
  const outline = corners.map(({ at }) => at);
  const box = findBox(outline);
  const isBefore = rims.some((rim) => {
    const { left, top, right, bottom } = findBox(rim);
    return left < box.right && box.left < right && top < box.bottom && box.top < bottom;
  });
  return isBefore ? [{ kind: 'stroke', line: 'hidden', points: outline, closed: true }] : [];
}

function findBox(outline: readonly Point[]): Box {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  return {
    left: Math.min(...xs),
    top: Math.min(...ys),
    right: Math.max(...xs),
    bottom: Math.max(...ys)
  };
}

/** Its name and under it what it wants, in the box where there is room, else beside it; never on the fitting. */
function nameBox(
  { obstacle, corners }: SeenBox,
  rims: readonly (readonly Point[])[],
  site: Site,
  scale: number,
  room: Room,
  words: SiteDrawingWords,
  say: Speech
): Item[] {
  const ring = corners.map(({ at }) => at);
  const { left, right, top, bottom } = findBox(ring);
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  const write = ([x, y]: Point, anchor: Text['anchor']): [Text, Text] => {
    const half = LINE / 2 / scale;
    return [
      { kind: 'text', text: obstacle.name, height: LETTERING.figures, at: [x, y - half], anchor },
      {
        kind: 'text',
        text: words.clear(say.figure(findWanted(obstacle, site))),
        height: LETTERING.labels,
        at: [x, y + half],
        anchor
      }
    ];
  };
  const onPaper = ring.map(([x, y]): Point => [x * scale, y * scale]);
  const within = LABEL_ASIDE.map((aside) => write([middle[0], middle[1] + aside / scale], 'middle'));
  const away = LABEL_OUTSIDE / scale;
  const [above, below] = [top - away - LINE / 2 / scale, bottom + away + LINE / 2 / scale];
  const outside = [
    ...ALONG.flatMap((share) => [
      write([right + away, top + share * (bottom - top)], 'start'),
      write([left - away, top + share * (bottom - top)], 'end')
    ]),
    ...ALONG.flatMap((share) => [
      write([left + share * (right - left), above], 'middle'),
      write([left + share * (right - left), below], 'middle')
    ])
  ];
  const isOnFitting = ([x, y]: Point): boolean => rims.some((rim) => isInside([x / scale, y / scale], rim));
  const labels = [...within, ...outside];
  const places = labels.map((texts, i) => () => {
    const outlines = texts.map((text) => findTextRoom(text, scale));
    const all = outlines.flat();
    const isApt = i < within.length ? all.every((corner) => isInside(corner, onPaper)) : true;
    return isApt && !all.some(isOnFitting) ? outlines : null;
  });
  return labels[room.take(places)] ?? [];
}

function closeRing(corners: readonly Corner[]): Point[] {
  const ring = corners.map(({ at }) => at);
  return ring.length > 0 ? [...ring, ring[0]!] : [];
}
