import type { Figure, Item, Point, Stroke } from '../figures/figure.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import { roundOnPaper, traceItem, type Shape } from '../figures/shapes.ts';
import { LINES, pickPieceColour, PLAIN_FILLS } from '../figures/style.ts';

const FONT = "'DejaVu Sans Condensed', 'IBM Plex Sans', sans-serif";
const MARGIN = 5;

/** Writes a figure as an SVG of its true size on paper; `scale` is mm on paper per mm of the thing drawn. */
export function writeSvg(figure: Figure, scale: number, title: string): string {
  const box = measureOnPaper(figure, scale);
  if (!box) throw new Error(`the figure "${title}" is empty`);
  const [width, height] = [box.right - box.left + 2 * MARGIN, box.bottom - box.top + 2 * MARGIN].map(
    roundOnPaper
  );
  const origin: Point = [MARGIN - box.left, MARGIN - box.top];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" font-family="${FONT}">`,
    `<title>${escape(title)}</title>`,
    ...figure.layers.flatMap(({ name, items }) => [
      `<g id="${escape(name)}">`,
      ...items.map((item) => writeShape(traceItem(item, scale, origin), listDashes(item, scale))),
      '</g>'
    ]),
    '</svg>',
    ''
  ].join('\n');
}

function writeShape(shape: Shape, dashed: string): string {
  switch (shape.kind) {
    case 'line': {
      const dashes = dashed === '' ? '' : ` stroke-dasharray="${dashed}"`;
      const bevels = shape.bevels === '' ? '' : ` data-bevel="${shape.bevels}"`;
      return `<path d="${shape.d}" fill="none" stroke="#000" stroke-width="${shape.width}" stroke-linejoin="round"${dashes}${bevels}/>`;
    }
    case 'fill': {
      const { fill } = shape;
      const colour = typeof fill === 'object' ? pickPieceColour(fill.piece, 'light') : PLAIN_FILLS[fill];
      return `<path d="${shape.d}" fill="${colour}"/>`;
    }
    case 'text': {
      const bold = shape.bold ? ' font-weight="bold"' : '';
      const turn = shape.transform === '' ? '' : ` transform="${shape.transform}"`;
      return `<text x="${shape.x}" y="${shape.y}" font-size="${shape.size}" text-anchor="${shape.anchor}"${bold}${turn}>${escape(shape.text)}</text>`;
    }
  }
}

/** Finer than coordinates, as the lengths of many dashes add up. */
function listDashes(item: Item, scale: number): string {
  if (item.kind !== 'stroke') return '';
  return fitDashes(item, scale)
    .map((length) => Math.round(length * 1e5) / 1e5)
    .join(' ');
}

/**
 * Dashes and gaps along a line, paper mm. Where there are only dashes and room for them, every side begins and ends with
 * one, so that corners are closed and lines over each other are one, whichever way they run.
 */
function fitDashes({ points, closed, line }: Stroke, scale: number): readonly number[] {
  const dashes = LINES[line].dash;
  if (dashes.length !== 2) return dashes;
  const [dash, gap] = dashes as readonly [number, number];
  const ends = closed ? [...points.slice(1), points[0]!] : points.slice(1);
  const sides = ends.map(([x, y], i) => scale * Math.hypot(x - points[i]![0], y - points[i]![1]));
  if (sides.some((side) => side < 2 * dash + gap)) return dashes;
  return sides.flatMap((side) => {
    const gaps = Math.round((side - dash) / (dash + gap));
    const fitted = side / (gaps * (dash + gap) + dash);
    // A side by itself begins and ends with a dash by repeating the two.
    if (sides.length === 1) return [dash * fitted, gap * fitted];
    const pairs = Array.from({ length: gaps }, () => [dash * fitted, gap * fitted]).flat();
    return [...pairs, dash * fitted, 0];
  });
}

function escape(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}
