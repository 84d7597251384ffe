import type { PatternWords } from './pattern.ts';
import type { TemplateWords } from './template.ts';

/** Everything the product writes. */
export type ExportId =
  | 'set'
  | 'mark-out'
  | 'templates'
  | 'whole'
  | 'gauges'
  | 'card-model'
  | 'labels'
  | 'mark-table'
  | 'piece-table'
  | 'cut-list'
  | 'marks-figure'
  | 'pattern-svg'
  | 'pattern-dxf'
  | 'solid-glb'
  | 'pieces-glb'
  | 'solid-stl'
  | 'pieces-stl';

/** What is said only where something is written: of the exports, on pages, templates, gauges, models and patterns. */
export interface PrintWords {
  /** The exports by their id, as a button says them. */
  readonly exports: Readonly<Record<ExportId, string>>;
  readonly page: {
    readonly markOut: string;
    readonly templates: string;
    readonly markTable: string;
    readonly pieces: string;
    readonly steps: string;
    readonly findings: string;
    readonly noFindings: string;
    readonly cautions: string;
    readonly notBuildable: string;
    readonly noCuts: string;
    quantity(count: number): string;
    inside(size: string): string;
    board(thickness: string): string;
    scale(over: number): string;
    /** A scale where a label says that it is one. */
    over(over: number): string;
    number(page: number, pages: number): string;
    readonly check: string;
    readonly geometryOnly: string;
    readonly cautionList: readonly string[];
    straight(facts: StraightFacts): string;
  };
  /** Labels of the title block's fields. */
  readonly titleBlock: {
    readonly owner: string;
    readonly title: string;
    readonly type: string;
    readonly number: string;
    readonly date: string;
    readonly revision: string;
    readonly digest: string;
    readonly scale: string;
    readonly page: string;
    of(page: number, pages: number): string;
  };
  readonly card: {
    readonly title: string;
    readonly flap: string;
    /** Why the scale is not the usual one. */
    smaller(usual: number, over: number): string;
    readonly leftOut: string;
    readonly howTo: string;
    readonly print: string;
    readonly outline: string;
    readonly fold: string;
    cut(cuts: string): string;
    readonly offcuts: string;
    openings(names: string): string;
    roll(pieces: string): string;
    /** Pieces that meet in cuts, and those that do not all. */
    join(pieces: string): string;
    assemble(pieces: string): string;
    /** What the model has not. */
    noPanels(names: string): string;
    noMarks(names: string): string;
  };
  readonly gauges: {
    readonly title: string;
    readonly howTo: string;
    line(angle: string): string;
    bevel(angle: string): string;
    /** Where it is used, of a panel that is no face of a duct without faces; and how many further places there are. */
    use(tag: string, cuts: string, faces: string): string;
    more(count: number): string;
    distances(setback: string, depth: string): string;
    setback(figure: string): string;
    depth(figure: string): string;
    /** What the legs lie on. */
    readonly edge: string;
    readonly mark: string;
    readonly facing: string;
    readonly blade: string;
  };
  readonly template: TemplateWords;
  readonly pattern: PatternWords;
}

/** What the caption of a straight says, each already said in the language. */
export interface StraightFacts {
  readonly name: string;
  readonly length: string;
  readonly lay: string;
  readonly make: string;
  readonly datumEnd: string;
  readonly farEnd: string;
}
