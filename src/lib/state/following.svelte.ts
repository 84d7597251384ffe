import { untrack } from 'svelte';
import { tellFault } from '../kernel/document/read.ts';
import { findStanding } from '../kernel/document/resolve.ts';
import type { Job, SaidFitting } from '../kernel/document/job.ts';
import { findFamily } from '../kernel/families/index.ts';
import { listMiterJoints } from '../kernel/fitting/fitting.ts';
import type { SolveOptions } from '../kernel/solve.ts';
import type { Answer, Proposal, Refusal } from '../kernel/solve-answer.ts';
import type { Followed, Trail } from './beside-job.ts';
import type { Editor } from './editor.svelte.ts';
import { createSolving, type SolveRequest } from './solving.svelte.ts';
import { loadFollowed, saveFollowed } from './storage.ts';

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

/**
 * Follows the site while a component lives, and keeps in the browser what follows; call it while that is made. `options` are those of the search, and `listens`
 * tells whether quick answers are wanted even where nothing has to follow.
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
  let asked = { site: '', params: null as object | null, isOn: false };
  const solving = createSolving(hear);

  const standing = $derived(readStanding(editor.job));
  const isOn = $derived.by(() => {
    void adopted;
    return wanted && standing !== null && trails.has(standing.said.params);
  });

  $effect(() => {
    const { job } = editor;
    if (!job.site) return;
    const site = identifyTask(job);
    const params = standing?.said.params ?? null;
    const isStale = isOn && trails.get(params!)!.site !== site;
    if (!isStale) lost = null;
    const isKnown = solved !== null && identifyTask(solved.request.job) === site;
    if (!isStale && (isKnown || !listens())) return;
    if (site === asked.site && params === asked.params && isOn === asked.isOn) return;
    asked = { site, params, isOn };
    const isSlow = isOn && !QUICK.includes(standing!.said.family);
    const families = isSlow ? [...QUICK, standing!.said.family] : QUICK;
    const near = isOn ? { family: standing!.said.family, params: standing!.said.params } : undefined;
    untrack(() => solving.ask({ job, options: { ...options(), families, ...(near && { near }) } }));
  });
  $effect(() => () => solving.cancel());

  let ready = $state(false);
  loadFollowed()
    .then((kept) => kept && resume(kept))
    // Where the browser keeps nothing, the job's own state says so.
    .catch(() => null)
    .finally(() => (ready = true));
  // A text that stays the same while the rest of the job is edited.
  const followed = $derived.by(() => {
    void adopted;
    return isOn ? JSON.stringify(tellFollowed()) : null;
  });
  $effect(() => {
    if (ready) saveFollowed(followed === null ? null : (JSON.parse(followed) as Followed)).catch(() => null);
  });

  function tellFollowed(): Followed {
    const { said } = standing!;
    return { said: identifySaid(said), ...trails.get(said.params)! };
  }

  /** What followed when the page was left goes on if it still stands there as it did. */
  function resume({ said, ...trail }: Followed): void {
    if (!standing || trails.has(standing.said.params) || identifySaid(standing.said) !== said) return;
    trails.set(standing.said.params, trail);
    adopted++;
  }

  function hear(answer: Answer, request: SolveRequest): void {
    solved = { answer, request };
    const before = readStanding(request.job);
    // The document may have gone on, or back, while the site was solved.
    if (!isOn || !before || !standing || before.said.params !== standing.said.params) return;
    const trail = trails.get(standing.said.params)!;
    if (trail.site === identifyTask(editor.job)) return;
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
    mark(next, request.job);
  }

  function mark({ joints, turn }: Pick<Proposal, 'joints' | 'turn'>, job: Job): void {
    const there = readStanding(editor.job);
    if (there) trails.set(there.said.params, { joints, turn, site: identifyTask(job) });
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
        editor.job
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
      const fault = editor.do({ kind: 'take-proposal', fitting: proposal.fitting });
      if (fault) throw new Error(`a proposal is no fitting: ${tellFault(fault)}`);
      mark(proposal, editor.job);
    }
  };
}

function readStanding(job: Job): { readonly at: number; readonly said: SaidFitting } | null {
  const at = findStanding(job);
  return at === null ? null : { at, said: job.fittings![at]! };
}

function identifySaid({ family, params }: SaidFitting): string {
  return JSON.stringify([family, params]);
}

/** All of a job that a way through its site depends on, as one text: two jobs with the same have the same ways. */
export function identifyTask({ site, board, shop }: Job): string {
  const boxes = site?.obstacles.map(({ min, max, clearance, turn }) => [min, max, clearance, turn]);
  return JSON.stringify([site?.section, site?.end, site?.clearance, boxes, board, shop]);
}

/** The proposal of the family that is most like what stood there: in its joints, then in all that it turns. */
function findAlike({ proposals }: Answer, family: string, trail: Trail): Proposal | null {
  const apart = (one: Proposal, what: 'joints' | 'turn'): number => Math.abs(one[what] - trail[what]);
  const [nearest] = proposals
    .filter(({ fitting }) => fitting.family === family)
    .sort((a, b) => apart(a, 'joints') - apart(b, 'joints') || apart(a, 'turn') - apart(b, 'turn'));
  return nearest ?? null;
}
