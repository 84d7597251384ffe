import { hasGauges } from '../figures/gauge.ts';
import type { Figure } from '../figures/figure.ts';
import type { Manner } from '../figures/manner.ts';
import { drawMarks } from '../figures/marks.ts';
import { composeCard, hasCard } from '../figures/paper-card.ts';
import { composeGauges } from '../figures/paper-gauge.ts';
import { composeMarkOut, findFirstPiece, findFitting, pickScale } from '../figures/paper-mark-out.ts';
import { drawPanels } from '../figures/panels.ts';
import { stackFigures } from '../figures/stack.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import { makeSpeech, speak, type Words } from '../words/words.ts';
import { digestJob } from './digest.ts';
import { describeExport, nameFile, nameJob, whenFitting, type Export } from './export.ts';
import { writePdf } from './pdf.ts';
import { LABELS } from './labels.ts';
import { SET } from './set.ts';
import { PATTERNS } from './patterns.ts';
import { SOLIDS } from './solids.ts';
import { writeSvg } from './svg.ts';
import { TABLES } from './tables.ts';
import { TEMPLATES, WHOLE } from './templates.ts';

const always = (): boolean => true;

/** Everything the product writes, in the order in which it is offered. */
export const EXPORTS: readonly Export[] = [
  SET,
  describeExport('mark-out', 'pdf', always, async (model, index, { paper, loadFont, title, tell }) => {
    const pages = composeMarkOut(model, index, paper, { ...title, digest: await digestJob(model) });
    return writePdf(pages, { font: await loadFont(), title: nameFile(model, index), tell });
  }),
  TEMPLATES,
  WHOLE,
  describeExport(
    'gauges',
    'pdf',
    hasGauges,
    async (model, _, { paper, loadFont, tell }) =>
      writePdf(composeGauges(model, paper), { font: await loadFont(), title: nameJob(model), tell }),
    { covers: 'job' }
  ),
  describeExport('card-model', 'pdf', whenFitting(hasCard), async (model, index, { paper, loadFont, tell }) =>
    writePdf(composeCard(model, index, paper), {
      font: await loadFont(),
      title: nameFile(model, index),
      tell
    })
  ),
  LABELS,
  ...TABLES,
  describeExport('marks-figure', 'svg', whenFitting(always), async (model, index, { paper }) => {
    const [words, say] = [speak(model.show.language), makeSpeech(model.show)];
    const { fitting } = findFitting(model, index).built!;
    const drawn = listFlatFigures(fitting, words);
    // One scale for all: the one at which the largest fits a page.
    const over = Math.max(...drawn.map(({ draw }) => pickScale(draw, paper, words, say).over));
    const figures = drawn.map(({ name, draw }) => ({ name, figure: draw({ scale: 1 / over, words, say }) }));
    const title = `${say.list(drawn.map(({ name }) => name))}, 1:${over}`;
    return writeSvg(stackFigures(figures, 1 / over), 1 / over, title);
  }),
  ...PATTERNS,
  ...SOLIDS
];

/** The marks of every straight of a fitting, then its panels. */
function listFlatFigures(
  fitting: Fitting,
  words: Words
): { name: string; draw: (manner: Manner) => Figure }[] {
  const { straights } = fitting;
  return [
    ...straights.map((straight) => ({
      name: straight.name,
      draw: (manner: Manner) => drawMarks(straight, manner, findFirstPiece(straights, straight))
    })),
    ...(listPanelBodies(fitting).length > 0
      ? [{ name: words.page.flat.panels, draw: (manner: Manner) => drawPanels(fitting, manner) }]
      : [])
  ];
}
