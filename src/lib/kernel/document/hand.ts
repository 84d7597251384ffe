import { readParam } from '../families/param-path.ts';
import { findOppositeCorner, type Corner } from '../straight/section.ts';
import type { Job, SaidFitting } from './job.ts';
import { resolveBoard, resolveFitting, resolveShop, type ResolvedFitting } from './resolve.ts';

const OTHER_HAND: Record<Corner, Corner> = {
  'top-left': 'top-right',
  'top-right': 'top-left',
  'bottom-right': 'bottom-left',
  'bottom-left': 'bottom-right'
};

/** A fitting of the job as the other hand: its mirror image, left for right. Null where its family has none. */
export function mirrorFitting(job: Job, at: number): SaidFitting | null {
  const [said, { family, values }] = resolveAt(job, at);
  if (!family.mirror) return null;
  return {
    ...said,
    params: sayChanged(said, values, family.mirror(values as never)),
    ...(said.seam && { seam: OTHER_HAND[said.seam] })
  };
}

/** A fitting of the job seen from its other end: the outlet becomes the inlet, up stays up. Null where that is none. */
export function reverseFitting(job: Job, at: number): SaidFitting | null {
  const [said, resolved] = resolveAt(job, at);
  const { family, values, setting } = resolved;
  if (!family.reverse) return null;
  const { inlet, outlet } = said.ends ?? {};
  return {
    ...said,
    params: sayChanged(said, values, family.reverse(values as never, setting)),
    ...(said.ends && { ends: { ...(outlet && { inlet: outlet }), ...(inlet && { outlet: inlet }) } }),
    ...(said.seam && { seam: OTHER_HAND[findSeamAtOutlet(said.seam, resolved)] })
  };
}

function resolveAt(job: Job, at: number): [SaidFitting, ResolvedFitting] {
  const said = job.fittings?.[at];
  if (!said) throw new Error(`no fitting ${at} among ${job.fittings?.length ?? 0}`);
  return [said, resolveFitting(said, at, resolveBoard(job), resolveShop(job))];
}

/** What was said, with what changes; a default that stays as it is stays unsaid, undefined takes back. */
function sayChanged(
  { params }: SaidFitting,
  values: Readonly<Record<string, unknown>>,
  changes: Readonly<Record<string, unknown>>
): Readonly<Record<string, unknown>> {
  const changed = Object.entries(changes).filter(([name, value]) => !isSame(readParam(values, name), value));
  const all = Object.entries({ ...params, ...Object.fromEntries(changed) });
  return Object.fromEntries(all.filter(([, value]) => value !== undefined));
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** A piece that was rolled over carries the seam at the opposite corner. */
function findSeamAtOutlet(seam: Corner, { family, values, setting }: ResolvedFitting): Corner {
  const { fitting } = family.build(values as never, setting);
  const last = fitting?.bodies[fitting.bodies.length - 1];
  return last?.kind === 'piece' && last.piece.flipped ? findOppositeCorner(seam) : seam;
}
