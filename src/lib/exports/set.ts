import { layMarkOut } from '../figures/paper-mark-out.ts';
import { composeSet } from '../figures/paper-set.ts';
import type { Leaf } from '../figures/paper.ts';
import { digestJob } from './digest.ts';
import { describeExport, nameJob, type Export } from './export.ts';
import { writePdf } from './pdf.ts';

/** The mark-outs of all fittings of a job in one document. */
export const SET: Export = describeExport(
  'set',
  'pdf',
  ({ fittings }) => fittings.length > 0,
  async (model, _, { paper, loadFont, title, since, tell }) => {
    const markOuts: Leaf[][] = [];
    let pages = 0;
    for (const index of model.fittings.keys()) {
      const laid = layMarkOut(model, index, paper);
      markOuts.push(laid);
      pages += laid.length;
      // The list has to name every page before the first is drawn; until then none is done.
      await tell?.(0, pages);
    }
    const entries = { ...title, digest: await digestJob(model) };
    const set = composeSet(model, markOuts, paper, entries, since);
    return writePdf(set, { font: await loadFont(), title: nameJob(model), tell });
  },
  { covers: 'job', issues: true }
);
