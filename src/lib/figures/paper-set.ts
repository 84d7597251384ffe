import { compareJobs } from '../kernel/document/compare.ts';
import type { Job } from '../kernel/document/job.ts';
import { resolveJob } from '../kernel/document/resolve.ts';
import type { FittingModel, Model } from '../kernel/evaluate.ts';
import { listPanelBodies } from '../kernel/fitting/fitting.ts';
import type { SetWords } from '../words/set.ts';
import { speakOfExporting } from '../words/speak-of-exporting.ts';
import { speakOfSet } from '../words/speak-of-set.ts';
import { tellChanges } from '../words/tell-changes.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak, tellFinding, type Speech, type Words } from '../words/words.ts';
import type { Box } from './figure.ts';
import { writeLine } from './ink.ts';
import { LETTERING, shortenText } from './lettering.ts';
import type { Table } from './mark-table.ts';
import { layText } from './paper-mark-out.ts';
import {
  findBody,
  finishTitledPages,
  isRoll,
  READ_ON,
  type Leaf,
  type Page,
  type PaperName,
  type Part
} from './paper.ts';
import { headBlock, writeParagraph, writeTable, type Block, type FlowLine } from './text-flow.ts';
import type { TitleEntries } from './title-block.ts';

/** The job as it was when a set of it was issued. */
export interface Issue {
  readonly job: Job;
  readonly revision: string;
}

/** Lines of the cover, and the column of its labels, mm. */
const COVER = { title: 12, line: 5, label: 45 } as const;

/** A tag takes no more of the list than this, mm. */
const TAG = 40;

/**
 * A set of the mark-outs of a job, laid before: a cover, the list of all fittings with the page on which each begins,
 * those that cannot be built with their reason, and what changed since an earlier issue, then the mark-outs; pages are
 * numbered through the whole.
 */
export function composeSet(
  model: Model,
  markOuts: readonly (readonly Leaf[])[],
  paper: PaperName,
  entries: TitleEntries,
  since: Issue | undefined
): Page[] {
  const words = speak(model.show.language);
  const own = speakOfSet(model.show.language);
  const say = makeSpeech(model.show);
  const body = findBody(paper, false, true);
  const inner = markOuts.reduce((sum, { length }) => sum + length, 0);
  const rest = [
    ...tellMissing(model, words, own, say, body),
    ...tellSince(model, since, own, body.right - body.left)
  ];
  const lay = (before: number): Part[][] => {
    const firsts = markOuts.map((_, i) => countPages(markOuts.slice(0, i), before + 1));
    const blocks = [
      ...tellCover(model, paper, entries, before + inner, body),
      headBlock(own.list),
      writeTable(listFittings(model, firsts, words, own, say), body.right - body.left),
      ...rest
    ];
    return layText(blocks, body, body);
  };
  // Longer page numbers never make the front shorter, so this comes to an end.
  let front = lay(1);
  for (let before = 1; front.length !== before; front = lay(before)) before = front.length;

  const title = model.name === '' ? own.unnamed : model.name;
  const subtitle = `${own.fittings}: ${countFittings(model, own)}`;
  const cover = front.map((parts): Leaf => ({ landscape: false, title, subtitle, note: '', parts }));
  return finishTitledPages([...cover, ...markOuts.flat()], paper, own.title, entries, words);
}

function countPages(markOuts: readonly (readonly Leaf[])[], from: number): number {
  return markOuts.reduce((sum, { length }) => sum + length, from);
}

function countFittings({ fittings }: Model, own: SetWords): string {
  const pieces = fittings.reduce((sum, { resolved }) => sum + resolved.quantity, 0);
  return own.count(fittings.length, pieces);
}

