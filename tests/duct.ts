import type { SaidFitting } from '../src/lib/kernel/document/job.ts';
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../src/lib/kernel/document/job.ts';
import { evaluate, evaluateFitting, type BuiltModel, type FittingModel } from '../src/lib/kernel/evaluate.ts';
import { readJob, tellFault } from '../src/lib/kernel/document/read.ts';
import type { Board, Shop } from '../src/lib/kernel/straight/board.ts';
import type { Sheet, SheetFitting } from '../src/lib/sheet/schema.ts';
import { writeSheet } from '../src/lib/sheet/sheet.ts';

/** Sections of the tests, inside, mm. */
export const SECTION = { width: 400, height: 250 };

/** A reducer in one piece, its top folded down by 100 over 400; 700 long. */
export const FOLDED = {
  family: 'reducer',
  section: SECTION,
  params: {
    outlet: { width: 400, height: 150 },
    alignY: 'bottom',
    length: 400,
    collarIn: 150,
    collarOut: 150,
    method: 'fold'
  }
} as const;

/** A board so large that no path is divided over several straights. */
export const ENDLESS = { length: 100_000, width: 100_000 };

/** Stock and shop where a test says otherwise than the defaults. */
export interface Stock {
  readonly board?: Partial<Board>;
  readonly shop?: Partial<Shop>;
}

/** What the kernel makes of one fitting. */
export function evaluateOne(said: SaidFitting, { board, shop }: Stock = {}): FittingModel {
  return evaluateFitting(said, 0, { ...DEFAULT_BOARD, ...board }, { ...DEFAULT_SHOP, ...shop });
}

/** The fitting as the kernel builds it; an error finding is thrown. */
export function build(said: SaidFitting, stock: Stock = {}): BuiltModel {
  const { built, findings } = evaluateOne(said, stock);
  if (!built) throw new Error(`not buildable: ${JSON.stringify(findings)}`);
  return built;
}

/** A free path as the kernel builds it. */
export function buildPath(
  lengths: readonly number[],
  joints: readonly { readonly turn: number; readonly heel: number }[],
  section = SECTION,
  stock: Stock = {}
): BuiltModel {
  return build({ family: 'path', section, params: { lengths, joints } }, stock);
}

/** A bend as the kernel builds it. */
export function buildBend(
  params: Readonly<Record<string, unknown>>,
  section = SECTION,
  stock: Stock = {}
): BuiltModel {
  return build({ family: 'bend', section, params: { heel: 'right', ...params } }, stock);
}

/** The sheet of a document, read from its text as the command line does; a fault is thrown. */
export function writeSheetOf(job: unknown): Sheet {
  const read = readJob(JSON.stringify(job));
  if ('fault' in read) throw new Error(tellFault(read.fault));
  return writeSheet(evaluate(read.job));
}

/** The sheet of one fitting. */
export function writeSheetOfFitting(
  fitting: unknown,
  rest: Readonly<Record<string, unknown>> = {}
): SheetFitting {
  return writeSheetOf({ format: 'gorewright-job', version: 1, ...rest, fittings: [fitting] }).fittings[0]!;
}
