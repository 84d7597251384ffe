import type { Box, Figure, Item, Point, Stroke } from './figure.ts';
import { boxPoints, drawClosed, drawLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import { KEY } from './paper.ts';
import { placeText, startRoom } from './room.ts';
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

/**
 * A small plan of the pages of a template, the one given filled and wide, paper mm. Where there is room the others are
 * shown and all are numbered, else their common frame.
 */
export function drawKey(tiles: readonly Tile[], shown: Tile): Figure {
  const box = measureTiles(tiles);
  const scale = Math.min(KEY.width / (box.right - box.left), KEY.height / (box.bottom - box.top));
  const place = ({ window: { left, top, right, bottom } }: Tile): Point[] =>
    boxPoints(left, top, right, bottom).map(([x, y]) => [(x - box.left) * scale, (y - box.top) * scale]);
  const { left, right, top, bottom } = shown.window;
  const isRoomy =
    (right - left) * scale >= measureText(String(tiles.length), LETTERING.labels) &&
    (bottom - top) * scale >= 2 * LETTERING.labels;
  const items: Item[] = [
    { kind: 'fill', fill: { piece: 0 }, points: place(shown) },
    ...(isRoomy ? tiles.filter((tile) => tile !== shown) : []).map((tile) =>
      drawClosed(place(tile), 'narrow')
    ),
    ...(isRoomy ? [] : [outlineBox(scaleBox(box, scale))]),
    drawClosed(place(shown)),
    ...(isRoomy ? numberPages(tiles.map(place)) : [])
  ];
  return { layers: [{ name: 'key', items }] };
}

function scaleBox({ left, top, right, bottom }: Box, scale: number): Box {
  return { left: 0, top: 0, right: (right - left) * scale, bottom: (bottom - top) * scale };
}

/** The place of every page in the middle of its outline, where that of another does not stand already. */
function numberPages(outlines: readonly (readonly Point[])[]): Item[] {
  const room = startRoom();
  return outlines.flatMap(([first, , third], i) => {
    const at: Point = [(first![0] + third![0]) / 2, (first![1] + third![1]) / 2];
    const text = { text: String(i + 1), height: LETTERING.labels };
    const placed = placeText(room, 1, text, [{ at, anchor: 'middle' }]);
    return placed ? [placed] : [];
  });
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
