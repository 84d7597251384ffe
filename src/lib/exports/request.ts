import type { ExportOptions } from './export.ts';
import { EXPORTS } from './index.ts';
import type { Job } from '../kernel/document/job.ts';
import { evaluate } from '../kernel/evaluate.ts';
import type { ExportId } from '../words/print.ts';

/** What the page asks for: an export of a fitting of a job, and where the font of PDF files is fetched. */
export interface ExportRequest {
  readonly job: Job;
  readonly fitting: number;
  readonly id: ExportId;
  readonly options: Omit<ExportOptions, 'loadFont' | 'tell'>;
  readonly fontUrl: string;
}

/** Pages done, of how many; at last the file. */
export type ExportStep =
  { readonly done: number; readonly of: number } | { readonly written: Uint8Array<ArrayBuffer> | string };

/** Writes what a request asks for. It is cancelled by ending the worker: it holds nothing that would be lost. */
export async function writeRequest(
  { job, fitting, id, options, fontUrl }: ExportRequest,
  tell: NonNullable<ExportOptions['tell']>
): Promise<Uint8Array<ArrayBuffer> | string> {
  const asked = EXPORTS.find((one) => one.id === id);
  if (!asked) throw new Error(`nothing is written as "${id}"`);
  const loadFont = async (): Promise<Uint8Array> =>
    new Uint8Array(await (await fetch(fontUrl)).arrayBuffer());
  const written = await asked.write(evaluate(job), fitting, { ...options, loadFont, tell });
  return written as Uint8Array<ArrayBuffer> | string;
}
