import type { FillKind, Figure, Item, LineKind, Point } from './figure.ts';
import { findLetterSize } from './lettering.ts';
import { LINES } from './style.ts';

/** An item of a figure in the terms of SVG, for a component or a file that gives it its colours. */
export type Shape = LineShape | FillShape | TextShape;

export interface LineShape {
  readonly kind: 'line';
  /** The data of a path. */
  readonly d: string;
  readonly line: LineKind;
  /** Width of the stroke and its dashes, paper mm. */
  readonly width: number;
  readonly dash: string;
  /** For a style sheet: `line-` and what the line stands for. */
  readonly className: string;
  /** Bevels of the blade, degrees, one after another; empty where it is not cut. */
  readonly bevels: string;
}

export interface FillShape {
  readonly kind: 'fill';
  readonly d: string;
  readonly fill: FillKind;
  /** `fill-board`, `fill-air`, `fill-offcut`, `fill-ink` or `fill-piece`. */
  readonly className: string;
}

export interface TextShape {
  readonly kind: 'text';
  readonly text: string;
  /** Where its base line begins, ends or has its middle. */
  readonly x: number;
  readonly y: number;
  /** Letter size, as fonts are sized. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly bold: boolean;
  /** The value of a transform attribute; empty for level text. */
  readonly transform: string;
  readonly className: 'text';
}

/** Half the height of capitals as a share of the letter size: how far the base line lies below a text's point. */
const HALF_CAPITALS = 0.36;

/** The shapes of a figure in drawing order, paper mm; `scale` is mm on paper per mm of the thing drawn. */
export function traceFigure(figure: Figure, scale: number, origin: Point = [0, 0]): Shape[] {
  return figure.layers.flatMap(({ items }) => items.map((item) => traceItem(item, scale, origin)));
}

/** One item as a shape; throws where a coordinate is no number. */
export function traceItem(item: Item, scale: number, origin: Point): Shape {
  const place = ([x, y]: Point): string => {
    const placed = [origin[0] + x * scale, origin[1] + y * scale];
    if (!placed.every(Number.isFinite)) throw new Error(`nothing can be drawn at [${x}, ${y}]`);
    return placed.map(roundOnPaper).join(' ');
  };
  const trace = (points: readonly Point[]): string => `M${points.map(place).join('L')}`;
  switch (item.kind) {
    case 'stroke': {
      const { width, dash } = LINES[item.line];
      return {
        kind: 'line',
        d: `${trace(item.points)}${item.closed ? 'Z' : ''}`,
        line: item.line,
        width,
        dash: dash.join(' '),
        className: `line-${item.line}`,
        bevels: (item.bevels ?? []).map(roundOnPaper).join(' ')
      };
    }
    case 'fill': {
      const className = `fill-${typeof item.fill === 'object' ? 'piece' : item.fill}`;
      return { kind: 'fill', d: `${trace(item.points)}Z`, fill: item.fill, className };
    }
    case 'text': {
      const size = findLetterSize(item.height);
      const [x, y] = place(item.at).split(' ').map(Number) as [number, number];
      return {
        kind: 'text',
        text: item.text,
        x,
        y: roundOnPaper(y + size * HALF_CAPITALS),
        size: roundOnPaper(size),
        anchor: item.anchor,
        bold: item.bold ?? false,
        transform: item.angle ? `rotate(${roundOnPaper(-item.angle)} ${x} ${y})` : '',
        className: 'text'
      };
    }
  }
}

/** Thousandths of a millimetre are enough on paper. */
export function roundOnPaper(value: number): number {
  return Math.round(value * 1000) / 1000 + 0;
}
