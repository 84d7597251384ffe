import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Cut } from '../kernel/straight/cut.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { LegendId } from '../words/template.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { makeSpeech, speak, type Words } from '../words/words.ts';
import {
  listOutlineLines,
  outlineOpening,
  outlinePanel,
  turnOutline,
  type CutOutline
} from './cut-outline.ts';
import type { Box, Figure, Point } from './figure.ts';
import { layStraight, listFacesIn, listLaidLines, listMappedLines } from './laid-straight.ts';
import type { Manner, Side } from './manner.ts';
import { findFirstPiece, findFitting, layText, titleFitting } from './paper-mark-out.ts';
import {
  findBodyOn,
  finishPages,
  isRoll,
  ROLL_LENGTH,
  shrinkPage,
  sizePage,
  type Leaf,
  type Page,
  type PaperName,
  type Part,
  type Size
} from './paper.ts';
import { checkPrinter, PrinterRefused } from './printer.ts';
import { explainLines } from './template-legend.ts';
import { mapPages } from './template-map.ts';
import { drawOutlineTemplate } from './template-outline.ts';
import { drawFrame, drawKey } from './template-page.ts';
import { drawTemplate } from './template.ts';
import { COLUMN, measureLines, writeParagraph, type Block } from './text-flow.ts';
import { tileLines, type Line, type Tile, type TileSize } from './tiles.ts';
import type { TitleEntries } from './title-block.ts';

/** What a template is of: one cut, one opening, one panel or a whole straight. */
interface Pattern {
  readonly name: string;
  /** The straight it is laid on; null for a panel. */
  readonly straight: string | null;
  readonly title: string;
  /** What has to be on the pages; of it, what the map of the pages shows. */
  readonly lines: readonly Line[];
  readonly shown: readonly Line[];
  /** Corners of the straight, which the map shows as well, y. */
  readonly folds: readonly number[];
  /** The kinds of line it has. */
  readonly legend: readonly LegendId[];
  /** The faces that a part of it lies on. */
  readonly facesIn: (window: Box) => readonly Face[];
  readonly draw: (tile: Tile, manner: Manner) => Figure;
}

interface Template extends Pattern {
  readonly landscape: boolean;
  readonly tiles: readonly Tile[];
}

export interface TemplateOptions {
  /** Strips along the cuts, with openings; or the whole of every straight. Panels come with both. */
  readonly of?: 'strips' | 'wholes';
  /** The side of the board that lies up; outside where it is left out. */
  readonly side?: Side | undefined;
  /** What the check bar of 100 mm measured, mm: all is drawn as much larger or smaller. */
  readonly printed?: number | undefined;
  /** What tells prints of two states of the job apart. */
  readonly entries?: Pick<TitleEntries, 'digest' | 'revision'>;
}

/** Where templates are laid: the paper, and how many times as large all is drawn for the printer. */
interface Printing {
  readonly paper: PaperName;
  readonly factor: number;
}

/** The order in which the legend explains what templates have. */
const LEGEND: readonly LegendId[] = [
  ...(['mark', 'through', 'corner', 'end', 'axis', 'flap'] as const),
  ...(['blade', 'tick', 'cross', 'trim'] as const)
];

/** The least width of the legend beside the text, and the space between blocks and columns, paper mm. */
const LEGEND_COLUMN = 100;
const GAP = COLUMN.gap;

/** From the header of the first page to its text, paper mm. */
const UNDER_HEADER = 3;

/**
 * Templates of a fitting at full size, over as many pages as they take, behind how to lay them, what the lines mean and
 * a map of the pages. Every page is composed when it is asked for. Throws PrinterRefused where the printer is refused.
 */
