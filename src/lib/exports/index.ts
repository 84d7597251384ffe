import { hasGauges } from '../figures/gauge.ts';
import { tabulateMarks } from '../figures/mark-table.ts';
import type { Figure } from '../figures/figure.ts';
import type { Manner } from '../figures/manner.ts';
import { drawMarks } from '../figures/marks.ts';
import { composeCard, hasCard } from '../figures/paper-card.ts';
import { composeGauges } from '../figures/paper-gauge.ts';
import { composeMarkOut, findFirstPiece, findFitting, pickScale } from '../figures/paper-mark-out.ts';
import { composeTemplates, hasTemplates } from '../figures/paper-template.ts';
import { drawPanels } from '../figures/panels.ts';
import type { PaperName } from '../figures/paper.ts';
import { stackFigures } from '../figures/stack.ts';
import type { TitleFields } from '../figures/title-block.ts';
import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak, type Words } from '../words/words.ts';
import { writeCsv } from './csv.ts';
import { digestJob } from './digest.ts';
import { writePdf } from './pdf.ts';
import { writeSvg } from './svg.ts';

export interface ExportOptions {
  readonly paper: PaperName;
  /** Gives the bytes of DejaVu Sans Condensed (TrueType), which a PDF embeds; asked only by those that need it. */
  readonly loadFont: () => Promise<Uint8Array>;
  /** What the title block of the mark-out says beside the fitting, as the user gives it. */
  readonly title?: TitleFields;
}

/** A document that leaves the product. */
export interface Export {
  readonly id: keyof Words['paper']['exports'];
  /** What a button says. */
  label(words: Words): string;
  /** Whether it is of one fitting or of the whole job. */
  readonly covers: 'fitting' | 'job';
  /** Of the file's name, without the dot. */
  readonly extension: string;
  /** Whether there is something to write of this fitting; without it `write` throws. */
  applies(model: Model, index: number): boolean;
  /** Writes the fitting at this place in the model. The same model and options give the same bytes. */
  write(model: Model, index: number, options: ExportOptions): Promise<Uint8Array | string>;
}

const always = (): boolean => true;
const whenCut = (model: Model, index: number): boolean =>
  listStraights(model, index).some(({ cuts }) => cuts.length > 0);

const whenFitting =
  (has: (fitting: Fitting) => boolean): Export['applies'] =>
  (model, index) => {
    const { built } = findFitting(model, index);
    return built !== null && has(built.fitting);
  };

/** Everything the product writes, in the order in which it is offered. */
export const EXPORTS: readonly Export[] = [
  describe('mark-out', 'pdf', always, async (model, index, { paper, loadFont, title }) => {
    const pages = composeMarkOut(model, index, paper, { ...title, digest: await digestJob(model) });
    return writePdf(pages, { font: await loadFont(), title: nameFile(model, index) });
  }),
  describe('templates', 'pdf', whenFitting(hasTemplates), async (model, index, { paper, loadFont }) =>
    writePdf(composeTemplates(model, index, paper), { font: await loadFont(), title: nameFile(model, index) })
  ),
  describe(
    'gauges',
    'pdf',
    hasGauges,
    async (model, _, { paper, loadFont }) =>
      writePdf(composeGauges(model, paper), { font: await loadFont(), title: nameJob(model) }),
    'job'
  ),
  describe('card-model', 'pdf', whenFitting(hasCard), async (model, index, { paper, loadFont }) =>
    writePdf(composeCard(model, index, paper), { font: await loadFont(), title: nameFile(model, index) })
  ),
  describe('mark-table', 'csv', whenCut, async (model, index) => {
    const [words, say] = [speak(model.show.language), makeSpeech(model.show)];
    return writeCsv(listStraights(model, index).map((straight) => tabulateMarks(straight, words, say, true)));
  }),
  describe('marks-figure', 'svg', whenFitting(always), async (model, index, { paper }) => {
    const [words, say] = [speak(model.show.language), makeSpeech(model.show)];
    const { fitting } = findFitting(model, index).built!;
    const drawn = listFlatFigures(fitting, words);
    // One scale for all: the one at which the largest fits a page.
    const over = Math.max(...drawn.map(({ draw }) => pickScale(draw, paper, words, say).over));
    const figures = drawn.map(({ name, draw }) => ({ name, figure: draw({ scale: 1 / over, words, say }) }));
    const title = `${say.list(drawn.map(({ name }) => name))}, 1:${over}`;
    return writeSvg(stackFigures(figures, 1 / over), 1 / over, title);
  })
];

/** File systems take 255 bytes; a letter may need four. */
const LONGEST_NAME = 60;

/** What a written file is called, without its extension: the job and the fitting, safe in every file system. */
export function nameFile(model: Model, index: number): string {
  return joinNames([model.name, findFitting(model, index).resolved.tag]) || `F${index + 1}`;
}

/** What a file of the whole job is called, without its extension. */
export function nameJob({ name }: Model): string {
  return joinNames([name]) || 'job';
}

function joinNames(names: readonly string[]): string {
  const parts = names
    .map((part) => part.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, ''))
    .filter((part) => part !== '');
  return parts.join('-').slice(0, LONGEST_NAME);
}

function describe(
  id: Export['id'],
  extension: string,
  applies: Export['applies'],
  write: Export['write'],
  covers: Export['covers'] = 'fitting'
): Export {
  return { id, label: (words) => words.paper.exports[id], covers, extension, applies, write };
}

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

function listStraights(model: Model, index: number): readonly Straight[] {
  return findFitting(model, index).built?.fitting.straights ?? [];
}
