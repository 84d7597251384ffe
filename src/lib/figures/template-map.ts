import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { drawLine, writeLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import type { Part } from './paper.ts';
import { placeText, startRoom } from './room.ts';
import { measureTiles, outlineBox } from './template-page.ts';
import type { Line, Tile } from './tiles.ts';

/** Scales of the maps of pages, 1 to so many, and the space between maps, paper mm. */
const MAP_SCALES = [20, 50, 100, 200] as const;
const MAP_LAST = 500;

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

/** For every template a small picture of which page lies where; on the first page from `top` on, paper mm. */
export function mapPages(templates: readonly Mapped[], body: Box, from: number, words: Words): Part[][] {
  let [left, top, height] = [body.left, from, 0];
  const pages: Part[][] = [[]];
  for (const template of templates) {
    const { figure, box, over } = drawMap(template, body);
    const title = writeLine(
      words.paper.template.map(template.name, template.straight, template.tiles.length),
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

function drawMap({ shown, folds, tiles }: Mapped, body: Box): { figure: Figure; box: Box; over: number } {
  const box = measureTiles(tiles);
  const most = body.bottom - body.top - MAP_ROOM;
  const over =
    MAP_SCALES.find(
      (scale) =>
        (box.bottom - box.top) / scale < most && (box.right - box.left) / scale < body.right - body.left
    ) ?? MAP_LAST;
  const taken = startRoom();
  for (const line of shown) taken.keep(line.map(([x, y]): Point => [x / over, y / over]));
  const numbers = tiles.flatMap(({ window }, i): Item[] => {
    const y = (window.top + window.bottom) / 2;
    const inside = [0.5, 0.2, 0.8, 0.35, 0.65].map((part) => ({
      at: [window.left + part * (window.right - window.left), y] as Point,
      anchor: 'middle' as const
    }));
    const spots = [...inside, { at: [window.right + over, y] as Point, anchor: 'start' as const }];
    const placed = placeText(taken, 1 / over, { text: String(i + 1), height: LETTERING.figures }, spots);
    return placed ? [placed] : [];
  });
  const corners = folds.map((y) =>
    drawLine(
      [
        [box.left, y],
        [box.right, y]
      ],
      'fold'
    )
  );
  const marks = shown.map((points) => drawLine(points, 'cut'));
  const items = [...corners, ...tiles.map(({ window }) => outlineBox(window)), ...marks, ...numbers];
  return { figure: { layers: [{ name: 'map', items }] }, box, over };
}
