import type { FittingModel, Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import { SOURCES } from '../kernel/sources.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak, tellFinding, tellStep, type Speech, type Words } from '../words/words.ts';
import type { Box, Figure } from './figure.ts';
import { tabulateLineMarks, tabulateOpenings, tabulatePanels } from './flat-table.ts';
import { measureOnPaper } from './lettering.ts';
import type { Manner } from './manner.ts';
import { tabulateMarks, tabulatePieces, type Table } from './mark-table.ts';
import { drawMarks } from './marks.ts';
import { drawPanels } from './panels.ts';
import { findBody, finishTitledPages, type Leaf, type Page, type PaperName, type Part } from './paper.ts';
import type { TitleEntries } from './title-block.ts';
import { COLUMN, flowBlocks, headBlock, writeParagraph, writeTable, type Block } from './text-flow.ts';

/**
 * The scales that are used, 1 to so many: those of ISO 5455, and 15 and 30 between, so that figure and table share a
 * page more often (ISO 5455 allows intermediate scales in exceptional cases, from memory).
 */
const SCALES = [1, 2, 5, 10, 15, 20, 30, 50, 100, 200, 500, 1000] as const;

/** Mark tables of more lines do not go on the page of its figure. */
const LINES_ON_ONE_PAGE = 22;

/** Space between the figure and the table under it, paper mm. */
const UNDER_FIGURE = 2;

/** A figure of the mark-out and the tables that belong to it. */
interface Sheet {
  readonly draw: (manner: Manner) => Figure;
  /** Goes on the page of the figure where there is room. */
  readonly marks: readonly Block[];
  readonly more: readonly Block[];
}

/**
 * The mark-out of a fitting: for every straight its dimensioned unrolled faces at one standard scale, mark tables and
 * pieces, then the panels in the same way, then the order of work, findings and cautions. A fitting that cannot be built
 * has the findings only. `entries` go to the title block.
 */
export function composeMarkOut(model: Model, index: number, paper: PaperName, entries: TitleEntries): Page[] {
  const words = speak(model.show.language);
  return finishTitledPages(
    layMarkOut(model, index, paper),
    paper,
    speakOfPrint(words.language).page.markOut,
    entries,
    words
  );
}

/** The pages of a mark-out without what titled pages have. */
export function layMarkOut(model: Model, index: number, paper: PaperName): Leaf[] {
  const fitting = findFitting(model, index);
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  const { title, subtitle } = titleFitting(model, fitting, words, say);
  const body = findBody(paper, false, true);
  const width = Math.min(body.right - body.left, COLUMN.width);
  const leaves: Leaf[] = [];
  const add = (parts: readonly Part[], landscape: boolean, note: string): void => {
    leaves.push({ landscape, title, subtitle, note, parts });
  };

  const texts = [...tellWork(fitting, words, say, width), ...tellRest(fitting, words, say, width)];
  const sheets = fitting.built ? listSheets(fitting.built.fitting, words, say, width) : [];
  if (sheets.length === 0) for (const parts of layText(texts, body, body)) add(parts, false, '');
  sheets.forEach(({ draw, marks, more }, i) => {
    const under = countLines(marks) > LINES_ON_ONE_PAGE ? [] : marks;
    const { part, landscape, over, bottom } = pickScale(draw, paper, words, say, under);
    const blocks = [...marks, ...more, ...(i === sheets.length - 1 ? texts : [])];
    const first = { ...findBody(paper, landscape, true), top: bottom + UNDER_FIGURE };
    layText(blocks, first, body).forEach((parts, k) => {
      if (k === 0) add([part, ...parts], landscape, speakOfPrint(words.language).page.over(over));
      else add(parts, false, '');
    });
  });
  return leaves;
}

function listSheets(fitting: Fitting, words: Words, say: Speech, width: number): Sheet[] {
  const { page } = speakOfPrint(words.language);
  const { table } = words.paper;
  const tell = (heading: string, rows: Table, after: readonly Block[] = []): Block[] =>
    rows.rows.length > 0 ? [headBlock(heading), writeTable(rows, width), ...after] : [];
  const ofStraights = fitting.straights.map((straight): Sheet => ({
    draw: (manner) => drawMarks(straight, manner, findFirstPiece(fitting.straights, straight)),
    marks: [
      writeParagraph(describeStraight(straight, words, say), width),
      ...tell(page.markTable, tabulateMarks(straight, words, say), [writeParagraph(table.startsAt, width)]),
      ...tell(words.page.flat.lineMarks, tabulateLineMarks(straight, words, say)),
      ...tell(words.page.flat.openings, tabulateOpenings(straight, words, say))
    ],
    more: tell(page.pieces, tabulatePieces(straight, words, say))
  }));
  if (listPanelBodies(fitting).length === 0) return ofStraights;
  const ofPanels: Sheet = {
    draw: (manner) => drawPanels(fitting, manner),
    marks: tell(words.page.flat.panels, tabulatePanels(fitting, words, say)),
    more: []
  };
  return [...ofStraights, ofPanels];
}

function countLines(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { lines }) => sum + lines.length, 0);
}

