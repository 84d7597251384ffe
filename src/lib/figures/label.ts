import { cosDegrees, sinDegrees } from '../kernel/geometry/angle.ts';
import type { Figure, Item, Point, Text } from './figure.ts';
import { boxPoints, drawLine, writeLine } from './ink.ts';
import { breakLines, LETTERING, measureText, shortenText } from './lettering.ts';

/** What one label says, each already said in the language. */
export interface LabelFacts {
  /** Of the piece, straight or panel. */
  readonly name: string;
  readonly tag: string;
  readonly quantity: string;
  readonly revision: string;
  /** TOP, or what stands in its place. */
  readonly sign: string;
  /** Whether it is a piece that is rolled over. */
  readonly rolls: boolean;
  /** Whether it has an arrow of the flow. */
  readonly flows: boolean;
  readonly section: string;
  readonly job: string;
  /** Where it is stuck. */
  readonly place: string;
}

/** The modules of a code, row by row, dark ones true; or why there is none. */
export type Code = { readonly modules: readonly (readonly boolean[])[] } | { readonly missing: string };

/** Size of a label, mm: six on A4 and on letter, shorter than the shortest throat and gore of a usual shop, held in a glove. */
export const LABEL = { width: 82, height: 73 } as const;

/** The square of the code with its quiet zone of four modules (ISO/IEC 18004), mm. */
export const CODE = 42;
export const QUIET = 4;

/**
 * Heights of capitals, largest first, from the ISO 3098 series: of what is read from 1 m, and of notes. At 1 m a letter
 * wants 16 minutes of arc at least, 20 to 22 rather (ISO 9241-303, from memory): 4.7 and 6 mm.
 */
const NAMES = [14, 10, 7, 5, 3.5, 2.5] as const;
const SIGNS = [7, 5, 3.5, 2.5] as const;
const FIGURES = [5, 3.5, 2.5] as const;
const NOTES = [2.5, 1.8] as const;

/** Where things lie, mm from the left top corner. */
const EDGE = 4;
const CODE_TOP = 1.5;
const CODE_LEFT = LABEL.width - CODE - 2;
const COLUMN: Room = { left: EDGE, width: CODE_LEFT - EDGE };
const WHOLE: Room = { left: EDGE, width: LABEL.width - 2 * EDGE };
const ROWS = {
  name: { middle: 12, height: 17 },
  tag: { middle: 25.5, height: 9 },
  quantity: { middle: 34, height: 6 },
  revision: { middle: 40.5, height: 5 },
  sign: { middle: 49, height: 8 },
  section: { middle: 58, height: 6 },
  job: { middle: 63.4, height: 4 },
  place: { middle: 68.8, height: 7 }
} as const satisfies Readonly<Record<string, Row>>;

/** Of a sign beside an arrow. */
const SIGN_WIDTH = 40;

/** From line to line as a share of the height of capitals. */
const LINE = 1.4;

/** The arrow of the flow, and the one of rolling over, half round an axis; mm. */
const SHAFT = 1.8;
const HEAD = { length: 8, half: 4.2 } as const;
const ROLL = {
  width: 16,
  rx: 4.2,
  ry: 3.6,
  from: 75,
  to: -80,
  step: 5,
  shaft: 1,
  head: { length: 3.4, half: 2 }
} as const;

interface Room {
  readonly left: number;
  readonly width: number;
}
interface Row {
  readonly middle: number;
  readonly height: number;
}

/** One label at true size, its left top corner at the origin; black on plain paper. */
export function drawLabel(facts: LabelFacts, code: Code): Figure {
  const { name, tag, quantity, revision, sign, rolls, flows, section, job, place } = facts;
  const signed = writeInto(sign, ROWS.sign, { left: EDGE, width: SIGN_WIDTH }, SIGNS, true);
  const signEnd = Math.max(
    EDGE - 3,
    ...signed.map((line) => EDGE + measureText(line.text, line.height, true))
  );
  const arrowFrom = signEnd + 3 + (rolls ? ROLL.width : 0);
  return {
    layers: [
      { name: 'code', items: 'modules' in code ? drawCode(code.modules) : explain(code.missing) },
      {
        name: 'names',
        items: [
          ...writeInto(name, ROWS.name, COLUMN, NAMES, true),
          ...writeInto(tag, ROWS.tag, COLUMN, SIGNS, true),
          ...writeInto(quantity, ROWS.quantity, COLUMN, FIGURES),
          ...writeInto(revision, ROWS.revision, COLUMN, [3.5, 2.5]),
          ...signed,
          ...writeInto(section, ROWS.section, WHOLE, FIGURES),
          ...writeInto(job, ROWS.job, WHOLE, NOTES),
          ...writeInto(place, ROWS.place, WHOLE, NOTES)
        ]
      },
      {
        name: 'arrows',
        items: [
          ...(rolls ? drawRoll([signEnd + 1 + ROLL.width / 2, ROWS.sign.middle]) : []),
          ...(flows ? [drawFlow(arrowFrom, LABEL.width - EDGE)] : [])
        ]
      }
    ]
  };
}

