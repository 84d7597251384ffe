import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPanelBodies, type PanelBody } from '../kernel/fitting/fitting.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import type { Speech, Words } from '../words/words.ts';
import { describeEdges, drawEdgeBlade } from './edge-blade.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed } from './ink.ts';
import { LETTERING } from './lettering.ts';
import { keepOffLine, placeText, startRoom, type Room } from './room.ts';
import { drawArrow, drawBoard, fitInto, PICTURE, writeOn } from './step-ink.ts';

/** The pictures of panels that lie flat, outside up, downstream to the right; mm on paper, y down. */

/** A picture shows at most so many panels, in two rows where there are more than two. */
const MOST_PANELS = 6;

/** The glyph of a blade on an edge: half its base line, its stroke, and how far figures stand off the edge. */
const GLYPH = { base: 1.6, reach: 2.8 } as const;
const OFF = 2.4;

/** Where figures beside a panel stand. */
const BESIDE = { middle: 28.2, width: 11 } as const;

/** All panels side by side at one scale, with their names. */
export function drawPanelsLaidOut(step: Step, built: BuiltModel): Item[] {
  const panels = findPanels(step, built).slice(0, MOST_PANELS);
  const rows = panels.length > 2 ? 2 : 1;
  const columns = Math.ceil(panels.length / rows);
  const placed = placeInCells(panels, columns, rows, [1, 1, 33, 19]);
  const room = startRoom();
  for (const { outer } of placed) keepOffLine(room, close(outer), 1);
  return [
    ...placed.flatMap(({ outer }) => drawBoard(outer)),
    ...placed.flatMap(({ name, outer }) => writeIn(name, findCentre(outer), room))
  ];
}

/** Two of the panels with what is written on them: name, flow, and over each which wall it makes. */
export function drawPanelLabels(step: Step, built: BuiltModel, words: Words): Item[] {
  const panels = findPanels(step, built).slice(0, 2);
  return placeInCells(panels, panels.length, 1, [1, 5, 33, 19.5]).flatMap(({ name, face, outer }): Item[] => {
    const [x, y] = findCentre(outer);
    const top = Math.min(...outer.map(([, level]) => level));
    const shown = face === 'top' ? words.paper.top : face && words.faces[face];
    return [
      ...drawBoard(outer),
      writeOn(name, [x, y - 1.8], { width: 12 }),
      ...drawArrow([x - 3.5, y + 2], [x + 3.5, y + 2]),
      ...(shown ? [writeOn(shown, [x, top - 2], { width: 15 })] : [])
    ];
  });
}

/**
 * One panel: its outline on the facing wide, that on the inside dashed, on every edge that is not upright the blade as
 * it stands there, laid over into the picture, with its bevel; beside it its name, and its width by its length.
 */
export function drawPanelCut(step: Step, built: BuiltModel, say: Speech): Item[] {
  const { name, panel } = findPanels(step, built)[0]!;
  const [outer, inner] = fitInto([lay(panel.outer), lay(panel.inner)], [5, 5, 19, 15]) as [Point[], Point[]];
  const room = startRoom(boxPoints(0, 0, BESIDE.middle - BESIDE.width / 2, PICTURE.height));
  const isUpright = panel.edges.every(({ bevel }) => bevel <= SAME_BEVEL);
  const inside = isUpright ? [] : [drawClosed(inner, 'hidden')];
  const bevels = panel.edges.map(({ bevel }) => bevel);
  const edges = describeEdges(outer, inner, bevels).filter(({ bevel }) => bevel > SAME_BEVEL);
  const blades = edges.flatMap((edge) => drawEdgeBlade(edge, edge.middle, GLYPH));
  for (const points of [close(outer), ...(isUpright ? [] : [close(inner)])]) keepOffLine(room, points, 1);
  for (const { points } of blades) keepOffLine(room, points, 1);
  const figures = edges.flatMap(({ bevel, middle, along, outward, angle }): Item[] => {
    const spots = [2.2, -2.2, 5, -5, 0].map((shift) => ({
      at: [
        middle[0] + outward[0] * OFF + along[0] * (shift + Math.sign(shift) * 2.5),
        middle[1] + outward[1] * OFF + along[1] * (shift + Math.sign(shift) * 2.5)
      ] as Point,
      anchor: 'middle' as const
    }));
    const text = { text: say.angle(bevel), height: LETTERING.figures, angle };
    return [placeText(room, 1, text, spots) ?? []].flat();
  });
  return [
    ...drawBoard(outer),
    ...inside,
    ...blades,
    ...figures,
    ...[name, say.figure(measure(panel.outer, 0)), `× ${say.figure(measure(panel.outer, 1))}`].map(
      (text, i) => writeOn(text, [BESIDE.middle, [4, 10.5, 14.5][i]!], { width: BESIDE.width })
    )
  ];
}

/** The panels a step is about. */
export function findPanels(step: Step, { fitting }: BuiltModel): PanelBody[] {
  return listPanelBodies(fitting).filter(({ name }) => step.pieces.includes(name));
}

/** Downstream to the right, clockwise down: seen from outside. */
function lay(points: PanelBody['panel']['outer']): Point[] {
  return points.map(([clockwise, downstream]) => [downstream, clockwise]);
}

function measure(points: PanelBody['panel']['outer'], axis: 0 | 1): number {
  const values = points.map((point) => point[axis]);
  return Math.max(...values) - Math.min(...values);
}

/** Panels at one scale, each in the middle of its cell, row by row. */
function placeInCells(
  panels: readonly PanelBody[],
  columns: number,
  rows: number,
  [left, top, right, bottom]: readonly [number, number, number, number]
): { name: string; face: PanelBody['panel']['face']; outer: Point[] }[] {
  const gap = 1.5;
  const [width, height] = [(right - left) / columns, (bottom - top) / rows];
  const scale = Math.min(
    ...panels.flatMap(({ panel: { outer } }) => [
      (width - gap) / measure(outer, 1),
      (height - gap) / measure(outer, 0)
    ])
  );
  return panels.map(({ name, panel }, i) => {
    const [x, y] = [left + ((i % columns) + 0.5) * width, top + (Math.floor(i / columns) + 0.5) * height];
    const half = [(measure(panel.outer, 1) * scale) / 2, (measure(panel.outer, 0) * scale) / 2] as const;
    const [outer] = fitInto([lay(panel.outer)], [x - half[0], y - half[1], x + half[0], y + half[1]]) as [
      Point[]
    ];
    return { name, face: panel.face, outer };
  });
}

/** A text at a place where it meets no line, smaller if need be; left out where it finds no room. */
function writeIn(text: string, at: Point, room: Room): Item[] {
  for (const height of [LETTERING.figures, LETTERING.labels]) {
    const placed = placeText(room, 1, { text, height }, [{ at, anchor: 'middle' }]);
    if (placed) return [placed];
  }
  return [];
}

function findCentre(points: readonly Point[]): Point {
  const mean = (axis: 0 | 1): number => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return [mean(0), mean(1)];
}

function close(points: readonly Point[]): Point[] {
  return [...points, points[0]!];
}
