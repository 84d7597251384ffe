import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { nameExport, nameJob, type Export } from '../lib/exports/export.ts';
import { EXPORTS } from '../lib/exports/index.ts';
import type { Job } from '../lib/kernel/document/job.ts';
import { evaluate, type Model } from '../lib/kernel/evaluate.ts';
import { printSheet } from '../lib/sheet/print.ts';
import { readBatch, type Batch } from './batch-arguments.ts';
import { BUILDABLE, NOT_BUILDABLE, refuse, UNREADABLE } from './job-argument.ts';
import { OutputFolder } from './output-folder.ts';

/** Writes the sheet and every export that is asked for into a folder; answers the exit status of the command. */
export async function runBatch(args: readonly string[]): Promise<number> {
  const batch = readBatch(args);
  if (!batch) return UNREADABLE;
  try {
    return await writeBatch(batch);
  } catch (error) {
    const { code, syscall } = error as NodeJS.ErrnoException;
    if (syscall === undefined) throw error;
    refuse(`${batch.out}: cannot be written (${code}), expected a folder to write to`);
    return UNREADABLE;
  }
}

async function writeBatch({ job, out, formats, options }: Batch): Promise<number> {
  const model = evaluate(job);
  const folder = new OutputFolder(out);
  const tell = (path: string): void => void process.stdout.write(`${path}\n`);
  tell(folder.write(`${nameJob(model)}.sheet.json`, printWhole(job)));
  for (const one of EXPORTS.filter(({ format }) => formats.includes(format))) {
    for (const index of listPlaces(one, model)) {
      const written = await one.write(model, index, { ...options, loadFont });
      tell(folder.write(nameExport(one, model, index), [written]));
    }
  }
  const missing = model.fittings.filter(({ built }) => built === null);
  for (const { resolved } of missing) refuse(`${resolved.tag}: cannot be built, the sheet says why`);
  return missing.length > 0 ? NOT_BUILDABLE : BUILDABLE;
}

/** The fittings that an export is written of: those that can be built; of an export of the whole job any one. */
function listPlaces(one: Export, model: Model): number[] {
  const places = [...model.fittings.keys()].filter((index) => one.applies(model, index));
  return one.covers === 'job'
    ? places.slice(0, 1)
    : places.filter((index) => model.fittings[index]!.built !== null);
}

function* printWhole(job: Job): Generator<string> {
  for (const { text } of printSheet(job)) yield text;
  yield '\n';
}

async function loadFont(): Promise<Uint8Array> {
  const { resolve } = createRequire(import.meta.url);
  return new Uint8Array(readFileSync(resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf')));
}
