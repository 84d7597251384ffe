import Konva from 'konva/lib/Core';
import { Line } from 'konva/lib/shapes/Line';
import { Text } from 'konva/lib/shapes/Text';
import type { Figure, Fill, LineKind, Point, Stroke, Subject, Text as TextItem } from '../figures/figure.ts';
import { findLetterSize } from '../figures/lettering.ts';
import { LINES, pickPieceColour } from '../figures/style.ts';
import { PX_PER_PAPER_MM, toScreen, type Camera, type Size } from './camera.ts';

/** The colours of the page, read from its style sheet. */
export interface Colours {
  readonly ink: string;
  readonly paper: string;
  readonly accent: string;
  readonly wrong: string;
  readonly around: string;
  readonly board: string;
  readonly air: string;
  readonly scheme: 'light' | 'dark';
  readonly font: string;
}

export interface FigureCanvas {
  resize(size: Size): void;
  /** While `held`, nothing can be found: what could be pointed at is not drawn a second time for that. */
  show(figure: Figure, camera: Camera, pointed: Subject | null, colours: Colours, held: boolean): void;
  /** What lies at a point of the canvas, px; null for bare paper. */
  find(at: Point): Subject | null;
  destroy(): void;
}

/** Dashes of every line, px. */
const DASHES = Object.fromEntries(
  Object.entries(LINES).map(([line, { dash }]) => [line, dash.map((length) => length * PX_PER_PAPER_MM)])
) as Record<LineKind, number[]>;

type Attributes = Record<string, unknown>;

// Every drawing asks for one of its own when all is in place.
Konva.autoDrawEnabled = false;

/** How near to a line counts as on it, px. */
const HIT_WIDTH = 14;

/** Puts a konva stage into a host and keeps its nodes in step with a figure, reusing them from one drawing to the next. */
export function mountCanvas(host: HTMLDivElement): FigureCanvas {
  const stage = new Konva.Stage({ container: host, width: 1, height: 1 });
  const layer = new Konva.Layer();
  stage.add(layer);
  // Texts stand above all else, so that neither kind ever takes the place of the other.
  const [shapes, letters] = [new Konva.Group(), new Konva.Group({ listening: false })];
  layer.add(shapes, letters);
  const lines: Line[] = [];
  const texts: Text[] = [];
  const subjects = new WeakMap<object, Subject | undefined>();
  /** What each node was last given: konva takes long over every attribute, changed or not. */
  const given = new WeakMap<object, Attributes>();

  function give(node: Line | Text, attributes: Attributes): void {
    const last = given.get(node) ?? {};
    const fresh: Attributes = {};
    for (const name in attributes) {
      if (last[name] !== attributes[name] || !(name in last)) fresh[name] = last[name] = attributes[name];
    }
    node.setAttrs(fresh);
    given.set(node, last);
  }

  return {
    resize({ width, height }) {
      stage.size({ width, height });
      layer.batchDraw();
    },
    show(figure, camera, pointed, colours, held) {
      layer.listening(!held);
      let [line, text] = [0, 0];
      for (const { items } of figure.layers) {
        for (const item of items) {
          const pointedAt = isPointedAt(item.about, pointed);
          if (item.kind === 'text') {
            const node = (texts[text++] ??= addTo(letters, new Text()));
            give(node, describeText(item, pointedAt, colours));
            give(node, placeText(node, item, camera));
          } else {
            const node = (lines[line++] ??= addTo(shapes, new Line({ perfectDrawEnabled: false })));
            subjects.set(node, item.about);
            give(node, describeLine(item, camera, pointedAt, colours));
          }
        }
      }
      for (const node of [...lines.splice(line), ...texts.splice(text)]) node.destroy();
      layer.batchDraw();
    },
    find([x, y]) {
      const shape = stage.getIntersection({ x, y });
      return (shape && subjects.get(shape)) ?? null;
    },
    destroy: () => void stage.destroy()
  };
}

/** An item is pointed at when everything that is pointed at and that the item knows of is the same, and something is. */
export function isPointedAt(about: Subject | undefined, pointed: Subject | null): boolean {
  if (!about || !pointed) return false;
  const keys = (Object.keys(pointed) as (keyof Subject)[]).filter((key) => pointed[key] !== undefined);
  if (pointed.cut !== undefined && about.cut === undefined) return false;
  const shared = keys.filter((key) => about[key] !== undefined);
  return shared.length > 0 && shared.every((key) => about[key] === pointed[key]);
}

function addTo<Node extends Line | Text>(group: Konva.Group, node: Node): Node {
  group.add(node);
  return node;
}

function describeText(item: TextItem, pointed: boolean, colours: Colours): Attributes {
  return {
    text: item.text,
    fontFamily: colours.font,
    fontStyle: item.bold ? '600' : '400',
    fontSize: findLetterSize(item.height) * PX_PER_PAPER_MM,
    fill: findInk(item, pointed, colours)
  };
}

function describeLine(item: Stroke | Fill, camera: Camera, pointed: boolean, colours: Colours): Attributes {
  const about = item.about;
  const points = item.points.flatMap((point) => toScreen(camera, point));
  if (item.kind === 'fill') {
    return {
      points,
      closed: true,
      listening: about !== undefined,
      fill: findFill(item, colours),
      stroke: pointed ? colours.accent : undefined,
      strokeWidth: pointed ? 3 : 0,
      dash: DASHES.visible,
      hitStrokeWidth: 0
    };
  }
  const { width } = LINES[item.line];
  return {
    points,
    closed: item.closed ?? false,
    // Only the lines of cuts can be pointed at; other lines would hide the piece under them.
    listening: about?.cut !== undefined,
    fill: undefined,
    stroke: findInk(item, pointed, colours),
    strokeWidth: width * PX_PER_PAPER_MM * (pointed ? 1.6 : 1),
    dash: DASHES[item.line],
    lineJoin: 'round',
    hitStrokeWidth: HIT_WIDTH
  };
}

function findInk({ tone }: Stroke | TextItem, pointed: boolean, colours: Colours): string {
  if (pointed) return colours.accent;
  return tone ? colours[tone] : colours.ink;
}

function findFill({ fill }: Fill, colours: Colours): string {
  if (fill === 'board' || fill === 'offcut') return colours.board;
  if (fill === 'air') return colours.air;
  if (fill === 'ink') return colours.ink;
  return pickPieceColour(fill.piece, colours.scheme);
}

/** Konva places a text by its top left corner before it is turned; a figure by its anchor, vertically centred. */
function placeText(node: Text, item: TextItem, camera: Camera): Attributes {
  const [x, y] = toScreen(camera, item.at);
  const share = { start: 0, middle: 0.5, end: 1 }[item.anchor];
  return {
    x,
    y,
    rotation: -(item.angle ?? 0),
    offsetX: node.width() * share,
    offsetY: node.height() / 2
  };
}
