import { encode } from 'uqr';
import { CODE, QUIET } from '../figures/label.ts';
import { composeLabels, hasLabels } from '../figures/paper-labels.ts';
import type { Model } from '../kernel/evaluate.ts';
import { digestJob } from './digest.ts';
import { describeExport, nameFile, whenFitting } from './export.ts';
import { pickModelled, writeLink } from './link.ts';
import { writePdf } from './pdf.ts';

/** Characters of a link that go into a code on paper; more can be printed, few telephones read it: common practice, no source. */
export const LONGEST_CODED = 1200;

/** The side of a module that leaves room for more correction, mm: six dots of a printer of 300 to the inch. Common practice, no source. */
const GOOD_MODULE = 0.5;

/** How much of a code may be lost, most first: ISO/IEC 18004 calls it H, Q, M and L, 30 to 7 %. */
const CORRECTIONS = ['H', 'Q', 'M', 'L'] as const;

/** Labels for the straights, pieces and panels of a fitting, with the link to it. */
export const LABELS = describeExport(
  'labels',
  'pdf',
  whenFitting(hasLabels),
  async (model, index, { paper, title, address, loadFont, tell }) => {
    const entries = { ...title, digest: await digestJob(model) };
    const pages = composeLabels(model, index, paper, entries, codeLink(model, index, address));
    return writePdf(pages, { font: await loadFont(), title: nameFile(model, index), tell });
  }
);

/** The code of the link to a fitting, or why there is none; as much of it may be lost as modules of a good size allow. */
function codeLink(model: Model, index: number, address: string | undefined) {
  if (address === undefined) return 'address';
  const made = writeLink(pickModelled(model, index), address);
  if (!('link' in made) || made.link.length > LONGEST_CODED) return 'long';
  const codes = CORRECTIONS.map((ecc) => encode(made.link, { ecc, border: 0 }).data);
  const isGood = ({ length }: readonly unknown[]): boolean => CODE / (length + 2 * QUIET) >= GOOD_MODULE;
  return { modules: codes.find(isGood) ?? codes[codes.length - 1]! };
}
