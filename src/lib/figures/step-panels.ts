import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPanelBodies, type PanelBody } from '../kernel/fitting/fitting.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import type { Speech, Words } from '../words/words.ts';
import { describeEdges, drawEdgeBlade, type OutlineEdge } from './edge-blade.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawClosed } from './ink.ts';
import { LETTERING } from './lettering.ts';
import { keepOffLine, placeText, startRoom, type Room } from './room.ts';
import { drawArrow, drawBoard, fitInto, PICTURE, writeOn } from './step-ink.ts';

/** The pictures of panels that lie flat, outside up, downstream to the right; mm on paper, y down. */

/** A picture shows at most so many panels, in two rows where there are more than two. */
const MOST_PANELS = 6;

/** The glyph of a blade on an edge: half its base line, its stroke, and how far figures stand off the edge. */
const GLYPH = { base: 1.6, reach: 2.4 } as const;
const OFF = 2.4;
const FAR_OFF = 3.62;

/** On a shorter edge there is no room for a blade, mm of the picture. */
const LEAST_EDGE = 3.5;

/** Where figures beside a panel stand. */
const BESIDE = { middle: 28.2, width: 11 } as const;

/** All panels side by side at one scale, with their names. */
export function drawPanelsLaidOut(step: Step, built: BuiltModel): Item[] {
  const panels = findPanels(step, built).slice(0, MOST_PANELS);
  const rows = panels.length > 2 ? 2 : 1;
  const columns = Math.ceil(panels.length / rows);
  const placed = placeInCells(panels, { columns, rows, box: [1, 1, 33, 19], name: 6.5 });
  const room = startRoom(boxPoints(0, 0, PICTURE.width, PICTURE.height));
  for (const { outer } of placed) keepOffLine(room, close(outer), 1);
  return [
    ...placed.flatMap(({ outer }) => drawBoard(outer)),
    ...placed.flatMap(({ name, outer }) =>
      writeName(name, findCentre(outer), room, Math.max(...outer.map(([x]) => x)) + 1)
    )
  ];
}

/** Two of the panels with what is written on them: name, flow, and over each which wall it makes. */
export function drawPanelLabels(step: Step, built: BuiltModel, words: Words): Item[] {
  const panels = findPanels(step, built).slice(0, 2);
  const cells = { columns: panels.length, rows: 1, box: [1, 5, 33, 19.5], name: 7.5 } as const;
  return placeInCells(panels, cells).flatMap(({ name, face, outer }): Item[] => {
    const [x, y] = findCentre(outer);
    const [xs, ys] = [outer.map(([at]) => at), outer.map(([, level]) => level)];
    const shown = face === 'top' ? words.paper.top : face && words.faces[face];
    // What is too narrow to be written on is written beside.
    const isWide = Math.max(...xs) - Math.min(...xs) > cells.name + 1;
    const [left, length] = isWide ? [x - 3.5, 7] : [Math.max(...xs) + 1, 5.5];
    const flow = drawArrow([left, y + 2.2], [left + length, y + 2.2]);
    const room = startRoom(boxPoints(0, 0, PICTURE.width, PICTURE.height));
    for (const points of [close(outer), ...flow.map((stroke) => stroke.points)]) keepOffLine(room, points, 1);
    return [
      ...drawBoard(outer),
      ...flow,
      ...writeName(name, isWide ? [x, y - 1] : [left + length / 2, y - 1.4], room),
      ...(shown ? writeName(shown, [x, Math.min(...ys) - 2], room) : [])
    ];
  });
}

/**
 * One panel: its outline on the facing wide, that on the inside dashed, on every edge that is not upright the blade as
 * it stands there, laid over into the picture, with its bevel; beside it its name, and its width by its length.
 */
