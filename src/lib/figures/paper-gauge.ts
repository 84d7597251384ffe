import type { Model } from '../kernel/evaluate.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak, type Speech, type Words } from '../words/words.ts';
import type { Item, Point } from './figure.ts';
import { drawGauge, findRoomBeside, GAUGE, listGauges, type Gauge } from './gauge.ts';
import { writeLine } from './ink.ts';
import { breakLines, LETTERING, shortenText } from './lettering.ts';
import { findBody, finishPages, type Page, type PaperName, type Part } from './paper.ts';

/** Columns and rows of gauges on a page, and the lines over each, mm. */
const COLUMNS = 2;
const ROWS = 2;
const TITLE = 5.5;
const LINE = 4;

/** The gauges of a whole job at true size, four a page; a job without an odd angle has none and throws. */
export function composeGauges(model: Model, paper: PaperName): Page[] {
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  const { gauges: told, page } = speakOfPrint(words.language);
  const gauges = listGauges(model);
  if (gauges.length === 0) throw new Error(`the job "${model.name}" has no angle to draw`);
  const body = findBody(paper, false);
  const [width, height] = [(body.right - body.left) / COLUMNS, (body.bottom - body.top) / ROWS];
  const pages = Math.ceil(gauges.length / (COLUMNS * ROWS));
  const leaves = Array.from({ length: pages }, (_, p) => ({
    landscape: false,
    title: [told.title, ...(model.name === '' ? [] : [model.name])].join(' · '),
    subtitle: told.howTo,
    note: page.scale(1),
    parts: gauges.slice(p * COLUMNS * ROWS, (p + 1) * COLUMNS * ROWS).flatMap((gauge, i) => {
      const at = [body.left + (i % COLUMNS) * width, body.top + Math.floor(i / COLUMNS) * height] as const;
      return placeGauge(gauge, at, height, words, say);
    })
  }));
  return finishPages(leaves, paper, words);
}

/** A gauge at the foot of its cell, what it is over it, where it is used beside it as far as there is room. */
function placeGauge(gauge: Gauge, [left, top]: Point, height: number, words: Words, say: Speech): Part[] {
  const { gauges } = speakOfPrint(words.language);
  const vertex: Point = [left + 1, top + height - GAUGE.below];
  const beside = findRoomBeside(gauge.angle);
  const uses = tellUses(
    gauge,
    beside.right - beside.left,
    Math.floor((beside.bottom - beside.top) / LINE),
    words,
    say
  );
  const angle = say.angle(gauge.angle);
  const title = gauge.kind === 'line' ? gauges.line(angle) : gauges.bevel(angle);
  const items: Item[] = [
    writeLine(title, [left, top + TITLE / 2], { height: LETTERING.names, bold: true }),
    ...(gauge.kind === 'bevel'
      ? [
          writeLine(gauges.distances(say.length(gauge.setback), say.length(gauge.depth)), [
            left,
            top + TITLE + LINE / 2
          ])
        ]
      : []),
    ...uses.map((line, i) =>
      writeLine(line, [vertex[0] + beside.left, vertex[1] + beside.top + (i + 0.5) * LINE])
    )
  ];
  return [
    { figure: { layers: [{ name: 'text', items }] }, scale: 1, at: [0, 0] },
    { figure: drawGauge(gauge, { words, say }), scale: 1, at: vertex }
  ];
}

/** Where a gauge is used, on at most so many lines; what is too much is counted on the last. */
function tellUses(
  { uses }: Gauge,
  width: number,
  most: number,
  { faces, language }: Words,
  say: Speech
): string[] {
  const { gauges } = speakOfPrint(language);
  const tell = (count: number): string[] => {
    const told = uses
      .slice(0, count)
      .map((use) =>
        gauges.use(use.tag, say.list(joinRuns(use.cuts)), say.list(use.faces.map((face) => faces[face])))
      );
    const left = uses.length - count;
    return [...told, ...(left > 0 ? [gauges.more(left)] : [])]
      .flatMap((text) => breakLines(text, LETTERING.figures, width))
      .map((line) => shortenText(line, LETTERING.figures, width));
  };
  for (let count = Math.min(uses.length, most); count > 0; count--) {
    const lines = tell(count);
    if (lines.length <= most) return lines;
  }
  return tell(0);
}

/** Names that follow one another as a run, C1–C4, from three on; names are a letter and a number. */
function joinRuns(names: readonly string[]): string[] {
  const numberOf = (name: string): number => Number(/\d+$/.exec(name)?.[0]);
  const follows = (name: string, last: string): boolean =>
    name[0] === last[0] && numberOf(name) === numberOf(last) + 1;
  const runs: string[][] = [];
  for (const name of names) {
    const run = runs[runs.length - 1];
    if (run && follows(name, run[run.length - 1]!)) run.push(name);
    else runs.push([name]);
  }
  return runs.flatMap((run) => (run.length > 2 ? [`${run[0]}–${run[run.length - 1]}`] : run));
}
