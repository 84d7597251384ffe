import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Cut } from '../kernel/straight/cut.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak, type Words } from '../words/words.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { writeLine } from './ink.ts';
import { LETTERING, measureText } from './lettering.ts';
import type { Manner } from './manner.ts';
import { findFirstPiece, findFitting, titleFitting } from './paper-mark-out.ts';
import { findBody, finishPages, type Leaf, type Page, type PaperName, type Part } from './paper.ts';
import { placeText, startRoom } from './room.ts';
import {
  drawOutlineTemplate,
  listOutlineLines,
  outlineOpening,
  outlinePanel,
  type CutOutline
} from './template-outline.ts';
import { drawTemplate, listTemplateLines } from './template.ts';
import { flowBlocks, measureLines, writeParagraph } from './text-flow.ts';
import { tileLines, type Line, type Tile } from './tiles.ts';
import { unrollFaces } from './unroll.ts';

/** Scales of the maps of pages, 1 to so many, and the space between maps, paper mm. */
const MAP_SCALES = [20, 50, 100, 200] as const;
const MAP_LAST = 500;

/** What the first page needs beside a map, paper mm. */
const MAP_ROOM = 50;

const MAP_GAP = 8;
const MAP_TITLE = 6;

/** What a template is of: one cut, one opening or one panel. */
interface Pattern {
  readonly name: string;
  /** The straight it is laid on; null for a panel. */
  readonly straight: string | null;
  /** What has to be on the pages; of it, what the map of the pages shows. */
  readonly lines: readonly Line[];
  readonly shown: readonly Line[];
  /** Corners of the straight, which the map shows as well, y. */
  readonly folds: readonly number[];
  /** The faces that a part of it lies on. */
  readonly facesIn: (window: Box) => readonly Face[];
  readonly draw: (tile: Tile, manner: Manner) => Figure;
}

interface Template extends Pattern {
  readonly landscape: boolean;
  readonly tiles: readonly Tile[];
}

/**
 * Templates of every cut, opening and panel of a fitting at full size, over as many pages as they take, behind a map of
 * the pages.
 */
export function composeTemplates(model: Model, index: number, paper: PaperName): Page[] {
  const fitting = findFitting(model, index);
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  const { title, subtitle } = titleFitting(model, fitting, words, say);
  const { page, template } = words.paper;
  const patterns = fitting.built ? listPatterns(fitting.built.fitting) : [];
  const templates = patterns.map((pattern) => layTemplate(pattern, paper));
  const why = fitting.built ? page.noCuts : page.notBuildable;
  const told = [
    ...(patterns.some(({ folds }) => folds.length > 0) ? template.howTo : []),
    ...(patterns.some(({ folds }) => folds.length === 0) ? template.howToOutlines : [])
  ];
  const first: Leaf[] = mapPages(templates, templates.length > 0 ? told : [why], paper, words).map(
    (parts) => ({
      landscape: false,
      title,
      subtitle: `${page.templates}. ${subtitle}`,
      note: '',
      parts
    })
  );
  const leaves = templates.flatMap((laid) =>
    laid.tiles.map((tile, i): Leaf => {
      const faces = laid.facesIn(tile.window).map((face) => words.faces[face]);
      return {
        landscape: laid.landscape,
        title: `${laid.name}  ${i + 1}/${laid.tiles.length} · ${title}`,
        subtitle: [
          template.title(laid.name, laid.straight),
          ...(faces.length > 0 ? [template.faces(faces)] : []),
          template.outsideUp
        ].join(' · '),
        note: page.scale(1),
        parts: placeTile(laid, tile, paper, { scale: 1, words, say })
      };
    })
  );
  return finishPages([...first, ...leaves], paper, words);
}

/** Whether a fitting has anything to lay a template on. */
export function hasTemplates({ straights, bodies }: Fitting): boolean {
  return (
    straights.some(({ cuts, openings }) => cuts.length + openings.length > 0) ||
    bodies.some(({ kind }) => kind === 'panel')
  );
}

function listPatterns(fitting: Fitting): Pattern[] {
  const { straights } = fitting;
  return [
    ...straights.flatMap((straight) => [
      ...straight.cuts.map((cut) => describeCut(straight, cut, findFirstPiece(straights, straight))),
      ...straight.openings.map((opening) => describeOutline(outlineOpening(opening, straight)))
    ]),
    ...listPanelBodies(fitting).map((body) => describeOutline(outlinePanel(body)))
  ];
}

function describeCut(straight: Straight, cut: Cut, first: number): Pattern {
  const { faces, edges } = unrollFaces(straight);
  const lines = listTemplateLines(straight, cut);
  return {
    name: cut.name,
    straight: straight.name,
    lines,
    shown: lines.slice(0, faces.length),
    folds: edges,
    facesIn: ({ top, bottom }) =>
      faces.filter(({ from, to }) => from < bottom && to > top).map(({ face }) => face),
    draw: (tile, manner) => drawTemplate(straight, cut, manner, tile, first)
  };
}

