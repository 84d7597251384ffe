// The order of work, over every family's example and over paths: everything is done once, and after what it needs.
import { findMiddle, isMating, listPieceBodies } from '../fitting/fitting.ts';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { build, buildBend, buildPath, evaluateOne } from '../../../../tests/duct.ts';
import { drawParams, drawSection } from '../../../../tests/properties/documents.ts';
import { makeSpeech, speak, tellStep } from '../../words/words.ts';
import { DEFAULT_SHOW, LANGUAGES } from '../document/job.ts';
import type { BuiltModel } from '../evaluate.ts';
import { FAMILIES } from '../families/index.ts';
import { cosDegrees, sinDegrees } from '../geometry/angle.ts';
import { movePoint, turnDirection, type Motion } from '../geometry/motion.ts';
import { distance, type Vec3 } from '../geometry/vector.ts';
import { findStation } from '../straight/cut.ts';
import { FACE_CLOCK, FACES, findOppositeFace } from '../straight/section.ts';
import { findOpenEdges } from './audit.ts';
import { poseBodies } from './pose.ts';
import type { Step, StepKind } from '../fitting/step.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

/** Places of the steps of a kind that concern something. */
function findSteps(
  steps: readonly Step[],
  kind: StepKind,
  concerns: (step: Step) => boolean = () => true
): number[] {
  return steps.flatMap((step, i) => (step.kind === kind && concerns(step) ? [i] : []));
}

/** Asserts the order of one fitting's work; tells how many cuts it had. */
function checkOrder({ fitting, steps }: BuiltModel): number {
  const kinds = steps.map(({ kind }) => kind);
  expect(kinds[0]).toBe('check');
  expect(kinds[kinds.length - 1]).toBe('inspect');
  const only = (kind: StepKind, concerns?: (step: Step) => boolean): number => {
    const found = findSteps(steps, kind, concerns);
    expect(found).toHaveLength(1);
    return found[0]!;
  };
  let cuts = 0;
  for (const straight of fitting.straights) {
    const of = (step: Step): boolean => step.straight === straight.name;
    const [folded, squared, stapled] = (['fold', 'square', 'staple'] as const).map((kind) => only(kind, of));
    const taped = only('tape', (step) => of(step) && step.sentence === 'tape-seam');
    expect([folded, squared, stapled, taped]).toEqual(
      [folded, squared, stapled, taped].sort((a, b) => a! - b!)
    );
    for (const cut of straight.cuts) {
      const made = findSteps(steps, 'cut', (step) => of(step) && step.cuts.includes(cut.name));
      // On every face once, after marking and labelling; the last face frees a piece.
      expect(made.map((i) => steps[i]!.face).sort()).toEqual([...FACES].sort());
      const marked = only('mark', (step) => of(step) && step.cuts.includes(cut.name));
      const labelled = only('label', of);
      expect(taped).toBeLessThan(marked);
      expect(marked).toBeLessThan(labelled);
      expect(labelled).toBeLessThan(made[0]!);
      const parted = only('separate', (step) => of(step) && step.cuts.includes(cut.name));
      expect(parted).toBe(made[3]! + 1);
      // It ends on the face opposite the one it began on, and pieces are supported before.
      expect(steps[made[3]!]!.face).toBe(findOppositeFace(steps[made[0]!]!.face!));
      const supported = findSteps(steps, 'support', (step) => of(step) && step.cuts.includes(cut.name));
      expect(supported).toHaveLength(1);
      expect(supported[0]).toBeLessThan(made[3]!);
      expect(supported[0]).toBeGreaterThan(made[2]!);
      cuts++;
    }
  }
  for (const body of fitting.bodies) {
    const concerns = (step: Step): boolean => step.pieces.includes(body.name);
    const joints = fitting.joints.filter(({ bodies }) => bodies.includes(body.name));
    const joins = findSteps(steps, 'join', concerns);
    const told = joints.filter(({ closing }) => closing.kind !== 'made').length;
    const saying = fitting.joints.flatMap(({ closing }) => (closing.kind === 'made' ? closing.steps() : []));
    expect(joins).toHaveLength(told + findSteps(saying, 'join', concerns).length);
    if (joints.length === 0) continue;
    expect(joins.length).toBeGreaterThan(0);
    const freed = findSteps(steps, 'separate', concerns);
    // A part without a cut is free as it is folded.
    const piece = body.kind === 'piece' ? body.piece : null;
    const cut = piece?.startCut ?? piece?.endCut;
    expect(freed).toHaveLength(cut ? 1 : 0);
    const flipped = findSteps(steps, 'flip', concerns);
    expect(flipped).toHaveLength(piece?.flipped ? 1 : 0);
    const fitted = only('fit', concerns);
    if (cut) expect(freed[0]).toBeLessThan(fitted);
    for (const flip of flipped) {
      if (cut) expect(freed[0]).toBeLessThan(flip);
      expect(flip).toBeLessThan(fitted);
    }
    expect(fitted).toBeLessThan(joins[0]!);
  }
  const joined = new Set<string>();
  for (const joint of fitting.joints) {
    if (joint.closing.kind === 'made') {
      // Its steps follow one another.
      const own = joint.closing.steps();
      if (own.length > 0) {
        const at = steps.findIndex((step) => JSON.stringify(step) === JSON.stringify(own[0]));
        expect(steps.slice(at, at + own.length)).toEqual(own);
      }
      for (const name of joint.bodies) joined.add(name);
      continue;
    }
    const about = (step: Step): boolean =>
      joint.closing.kind === 'miter'
        ? step.cuts.includes(joint.closing.cut) && joint.bodies.every((name) => step.pieces.includes(name))
        : step.pieces.join() === joint.bodies.join();
    const { closing } = joint;
    const [made, tabbed] = (['join', 'tab'] as const).map((kind) => only(kind, about));
    const sentence = closing.kind === 'miter' ? 'tape-joint' : 'tape-ends';
    const taped = only('tape', (step) => about(step) && step.sentence === sentence);
    expect([tabbed, taped]).toEqual([made! + 1, made! + 2]);
    // A male end in a female one is not glued.
    const mates = closing.kind === 'ends' && isMating(closing.ends);
    expect(findSteps(steps, 'glue', about)).toEqual(mates ? [] : [made! - 1]);
    // What is joined grows from the inlet's piece, or of parts side by side each from its own: the first of the two is
    // already part of it.
    const isFirst = fitting.straights.some(({ pieces }) => pieces[0]!.name === joint.bodies[0]);
    if (joined.size > 0 && !isFirst) expect(joined.has(joint.bodies[0])).toBe(true);
    for (const name of joint.bodies) joined.add(name);
  }
  if (fitting.joints.length > 0) expect(joined.size).toBe(fitting.bodies.length);
  return cuts;
}

