import type { Box, Figure, Item, Point, Stroke } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { KEY } from './paper.ts';
import type { Tile } from './tiles.ts';

/** Arm of a cross, and how far crop marks reach beyond the frame of a page, aside and up and down, paper mm. */
const CROSS = 4;
const CROP = { aside: 2.8, upright: 1.4 } as const;

/** A cross where pages meet. */
export function drawCross(scale: number): (at: Point) => Stroke[] {
  const arm = CROSS / scale;
  return ([x, y]) => [
    drawLine([
      [x - arm, y],
      [x + arm, y]
    ]),
    drawLine([
      [x, y - arm],
      [x, y + arm]
    ])
  ];
}

/** The frame of a page, paper mm: along it pages are trimmed, and its crop marks are left to see where it was. */
export function drawFrame(body: Box): Figure {
  const marks = [
    { x: body.left, away: -1 },
    { x: body.right, away: 1 }
  ].flatMap(({ x, away }) =>
    [
      { y: body.top, down: -1 },
      { y: body.bottom, down: 1 }
    ].flatMap(({ y, down }) => [
      drawLine([
        [x, y],
        [x + away * CROP.aside, y]
      ]),
      drawLine([
        [x, y],
        [x, y + down * CROP.upright]
      ])
    ])
  );
  return { layers: [{ name: 'frame', items: [outlineBox(body), ...marks] }] };
}

/** A small plan of the pages of a template, the one given filled and wide, paper mm from its top left corner. */
export function drawKey(tiles: readonly Tile[], shown: Tile): { figure: Figure; width: number } {
  const box = measureTiles(tiles);
  const [width, height] = [box.right - box.left, box.bottom - box.top];
  const scale = Math.min(KEY.width / width, KEY.height / height);
  const place = ({ window }: Tile): Point[] =>
    boxPoints(
      (window.left - box.left) * scale,
      (window.top - box.top) * scale,
      (window.right - box.left) * scale,
      (window.bottom - box.top) * scale
    );
  const items: Item[] = [
    { kind: 'fill', fill: { piece: 0 }, points: place(shown) },
    ...tiles.filter((tile) => tile !== shown).map((tile) => drawClosed(place(tile), 'narrow')),
    drawClosed(place(shown))
  ];
  return { figure: { layers: [{ name: 'key', items }] }, width: width * scale };
}

/** The box round all pages. */
export function measureTiles(tiles: readonly Tile[]): Box {
  const windows = tiles.map(({ window }) => window);
  return {
    left: Math.min(...windows.map(({ left }) => left)),
    top: Math.min(...windows.map(({ top }) => top)),
    right: Math.max(...windows.map(({ right }) => right)),
    bottom: Math.max(...windows.map(({ bottom }) => bottom))
  };
}

/** The outline of a box, narrow. */
export function outlineBox({ left, top, right, bottom }: Box): Item {
  return drawClosed(boxPoints(left, top, right, bottom), 'narrow');
}
