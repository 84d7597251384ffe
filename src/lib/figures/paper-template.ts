import type { Model } from '../kernel/evaluate.ts';
import { listPanelBodies, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Cut } from '../kernel/straight/cut.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { listOutlineLines, outlineOpening, outlinePanel, type CutOutline } from './cut-outline.ts';
import type { Box, Figure, Point } from './figure.ts';
import type { Manner } from './manner.ts';
import { findFirstPiece, findFitting, titleFitting } from './paper-mark-out.ts';
import { findBody, finishPages, type Leaf, type Page, type PaperName, type Part } from './paper.ts';
import { drawOutlineTemplate } from './template-outline.ts';
import { mapPages, outlineBox } from './template-map.ts';
import { drawTemplate, listTemplateLines } from './template.ts';
import { tileLines, type Line, type Tile } from './tiles.ts';
import { unrollFaces } from './unroll.ts';

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
  const trim: Figure = { layers: [{ name: 'trim', items: [outlineBox(body)] }] };
  return [
    { figure: draw(tile, manner), scale: 1, at },
    { figure: trim, scale: 1, at: [0, 0] }
  ];
}
