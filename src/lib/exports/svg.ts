import type { Figure, Item, Point } from '../figures/figure.ts';
import { findLetterSize, measureOnPaper } from '../figures/lettering.ts';
import { LINES, pickPieceColour } from '../figures/style.ts';

const FONT = "'DejaVu Sans Condensed', 'IBM Plex Sans', sans-serif";
const PLAIN_FILLS = { board: '#F2EFE6', air: '#FFFFFF', offcut: '#EFEFEF' } as const;
const MARGIN = 5;

/** Half the height of capitals as a share of the letter size: how far the base line lies below a text's point. */
const HALF_CAPITALS = 0.36;

/** Writes a figure as an SVG of its true size on paper; `scale` is mm on paper per mm of the thing drawn. */
export function writeSvg(figure: Figure, scale: number, title: string): string {
  const box = measureOnPaper(figure, scale);
  if (!box) throw new Error(`the figure "${title}" is empty`);
  const [width, height] = [box.right - box.left + 2 * MARGIN, box.bottom - box.top + 2 * MARGIN];
  const place = ([x, y]: Point): Point => {
    const placed: Point = [x * scale - box.left + MARGIN, y * scale - box.top + MARGIN];
    if (!placed.every(Number.isFinite)) throw new Error(`nothing can be drawn at [${x}, ${y}]`);
    return placed;
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${say(width)}mm" height="${say(height)}mm" viewBox="0 0 ${say(width)} ${say(height)}" font-family="${FONT}">`,
    `<title>${escape(title)}</title>`,
    ...figure.layers.flatMap(({ name, items }) => [
      `<g id="${escape(name)}">`,
      ...items.map((item) => writeItem(item, place)),
      '</g>'
    ]),
    '</svg>',
    ''
  ].join('\n');
}

function writeItem(item: Item, place: (point: Point) => Point): string {
  if (item.kind === 'text') {
    const [x, y] = place(item.at);
    const turn = item.angle ? ` transform="rotate(${say(-item.angle)} ${say(x)} ${say(y)})"` : '';
    const size = findLetterSize(item.height);
    const bold = item.bold ? ' font-weight="bold"' : '';
    return `<text x="${say(x)}" y="${say(y)}" dy="${say(size * HALF_CAPITALS)}" font-size="${say(size)}" text-anchor="${item.anchor}"${bold}${turn}>${escape(item.text)}</text>`;
  }
  const points = item.points.map((point) => place(point).map(say).join(',')).join(' ');
  if (item.kind === 'fill') {
    const colour =
      typeof item.fill === 'object' ? pickPieceColour(item.fill.piece, 'light') : PLAIN_FILLS[item.fill];
    return `<polygon points="${points}" fill="${colour}"/>`;
  }
  const { width, dash } = LINES[item.line];
  const dashes = dash.length > 0 ? ` stroke-dasharray="${dash.join(' ')}"` : '';
  const shape = item.closed ? 'polygon' : 'polyline';
  return `<${shape} points="${points}" fill="none" stroke="#000" stroke-width="${width}" stroke-linejoin="round"${dashes}/>`;
}

/** Thousandths of a millimetre are enough on paper. */
function say(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}

function escape(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}
