import type { jsPDF } from 'jspdf';
import type { Fill, Point, Stroke, Text } from '../figures/figure.ts';
import { findLetterSize } from '../figures/lettering.ts';
import type { Page, Part, Print } from '../figures/paper.ts';
import { LINES, pickPieceColour, PLAIN_FILLS } from '../figures/style.ts';
import type { ExportOptions } from './export.ts';

/** Points a millimetre: the user unit of PDF is 1/72 inch (ISO 32000-1, 8.3.2.1). */
const POINTS_PER_MM = 72 / 25.4;

/** Capitals of the embedded font as a share of its letter size, to centre them on a text's point. */
const CAPITALS = 0.729;

/** Pieces are filled a third as strong as on the screen: their names carry the meaning, ink is saved. */
const FILL_STRENGTH = 0.33;

/** Bold letters are the same letters with a stroke of this share of their height round them. */
const BOLD_STROKE = 0.05;

/** The same document has the same bytes, whenever it is written. */
const FIXED_DATE = "D:20000101000000+00'00'";
const FIXED_ID = '00000000000000000000000000000000';

/**
 * Writes pages as a PDF at their true size: lines as vectors, text that can be searched in the font given (a TrueType
 * file), printing without scaling asked for. A page is composed when its turn comes, and told of when it is drawn; what
 * `tell` throws ends the writing. jsPDF is loaded when the first document is written.
 */
export async function writePdf(
  pages: readonly Page[],
  { font, title, tell }: { font: Uint8Array; title: string; tell?: ExportOptions['tell'] | undefined }
): Promise<Uint8Array> {
  const first = pages[0];
  if (!first) throw new Error(`the document "${title}" has no page`);
  const { jsPDF: Document } = await import('jspdf');
  const pdf = new Document({
    unit: 'mm',
    format: [first.width, first.height],
    orientation: orient(first),
    compress: true,
    putOnlyUsedFonts: true,
    floatPrecision: 4
  });
  pdf.setCreationDate(FIXED_DATE);
  pdf.setFileId(FIXED_ID);
  pdf.setProperties({ title, creator: 'Gorewright' });
  pdf.viewerPreferences({ PrintScaling: 'None' });
  pdf.addFileToVFS('body.ttf', toBinaryString(font));
  pdf.addFont('body.ttf', 'body', 'normal');
  pdf.setFont('body');
  pdf.setLineCap('butt');
  pdf.setLineJoin('round');
  for (const [i, page] of pages.entries()) {
    if (i > 0) pdf.addPage([page.width, page.height], orient(page));
    for (const part of page.parts) drawPart(pdf, part, page.print);
    await tell?.(i + 1, pages.length);
  }
  return new Uint8Array(pdf.output('arraybuffer'));
}

function orient({ width, height }: Page): 'portrait' | 'landscape' {
  return width > height ? 'landscape' : 'portrait';
}

/** Where nothing is said a page is drawn as large as it is. */
const TRUE_SIZE: Print = { factor: 1, at: [0, 0] };

function drawPart(pdf: jsPDF, { figure, scale, at }: Part, { factor, at: origin }: Print = TRUE_SIZE): void {
  const place = ([x, y]: Point): Point => {
    const placed: Point = [
      origin[0] + (at[0] + x * scale) * factor,
      origin[1] + (at[1] + y * scale) * factor
    ];
    if (!placed.every(Number.isFinite)) throw new Error(`nothing can be drawn at [${x}, ${y}]`);
    return placed;
  };
  for (const { items } of figure.layers) {
    for (const item of items) {
      if (item.kind === 'stroke') drawStroke(pdf, item, place);
      else if (item.kind === 'fill') drawFill(pdf, item, place);
      else drawText(pdf, { ...item, height: item.height * factor }, place);
    }
  }
}

type Place = (point: Point) => Point;

function drawStroke(pdf: jsPDF, { line, points, closed }: Stroke, place: Place): void {
  const { width, dash } = LINES[line];
  pdf.setDrawColor('#000000');
  pdf.setLineWidth(width);
  pdf.setLineDashPattern([...dash], 0);
  trace(pdf, points.map(place));
  if (closed) pdf.close();
  pdf.stroke();
}

function drawFill(pdf: jsPDF, { fill, points }: Fill, place: Place): void {
  const colour = typeof fill === 'object' ? pale(pickPieceColour(fill.piece, 'light')) : PLAIN_FILLS[fill];
  pdf.setFillColor(colour);
  trace(pdf, points.map(place));
  pdf.close();
  pdf.fill();
}

function trace(pdf: jsPDF, points: readonly Point[]): void {
  points.forEach(([x, y], i) => void (i === 0 ? pdf.moveTo(x, y) : pdf.lineTo(x, y)));
}

/** jsPDF aligns a turned text as if it were level, so where it starts is worked out here. */
function drawText(pdf: jsPDF, { text, at, height, anchor, angle = 0, bold }: Text, place: Place): void {
  const size = findLetterSize(height);
  pdf.setFontSize(size * POINTS_PER_MM);
  const back = pdf.getTextWidth(text) * { start: 0, middle: 0.5, end: 1 }[anchor];
  const drop = (size * CAPITALS) / 2;
  const [cosine, sine] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const [x, y] = place(at);
  pdf.setTextColor('#000000');
  if (bold) {
    pdf.setDrawColor('#000000');
    pdf.setLineWidth(height * BOLD_STROKE);
    pdf.setLineDashPattern([], 0);
  }
  pdf.text(text, x - back * cosine + drop * sine, y + back * sine + drop * cosine, {
    angle,
    renderingMode: bold ? 'fillThenStroke' : 'fill'
  });
}

/** A colour of the scheme mixed with the white of the paper. */
function pale(colour: string): string {
  const channels = [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16));
  return `#${channels
    .map((value) =>
      Math.round(255 - (255 - value) * FILL_STRENGTH)
        .toString(16)
        .padStart(2, '0')
    )
    .join('')}`;
}

/** jsPDF takes a font file as a string with a byte a character; in pieces, for a call has only so many arguments. */
function toBinaryString(bytes: Uint8Array): string {
  const size = 8192;
  let text = '';
  for (let i = 0; i < bytes.length; i += size) text += String.fromCharCode(...bytes.subarray(i, i + size));
  return text;
}
