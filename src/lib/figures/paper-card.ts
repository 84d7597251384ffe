import type { FittingModel, Model } from '../kernel/evaluate.ts';
import { listPanelBodies, listPieceBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak, type Speech, type Words } from '../words/words.ts';
import { drawCard } from './card.ts';
import type { Box } from './figure.ts';
import { measureOnPaper } from './lettering.ts';
import { findFirstPiece, findFitting, layText, titleFitting } from './paper-mark-out.ts';
import { findBody, finishPages, type Leaf, type Page, type PaperName, type Part } from './paper.ts';
import { COLUMN, headBlock, writeParagraph, type Block } from './text-flow.ts';
import { listOffcuts } from './unroll.ts';

/** The scales of a card model, 1 to so many; the first that fits the paper is taken. */
const SCALES = [5, 10, 20, 50, 100, 200, 500, 1000] as const;

/** Space between the card and the text, and the least width of a column of it, paper mm. */
const SPACE = 5;
const LEAST_COLUMN = 70;

/** The card models of a fitting's straights with how to fold, cut, roll over and join them. */
export function composeCard(model: Model, index: number, paper: PaperName): Page[] {
  const fitting = findFitting(model, index);
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  const { title, subtitle } = titleFitting(model, fitting, words, say);
  const { card, page } = speakOfPrint(words.language);
  const straights = fitting.built?.fitting.straights ?? [];
  const over = pickScale(straights, paper, words, say);
  const next = findBody(paper, false);
  const leaves = straights.flatMap((straight, i): Leaf[] => {
    const laid = layCard(straight, findFirstPiece(straights, straight), over, paper, words, say)!;
    const width = Math.min(laid.text.right - laid.text.left, COLUMN.width);
    const blocks = [
      ...(over > SCALES[0] ? [writeParagraph(card.smaller(SCALES[0], over), width)] : []),
      ...(laid.leftOut > 0 ? [writeParagraph(card.leftOut, width)] : []),
      ...(i === straights.length - 1 ? instruct(fitting, words, say, width) : [])
    ];
    const head = { title: `${straight.name} · ${title}`, subtitle: `${card.title}. ${subtitle}` };
    return layText(blocks, laid.text, next).map((parts, k) =>
      k === 0
        ? { ...head, landscape: laid.landscape, note: page.scale(over), parts: [laid.part, ...parts] }
        : { ...head, landscape: false, note: '', parts }
    );
  });
  return finishPages(leaves, paper, words);
}

/** One scale for all straights of a fitting: they are joined. */
function pickScale(straights: readonly Straight[], paper: PaperName, words: Words, say: Speech): number {
  const over = SCALES.find((scale) =>
    straights.every((straight) => layCard(straight, 0, scale, paper, words, say) !== null)
  );
  if (over === undefined) throw new Error('no scale brings the card model onto a page');
  return over;
}

/**
 * A card on a page, upright if it fits both ways, and where text goes: beside it where there is a column, else under
 * it. Null where the card fits neither way.
 */
function layCard(
  straight: Straight,
  first: number,
  over: number,
  paper: PaperName,
  words: Words,
  say: Speech
): { part: Part; landscape: boolean; text: Box; leftOut: number } | null {
  const { figure, leftOut } = drawCard(straight, { scale: 1 / over, words, say }, first);
  const box = measureOnPaper(figure, 1 / over)!;
  for (const landscape of [false, true]) {
    const body = findBody(paper, landscape);
    if (box.right - box.left > body.right - body.left || box.bottom - box.top > body.bottom - body.top)
      continue;
    const at = [body.left - box.left, body.top - box.top] as const;
    const beside = { ...body, left: at[0] + box.right + SPACE };
    const under = { ...body, top: at[1] + box.bottom + SPACE, right: findBody(paper, false).right };
    const text = beside.right - beside.left >= LEAST_COLUMN ? beside : under;
    return { part: { figure, scale: 1 / over, at }, landscape, text, leftOut };
  }
  return null;
}

/** Whether there is something to fold and cut: a straight with cuts or openings. */
export function hasCard({ straights }: Fitting): boolean {
  return straights.some(({ cuts, openings }) => cuts.length + openings.length > 0);
}

function instruct({ built }: FittingModel, words: Words, say: Speech, width: number): Block[] {
  if (!built) return [];
  const { card } = speakOfPrint(words.language);
  const { straights, joints } = built.fitting;
  const pieces = listPieceBodies(built.fitting);
  const rolled = pieces.filter(({ piece }) => piece.flipped).map(({ name }) => name);
  const cuts = [...new Set(straights.flatMap((straight) => straight.cuts.map(({ name }) => name)))];
  const openings = straights.flatMap((straight) => straight.openings.map(({ name }) => name));
  const names = say.list(pieces.map(({ name }) => name));
  const isMitered = joints.every(({ closing }) => closing.kind !== 'made');
  const steps = [
    card.print,
    card.outline,
    ...(openings.length > 0 ? [card.openings(say.list(openings))] : []),
    card.fold,
    ...(cuts.length > 0 ? [card.cut(say.list(cuts))] : []),
    ...(straights.some((straight) => listOffcuts(straight).length > 0) ? [card.offcuts] : []),
    ...(rolled.length > 0 ? [card.roll(say.list(rolled))] : []),
    ...(pieces.length > 1 ? [isMitered ? card.join(names) : card.assemble(names)] : [])
  ];
  return [
    headBlock(card.howTo),
    ...steps.map((step, i) => writeParagraph(step, width, { mark: String(i + 1) })),
    ...tellMissing(built.fitting, words, say).map((text) => writeParagraph(text, width))
  ];
}

/** What of the fitting the model has not. */
function tellMissing(fitting: Fitting, { language }: Words, say: Speech): string[] {
  const { card } = speakOfPrint(language);
  const panels = listPanelBodies(fitting).map(({ name }) => name);
  const marks = fitting.straights.flatMap((straight) => straight.marks.map(({ name }) => name));
  return [
    ...(panels.length > 0 ? [card.noPanels(say.list(panels))] : []),
    ...(marks.length > 0 ? [card.noMarks(say.list(marks))] : [])
  ];
}
