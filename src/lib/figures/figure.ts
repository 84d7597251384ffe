import type { Face } from '../kernel/straight/section.ts';

/** A point of a figure, mm of the thing drawn: x to the right, y down. */
export type Point = readonly [x: number, y: number];

/**
 * What a line stands for. Widths and types after ISO 128: visible and cut 01.2 (continuous wide); rim the same, half covered by a fill; narrow, fold 01.1
 * (continuous narrow); hidden 02.1 (dashed narrow); axis 04.1 (long-dash dot narrow); phantom 05.1 (long-dash
 * double-dot narrow), where a piece lay before.
 */
export type LineKind = 'visible' | 'rim' | 'cut' | 'narrow' | 'fold' | 'hidden' | 'axis' | 'phantom';

/** What a fill stands for: a piece by its place in the fitting, or board, air way, off-cut; ink is black: signs and codes. */
export type FillKind = { readonly piece: number } | 'board' | 'air' | 'offcut' | 'ink';

/** What an item belongs to, so that every view can highlight the same thing; `cut`: or a line mark or opening, by its name. */
export interface Subject {
  readonly piece?: string;
  readonly cut?: string;
  readonly face?: Face;
}

/** What a line or a text says beside its kind: that something is wrong, or only what lies around the thing drawn. */
export type Tone = 'wrong' | 'around';

export interface Stroke {
  readonly kind: 'stroke';
  readonly line: LineKind;
  readonly points: readonly Point[];
  readonly closed?: true;
  /** Where it is cut: the tilt of the blade from upright, degrees; one for all of it, or of the side from each point to the next. */
  readonly bevels?: readonly number[];
  readonly tone?: Tone;
  readonly about?: Subject;
}

export interface Fill {
  readonly kind: 'fill';
  readonly fill: FillKind;
  /** One outline; it closes itself. */
  readonly points: readonly Point[];
  readonly about?: Subject;
}

export interface Text {
  readonly kind: 'text';
  readonly text: string;
  readonly at: Point;
  /** Height of the letters on paper, mm: it does not grow with the scale of the figure. */
  readonly height: number;
  /** Which side of the text is at the point; vertically the text is centred on it. */
  readonly anchor: 'start' | 'middle' | 'end';
  /** Turned counter-clockwise, degrees. */
  readonly angle?: number;
  readonly bold?: true;
  readonly tone?: Tone;
  readonly about?: Subject;
}

export type Item = Stroke | Fill | Text;

/** Items that belong together and are drawn in order: `pieces`, `outline`, `dimensions` … */
export interface Layer {
  readonly name: string;
  readonly items: readonly Item[];
}

/** What is drawn, once; canvas, SVG, PDF and DXF only translate it. */
export interface Figure {
  readonly layers: readonly Layer[];
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The smallest box round all strokes, fills and the places of texts; a figure without items has no box. */
export function measureFigure(figure: Figure): Box | null {
  const points = figure.layers.flatMap((layer) =>
    layer.items.flatMap((item) => (item.kind === 'text' ? [item.at] : item.points))
  );
  if (points.length === 0) return null;
  return {
    left: Math.min(...points.map(([x]) => x)),
    top: Math.min(...points.map(([, y]) => y)),
    right: Math.max(...points.map(([x]) => x)),
    bottom: Math.max(...points.map(([, y]) => y))
  };
}
