import type { Job } from '../kernel/document/job.ts';
import { findStanding, resolveBoard, resolveShop, resolveShow } from '../kernel/document/resolve.ts';
import { evaluateFitting, evaluateSite, putInSite } from '../kernel/evaluate.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { writeFitting } from './sheet.ts';

/** A part of the printed sheet, and whether the fitting in it can be built. */
export interface PrintedPart {
  readonly text: string;
  readonly buildable: boolean;
}

/**
 * The sheet of a job as JSON text, part by part: a large job's sheet is longer than a text can be, and its fittings more
 * than need be held at once. The parts joined are what JSON.stringify(writeSheet(evaluate(job)), null, 2) gives.
 */
export function* printSheet(job: Job): Generator<PrintedPart> {
  const [board, shop, show] = [resolveBoard(job), resolveShop(job), resolveShow(job)];
  const [words, say] = [speak(show.language), makeSpeech(show)];
  const { fittings = [], site } = job;
  const standing = findStanding(job);
  const head = { format: 'gorewright-sheet', version: 1, name: job.name ?? '', fittings: [] };
  const frame = JSON.stringify(head, null, 2);
  if (fittings.length === 0) return yield { text: frame, buildable: true };
  // The list is the last thing in the frame; a name may hold brackets too.
  const list = frame.lastIndexOf('[]');
  const [before, after] = [frame.slice(0, list), frame.slice(list + 2)];
  for (const [position, said] of fittings.entries()) {
    const alone = evaluateFitting(said, position, board, shop);
    const placed =
      site && position === standing ? putInSite(alone, evaluateSite(site, position, alone)) : alone;
    const fitting = writeFitting(placed, words, say);
    const text = JSON.stringify(fitting, null, 2).replaceAll('\n', '\n    ');
    yield { text: `${position === 0 ? `${before}[` : ','}\n    ${text}`, buildable: fitting.buildable };
  }
  yield { text: `\n  ]${after}`, buildable: true };
}
