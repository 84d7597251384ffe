import { readFileSync } from 'node:fs';
import type { Export, ExportOptions } from '../src/lib/exports/export.ts';
import { EXPORTS } from '../src/lib/exports/index.ts';
import { checkJob } from '../src/lib/kernel/document/read.ts';
import { evaluate, type Model } from '../src/lib/kernel/evaluate.ts';
import { FOLDED } from './duct.ts';
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

/** Fittings of panels, with openings, of several parts, closed: of every family that is not one mitered duct. */
export const PARTED_EXAMPLES = {
  'a reducer of panels': {
    family: 'reducer',
    section: duct(400, 250),
    params: { outlet: duct(300, 150), alignY: 'bottom', length: 400, collarIn: 150, collarOut: 150 }
  },
  'a reducer without collars': {
    family: 'reducer',
    section: duct(400, 250),
    params: { outlet: duct(300, 200), length: 500, collarIn: 0, collarOut: 0 }
  },
  'a folded reducer': FOLDED,
  'a folded and trimmed reducer that opens': {
    family: 'reducer',
    section: duct(400, 250),
    params: {
      outlet: duct(500, 250),
      alignZ: 'left',
      length: 400,
      collarIn: 150,
      collarOut: 150,
      method: 'fold',
      finish: 'trim'
    }
  },
  'a take-off': {
    family: 'takeoff',
    section: duct(400, 250),
    params: { length: 900, wall: 'right', station: 450, branch: { across: 150, along: 200 }, neck: 250 }
  },
  'a slanting take-off let in': {
    family: 'takeoff',
    section: duct(400, 250),
    params: {
      length: 1000,
      wall: 'bottom',
      station: 450,
      branch: { across: 150, along: 150 },
      angle: 60,
      fit: 'enter'
    }
  },
  'a take-off with a shoe': {
    family: 'takeoff',
    section: duct(400, 250),
    params: {
      length: 1000,
      wall: 'top',
      station: 500,
      branch: { across: 150, along: 200 },
      entry: 'shoe'
    }
  },
  'one side that turns': {
    family: 'split-bend',
    section: duct(500, 250),
    params: {
      toward: 'left',
      turned: { inside: 180, turn: 90, pieces: 3, throatIn: 200, gore: 150, throatOut: 200 },
      straight: { length: 600 }
    }
  },
  'both sides that turn, one over the other': {
    family: 'wye',
    section: duct(300, 450),
    params: {
      divide: 'height',
      first: { inside: 200, turn: 45, pieces: 2 },
      second: { turn: 90, pieces: 3 }
    }
  },
  'three ways': {
    family: 'three-way',
    section: duct(700, 250),
    params: {
      first: { inside: 150, turn: 60, pieces: 3 },
      middle: { length: 700 },
      second: { inside: 150, turn: 60, pieces: 3 }
    }
  },
  'a cap set in': { family: 'cap', section: duct(400, 250), params: { set: 'in', length: 200 } },
  'a cap set on': { family: 'cap', section: duct(400, 250), params: { set: 'on', length: 200 } },
  'a round opening': {
    family: 'opening',
    section: duct(400, 250),
    params: { length: 800, wall: 'top', station: 400, shape: 'round', diameter: 160 }
  },
  'a slanted opening on the left': {
    family: 'opening',
    section: duct(400, 250),
    params: {
      length: 800,
      wall: 'left',
      station: 350,
      aside: 20,
      shape: 'rectangle',
      along: 240,
      across: 120,
      bevel: 30
    }
  },
  'a box': {
    family: 'box',
    section: duct(500, 300),
    params: {
      length: 700,
      openings: [
        { wall: 'top', station: 200, shape: 'round', diameter: 160 },
        { wall: 'bottom', station: 350, shape: 'rectangle', along: 500, across: 300 }
      ]
    }
  }
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