export function drawPanelCut(step: Step, built: BuiltModel, say: Speech): Item[] {
  const { name, panel } = findPanels(step, built)[0]!;
  const [outer, inner] = fitInto([lay(panel.outer), lay(panel.inner)], [5.2, 5.3, 18.8, 14.7]) as [
    Point[],
    Point[]
  ];
  const room = startRoom(boxPoints(0, 0, BESIDE.middle - BESIDE.width / 2, PICTURE.height));
  const isUpright = panel.edges.every(({ bevel }) => bevel <= SAME_BEVEL);
  const inside = isUpright ? [] : [drawClosed(inner, 'hidden')];
  const bevels = panel.edges.map(({ bevel }) => bevel);
  const edges = sortByRarity(
    describeEdges(outer, inner, bevels).filter(
      ({ bevel, length }) => bevel > SAME_BEVEL && length > LEAST_EDGE
    )
  );
  const blades = edges.flatMap((edge) => drawEdgeBlade(edge, edge.middle, GLYPH));
  for (const points of [close(outer), ...(isUpright ? [] : [close(inner)])]) keepOffLine(room, points, 1);
  for (const { points } of blades) keepOffLine(room, points, 1);
  const figures = edges.flatMap(({ bevel, middle, along, outward, angle }): Item[] => {
    // Beside the blade near the edge, or else over the blade further off.
    const spots = [
      ...[4.7, -4.7, 6, -6].map((shift) => [shift, OFF] as const),
      ...[0, 1.5, -1.5, 3, -3].map((shift) => [shift, FAR_OFF] as const)
    ].map(([shift, off]) => ({
      at: [
        middle[0] + outward[0] * off + along[0] * shift,
        middle[1] + outward[1] * off + along[1] * shift
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

interface Cells {
  readonly columns: number;
  readonly rows: number;
  readonly box: readonly [left: number, top: number, right: number, bottom: number];
  /** How wide a name is: it has room of its own beside the panels where one of them is narrower. */
  readonly name: number;
}

/** Panels at one scale, each in the middle of its cell, row by row. */
function placeInCells(
  panels: readonly PanelBody[],
  { columns, rows, box: [left, top, right, bottom], name: beside }: Cells
): { name: string; face: PanelBody['panel']['face']; outer: Point[] }[] {
  const gap = 1.5;
  const [width, height] = [(right - left) / columns, (bottom - top) / rows];
  const sizes = panels.map(({ panel: { outer } }) => [measure(outer, 1), measure(outer, 0)] as const);
  const findScale = (taken: number): number =>
    Math.min(...sizes.flatMap(([x, y]) => [(width - gap - taken) / x, (height - gap) / y]));
  const whole = findScale(0);
  const taken = sizes.every(([x]) => x * whole > beside + 1) ? 0 : beside;
  const scale = taken === 0 ? whole : findScale(taken);
  return panels.map(({ name, panel }, i) => {
    const x = left + ((i % columns) + 0.5) * width - taken / 2;
    const y = top + (Math.floor(i / columns) + 0.5) * height;
    const [halfX, halfY] = sizes[i]!.map((size) => (size * scale) / 2) as [number, number];
    const [outer] = fitInto([lay(panel.outer)], [x - halfX, y - halfY, x + halfX, y + halfY]);
    return { name, face: panel.face, outer: outer! };
  });
}

/** A name about a place, smaller or a little higher if need be; left out where it finds no room. */
function writeName(name: string, [x, y]: Point, room: Room, right = x): Item[] {
  for (const height of [LETTERING.figures, LETTERING.labels]) {
    const placed = placeText(room, 1, { text: name, height }, [
      { at: [x, y], anchor: 'middle' },
      { at: [x, y - 0.8], anchor: 'middle' },
      { at: [right, y], anchor: 'start' }
    ]);
    if (placed) return [placed];
  }
  return [];
}

/** Every bevel once before any comes again: so that each finds room. */
function sortByRarity(edges: readonly OutlineEdge[]): OutlineEdge[] {
  const isFirst = ({ bevel }: OutlineEdge, i: number): boolean =>
    edges.findIndex((edge) => Math.abs(edge.bevel - bevel) < SAME_BEVEL) === i;
  return [...edges.filter(isFirst), ...edges.filter((edge, i) => !isFirst(edge, i))];
}

function findCentre(points: readonly Point[]): Point {
  const mean = (axis: 0 | 1): number => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  return [mean(0), mean(1)];
}

function close(points: readonly Point[]): Point[] {
  return [...points, points[0]!];
}