/** The faces turned up one after another are those that are cut. */
function checkTurns(steps: readonly Step[]): void {
  let up = 'top';
  for (const step of steps) {
    if (step.kind === 'check') up = 'top';
    if (step.kind === 'turn') {
      expect(step.face).not.toBe(up);
      const opposite = findOppositeFace(up as 'top') === step.face;
      expect(step.data['quarters']).toBe(opposite ? 2 : 1);
      up = step.face!;
    }
    // A panel lies flat.
    if (step.kind === 'cut' && step.straight !== null) expect(step.face).toBe(up);
  }
}

describe.each(FAMILIES.map((family) => [family.name, family] as const))(
  'the work on a %s',
  (_name, family) => {
    it('does everything once and after what it needs, and every step is told', () => {
      const built = build({
        family: family.name,
        section: { width: 400, height: 250 },
        params: family.example
      });
      checkOrder(built);
      checkTurns(built.steps);
      for (const language of LANGUAGES) {
        for (const step of built.steps) {
          const { title, text } = tellStep(step, speak(language), makeSpeech({ ...DEFAULT_SHOW, language }));
          expect(title).toMatch(/\S/);
          expect(text).toMatch(/\S.*\.$/);
          expect(title + text).not.toMatch(/undefined|NaN|\[object/);
        }
      }
    });

    it('does so for any legal values', () => {
      let checked = 0;
      fc.assert(
        fc.property(drawParams(family), drawSection, (params, section) => {
          const { built } = evaluateOne({ family: family.name, section, params });
          if (!built) return;
          checkOrder(built);
          checkTurns(built.steps);
          checked++;
        }),
        { numRuns: 200, seed: 9 }
      );
      expect(checked).toBeGreaterThan(10);
    });
  }
);

describe('cutting', () => {
  const cutsOf = ({ steps }: BuiltModel): string[] =>
    steps.flatMap(({ kind, cuts, face }) => (kind === 'cut' ? [`${cuts[0]} ${face}`] : []));

  it('two plain cuts go face by face: a cheek, the bevelled faces, the other cheek', () => {
    expect(cutsOf(buildBend({ turn: 90, pieces: 3 }))).toEqual([
      'C2 top',
      'C1 top',
      'C2 right',
      'C1 right',
      'C2 left',
      'C1 left',
      'C2 bottom',
      'C1 bottom'
    ]);
  });

  it('three cuts go cut by cut, from the far end', () => {
    const order = cutsOf(buildBend({ turn: 90, pieces: 4 })).map((cut) => cut.slice(0, 2));
    expect(order).toEqual(['C3', 'C2', 'C1'].flatMap((cut) => [cut, cut, cut, cut]));
  });

  it('a compound cut begins on the face of its smallest bevel', () => {
    // Heel at 70 degrees: the top is bevelled by cos 70, the sides by sin 70.
    const [first, , , last] = cutsOf(buildPath([500, 500], [{ turn: 45, heel: 70 }]));
    expect([first, last]).toEqual(['C1 top', 'C1 bottom']);
    const [other] = cutsOf(buildPath([500, 500], [{ turn: 45, heel: 20 }]));
    expect(other).toMatch(/C1 (right|left)/);
  });

  it('names the blade that makes a bevel, and none where no blade does', () => {
    const blades = (turn: number) =>
      buildBend({ turn, pieces: 3 }).steps.flatMap((step) => (step.kind === 'cut' ? [step.blade] : []));
    expect(new Set(blades(90))).toEqual(new Set([0, 22.5]));
    expect(new Set(blades(80))).toEqual(new Set([0, null]));
  });
});

describe('labels', () => {
  it('say which pieces stay and which are rolled over', () => {
    const label = buildBend({ turn: 90, pieces: 4 }).steps.find(({ kind }) => kind === 'label')!;
    expect(label.data).toEqual({ staying: ['P1', 'P3'], flipped: ['P2', 'P4'] });
  });
});

describe('the closure audit', () => {
  const built = buildBend({ turn: 90, pieces: 3 });

  it('finds no open edge in the finished bend', () => {
    expect(built.openEdges).toBe(0);
    expect(findOpenEdges(built.fitting, built.steps)).toEqual([]);
  });

  it('finds every edge open, but the moulded ones, before the work begins', () => {
    const open = findOpenEdges(built.fitting, []);
    // Three pieces of four walls with four edges, less the four moulded edges of the inlet.
    expect(open).toHaveLength(3 * 4 * 4 - 4);
  });

  it.each([
    ['glue', 'cut', 16],
    ['staple', 'seam', 6],
    ['fold', 'fold', 18],
    ['seal', 'plain', 4]
  ] as const)('without the step %s leaves its edges open: %s', (kind, edge, count) => {
    const open = findOpenEdges(
      built.fitting,
      built.steps.filter((step) => step.kind !== kind)
    );
    expect(new Set(open.map((one) => one.kind))).toEqual(new Set([edge]));
    expect(open).toHaveLength(count);
  });

  it('without the tape leaves seams and joints open', () => {
    const open = findOpenEdges(
      built.fitting,
      built.steps.filter(({ kind }) => kind !== 'tape')
    );
    expect(new Set(open.map(({ kind }) => kind))).toEqual(new Set(['seam', 'cut']));
  });

  it('counts a single joint that was forgotten', () => {
    const open = findOpenEdges(
      built.fitting,
      built.steps.filter(({ kind, cuts }) => kind !== 'glue' || !cuts.includes('C2'))
    );
    expect(open).toHaveLength(8);
    expect(new Set(open.map(({ body }) => body))).toEqual(new Set(['P2', 'P3']));
  });
});

describe('how the pieces lie while the work goes on', () => {
  const built = buildBend({ turn: 90, pieces: 3 });
  const poseAt = (upTo: number | null) => poseBodies(built.fitting, built.steps, upTo);

  it('in the straight at first: every piece where it is cut from', () => {
    for (const { placement, separated, joined } of poseAt(0)) {
      expect(placement.t).toEqual([0, 0, 0]);
      expect([separated, joined]).toEqual([false, false]);
    }
  });

  it('in the finished fitting at last', () => {
    const last = poseAt(built.steps.length - 1);
    expect(last.map(({ placement }) => placement)).toEqual(
      built.fitting.bodies.map(({ placement }) => placement)
    );
    expect(last.every(({ separated, joined }) => separated && joined)).toBe(true);
    expect(poseAt(null)).toEqual(last);
  });

  it('a piece that is rolled over keeps its two ends where they were', () => {
    const flip = built.steps.findIndex(({ kind }) => kind === 'flip');
    const [before, after] = [poseAt(flip - 1), poseAt(flip)];
    expect(before[1]!.placement.y).toEqual([0, 1, 0]);
    // Half a turn about the axis: up is down, right is left, and along stays.
    expect(after[1]!.placement.x).toEqual([1, 0, 0]);
    expect(after[1]!.placement.y.map((one) => one + 0)).toEqual([0, -1, 0]);
    expect(after[1]!.placement.z.map((one) => one + 0)).toEqual([0, 0, -1]);
    expect(after[0]!.placement).toEqual(before[0]!.placement);
  });

  it('once joined it does not move again', () => {
    const joins = built.steps.flatMap(({ kind }, i) => (kind === 'join' ? [i] : []));
    const first = poseAt(joins[0]!).filter(({ joined }) => joined);
    expect(first.map(({ body }) => body)).toEqual(['P1', 'P2']);
    const later = poseAt(joins[1]!);
    for (const pose of first)
      expect(later.find(({ body }) => body === pose.body)!.placement).toEqual(pose.placement);
  });
});

describe('how the pieces lie in the midst of a step', () => {
  const built = buildBend({ turn: 90, pieces: 3 });
  const { fitting, steps } = built;
  const poseIn = (step: number, progress: number) => poseBodies(fitting, steps, step, progress);
  const findStep = (kind: StepKind): number => steps.findIndex((step) => step.kind === kind);
  /** Where a clock angle of the section points, once it lies like this. */
  const turnClock = ({ placement }: { placement: Motion }, clock: number): Vec3 =>
    turnDirection(placement, [0, cosDegrees(clock), sinDegrees(clock)]);

  it('begins as the step before left them and ends as the step leaves them', () => {
    for (let step = 1; step < steps.length; step++) {
      for (const [progress, settled] of [
        [0, poseIn(step - 1, 1)],
        [1 - 1e-12, poseIn(step, 1)]
      ] as const) {
        poseIn(step, progress).forEach(({ placement }, k) => {
          const wanted = settled[k]!.placement;
          for (const part of ['x', 'y', 'z', 't'] as const)
            expect(distance(placement[part], wanted[part])).toBeLessThan(1e-6);
        });
      }
    }
  });

  it('turns the whole straight until the face to be cut is up', () => {
    const turn = findStep('turn');
    expect(steps[turn]!.face).toBe('right');
    for (const progress of [0, 0.25, 0.5, 1]) {
      for (const pose of poseIn(turn, progress)) {
        const [, up, right] = turnClock(pose, 90);
        expect(up).toBeCloseTo(sinDegrees(90 * progress), 9);
        expect(right).toBeCloseTo(cosDegrees(90 * progress), 9);
        expect(pose.placement.t).toEqual([0, 0, 0].map((zero) => expect.closeTo(zero, 9)));
      }
    }
    steps.forEach(({ kind, face }, step) => {
      if (kind !== 'cut') return;
      const clock = FACE_CLOCK[face!];
      const uncut = poseIn(step, 1).filter(({ separated }) => !separated);
      for (const pose of uncut) expect(turnClock(pose, clock)[1]).toBeCloseTo(1, 9);
    });
  });

  it('rolls a piece over about its own length, and no other', () => {
    const flip = findStep('flip');
    const [first, second, third] = poseIn(flip, 0.5);
    expect(Math.abs(turnClock(second!, 90)[1])).toBeCloseTo(1, 9);
    expect(movePoint(second!.placement, [300, 0, 0])).toEqual(
      [300, 0, 0].map((one) => expect.closeTo(one, 9))
    );
    for (const pose of [first!, third!]) expect(turnClock(pose, 0)).toEqual([0, 1, 0]);
  });

  it('brings a piece to where it is joined, and moves nothing that is', () => {
    const join = steps.findLastIndex(({ kind }) => kind === 'join');
    const goal = fitting.bodies[2]!.placement;
    const middle = findMiddle(fitting.bodies[2]!);
    const far = [0, 0.3, 0.6, 0.9].map((progress) =>
      distance(movePoint(poseIn(join, progress)[2]!.placement, middle), movePoint(goal, middle))
    );
    expect(far).toEqual([...far].sort((a, b) => b - a));
    expect(far[3]).toBeCloseTo(far[0]! / 10, 9);
    for (const k of [0, 1]) expect(poseIn(join, 0.5)[k]!.placement).toEqual(fitting.bodies[k]!.placement);
  });

  it('lays the straights of a long path one behind another', () => {
    const long = buildBend({ turn: 90, pieces: 3, throatIn: 2500 });
    expect(long.fitting.straights.length).toBeGreaterThan(1);
    const [first, second] = long.fitting.straights;
    const poses = poseBodies(long.fitting, long.steps, 0);
    const at = poses[listPieceBodies(long.fitting).findIndex(({ straight }) => straight === second!.name)]!;
    expect(at.placement.t[0]).toBeGreaterThan(first!.length);
  });
});

describe('marks that are told', () => {
  it('in the steps of cutting are the stations of the cut at the corners', () => {
    const { fitting, steps } = buildPath([500, 500], [{ turn: 50, heel: 215 }]);
    const [cut] = fitting.straights[0]!.cuts;
    const top = steps.find(({ kind, face }) => kind === 'cut' && face === 'top')!;
    expect(top.data['start']).toBeCloseTo(findStation(cut!, 150, -225), 9);
    expect(top.data['end']).toBeCloseTo(findStation(cut!, 150, 225), 9);
  });
});
