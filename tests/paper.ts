import { readFileSync } from 'node:fs';
import { EXPORTS, type Export, type ExportOptions } from '../src/lib/exports/index.ts';
import { checkJob } from '../src/lib/kernel/document/read.ts';
import { evaluate, type Model } from '../src/lib/kernel/evaluate.ts';
import { readPdf, type ReadPage } from './pdf.ts';

const FONT = new URL('../node_modules/dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf', import.meta.url);
export const loadFont = async (): Promise<Uint8Array> => new Uint8Array(readFileSync(FONT));

const duct = (width: number, height: number) => ({ width, height });

/** One fitting of every family, from one to four cuts, as documents say them. */
export const EXAMPLES = {
  bend: {
    family: 'bend',
    section: duct(400, 250),
    params: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 }
  },
  offset: {
    family: 'offset',
    section: duct(400, 250),
    params: { rise: 220, roll: 140, turn: 45, throatIn: 200, throatOut: 'rest' }
  },
  'double-offset': {
    family: 'double-offset',
    section: duct(300, 150),
    params: { rise: -300, turn: 45, level: 150, throatIn: 205, throatOut: 205 }
  },
  path: {
    family: 'path',
    section: duct(300, 300),
    params: {
      lengths: [420, 500, 460],
      joints: [
        { turn: 40, heel: 33 },
        { turn: 25, heel: 213 }
      ]
    }
  },
  straight: { family: 'straight', section: duct(400, 250), params: { length: 1180 } }
} as const;

/** What the product knows of these fittings; a fault of the document is thrown. */
export function evaluateJob(fittings: readonly object[], rest: object = {}): Model {
  const read = checkJob({
    format: 'gorewright-job',
    version: 1,
    name: 'Reading room supply',
    ...rest,
    fittings
  });
  if ('fault' in read) throw new Error(`${read.fault.path} ${read.fault.wrong}`);
  return evaluate(read.job);
}

export function findExport(id: Export['id']): Export {
  return EXPORTS.find((candidate) => candidate.id === id)!;
}

/** The pages of an export as an independent reader finds them. */
export async function printPages(
  id: Export['id'],
  model: Model,
  options: Partial<ExportOptions> = {},
  index = 0
): Promise<ReadPage[]> {
  const written = await findExport(id).write(model, index, { paper: 'a4', loadFont, ...options });
  return readPdf(written as Uint8Array);
}
