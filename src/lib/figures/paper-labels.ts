import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Section } from '../kernel/straight/section.ts';
import { speakOfLabels } from '../words/speak-of-labels.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak } from '../words/words.ts';
import type { Item, Point } from './figure.ts';
import { drawLine } from './ink.ts';
import { drawLabel, LABEL, type Code, type LabelFacts } from './label.ts';
import { findFitting, titleFitting } from './paper-mark-out.ts';
import { findBody, finishPages, type Page, type PaperName, type Part } from './paper.ts';
import type { TitleEntries } from './title-block.ts';

/** Marks at which labels are cut apart, mm: how far from them and how long; crosses between them, half an arm. */
const CROP = { gap: 1, length: 3, arm: 1.5 } as const;

/** What differs from label to label. */
type Own = Pick<LabelFacts, 'name' | 'sign' | 'rolls' | 'flows' | 'place'> & { readonly section: Section };

/** Whether there is anything to stick a label on. */
export function hasLabels({ bodies }: Fitting): boolean {
  return bodies.length > 0;
}

/**
 * A label for every straight, piece and panel of a fitting at true size, side by side with marks to cut them apart.
 * `code` is the same on all; a fitting that cannot be built has none and throws.
 */
export function composeLabels(
  model: Model,
  index: number,
  paper: PaperName,
  entries: TitleEntries,
  code: 'address' | 'long' | { readonly modules: readonly (readonly boolean[])[] }
): Page[] {
  const fitting = findFitting(model, index);
  if (!fitting.built) throw new Error(`${fitting.resolved.tag} cannot be built`);
  const [words, say] = [speak(model.show.language), makeSpeech(model.show)];
  const own = speakOfLabels(model.show.language);
  const { tag, quantity, setting } = fitting.resolved;
  const { revision = '', digest } = entries;
  const drawn: Code = typeof code === 'string' ? { missing: own.noCode[code] } : code;
  const labels = listOwn(fitting.built.fitting, setting.section).map(({ section, ...rest }) =>
    drawLabel(
      {
        ...rest,
        tag,
        quantity: speakOfPrint(words.language).page.quantity(quantity),
        revision: revision === '' ? '' : own.revision(revision),
        section: speakOfPrint(words.language).page.inside(
          `${say.figure(section.width)} × ${say.length(section.height)}`
        ),
        job: model.name
      },
      drawn
    )
  );
  const body = findBody(paper, false);
  const margin = CROP.gap + CROP.length;
  const [left, top] = [body.left + margin, body.top + margin];
  const columns = Math.floor((body.right - left - margin) / LABEL.width);
  const rows = Math.floor((body.bottom - top - margin) / LABEL.height);
  const pages = Math.ceil(labels.length / (columns * rows));
  const leaves = Array.from({ length: pages }, (_, page) => {
    const shown = labels.slice(page * columns * rows, (page + 1) * columns * rows);
    const parts = shown.map((figure, i): Part => {
      const at: Point = [left + (i % columns) * LABEL.width, top + Math.floor(i / columns) * LABEL.height];
      return { figure, scale: 1, at };
    });
    const marks = drawCropMarks(Math.min(columns, shown.length), Math.ceil(shown.length / columns));
    return {
      landscape: false,
      title: titleFitting(model, fitting, words, say).title,
      subtitle: own.howTo(quantity),
      note: own.count(labels.length),
      stamp: speakOfPrint(words.language).template.stamp(digest, revision),
      parts: [
        ...parts,
        { figure: { layers: [{ name: 'crop', items: marks }] }, scale: 1, at: [left, top] } as const
      ]
    };
  });
  return finishPages(leaves, paper, words);

  /** Straights with their pieces, then panels. */
  function listOwn({ straights, ...rest }: Fitting, section: Section): Own[] {
    const { faces, paper: said } = words;
    return [
      ...straights.flatMap((straight): Own[] => [
        {
          name: straight.name,
          sign: own.straight,
          rolls: false,
          flows: true,
          place: own.on.straight(faces.top, say.list(straight.pieces.map(({ name }) => name))),
          section: straight.section
        },
        ...straight.pieces.map(({ name, flipped }) => ({
          name,
          sign: said.top,
          rolls: flipped,
          flows: true,
          place: flipped ? own.on.rolled(faces.bottom) : own.on.piece(faces.top),
          section: straight.section
        }))
      ]),
      ...listPanelBodies({ straights, ...rest }).map(({ name, panel: { face } }) => ({
        name,
        sign: face === 'top' ? said.top : face === null ? '' : own.face(faces[face]),
        rolls: false,
        flows: face !== null,
        place: face === null ? own.on.panel : own.on.wall,
        section
      }))
    ];
  }
}

/** Ticks beyond both ends of every line to cut along, and crosses where lines meet between labels. */
function drawCropMarks(columns: number, rows: number): Item[] {
  const [right, bottom] = [columns * LABEL.width, rows * LABEL.height];
  const across = Array.from({ length: columns + 1 }, (_, i) => i * LABEL.width);
  const down = Array.from({ length: rows + 1 }, (_, i) => i * LABEL.height);
  const inner = (levels: readonly number[]): readonly number[] => levels.slice(1, -1);
  const line = (x0: number, y0: number, x1: number, y1: number): Item =>
    drawLine([
      [x0, y0],
      [x1, y1]
    ]);
  const { gap, length, arm } = CROP;
  return [
    ...across.flatMap((x) => [
      line(x, -gap - length, x, -gap),
      line(x, bottom + gap, x, bottom + gap + length)
    ]),
    ...down.flatMap((y) => [line(-gap - length, y, -gap, y), line(right + gap, y, right + gap + length, y)]),
    ...inner(across).flatMap((x) =>
      inner(down).flatMap((y) => [line(x - arm, y, x + arm, y), line(x, y - arm, x, y + arm)])
    )
  ];
}
