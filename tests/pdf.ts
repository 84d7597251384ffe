import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { inflateSync } from 'node:zlib';

/** What an independent reader finds on a page of a PDF; mm from its lower left corner. */
export interface ReadPage {
  readonly width: number;
  readonly height: number;
  readonly lines: readonly ReadLine[];
  readonly fills: readonly ReadFill[];
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

/** A filled polygon and its colour, #rrggbb. */
export interface ReadFill {
  readonly points: readonly (readonly [number, number])[];
  readonly colour: string;
}

/** A straight stroke from one point to another with its width, mm. */
export interface ReadLine {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly width: number;
  readonly dashed: boolean;
}

const MM = 25.4 / 72;
const MOVE = 0;
const LINE = 1;
const CURVE = 2;
const CLOSE = 4;

/** Reads the pages of a PDF with pdf.js: straight strokes from the operators, texts as they can be searched. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  const document = await pdfjs.getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const [left, bottom, right, top] = page.view as [number, number, number, number];
    const { items } = await page.getTextContent();
    const operators = await page.getOperatorList();
    pages.push({
      width: (right - left) * MM,
      height: (top - bottom) * MM,
      lines: readLines(operators),
      fills: readFills(operators),
      texts: items.flatMap((item) =>
        'str' in item && item.str.trim() !== ''
          ? [{ text: item.str, x: item.transform[4] * MM, y: item.transform[5] * MM }]
          : []
      )
    });
  }
  await document.destroy();
  return pages;
}

/** The texts of every page of a PDF, as they can be searched. */
export async function readTexts(bytes: Uint8Array): Promise<string[]> {
  const document = await pdfjs.getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const texts: string[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const { items } = await (await document.getPage(i)).getTextContent();
    texts.push(...items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item.str] : [])));
  }
  await document.destroy();
  return texts;
}

/** The content of all compressed streams of a PDF that are text. */
export function inflateContent(bytes: Uint8Array): string {
  const raw = Buffer.from(bytes);
  const parts: string[] = [];
  let at = 0;
  while ((at = raw.indexOf('stream\n', at)) >= 0) {
    const start = at + 'stream\n'.length;
    const end = raw.indexOf('endstream', start);
    const data = raw.subarray(start, end);
    // Zlib streams begin with 0x78; what else is in a stream (an uncompressed object) is read as it is.
    parts.push(
      data[0] === 0x78 ? inflateSync(data, { finishFlush: 2 }).toString('latin1') : data.toString('latin1')
    );
    at = end + 'endstream'.length;
  }
  return parts.filter((part) => / (re|m|l|Tf|Td|Tj)\b/.test(part)).join('\n');
}

interface Operators {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

function readLines({ fnArray, argsArray }: Operators): ReadLine[] {
  const lines: ReadLine[] = [];
  let width = 1;
  let dashed = false;
  fnArray.forEach((operator, i) => {
    const args = argsArray[i] as unknown[];
    if (operator === pdfjs.OPS.setLineWidth) width = args[0] as number;
    if (operator === pdfjs.OPS.setDash) dashed = (args[0] as number[]).length > 0;
    if (operator === pdfjs.OPS.transform)
      throw new Error('the reader of strokes knows no transformed content');
    if (operator !== pdfjs.OPS.constructPath || args[0] !== pdfjs.OPS.stroke) return;
    for (const [from, to] of listSegments((args[1] as Float32Array[])[0]!)) {
      lines.push({ from, to, width: width * MM, dashed });
    }
  });
  return lines;
}

function readFills({ fnArray, argsArray }: Operators): ReadFill[] {
  const fills: ReadFill[] = [];
  let colour = '#000000';
  fnArray.forEach((operator, i) => {
    const args = argsArray[i] as unknown[];
    if (operator === pdfjs.OPS.setFillRGBColor) colour = args[0] as string;
    if (operator !== pdfjs.OPS.constructPath || args[0] !== pdfjs.OPS.fill) return;
    const points = listSegments((args[1] as Float32Array[])[0]!).map(([from]) => from);
    fills.push({ points, colour });
  });
  return fills;
}

function listSegments(path: Float32Array): [[number, number], [number, number]][] {
  const segments: [[number, number], [number, number]][] = [];
  let [start, last]: [number, number][] = [
    [0, 0],
    [0, 0]
  ];
  for (let i = 0; i < path.length;) {
    const code = path[i]!;
    const point: [number, number] = [path[i + 1]! * MM, path[i + 2]! * MM];
    if (code === MOVE) start = last = point;
    else if (code === LINE) segments.push([last!, (last = point)]);
    else if (code === CLOSE) segments.push([last!, start!]);
    else if (code === CURVE) throw new Error('a curve where only straight strokes are expected');
    i += code === CLOSE ? 1 : 3;
  }
  return segments;
}

/** Where a mark crosses or meets a corner line, by the station ticks on that line: measured off the page alone. */
export function findCorners({ lines, texts }: ReadPage): { at: number; station: number }[] {
  const corners = lines.filter(
    ({ from, to, dashed }) => !dashed && from[1] === to[1] && measure({ from, to }) > 60
  );
  const ticks = lines.filter(
    ({ from, to, width }) => width < 0.3 && from[0] === to[0] && Math.abs(measure({ from, to }) - 5) < 0.01
  );
  const marks = lines.filter(({ width }) => width > 0.4);
  return corners.flatMap(({ from: [, y] }) => {
    const own = ticks.filter((tick) => Math.abs((tick.from[1] + tick.to[1]) / 2 - y) < 0.01);
    const figured = own.flatMap((tick) => {
      const figure = texts.find(
        ({ text, x, y: level }) =>
          /^\d+$/.test(text) &&
          Math.abs(x + 1.02 * text.length - tick.from[0]) < 0.3 &&
          Math.abs(level - y) < 6.5
      );
      return figure ? [{ x: tick.from[0], station: Number(figure.text) }] : [];
    });
    const reference = figured[0];
    if (!reference) return [];
    return marks
      .flatMap(({ from, to }) => [from, to])
      .filter((end) => Math.abs(end[1] - y) < 0.01)
      .map(([x]) => ({ at: y, station: reference.station + (x - reference.x) }))
      .filter(
        (corner, i, all) => all.findIndex((other) => Math.abs(other.station - corner.station) < 0.01) === i
      );
  });
}

/** Length of a stroke, mm. */
export function measure({ from, to }: Pick<ReadLine, 'from' | 'to'>): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}
