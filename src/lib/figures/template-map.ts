import type { Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import { findBody, type PaperName, type Part } from './paper.ts';
import { placeText, startRoom } from './room.ts';
import { flowBlocks, measureLines, writeParagraph } from './text-flow.ts';
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

/** What to do, and for every template a small picture of which page lies where. */
export function mapPages(
  templates: readonly Mapped[],
  told: readonly string[],
  paper: PaperName,
  words: Words
): Part[][] {
  const body = findBody(paper, false);
  const paragraphs = told.map((text) => writeParagraph(text, body.right - body.left, { mark: '–' }));
  const text = flowBlocks(paragraphs, body, body)[0]!;
  let top =
    body.top + paragraphs.reduce((sum, { lines }) => sum + measureLines(lines) + MAP_GAP / 4, MAP_GAP / 2);
  let left = body.left;
  let height = 0;
  const pages: Part[][] = [[{ figure: { layers: [{ name: 'text', items: text }] }, scale: 1, at: [0, 0] }]];
  for (const template of templates) {
    const { figure, box, over } = drawMap(template, body);
    const title = writeLine(
      words.paper.template.map(template.name, template.straight, template.tiles.length),
      [0, 0],
      {
        bold: true
      }
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
  const windows = tiles.map(({ window }) => window);
  const box: Box = {
    left: Math.min(...windows.map(({ left }) => left)),
    top: Math.min(...windows.map(({ top }) => top)),
    right: Math.max(...windows.map(({ right }) => right)),
    bottom: Math.max(...windows.map(({ bottom }) => bottom))
  };
  const most = body.bottom - body.top - MAP_ROOM;
  const over =
    MAP_SCALES.find(
      (scale) =>
        (box.bottom - box.top) / scale < most && (box.right - box.left) / scale < body.right - body.left
    ) ?? MAP_LAST;
  const taken = startRoom();
  for (const line of shown) taken.keep(line.map(([x, y]): Point => [x / over, y / over]));
  const numbers = windows.flatMap((window, i) => {
    const y = (window.top + window.bottom) / 2;
    const inside = [0.5, 0.2, 0.8, 0.35, 0.65].map((part) => ({
      at: [window.left + part * (window.right - window.left), y] as Point,
      anchor: 'middle' as const
    }));
    const spots = [...inside, { at: [window.right + over, y] as Point, anchor: 'start' as const }];
    return placeText(taken, 1 / over, { text: String(i + 1), height: LETTERING.figures }, spots) ?? [];
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
  return {
    figure: {
      layers: [{ name: 'map', items: [...corners, ...windows.map(outlineBox), ...marks, ...numbers] }]
    },
    box,
    over
  };
}

/** The outline of a box, narrow. */
export function outlineBox({ left, top, right, bottom }: Box): Item {
  return drawClosed(boxPoints(left, top, right, bottom), 'narrow');
}
