// The order of work of fittings with panels, openings and several straights: what each step needs is there before it, and
// what every edge needs is done after the bodies are together. It shares no code with what orders the work.
import { describe, expect, it } from 'vitest';
import { findOpenEdges } from '../../src/lib/kernel/assembly/audit.ts';
import type { Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import type { Step, StepSentence } from '../../src/lib/kernel/fitting/step.ts';
import { build } from '../duct.ts';
import { generateBranch, GENERATED_BRANCHES } from './generated-branches.ts';
import { makeRandom } from './generated-paths.ts';

const RUNS = 40;
const PLENTY = 120_000;
const SAME = 1e-6;

/** How a straight is made, in order. */
const MAKING: readonly StepSentence[] = ['check', 'groove', 'strip', 'fold', 'square', 'staple', 'tape-seam'];

/** Steps that put bodies together for good. */
const JOINING: readonly StepSentence[] = [
  'join',
  'join-ends',
  'join-plain',
  'join-corners',
  'join-panels',
  'join-cap',
  'join-stub',
  'enter-stub',
  'join-parts'
];

/** Steps that spread glue for a joint. */
const GLUING: readonly StepSentence[] = ['glue', 'glue-ends', 'glue-panels', 'glue-cap', 'glue-stub'];

/** Facing does not glue to facing, and of corners the joining step says the glue. */
const UNGLUED: readonly StepSentence[] = ['join-parts', 'join-corners', 'join-ends'];

interface Bench {
  readonly fitting: Fitting;
  readonly steps: readonly Step[];
  readonly what: string;
  /** Where steps of these sentences are that are about a straight, a piece, a panel or an opening. */
  find(sentences: readonly StepSentence[], about?: string): number[];
}

function lookThrough(fitting: Fitting, steps: readonly Step[], what: string): Bench {
  const isAbout = ({ straight, pieces, cuts, data }: Step, name: string): boolean =>
    straight === name || pieces.includes(name) || cuts.includes(name) || data['opening'] === name;
  return {
    fitting,
    steps,
    what,
    find: (sentences, about) =>
      steps.flatMap((step, i) =>
        sentences.includes(step.sentence) && (about === undefined || isAbout(step, about)) ? [i] : []
      )
  };
}

/** Every straight is made before it is marked, marked and labelled before it is cut, cut on the face that is up. */
function expectStraights({ fitting, steps, what, find }: Bench): void {
  for (const { name, cuts, openings, marks, pieces } of fitting.straights) {
    const made = MAKING.map((sentence) => find([sentence], name));
    for (const at of made) expect(at.length, what).toBeGreaterThan(0);
    made.slice(1).forEach((at, i) => expect(at[0], what).toBeGreaterThan(Math.max(...made[i]!)));
    const ready = made[made.length - 1]![0]!;
    const told = [...cuts, ...openings, ...marks].map((one) => one.name);
    const marked = steps.filter(({ sentence, straight }) => sentence === 'mark' && straight === name);
    expect(marked.flatMap(({ data }) => data['cuts'] as string[]).sort(), what).toEqual(told.sort());
    for (const piece of pieces) {
      const labels = find(['label'], piece.name);
      expect(labels, what).toHaveLength(1);
      const flipped = steps[labels[0]!]!.data['flipped'] as string[];
      expect(flipped.includes(piece.name), what).toBe(piece.flipped);
      expect(find(['flip'], piece.name), what).toHaveLength(piece.flipped ? 1 : 0);
    }
    let up = 'top';
    steps.forEach((step, i) => {
      if (step.straight !== name) return;
      if (step.sentence === 'turn') {
        expect(step.face, what).not.toBe(up);
        up = step.face!;
      }
      const isCutting = ['cut', 'cut-opening', 'seal-opening', 'cut-slits', 'cut-wall', 'trim'].includes(
        step.sentence
      );
      if (!isCutting) return;
      expect(i, what).toBeGreaterThan(ready);
      for (const at of [...find(['mark'], name), ...pieces.flatMap((piece) => find(['label'], piece.name))])
        expect(i, what).toBeGreaterThan(at);
      expect(step.face, `${step.sentence} of ${what}`).toBe(up);
    });
  }
}

/** Every opening is cut once, as large as it is, and where its edge stays raw, sealed after that. */
function expectOpenings({ fitting, steps, what, find }: Bench): void {
  for (const { openings } of fitting.straights) {
    for (const { name, outer, circle } of openings) {
      const cuts = find(['cut-opening'], name);
      expect(cuts, what).toHaveLength(1);
      const { data } = steps[cuts[0]!]!;
      const extent = (axis: 0 | 1): [number, number] => {
        if (circle) return [circle.at[axis] - circle.outer, circle.at[axis] + circle.outer];
        const values = outer.map((point) => point[axis]);
        return [Math.min(...values), Math.max(...values)];
      };
      const wanted = [...extent(0), ...extent(1)];
      ['from', 'to', 'low', 'high'].forEach((key, i) => {
        expect(Math.abs(Number(data[key]) - wanted[i]!), `${key} of ${name} of ${what}`).toBeLessThan(SAME);
      });
      for (const at of find(['seal-opening'], name)) expect(at, what).toBeGreaterThan(cuts[0]!);
    }
  }
}

/** Every panel is labelled and cut once, as large as its outline is. */
function expectPanels({ fitting, steps, what, find }: Bench): void {
  for (const body of fitting.bodies) {
    if (body.kind !== 'panel') continue;
    expect(find(['label-panels'], body.name), what).toHaveLength(1);
    const cuts = find(['cut-panel'], body.name);
    expect(cuts, what).toHaveLength(1);
    const { data } = steps[cuts[0]!]!;
    const extent = (axis: 0 | 1): number => {
      const values = body.panel.outer.map((point) => point[axis]);
      return Math.max(...values) - Math.min(...values);
    };
    expect(Math.abs(Number(data['width']) - extent(0)), what).toBeLessThan(SAME);
    expect(Math.abs(Number(data['length']) - extent(1)), what).toBeLessThan(SAME);
  }
}

/** Bodies are whole before they are fitted dry, fitted before glue, glued before they are joined, and then held. */
function expectJoints({ fitting, steps, what, find }: Bench): void {
  const [fit] = find(['fit']);
  if (fitting.joints.length > 0) expect(fit, what).toBeDefined();
  for (const { bodies } of fitting.joints) {
    const joins = find(JOINING, bodies[0]).filter((i) => steps[i]!.pieces.includes(bodies[1]));
    // Panels that are joined to each other are joined to a third together.
    expect(joins.length, `${bodies.join(' and ')} of ${what}`).toBeGreaterThan(0);
    const [join] = joins as [number];
    for (const name of bodies) {
      expect(steps[fit!]!.pieces, what).toContain(name);
      for (const at of find(
        ['cut', 'cut-opening', 'cut-panel', 'separate', 'flip', 'label', 'tape-seam'],
        name
      ))
        expect(at, what).toBeLessThan(fit!);
    }
    expect(join, what).toBeGreaterThan(fit!);
    const { sentence, pieces } = steps[join]!;
    const glues = find(GLUING, bodies[0]).filter((i) => steps[i]!.pieces.join() === pieces.join());
    if (UNGLUED.includes(sentence)) expect(glues, what).toHaveLength(0);
    else {
      expect(glues, what).toHaveLength(1);
      expect(glues[0], what).toBeLessThan(join);
      expect(glues[0], what).toBeGreaterThan(fit!);
    }
  }
}

/** What an edge needs is done by one step, once the bodies it is about are together. */
function expectDeeds({ fitting, steps, what, find }: Bench): void {
  const needed = new Set(fitting.ports.flatMap(({ name, end }) => (end === 'plain' ? [`seal ${name}`] : [])));
  for (const body of fitting.bodies) {
    const joins = fitting.joints.some(({ bodies }) => bodies.includes(body.name))
      ? find(JOINING, body.name)
      : [];
    for (const { edges } of body.walls) {
      for (const { closing } of edges) {
        for (const deed of closing?.needs ?? []) {
          needed.add(deed);
          const done = steps.flatMap(({ does }, i) => (does.includes(deed) ? [i] : []));
          expect(done, `${deed} of ${what}`).toHaveLength(1);
          const isJoint = closing!.by === 'joint' || closing!.by === 'butt';
          if (isJoint && joins.length > 0) {
            const mine = joins.filter((i) => steps[done[0]!]!.pieces.join() === steps[i]!.pieces.join());
            for (const i of mine) expect(done[0], `${deed} of ${what}`).toBeGreaterThan(i);
          }
        }
      }
    }
  }
  // No step claims to close what no edge needs, and none can be left out unnoticed.
  for (const [i, { does }] of steps.entries()) {
    for (const deed of does) expect(needed.has(deed), `${deed} of ${what}`).toBe(true);
    if (does.length === 0) continue;
    const without = steps.filter((_, k) => k !== i);
    expect(findOpenEdges(fitting, without).length, what).toBeGreaterThan(0);
  }
}

describe.each(GENERATED_BRANCHES)('the order of work of the family %s', (family) => {
  it('has what each step needs before it, and ends whole and closed', { timeout: PLENTY }, () => {
    const random = makeRandom(22_360 + GENERATED_BRANCHES.indexOf(family));
    for (let i = 0; i < RUNS; i++) {
      const drawn = generateBranch(random, family);
      const { fitting, steps, openEdges } = build(drawn.said, drawn.stock);
      const bench = lookThrough(fitting, steps, JSON.stringify(drawn));
      expectStraights(bench);
      expectOpenings(bench);
      expectPanels(bench);
      expectJoints(bench);
      expectDeeds(bench);
      expect(openEdges, bench.what).toBe(0);
      expect(bench.find(['inspect']), bench.what).toEqual([steps.length - 1]);
    }
  });
});