function describeOutline(outline: CutOutline): Pattern {
  const lines = listOutlineLines(outline);
  return {
    name: outline.name,
    straight: outline.straight,
    lines,
    shown: lines.slice(0, outline.outer.length),
    folds: [],
    facesIn: () => (outline.face ? [outline.face] : []),
    draw: (tile, manner) => drawOutlineTemplate(outline, manner, tile)
  };
}

/** Upright or across, whichever takes fewer pages. */
function layTemplate(pattern: Pattern, paper: PaperName): Template {
  const lay = (landscape: boolean): Template => {
    const { left, top, right, bottom } = findBody(paper, landscape);
    const size = { width: right - left, height: bottom - top };
    return { ...pattern, landscape, tiles: tileLines(pattern.lines, size) };
  };
  const [upright, across] = [lay(false), lay(true)];
  return across.tiles.length < upright.tiles.length ? across : upright;
}

function placeTile({ draw, landscape }: Template, tile: Tile, paper: PaperName, manner: Manner): Part[] {
  const body = findBody(paper, landscape);
  const at: Point = [body.left - tile.window.left, body.top - tile.window.top];
  const trim: Figure = { layers: [{ name: 'trim', items: [outline(body)] }] };
  return [
    { figure: draw(tile, manner), scale: 1, at },
    { figure: trim, scale: 1, at: [0, 0] }
  ];
}

/** What to do, and for every template a small picture of which page lies where. */
function mapPages(
  templates: readonly Template[],
  told: readonly string[],
  paper: PaperName,
  words: Words
): Part[][] {
  const body = findBody(paper, false);
  const paragraphs = told.map((text) => writeParagraph(text, body.right - body.left, { mark: '–' }));
  const text = flowBlocks(paragraphs, body, body)[0]!;
  let top =
    body.top + paragraphs.reduce((sum, { lines }) => sum + measureLines(lines) + MAP_GAP / 4, MAP_GAP / 2);
  let left = body.left;
  let height = 0;
  const pages: Part[][] = [[{ figure: { layers: [{ name: 'text', items: text }] }, scale: 1, at: [0, 0] }]];
  for (const template of templates) {
    const { figure, box, over } = drawMap(template, body);
    const title = writeLine(
      words.paper.template.map(template.name, template.straight, template.tiles.length),
      [0, 0],
      {
        bold: true
      }
    );
    const size = {
      width: Math.max((box.right - box.left) / over, measureText(title.text, LETTERING.figures, true)),
      height: (box.bottom - box.top) / over + MAP_TITLE
    };
    if (left + size.width > body.right && left > body.left) {
      [left, top, height] = [body.left, top + height + MAP_GAP, 0];
    }
    if (top + size.height > body.bottom) {
      [left, top, height] = [body.left, body.top, 0];
      pages.push([]);
    }
    pages[pages.length - 1]!.push(
      {
        figure: { layers: [{ name: 'title', items: [title] }] },
        scale: 1,
        at: [left, top + LETTERING.figures]
      },
      { figure, scale: 1 / over, at: [left - box.left / over, top + MAP_TITLE - box.top / over] }
    );
    left += size.width + MAP_GAP;
    height = Math.max(height, size.height);
  }
  return pages;
}

function drawMap({ shown, folds, tiles }: Template, body: Box): { figure: Figure; box: Box; over: number } {
  const windows = tiles.map(({ window }) => window);
  const box: Box = {
    left: Math.min(...windows.map(({ left }) => left)),
    top: Math.min(...windows.map(({ top }) => top)),
    right: Math.max(...windows.map(({ right }) => right)),
    bottom: Math.max(...windows.map(({ bottom }) => bottom))
  };
  const most = body.bottom - body.top - MAP_ROOM;
  const over = MAP_SCALES.find((scale) => (box.bottom - box.top) / scale < most) ?? MAP_LAST;
  const taken = startRoom();
  for (const line of shown) taken.keep(line.map(([x, y]): Point => [x / over, y / over]));
  const numbers = windows.flatMap((window, i) => {
    const y = (window.top + window.bottom) / 2;
    const inside = [0.5, 0.2, 0.8, 0.35, 0.65].map((part) => ({
      at: [window.left + part * (window.right - window.left), y] as Point,
      anchor: 'middle' as const
    }));
    const spots = [...inside, { at: [window.right + over, y] as Point, anchor: 'start' as const }];
    return placeText(taken, 1 / over, { text: String(i + 1), height: LETTERING.figures }, spots) ?? [];
  });
  const corners = folds.map((y): Item => ({
    kind: 'stroke',
    line: 'fold',
    points: [
      [box.left, y],
      [box.right, y]
    ]
  }));
  const marks = shown.map((points): Item => ({ kind: 'stroke', line: 'cut', points }));
  return {
    figure: { layers: [{ name: 'map', items: [...corners, ...windows.map(outline), ...marks, ...numbers] }] },
    box,
    over
  };
}

function outline({ left, top, right, bottom }: Box): Item {
  return {
    kind: 'stroke',
    line: 'narrow',
    closed: true,
    points: [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom]
    ]
  };
}