export function composeTemplates(
  model: Model,
  index: number,
  paper: PaperName,
  { of = 'strips', side = 'outside', printed = 100, entries = { digest: null } }: TemplateOptions = {}
): Page[] {
  const check = checkPrinter(printed);
  if ('refused' in check) throw new PrinterRefused(printed, check);
  const printing: Printing = { paper, factor: check.factor };
  const fitting = findFitting(model, index);
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  const { title, subtitle } = titleFitting(model, fitting, words, say);
  const { page, template } = speakOfPrint(words.language);
  const patterns = fitting.built ? listPatterns(fitting.built.fitting, of, side, words) : [];
  const templates = patterns.map((pattern) => layTemplate(pattern, printing));
  const why = fitting.built ? page.noCuts : page.notBuildable;
  const stamp = template.stamp(entries.digest, entries.revision ?? '');
  const headed = template.headed[side];
  const first = composeFirst(templates, templates.length > 0 ? null : why, side, printing, words).map(
    (parts): Leaf => ({
      landscape: false,
      title,
      subtitle: `${page.templates}. ${subtitle}`,
      note: headed,
      stamp,
      parts
    })
  );
  const leaves = templates.flatMap((laid) =>
    laid.tiles.map((tile, i): Leaf => {
      const { name, tiles, landscape } = laid;
      const faces = laid.facesIn(tile.window).map((face) => words.faces[face]);
      return {
        landscape,
        title: `${name} ${i + 1}/${tiles.length} · ${title}`,
        subtitle: [
          laid.title,
          ...(tiles.length > 1 ? [template.place(tile.row, tile.column)] : []),
          ...(faces.length > 0 ? [template.faces(faces)] : [])
        ].join(' · '),
        note: `${headed} · ${page.scale(1)}`,
        stamp,
        ...(isRoll(paper) ? { length: measureLength(tile, landscape, printing) } : {}),
        ...(tiles.length > 1 ? { key: drawKey(tiles, tile) } : {}),
        get parts() {
          return placeTile(laid, tile, printing, { scale: 1, words, say });
        }
      };
    })
  );
  const said = template.corrected(String(Math.round(printed * 100) / 100));
  return finishPages(
    [...first, ...leaves],
    paper,
    words,
    printing.factor === 1 ? undefined : { factor: printing.factor, said }
  );
}

/** Whether a fitting has anything to lay a template on. */
export function hasTemplates({ straights, bodies }: Fitting): boolean {
  return (
    straights.some(({ cuts, openings }) => cuts.length + openings.length > 0) ||
    bodies.some(({ kind }) => kind === 'panel')
  );
}

/** Whether a fitting has a straight of which a whole template can be made. */
export function hasWholes({ straights }: Fitting): boolean {
  return straights.length > 0;
}

function listPatterns(
  fitting: Fitting,
  of: NonNullable<TemplateOptions['of']>,
  side: Side,
  words: Words
): Pattern[] {
  const { straights } = fitting;
  const outline = (cut: CutOutline): Pattern => describeOutline(turnOutline(cut, side), side, words);
  return [
    ...straights.flatMap((straight) => {
      const describe = (cut: Cut | null): Pattern =>
        describeStraight(straight, cut, side, findFirstPiece(straights, straight), words);
      if (of === 'wholes') return [describe(null)];
      return [
        ...straight.cuts.map(describe),
        ...straight.openings.map((opening) => outline(outlineOpening(opening, straight)))
      ];
    }),
    ...listPanelBodies(fitting).map((body) => outline(outlinePanel(body)))
  ];
}

/** The strip along a cut, or the whole of a straight. */
function describeStraight(
  straight: Straight,
  cut: Cut | null,
  side: Side,
  first: number,
  { language }: Words
): Pattern {
  const { template } = speakOfPrint(language);
  const laid = layStraight(straight, cut, { side, first });
  const lines = listLaidLines(laid);
  const { name } = cut ?? straight;
  const has = {
    axis: laid.openings.length > 0,
    flap: laid.flaps.some(({ points }) => points.length === 2)
  };
  return {
    name,
    straight: straight.name,
    title: cut ? template.title(name, straight.name) : template.title(template.whole(name), null),
    lines,
    shown: listMappedLines(laid),
    folds: laid.corners.map(({ y }) => y),
    legend: [
      'mark',
      'through',
      'corner',
      'end',
      'blade',
      'tick',
      ...(['axis', 'flap'] as const).filter((id) => has[id])
    ],
    facesIn: (window) => listFacesIn(laid, window).map(({ face }) => face),
    draw: (tile, manner) => drawTemplate(laid, manner, tile)
  };
}

function describeOutline(outline: CutOutline, side: Side, { language }: Words): Pattern {
  const { template } = speakOfPrint(language);
  const lines = listOutlineLines(outline);
  const { name, straight, face } = outline;
  return {
    name,
    straight,
    title: template.title(name, straight),
    lines,
    shown: lines.slice(0, outline.outer.length),
    folds: [],
    legend: ['mark', 'through', 'blade', ...(straight === null ? [] : (['corner', 'axis'] as const))],
    facesIn: () => (face ? [face] : []),
    draw: (tile, manner) => drawOutlineTemplate(outline, side, manner, tile)
  };
}

