import type { Fitting, PanelBody, PanelPoint } from '../kernel/fitting/fitting.ts';
import type { Point } from './figure.ts';

/** Between panels on paper, mm: room for dimensions on both sides. */
const APART = 20;

/** What an empty place counts against the shape of the whole. */
const EMPTY = 2;

/** A panel where it lies on the figure. */
export interface LaidPanel {
  readonly body: PanelBody;
  /** Its place in the fitting. */
  readonly index: number;
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
}

/**
 * The panels of a fitting, downstream to the right, in rows: so many in each that the whole is about `wider` than high and
 * few places stay empty. `scale` is mm on paper per mm.
 */
export function layPanels({ bodies }: Fitting, scale: number, wider: number): LaidPanel[] {
  const panels = bodies.flatMap((body, index) => (body.kind === 'panel' ? [turnPanel(body, index)] : []));
  const apart = APART / scale;
  const grids = panels.map((_, i) => {
    const columns = i + 1;
    const rows = Math.ceil(panels.length / columns);
    const spread = (
      count: number,
      size: (panel: TurnedPanel) => number,
      place: (at: number) => number
    ): number[] =>
      Array.from(
        { length: count },
        (_, k) => Math.max(...panels.filter((_, at) => place(at) === k).map(size), 0) + apart
      );
    const widths = spread(
      columns,
      ({ width }) => width,
      (at) => at % columns
    );
    const heights = spread(
      rows,
      ({ height }) => height,
      (at) => Math.floor(at / columns)
    );
    const ratio = addUp(widths) / addUp(heights);
    const empty = (columns * rows - panels.length) / (columns * rows);
    return { columns, widths, heights, cost: Math.abs(Math.log(ratio / wider)) + EMPTY * empty };
  });
  if (grids.length === 0) return [];
  const { columns, widths, heights } = grids.reduce((best, grid) => (grid.cost < best.cost ? grid : best));
  return panels.map(({ body, index, outer, inner, left, top, width, height }, i) => {
    const [column, row] = [i % columns, Math.floor(i / columns)];
    const by: Point = [
      addUp(widths.slice(0, column)) + (widths[column]! - apart - width) / 2 - left,
      addUp(heights.slice(0, row)) + (heights[row]! - apart - height) / 2 - top
    ];
    const shift = ([x, y]: Point): Point => [x + by[0], y + by[1]];
    return { body, index, outer: outer.map(shift), inner: inner.map(shift) };
  });
}

interface TurnedPanel extends LaidPanel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A panel with downstream to the right, and the box round it. */
function turnPanel(body: PanelBody, index: number): TurnedPanel {
  const turn = ([clockwise, downstream]: PanelPoint): Point => [downstream, clockwise];
  const [outer, inner] = [body.panel.outer.map(turn), body.panel.inner.map(turn)];
  const [xs, ys] = [[...outer, ...inner].map(([x]) => x), [...outer, ...inner].map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return {
    body,
    index,
    outer,
    inner,
    left,
    top,
    width: Math.max(...xs) - left,
    height: Math.max(...ys) - top
  };
}

function addUp(lengths: readonly number[]): number {
  return lengths.reduce((total, length) => total + length, 0);
}
