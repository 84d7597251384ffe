import Konva from 'konva/lib/Core';
import { Line } from 'konva/lib/shapes/Line';
import { Text } from 'konva/lib/shapes/Text';
import type { Figure, Fill, Item, Point, Subject } from '../figures/figure.ts';
import { findLetterSize } from '../figures/lettering.ts';
import { LINES, pickPieceColour } from '../figures/style.ts';
import { PX_PER_PAPER_MM, toScreen, type Camera, type Size } from './camera.ts';

/** The colours of the page, read from its style sheet. */
export interface Colours {
  readonly ink: string;
  readonly paper: string;
  readonly accent: string;
  readonly board: string;
  readonly air: string;
  readonly scheme: 'light' | 'dark';
  readonly font: string;
}

export interface FigureCanvas {
  resize(size: Size): void;
  show(figure: Figure, camera: Camera, pointed: Subject | null, colours: Colours): void;
  /** What lies at a point of the canvas, px; null for bare paper. */
  find(at: Point): Subject | null;
  destroy(): void;
}

/** How near to a line counts as on it, px. */
const HIT_WIDTH = 14;

/** Puts a konva stage into a host and keeps its nodes in step with a figure, reusing them from one drawing to the next. */
export function mountCanvas(host: HTMLDivElement): FigureCanvas {
  const stage = new Konva.Stage({ container: host, width: 1, height: 1 });
  const layer = new Konva.Layer();
  stage.add(layer);
  let nodes: (Line | Text)[] = [];

  /** The node for the i-th item: the one of last time if it is of the same kind, else a new one in its place. */
  function takeNode(i: number, kind: Item['kind']): Line | Text {
    const old = nodes[i];
    const wanted = kind === 'text' ? Text : Line;
    if (old instanceof wanted) return old;
    const fresh = kind === 'text' ? new Text({ listening: false }) : new Line({ perfectDrawEnabled: false });
    old?.destroy();
    layer.add(fresh);
    fresh.zIndex(i);
    nodes[i] = fresh;
    return fresh;
  }

  return {
    resize: ({ width, height }) => void stage.size({ width, height }),
    show(figure, camera, pointed, colours) {
      const items = figure.layers.flatMap(({ items }) => items);
      items.forEach((item, i) => {
        const node = takeNode(i, item.kind);
        node.setAttrs(describeItem(item, camera, isPointedAt(item.about, pointed), colours));
        if (item.kind === 'text') placeText(node as Text, item, camera);
      });
      nodes.slice(items.length).forEach((node) => node.destroy());
      nodes = nodes.slice(0, items.length);
      layer.batchDraw();
    },
    find([x, y]) {
      const shape = stage.getIntersection({ x, y });
      return (shape?.getAttr('about') as Subject | undefined) ?? null;
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

function describeItem(
  item: Item,
  camera: Camera,
  pointed: boolean,
  colours: Colours
): Record<string, unknown> {
  const about = item.about;
  if (item.kind === 'text') {
    return {
      text: item.text,
      fontFamily: colours.font,
      fontStyle: item.bold ? '600' : '400',
      fontSize: findLetterSize(item.height) * PX_PER_PAPER_MM,
      fill: pointed ? colours.accent : colours.ink
    };
  }
  const points = item.points.flatMap((point) => toScreen(camera, point));
  if (item.kind === 'fill') {
    return {
      points,
      closed: true,
      about,
      listening: about !== undefined,
      fill: findFill(item, colours),
      stroke: pointed ? colours.accent : undefined,
      strokeWidth: pointed ? 3 : 0,
      dash: [],
      hitStrokeWidth: 0
    };
  }
  const { width, dash } = LINES[item.line];
  return {
    points,
    closed: item.closed ?? false,
    about,
    // Only the lines of cuts can be pointed at; other lines would hide the piece under them.
    listening: about?.cut !== undefined,
    fill: undefined,
    stroke: pointed ? colours.accent : colours.ink,
    strokeWidth: width * PX_PER_PAPER_MM * (pointed ? 1.6 : 1),
    dash: dash.map((length) => length * PX_PER_PAPER_MM),
    lineJoin: 'round',
    hitStrokeWidth: HIT_WIDTH
  };
}

function findFill({ fill }: Fill, colours: Colours): string {
  if (fill === 'board' || fill === 'offcut') return colours.board;
  if (fill === 'air') return colours.air;
  return pickPieceColour(fill.piece, colours.scheme);
}

/** Konva places a text by its top left corner before it is turned; a figure by its anchor, vertically centred. */
function placeText(node: Text, item: Item & { kind: 'text' }, camera: Camera): void {
  const [x, y] = toScreen(camera, item.at);
  const share = { start: 0, middle: 0.5, end: 1 }[item.anchor];
  node.setAttrs({
    x,
    y,
    rotation: -(item.angle ?? 0),
    offsetX: node.width() * share,
    offsetY: node.height() / 2
  });
}
