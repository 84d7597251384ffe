import type { LegendId } from '../words/template.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Words } from '../words/words.ts';
import type { Item, LineKind, Point } from './figure.ts';
import { boxPoints, drawClosed, drawLine, writeLine } from './ink.ts';
import { breakLines, LETTERING } from './lettering.ts';
import { drawCross } from './template-page.ts';
import { headBlock, type Block } from './text-flow.ts';

/** Length of a sample of a line, from it to its meaning, and from line to line of that, mm. */
const SAMPLE = 20;
const GAP = 4;
const LINE = 4;

/** Kinds of line that have a meaning of their own. */
const LINES: Readonly<Partial<Record<LegendId, LineKind>>> = {
  mark: 'cut',
  through: 'hidden',
  corner: 'fold',
  end: 'visible',
  axis: 'axis',
  flap: 'phantom'
};

/** What every kind of line on templates means: each as it is drawn, and in words. */
export function explainLines(shown: readonly LegendId[], width: number, words: Words): Block[] {
  const { template } = speakOfPrint(words.language);
  return [
    headBlock(template.legend),
    ...shown.map((id): Block => {
      const said = breakLines(template.legends[id], LETTERING.figures, width - SAMPLE - GAP);
      return {
        lines: said.map((text, i) => ({
          height: LINE + (i === said.length - 1 ? 1 : 0),
          draw: (left, top) => [
            ...(i === 0 ? drawSample(id, [left, top + LINE / 2]) : []),
            writeLine(text, [left + SAMPLE + GAP, top + LINE / 2])
          ]
        }))
      };
    })
  ];
}

function drawSample(id: LegendId, [x, y]: Point): Item[] {
  const line = LINES[id];
  const middle = x + SAMPLE / 2;
  const level = (kind: LineKind): Item =>
    drawLine(
      [
        [x, y],
        [x + SAMPLE, y]
      ],
      kind
    );
  if (line) return [level(line)];
  if (id === 'cross') return drawCross(2)([middle, y]);
  if (id === 'trim') return [drawClosed(boxPoints(middle - 4, y - 1.4, middle + 4, y + 1.4), 'narrow')];
  if (id === 'tick') {
    return [
      level('fold'),
      drawLine([
        [middle, y - 1.4],
        [middle, y + 1.4]
      ])
    ];
  }
  return [
    drawLine([
      [middle - 2.5, y + 1.2],
      [middle + 2.5, y + 1.2]
    ]),
    drawLine(
      [
        [middle, y + 1.2],
        [middle + 1.2, y - 1.5]
      ],
      'cut'
    )
  ];
}