export function findFitting(model: Model, index: number): FittingModel {
  const fitting = model.fittings[index];
  if (!fitting) throw new Error(`the job has ${model.fittings.length} fittings, none at ${index}`);
  return fitting;
}

/** The place in the fitting of a straight's first piece: pieces are numbered on through all straights. */
export function findFirstPiece(straights: readonly Straight[], straight: Straight): number {
  return straights.slice(0, straights.indexOf(straight)).reduce((sum, { pieces }) => sum + pieces.length, 0);
}

/** What every page of a fitting is headed with. */
export function titleFitting(
  model: Model,
  { resolved }: FittingModel,
  words: Words,
  say: Speech
): { title: string; subtitle: string } {
  const { page } = speakOfPrint(words.language);
  const { section, board } = resolved.setting;
  const family = words.families[resolved.family.name] ?? resolved.family.name;
  return {
    title: [`${resolved.tag} ${family}`, ...(model.name === '' ? [] : [model.name])].join(' · '),
    subtitle: [
      page.inside(`${say.figure(section.width)} × ${say.length(section.height)}`),
      page.board(say.length(board.thickness)),
      page.quantity(resolved.quantity)
    ].join(' · ')
  };
}

/**
 * A figure at the largest scale, 1 to `over`, at which it fits a page with the blocks that go under it, upright if they
 * fit both ways; where the blocks fit at no scale they are left to the next pages.
 */
export function pickScale(
  draw: (manner: Manner) => Figure,
  paper: PaperName,
  words: Words,
  say: Speech,
  under: readonly Block[] = []
): { part: Part; landscape: boolean; over: number; bottom: number } {
  for (const over of SCALES) {
    const figure = draw({ scale: 1 / over, words, say });
    const box = measureOnPaper(figure, 1 / over)!;
    for (const landscape of [false, true]) {
      const body = findBody(paper, landscape, true);
      if (box.right - box.left > body.right - body.left || box.bottom - box.top > body.bottom - body.top)
        continue;
      const at = [body.left - box.left, body.top - box.top] as const;
      const bottom = at[1] + box.bottom;
      if (flowBlocks(under, { ...body, top: bottom + UNDER_FIGURE }, body).length > 1) continue;
      return { part: { figure, scale: 1 / over, at }, landscape, over, bottom };
    }
  }
  if (under.length > 0) return pickScale(draw, paper, words, say);
  throw new Error('no scale brings the figure onto a page');
}

function describeStraight({ name, length, makeUp, ends }: Straight, words: Words, say: Speech): string {
  return speakOfPrint(words.language).page.straight({
    name,
    length: say.length(length),
    lay: words.lays[makeUp.lay],
    make: words.makes[makeUp.make],
    datumEnd: words.ends[ends[0]],
    farEnd: words.ends[ends[1]]
  });
}

/** Blocks laid into areas, the parts of every page. */
export function layText(blocks: readonly Block[], first: Box, next: Box): Part[][] {
  return flowBlocks(blocks, first, next).map((items) =>
    items.length > 0 ? [{ figure: { layers: [{ name: 'text', items }] }, scale: 1, at: [0, 0] }] : []
  );
}

function tellWork({ built }: FittingModel, words: Words, say: Speech, width: number): Block[] {
  if (!built) return [];
  return [
    headBlock(speakOfPrint(words.language).page.steps),
    ...built.steps.map((step, i) => {
      const { title, text } = tellStep(step, words, say);
      return writeParagraph(text, width, { mark: String(i + 1), title, boxed: true });
    })
  ];
}

function tellRest({ findings, built }: FittingModel, words: Words, say: Speech, width: number): Block[] {
  const { page } = speakOfPrint(words.language);
  const told = findings.map((finding) =>
    writeParagraph(
      `${words.levels[finding.level]}: ${tellFinding(finding, words, say)} (${SOURCES[finding.source].cite})`,
      width,
      { mark: '–' }
    )
  );
  return [
    ...(built ? [] : [writeParagraph(page.notBuildable, width)]),
    headBlock(page.findings),
    ...(told.length > 0 ? told : [writeParagraph(page.noFindings, width)]),
    headBlock(page.cautions),
    ...page.cautionList.map((caution) => writeParagraph(caution, width, { mark: '–' })),
    writeParagraph(page.geometryOnly, width)
  ];
}
