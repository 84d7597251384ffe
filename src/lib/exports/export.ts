import { findFitting } from '../figures/paper-mark-out.ts';
import type { Side } from '../figures/manner.ts';
import type { PaperName } from '../figures/paper.ts';
import type { TitleFields } from '../figures/title-block.ts';
import type { Job } from '../kernel/document/job.ts';
import type { Model } from '../kernel/evaluate.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import type { ExportId } from '../words/print.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import type { Words } from '../words/words.ts';
import type { DecimalMark } from './csv.ts';

/** What an export is written as; the batch takes it as a flag. */
export const FORMATS = ['pdf', 'dxf', 'svg', 'glb', 'stl', 'csv'] as const;
export type Format = (typeof FORMATS)[number];

export type { Side };

export interface ExportOptions {
  readonly paper: PaperName;
  /** Gives the bytes of DejaVu Sans Condensed (TrueType), which a PDF embeds; asked only by those that need it. */
  readonly loadFont: () => Promise<Uint8Array>;
  /** What the title block of the mark-out says beside the fitting, as the user gives it. */
  readonly title?: TitleFields;
  /** Which side of the board lies up in flat patterns and templates; the outside where it is left out. */
  readonly side?: Side;
  /** What the check bar of 100 mm measured on paper, mm: templates are drawn as much larger; 100 where it is left out. */
  readonly printed?: number;
  /** Address of the page, without a fragment: what links on labels begin with; no links where it is left out. */
  readonly address?: string;
  /** The decimal mark of the spreadsheet that will read a table; the point where it is left out. */
  readonly decimal?: DecimalMark;
  /** The job as it was when it was last issued, for what changed since; with the revision that it had then. */
  readonly since?: { readonly job: Job; readonly revision: string };
  /** Hears how many pages are done, of how many; the next page waits for it, and what it throws ends the writing. */
  readonly tell?: (done: number, of: number) => void | Promise<void>;
}

/** A document that leaves the product. */
export interface Export {
  readonly id: ExportId;
  /** What a button says. */
  label(words: Words): string;
  /** Whether it is of one fitting or of the whole job. */
  readonly covers: 'fitting' | 'job';
  /** Whether the job counts as issued once it is written: it takes `since`, and the next one says what changed. */
  readonly issues?: true;
  readonly format: Format;
  /** Of the file's name, without the dot. */
  readonly extension: string;
  /** Whether there is something to write of this fitting; without it `write` throws. */
  applies(model: Model, index: number): boolean;
  /** Writes the fitting at this place in the model. The same model and options give the same bytes. */
  write(model: Model, index: number, options: ExportOptions): Promise<Uint8Array | string>;
}

/** Media types of the files, by their extension. */
export const MEDIA_TYPES: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  csv: 'text/csv',
  svg: 'image/svg+xml',
  dxf: 'image/vnd.dxf',
  glb: 'model/gltf-binary',
  stl: 'model/stl',
  zip: 'application/zip'
};

/** An export whose label the words hold under its id; of one fitting and with its format as extension where nothing else is said. */
export function describeExport(
  id: Export['id'],
  format: Format,
  applies: Export['applies'],
  write: Export['write'],
  rest: Partial<Pick<Export, 'covers' | 'extension' | 'issues'>> = {}
): Export {
  return {
    id,
    label: (words) => speakOfPrint(words.language).exports[id],
    covers: 'fitting',
    format,
    extension: format,
    applies,
    write,
    ...rest
  };
}

/** Applies where the fitting could be built and has what is asked for. */
export const whenFitting =
  (has: (fitting: Fitting) => boolean): Export['applies'] =>
  (model, index) => {
    const { built } = findFitting(model, index);
    return built !== null && has(built.fitting);
  };

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

/** The whole name of the file that an export of a fitting, or of its job, is saved as. */
export function nameExport({ id, covers, extension }: Export, model: Model, index: number): string {
  return `${covers === 'job' ? nameJob(model) : nameFile(model, index)}-${id}.${extension}`;
}

function joinNames(names: readonly string[]): string {
  const parts = names
    .map((part) => part.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, ''))
    .filter((part) => part !== '');
  return parts.join('-').slice(0, LONGEST_NAME);
}
