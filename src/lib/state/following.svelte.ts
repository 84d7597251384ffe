import { untrack } from 'svelte';
import { findStanding } from '../kernel/document/resolve.ts';
import type { Job, SaidFitting } from '../kernel/document/job.ts';
import { findFamily } from '../kernel/families/index.ts';
import { listMiterJoints } from '../kernel/fitting/fitting.ts';
import type { Site } from '../kernel/site/site.ts';
import type { SolveOptions } from '../kernel/solve.ts';
import type { Answer, Proposal, Refusal } from '../kernel/solve-answer.ts';
import type { Editor } from './editor.svelte.ts';
import { createSolving, type SolveRequest } from './solving.svelte.ts';

/** An answer, and what was asked. */
export interface Solved {
  readonly answer: Answer;
  readonly request: SolveRequest;
}

/** The fitting that stands in the site is found anew whenever the site changes. */
export interface Following {
  /** Set for a fitting that was not found by the page, it is taken as found for the site as it is. */
  on: boolean;
  /** Whether a fitting stands there that could follow: one of a family that finds its own way. */
  readonly possible: boolean;
  /** Why it cannot follow the site as it is now. */
  readonly lost: Refusal | null;
  /** The last answer of the families that are quick. */
  readonly solved: Solved | null;
  /** Takes a proposal over as an ordinary fitting, as one entry of the history. */
  take(proposal: Proposal): void;
}

/** Families that answer while an obstacle is still being dragged. */
const QUICK = ['straight', 'bend', 'offset'];

/** What the page knows of parameters that it found: the site they were found for, and what they amount to. */
interface Trail extends Pick<Proposal, 'joints' | 'turn'> {
  readonly site: string;
}

/**
 * Follows the site while a component lives; call it while that is made. `options` are those of the search, and `listens`
 * tells whether quick answers are wanted where nothing follows too.
 */
export function keepFollowing(
  editor: Editor,
  options: () => SolveOptions,
  listens: () => boolean
): Following {
  /** By the parameters themselves: those that are said otherwise, or undone to, are others. */
  const trails = new WeakMap<object, Trail>();
  let adopted = $state(0);
  let wanted = $state(true);
  let lost = $state.raw<Refusal | null>(null);
  let solved = $state.raw<Solved | null>(null);
  let asked = { site: '', params: null as object | null };
  const solving = createSolving(hear);

  const standing = $derived(readStanding(editor.job));
  const isOn = $derived.by(() => {
    void adopted;
    return wanted && standing !== null && trails.has(standing.said.params);
  });

  $effect(() => {
    const { job } = editor;
    if (!job.site) return;
    const site = describeSite(job.site);
    const params = standing?.said.params ?? null;
    const isStale = isOn && trails.get(params!)!.site !== site;
    if (!isStale) lost = null;
    if (!isStale && !listens()) return;
    if (site === asked.site && params === asked.params) return;
    asked = { site, params };
    const own = isOn ? standing!.said.family : QUICK[0]!;
    const families = QUICK.includes(own) ? QUICK : [...QUICK, own];
    untrack(() => solving.ask({ job, options: { ...options(), families } }));
  });
  $effect(() => () => solving.cancel());

  function hear(answer: Answer, request: SolveRequest): void {
    solved = { answer, request };
    const before = readStanding(request.job);
    // The document may have gone on, or back, while the site was solved.
    if (!isOn || !before || !standing || before.said.params !== standing.said.params) return;
    const trail = trails.get(standing.said.params)!;
    if (trail.site === describeSite(standing.site)) return;
    const { family, params } = standing.said;
    const next = findAlike(answer, family, trail);
    lost = next ? null : (answer.refused.find((refusal) => refusal.family === family) ?? null);
    if (!next) return;
    const takenBack = Object.fromEntries(Object.keys(params).map((name) => [name, undefined]));
    // Inside the gesture that changes the site, or after it: either way it is part of that entry of the history.
    editor.apply({
      kind: 'set-params',
      fitting: standing.at,
      params: { ...takenBack, ...next.fitting.params }
    });
    mark(next, before.site);
  }

  function mark({ joints, turn }: Pick<Proposal, 'joints' | 'turn'>, site: Site): void {
    const there = readStanding(editor.job);
    if (there) trails.set(there.said.params, { joints, turn, site: describeSite(site) });
    adopted++;
  }

  return {
    get on() {
      return isOn;
    },
    set on(on) {
      wanted = on;
      const built = standing && editor.model.fittings[standing.at]?.built;
      if (!on || !built || trails.has(standing.said.params)) return;
      const joints = listMiterJoints(built.fitting);
      mark(
        { joints: joints.length, turn: joints.reduce((sum, { miter }) => sum + 2 * miter, 0) },
        standing.site
      );
    },
    get possible() {
      return standing !== null && findFamily(standing.said.family).listRoutes !== undefined;
    },
    get lost() {
      return lost;
    },
    get solved() {
      return solved;
    },
    take(proposal) {
      editor.do({ kind: 'take-proposal', fitting: proposal.fitting });
      mark(proposal, editor.job.site!);
    }
  };
}

function readStanding(job: Job): { at: number; said: SaidFitting; site: Site } | null {
  const at = findStanding(job);
  return at === null ? null : { at, said: job.fittings![at]!, site: job.site! };
}

/** All of a site that a way through it depends on. */
export function describeSite({ section, end, clearance, obstacles }: Site): string {
  const boxes = obstacles.map((one) => [one.min, one.max, one.clearance, one.turn]);
  return JSON.stringify([section, end, clearance, boxes]);
}

/** The proposal of the family that is most like what stood there: in its joints, then in all that it turns. */
function findAlike({ proposals }: Answer, family: string, trail: Trail): Proposal | null {
  const apart = (one: Proposal, what: 'joints' | 'turn'): number => Math.abs(one[what] - trail[what]);
  const [nearest] = proposals
    .filter(({ fitting }) => fitting.family === family)
    .sort((a, b) => apart(a, 'joints') - apart(b, 'joints') || apart(a, 'turn') - apart(b, 'turn'));
  return nearest ?? null;
}