/** A text at the largest height at which its lines fit, broken between words; cut off where none does. */
function writeInto(
  text: string,
  { middle, height: room }: Row,
  { left, width }: Room,
  heights: readonly number[],
  bold = false
): Text[] {
  if (text === '') return [];
  const tried = heights.map((height) => ({ height, lines: breakLines(text, height, width, bold) }));
  const least = heights[heights.length - 1]!;
  const { height, lines } = tried.find(
    ({ height, lines }) =>
      height * (1 + (lines.length - 1) * LINE) <= room &&
      lines.every((line) => measureText(line, height, bold) <= width)
  ) ?? { height: least, lines: [shortenText(text, least, width, bold)] };
  return lines.map((line, i) =>
    writeLine(line, [left, middle + (i - (lines.length - 1) / 2) * LINE * height], { height, bold })
  );
}

/** Runs of dark modules as boxes, the quiet zone round them. */
function drawCode(modules: readonly (readonly boolean[])[]): Item[] {
  const module = CODE / (modules.length + 2 * QUIET);
  const [left, top] = [CODE_LEFT + QUIET * module, CODE_TOP + QUIET * module];
  return modules.flatMap((row, y) =>
    listRuns(row).map(([start, end]) =>
      drawInk(boxPoints(left + start * module, top + y * module, left + end * module, top + (y + 1) * module))
    )
  );
}

/** Where dark modules that stand together begin, and where they are over. */
function listRuns(row: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    const last = runs[runs.length - 1];
    if (dark && last?.[1] === x) last[1] = x + 1;
    else if (dark) runs.push([x, x + 1]);
  });
  return runs;
}

function explain(missing: string): Item[] {
  const row = { middle: CODE_TOP + CODE / 2, height: CODE };
  return writeInto(missing, row, { left: CODE_LEFT + EDGE, width: CODE - 2 * EDGE }, [LETTERING.figures]);
}

/** A filled arrow to the right. */
function drawFlow(from: number, to: number): Item {
  const [y, neck] = [ROWS.sign.middle, to - HEAD.length];
  return drawInk([
    [from, y - SHAFT / 2],
    [neck, y - SHAFT / 2],
    [neck, y - HEAD.half],
    [to, y],
    [neck, y + HEAD.half],
    [neck, y + SHAFT / 2],
    [from, y + SHAFT / 2]
  ]);
}

/** Half a turn about an axis that lies along the flow: over it, and down on this side of it. */
function drawRoll([x, y]: Point): Item[] {
  const { width, rx, ry, from, to, step, shaft, head } = ROLL;
  const round = (angle: number, aside: number): Point => [
    x + (rx + aside) * cosDegrees(angle),
    y - (ry + aside) * sinDegrees(angle)
  ];
  const angles = Array.from({ length: (from - to) / step + 1 }, (_, i) => from - i * step);
  const end = round(to, 0);
  return [
    drawLine(
      [
        [x - width / 2 + 1.5, y],
        [x + width / 2 - 1.5, y]
      ],
      'axis'
    ),
    drawInk([
      ...angles.map((angle) => round(angle, shaft / 2)),
      ...[...angles].reverse().map((angle) => round(angle, -shaft / 2))
    ]),
    drawInk([
      [end[0] - head.length, end[1]],
      [end[0], end[1] - head.half],
      [end[0], end[1] + head.half]
    ])
  ];
}

function drawInk(points: readonly Point[]): Item {
  return { kind: 'fill', fill: 'ink', points };
}
