import {
  composeTemplates,
  hasTemplates,
  hasWholes,
  type TemplateOptions
} from '../figures/paper-template.ts';
import { digestJob } from './digest.ts';
import { describeExport, nameFile, whenFitting, type Export } from './export.ts';
import { writePdf } from './pdf.ts';

/** Writes templates of a fitting; throws PrinterRefused where the printer is refused. */
const writeTemplates =
  (of: NonNullable<TemplateOptions['of']>): Export['write'] =>
  async (model, index, { paper, side, printed, title, loadFont, tell }) => {
    const entries = { ...title, digest: await digestJob(model) };
    const pages = composeTemplates(model, index, paper, { of, side, printed, entries });
    return writePdf(pages, { font: await loadFont(), title: nameFile(model, index), tell });
  };

/** Strips along the cuts, openings and panels. */
export const TEMPLATES = describeExport(
  'templates',
  'pdf',
  whenFitting(hasTemplates),
  writeTemplates('strips')
);

/** Whole straights, and panels. */
export const WHOLE = describeExport('whole', 'pdf', whenFitting(hasWholes), writeTemplates('wholes'));
