import type { Figure, Point } from '../figures/figure.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import { roundOnPaper, traceItem, type Shape } from '../figures/shapes.ts';
import { pickPieceColour } from '../figures/style.ts';

const FONT = "'DejaVu Sans Condensed', 'IBM Plex Sans', sans-serif";
const PLAIN_FILLS = { board: '#F2EFE6', air: '#FFFFFF', offcut: '#EFEFEF' } as const;
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
      ...items.map((item) => writeShape(traceItem(item, scale, origin))),
      '</g>'
    ]),
    '</svg>',
    ''
  ].join('\n');
}

function writeShape(shape: Shape): string {
  switch (shape.kind) {
    case 'line': {
      const dashes = shape.dash === '' ? '' : ` stroke-dasharray="${shape.dash}"`;
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

function escape(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}
