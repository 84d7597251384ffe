import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { boxPoints, drawLine, writeLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import type { Part } from './paper.ts';
import { avoidLine, placeText, startRoom } from './room.ts';
import { measureTiles, outlineBox } from './template-page.ts';
import type { Line, Tile } from './tiles.ts';

/** Scales of the maps of pages, 1 to so many, and the space between maps, paper mm. */
const MAP_SCALES = [20, 50, 100, 200] as const;
const MAP_LAST = 500;

/** Scales that are taken where all maps fit the first page at them. */
const MAP_LARGE = [5, 10] as const;

/** What the first page needs beside a map, paper mm. */
const MAP_ROOM = 50;

const MAP_GAP = 8;
const MAP_TITLE = 6;

/** What the map of a template's pages shows. */
export interface Mapped {
  readonly name: string;
  readonly straight: string | null;
  readonly shown: readonly Line[];
  /** Corners of the straight, y. */
  readonly folds: readonly number[];
  readonly tiles: readonly Tile[];
}

/** For every template a small picture of which page lies where; on the first page from `from` on, paper mm. */
export function mapPages(templates: readonly Mapped[], body: Box, from: number, words: Words): Part[][] {
  for (const over of MAP_LARGE) {
    const widest = Math.max(0, ...templates.map(({ tiles }) => measureWidth(measureTiles(tiles)) / over));
    const pages = layMaps(templates, body, from, words, over);
    if (pages.length === 1 && widest <= measureWidth(body)) return pages;
  }
  return layMaps(templates, body, from, words);
}

function measureWidth({ left, right }: Box): number {
  return right - left;
}

/** All at one scale, 1 to `over`, or each as large as it may be. */
function layMaps(
  templates: readonly Mapped[],
  body: Box,
  from: number,
  words: Words,
  scale?: number
): Part[][] {
  let [left, top, height] = [body.left, from, 0];
  const pages: Part[][] = [[]];
  for (const template of templates) {
    const box = measureTiles(template.tiles);
    const over = scale ?? pickScale(box, body);
    const figure = drawMap(template, over);
    const title = writeLine(
      speakOfPrint(words.language).template.map(template.name, template.straight, template.tiles.length),
      [0, 0],
      { bold: true }
    );
    const size = {
      width: Math.max((box.right - box.left) / over, measureText(title.text, LETTERING.figures, true)),
      height: (box.bottom - box.top) / over + MAP_TITLE
    };
    if (left + size.width > body.right && left > body.left) {
      [left, top, height] = [body.left, top + height + MAP_GAP, 0];
    }
    if (top + size.height > body.bottom) {
      [left, top, height] = [body.left, body.top, 0];
      pages.push([]);
    }
    pages[pages.length - 1]!.push(
      {
        figure: { layers: [{ name: 'title', items: [title] }] },
        scale: 1,
        at: [left, top + LETTERING.figures]
      },
      { figure, scale: 1 / over, at: [left - box.left / over, top + MAP_TITLE - box.top / over] }
    );
    left += size.width + MAP_GAP;
    height = Math.max(height, size.height);
  }
  return pages;
}

function pickScale(box: Box, body: Box): number {
  const most = body.bottom - body.top - MAP_ROOM;
  const fits = (over: number): boolean =>
    (box.bottom - box.top) / over < most && (box.right - box.left) / over < body.right - body.left;
  return MAP_SCALES.find(fits) ?? MAP_LAST;
}

function drawMap({ shown, folds, tiles }: Mapped, over: number): Figure {
  const box = measureTiles(tiles);
  const corners = folds.map((y): Line => [
    [box.left, y],
    [box.right, y]
  ]);
  const room = startRoom();
  for (const line of [...shown, ...corners, ...tiles.flatMap(({ window }) => listSides(window))])
    avoidLine(room, line, 1 / over);
  const numbers = tiles.flatMap(({ window: { left, right, top, bottom } }, i): Item[] => {
    const spots = [0.5, 0.25, 0.75].flatMap((down) =>
      [0.5, 0.3, 0.7].map((across) => ({
        at: [left + across * (right - left), top + down * (bottom - top)] as Point,
        anchor: 'middle' as const
      }))
    );
    const placed = placeText(room, 1 / over, { text: String(i + 1), height: LETTERING.figures }, spots);
    return placed ? [placed] : [];
  });
  const marks = shown.map((points) => drawLine(points, 'cut'));
  const items = [
    ...corners.map((points) => drawLine(points, 'fold')),
    ...tiles.map(({ window }) => outlineBox(window)),
    ...marks,
    ...numbers
  ];
  return { layers: [{ name: 'map', items }] };
}

function listSides({ left, top, right, bottom }: Box): Line[] {
  const points = boxPoints(left, top, right, bottom);
  return points.map((point, i): Line => [point, points[(i + 1) % points.length]!]);
}