/** Upright or across, whichever takes fewer pages; of a roll, with as many pages, whichever takes less of it. */
function layTemplate(pattern: Pattern, printing: Printing): Template {
  const lay = (landscape: boolean): Template => ({
    ...pattern,
    landscape,
    tiles: tileLines(pattern.lines, findTileSize(landscape, printing))
  });
  const [upright, across] = [lay(false), lay(true)];
  if (across.tiles.length !== upright.tiles.length)
    return across.tiles.length < upright.tiles.length ? across : upright;
  const measureAll = ({ tiles, landscape }: Template): number =>
    tiles.reduce((sum, tile) => sum + measureLength(tile, landscape, printing), 0);
  return isRoll(printing.paper) && measureAll(across) < measureAll(upright) ? across : upright;
}

/** What a page can show at full size, as large as it comes out of the printer; of a roll as much as it may be long. */
function findTileSize(landscape: boolean, { paper, factor }: Printing): TileSize {
  const measureBody = (length: number): Size => {
    const size = shrinkPage(sizePage(paper, landscape, length), factor);
    const { left, top, right, bottom } = bodyOf(size, factor);
    return { width: right - left, height: bottom - top };
  };
  const most = measureBody(ROLL_LENGTH.most);
  if (!isRoll(paper)) return most;
  const way = landscape ? 'width' : 'height';
  return { ...most, free: { way, least: measureBody(ROLL_LENGTH.least)[way] } };
}

function bodyOf(size: Size, factor: number): Box {
  return findBodyOn(size, factor === 1 ? 'plain' : 'corrected');
}

/** How much of a roll the page of a tile takes, mm. */
function measureLength({ window }: Tile, landscape: boolean, printing: Printing): number {
  const { paper, factor } = printing;
  const way = landscape ? 'width' : 'height';
  const most = shrinkPage(sizePage(paper, landscape, ROLL_LENGTH.most), factor);
  const shown = landscape ? window.right - window.left : window.bottom - window.top;
  return (shown + most[way] - findTileSize(landscape, printing)[way]) * Math.max(1, factor);
}

function placeTile(laid: Template, tile: Tile, printing: Printing, manner: Manner): Part[] {
  const { paper, factor } = printing;
  const { landscape } = laid;
  const length = isRoll(paper) ? measureLength(tile, landscape, printing) : undefined;
  const body = bodyOf(shrinkPage(sizePage(paper, landscape, length), factor), factor);
  const at: Point = [body.left - tile.window.left, body.top - tile.window.top];
  return [
    { figure: laid.draw(tile, manner), scale: 1, at },
    { figure: drawFrame(body), scale: 1, at: [0, 0] }
  ];
}

/** The pages before the templates: how to lay them, what the lines mean, and the map; or why there are none. */
function composeFirst(
  templates: readonly Template[],
  why: string | null,
  side: Side,
  { paper, factor }: Printing,
  words: Words
): Part[][] {
  const { template } = speakOfPrint(words.language);
  const page = bodyOf(shrinkPage(sizePage(paper, false), factor), factor);
  const body = { ...page, top: page.top + UNDER_HEADER };
  const whole = body.right - body.left;
  const width = Math.min(whole, COLUMN.width);
  const isBeside = whole - width - GAP >= LEGEND_COLUMN;
  const told =
    why !== null
      ? [why]
      : [
          ...(templates.some(({ folds }) => folds.length > 0) ? template.howTo[side] : []),
          ...(templates.some(({ folds }) => folds.length === 0) ? template.howToOutlines[side] : []),
          ...(templates.some(({ tiles }) => tiles.length > 1) ? [template.join] : [])
        ];
  const isJoined = templates.some(({ tiles }) => tiles.length > 1);
  const has = (id: LegendId): boolean =>
    id === 'trim' || (id === 'cross' ? isJoined : templates.some(({ legend }) => legend.includes(id)));
  const texts = told.map((text) => writeParagraph(text, width, { mark: '–' }));
  const legend =
    why === null ? explainLines(LEGEND.filter(has), isBeside ? whole - width - GAP : width, words) : [];
  const columns: { left: number; blocks: Block[] }[] = isBeside
    ? [
        { left: body.left, blocks: texts },
        { left: body.left + width + GAP, blocks: legend }
      ]
    : [{ left: body.left, blocks: [...texts, ...legend] }];
  const parts = columns.flatMap(({ left, blocks }) => layText(blocks, { ...body, left }, body)[0]!);
  const height = Math.max(
    ...columns.map(({ blocks }) => blocks.reduce((sum, { lines }) => sum + measureLines(lines) + GAP / 4, 0))
  );
  const [firstMap = [], ...more] = mapPages(templates, body, body.top + height + GAP / 2, words);
  return [[...parts, ...firstMap], ...more];
}