function tellCover(
  model: Model,
  paper: PaperName,
  entries: TitleEntries,
  pages: number,
  { left, right }: Box
): Block[] {
  const words = speak(model.show.language);
  const own = speakOfSet(model.show.language);
  const say = makeSpeech(model.show);
  const { titleBlock } = speakOfPrint(words.language);
  const facts: [string, string][] = [
    [titleBlock.owner, entries.owner ?? ''],
    [titleBlock.number, entries.number ?? ''],
    [titleBlock.date, entries.date ?? ''],
    [titleBlock.revision, entries.revision ?? ''],
    [titleBlock.digest, entries.digest ?? '–'],
    [own.fittings, countFittings(model, own)],
    [own.board, say.length(model.board.thickness)],
    [own.pages, String(pages)],
    [own.paper, speakOfExporting(model.show.language).papers[isRoll(paper) ? READ_ON : paper]!]
  ];
  const write = (text: string, height: number, bold: boolean, room: number): string =>
    shortenText(text, height, room, bold);
  const name: FlowLine = {
    height: COVER.title,
    draw: (x, top) => [
      writeLine(
        write(model.name === '' ? own.unnamed : model.name, LETTERING.title, true, right - left),
        [x, top + COVER.title / 2],
        { height: LETTERING.title, bold: true }
      )
    ]
  };
  const lines = facts
    .filter(([, value]) => value !== '')
    .map(([label, value]): FlowLine => ({
      height: COVER.line,
      draw: (x, top) => [
        writeLine(label, [x, top + COVER.line / 2]),
        writeLine(
          write(value, LETTERING.figures, true, right - left - COVER.label),
          [x + COVER.label, top + COVER.line / 2],
          { bold: true }
        )
      ]
    }));
  return [{ lines: [name] }, headBlock(own.title), { lines }];
}

/** Every fitting, what it takes, what is found of it and where its mark-out begins. */
function listFittings(
  { fittings }: Model,
  firsts: readonly number[],
  words: Words,
  { columns }: SetWords,
  say: Speech
): Table {
  const start = (heading: string) => ({ heading, align: 'start' as const });
  const end = (heading: string) => ({ heading, align: 'end' as const });
  return {
    columns: [
      start(columns.tag),
      start(columns.family),
      end(words.paper.table.of(columns.inside, say.unit)),
      end(columns.quantity),
      end(columns.straights),
      end(columns.panels),
      end(columns.findings),
      end(columns.page)
    ],
    rows: fittings.map(({ resolved, built, findings }, i) => {
      const { width, height } = resolved.setting.section;
      return {
        about: {},
        cells: [
          shortenText(resolved.tag, LETTERING.figures, TAG, true),
          words.families[resolved.family.name] ?? resolved.family.name,
          `${say.figure(width)} × ${say.figure(height)}`,
          String(resolved.quantity),
          ...(built
            ? [built.fitting.straights.length, listPanelBodies(built.fitting).length].map(String)
            : ['–', '–']),
          String(findings.length),
          String(firsts[i])
        ]
      };
    })
  };
}

function tellMissing(model: Model, words: Words, own: SetWords, say: Speech, { left, right }: Box): Block[] {
  const missing = model.fittings.filter(({ built }) => built === null);
  if (missing.length === 0) return [];
  const tell = ({ resolved, findings }: FittingModel): string => {
    const reasons = findings.filter(({ level }) => level === 'error');
    return `${resolved.tag}: ${reasons.map((finding) => tellFinding(finding, words, say)).join(' ')}`;
  };
  return [
    headBlock(own.notBuildable),
    ...missing.map((fitting) => writeParagraph(tell(fitting), right - left, { mark: '–' }))
  ];
}

function tellSince(model: Model, since: Issue | undefined, own: SetWords, width: number): Block[] {
  if (!since) return [headBlock(own.changes), writeParagraph(own.first, width)];
  const now = {
    ...model,
    fittings: model.fittings.map(({ resolved }) => resolved),
    site: model.site?.site ?? null
  };
  const told = tellChanges(compareJobs(resolveJob(since.job), now), model.show);
  return [
    headBlock(own.since(since.revision)),
    ...(told.length === 0
      ? [writeParagraph(own.unchanged, width)]
      : told.map((change) => writeParagraph(change, width, { mark: '–' })))
  ];
}
