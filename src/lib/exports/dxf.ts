import {
  DxfWriter,
  point3d,
  LWPolylineFlags,
  TextHorizontalAlignment,
  TextVerticalAlignment,
  Units
} from '@tarikjabiri/dxf';
import type { Figure, LineKind, Point, Stroke, Text } from '../figures/figure.ts';
import { LINES } from '../figures/style.ts';

/** Whose extended data the bevels are: real numbers, degrees, one for all of a line or one for each of its sides in order. */
export const BEVEL_APP = 'GOREWRIGHT_BEVEL';

/** The kinds of line of ISO 128-2:2020, in plain words: their names in the file, and its descriptions. */
const LINE_TYPES: Readonly<Record<LineKind, readonly [name: string, description: string]>> = {
  visible: ['CONTINUOUS_WIDE', 'ISO 128 01.2 continuous wide line'],
  rim: ['CONTINUOUS_WIDE', 'ISO 128 01.2 continuous wide line'],
  cut: ['CONTINUOUS_WIDE', 'ISO 128 01.2 continuous wide line'],
  narrow: ['CONTINUOUS_NARROW', 'ISO 128 01.1 continuous narrow line'],
  fold: ['CONTINUOUS_NARROW', 'ISO 128 01.1 continuous narrow line'],
  hidden: ['DASHED_NARROW', 'ISO 128 02.1 dashed narrow line'],
  axis: ['LONG_DASHED_DOTTED_NARROW', 'ISO 128 04.1 long-dashed dotted narrow line'],
  phantom: ['LONG_DASHED_DOUBLE_DOTTED_NARROW', 'ISO 128 05.1 long-dashed double-dotted narrow line']
};

/** A font that has every letter a name may be written in, or is replaced by one that has. */
const FONT = 'arial.ttf';

/** White on a dark and black on a light background. */
const PLAIN = 7;

/** Numbers are written to so many decimals of a millimetre or a degree. */
const DECIMALS = 4;

/** Codes of groups that are real numbers, of those that are written here (DXF reference, group code value types; from memory). */
const REALS = [
  [10, 59],
  [140, 149],
  [210, 239],
  [1010, 1059]
] as const;

const ALIGNED = {
  start: TextHorizontalAlignment.Left,
  middle: TextHorizontalAlignment.Center,
  end: TextHorizontalAlignment.Right
} as const;

/**
 * Writes the lines and texts of a figure as a DXF drawing (AC1021, UTF-8) at full size in mm; fills are left out. The
 * figure's y runs down, that of the file up: what lies above in the figure lies above in the file, so it is not mirrored.
 * A layer has the figure's name for it in capitals. Throws where a number is none and where a layer's name is no name
 * here: letters from A to Z, digits and dashes.
 */
export function writeDxf(figure: Figure): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable('$MEASUREMENT', { 70: 1 });
  dxf.document.styleStandard.fontFileName = FONT;
  dxf.tables.addAppId(BEVEL_APP, 0);
  for (const [kind, [name, description]] of Object.entries(LINE_TYPES)) {
    // Gaps are negative.
    const dashes = LINES[kind as LineKind].dash.map((length, i) => (i % 2 === 0 ? length : -length));
    dxf.addLType(name, description, dashes);
  }
  for (const { name, items } of figure.layers) {
    const layerName = nameLayer(name);
    const first = items.find((item) => item.kind === 'stroke');
    dxf.addLayer(layerName, PLAIN, LINE_TYPES[first?.line ?? 'visible'][0]);
    for (const item of items) {
      if (item.kind === 'stroke') addStroke(dxf, item, layerName);
      else if (item.kind === 'text') addText(dxf, item, layerName);
    }
  }
  const lines = dxf.stringify().trimEnd().split('\n');
  const checked = lines.map((line, i) =>
    i % 2 === 1 && holdsReal(Number(lines[i - 1])) ? roundNumber(Number(line)) : line
  );
  return `${checked.join('\r\n')}\r\n`;
}

function addStroke(dxf: DxfWriter, { points, closed, line, bevels }: Stroke, layerName: string): void {
  const polyline = dxf.addLWPolyline(
    points.map((point) => ({ point: turnUp(point) })),
    {
      layerName,
      lineType: LINE_TYPES[line][0],
      flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None
    }
  );
  if (!bevels) return;
  const data = polyline.addXData(BEVEL_APP);
  for (const bevel of bevels) data.real(bevel);
}

function addText(dxf: DxfWriter, text: Text, layerName: string): void {
  const [horizontal, vertical] = [ALIGNED[text.anchor], TextVerticalAlignment.Middle];
  const at = turnUp(text.at);
  dxf.addText(point3d(at.x, at.y), text.height, escapeText(text.text), {
    layerName,
    rotation: text.angle ?? 0,
    horizontalAlignment: horizontal,
    verticalAlignment: vertical,
    secondAlignmentPoint: point3d(at.x, at.y)
  });
}

function turnUp([x, y]: Point): { x: number; y: number } {
  return { x: roundNumber(x), y: roundNumber(-y) };
}

/** Whether a group of this code is a real number. */
function holdsReal(code: number): boolean {
  return REALS.some(([first, last]) => code >= first && code <= last);
}

/** Rounded so that it is never written with an exponent; throws where it is no number or too large for that. */
function roundNumber(value: number): number {
  if (!(Math.abs(value) < 1e9)) throw new Error(`a DXF drawing cannot hold the number ${value}`);
  return Math.round(value * 10 ** DECIMALS) / 10 ** DECIMALS + 0;
}

function nameLayer(name: string): string {
  const layer = name.toUpperCase();
  if (!/^[A-Z0-9_-]+$/.test(layer)) throw new Error(`"${name}" is no name for a layer of a DXF drawing`);
  return layer;
}

/** Parts what would be read together; takes no room and is not seen. */
const JOINER = '\u2060';

/**
 * A text on one line in which nothing is read as a code of the format: a caret is spelled, percent signs and escaped
 * letters are parted, as readers do not agree on how to spell them.
 */
function escapeText(text: string): string {
  return text
    .replace(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .replace(/%(?=%)/g, `%${JOINER}`)
    .replace(/\\(?=[UM]\+)/gi, `\\${JOINER}`)
    .replace(/\^/g, '^ ');
}
