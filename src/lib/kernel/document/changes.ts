import { findFamily } from '../families/index.ts';
import { splitPath, writeParam } from '../families/param-path.ts';
import type { Section } from '../straight/section.ts';
import type { Job, SaidFitting } from './job.ts';

/** Everything that can be done to a document. `fitting` is its place in the list, from 0. */
export type Change =
  /** Says parameters; undefined takes a parameter back, so that its default or another driver holds. */
  | {
      readonly kind: 'set-params';
      readonly fitting: number;
      readonly params: Readonly<Record<string, unknown>>;
    }
  | { readonly kind: 'set-section'; readonly fitting: number; readonly section: Section }
  /** How its straights are laid and what ends they have; undefined takes a wish back. */
  | {
      readonly kind: 'set-making';
      readonly fitting: number;
      readonly making: Pick<SaidFitting, 'lay' | 'ends'>;
    }
  | { readonly kind: 'open-job'; readonly job: Job };

/** The document after a change; what is not changed stays the same object. */
export function changeJob(job: Job, change: Change): Job {
  switch (change.kind) {
    case 'open-job':
      return change.job;
    case 'set-params':
      return changeFitting(job, change.fitting, (said) => ({
        ...said,
        params: withoutUndefined({ ...said.params, ...change.params })
      }));
    case 'set-making':
      return changeFitting(job, change.fitting, (said) => ({ ...said, ...change.making }));
    case 'set-section':
      return changeFitting(job, change.fitting, (said) => ({ ...said, section: change.section }));
  }
}

/**
 * The change that says one parameter, named by its path inside `params`: `gore`, `joints[1].turn`. Saying a driver takes
 * the others back.
 */
export function sayParam(job: Job, fitting: number, path: string, value: unknown): Change {
  const said = job.fittings?.[fitting];
  if (!said) throw new Error(`no fitting ${fitting} among ${job.fittings?.length ?? 0}`);
  const name = splitPath(path)[0]!;
  const others = findFamily(said.family).drivers?.names ?? [];
  const takenBack = others.includes(name)
    ? Object.fromEntries(others.map((other) => [other, undefined]))
    : {};
  return {
    kind: 'set-params',
    fitting,
    params: { ...takenBack, [name]: writeParam(said.params, path, value)[name] }
  };
}

function changeFitting(job: Job, at: number, change: (said: SaidFitting) => SaidFitting): Job {
  const fittings = job.fittings ?? [];
  if (!fittings[at]) throw new Error(`no fitting ${at} among ${fittings.length}`);
  return { ...job, fittings: fittings.map((said, i) => (i === at ? change(said) : said)) };
}

function withoutUndefined(record: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined));
}
