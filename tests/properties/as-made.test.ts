// What is computed anew once a piece is made wrong, against a walker along the axis who knows nothing of the kernel, and
// lost ends against the nearest that the walker finds by trying one piece after another.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { DEFAULT_BOARD, DEFAULT_SHOP, type SaidFitting } from '../../src/lib/kernel/document/job.ts';
import { recomputeAsMade, type Made } from '../../src/lib/kernel/remake.ts';
import { FACES } from '../../src/lib/kernel/straight/section.ts';
import { measureEdges } from '../../src/lib/kernel/straight/straight.ts';
import { ENDLESS, evaluateOne, writeSheetOfFitting } from '../duct.ts';
import { uniform } from './documents.ts';
import { combine, measureGap, walkPath, type Vector } from './turtle.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const BOARD = { ...DEFAULT_BOARD, ...ENDLESS };
const drawSection = fc.record({
  width: fc.integer({ min: 100, max: 600 }),
  height: fc.integer({ min: 100, max: 600 })
});
const drawEnds = { throatIn: uniform(200, 500), throatOut: uniform(200, 500) };

const drawBend = fc.record({
  turn: uniform(20, 120),
  pieces: fc.integer({ min: 3, max: 5 }),
  heel: fc.constantFrom(...FACES),
  gore: uniform(150, 400),
  ...drawEnds
});
const drawOffset = fc.record({
  rise: uniform(-900, 900),
  roll: uniform(-900, 900),
  turn: uniform(20, 60),
  ...drawEnds
});
const drawDetour = fc.record({
  rise: uniform(-900, 900),
  roll: uniform(-900, 900),
  turn: uniform(20, 60),
  level: uniform(150, 400),
  ...drawEnds
});
const drawPath = fc.integer({ min: 2, max: 5 }).chain((count) =>
  fc.record({
    lengths: fc.array(uniform(500, 1200), { minLength: count + 1, maxLength: count + 1 }),
    joints: fc.array(fc.record({ turn: uniform(10, 60), heel: uniform(0, 360) }), {
      minLength: count,
      maxLength: count
    })
  })
);

const drawFitting: fc.Arbitrary<SaidFitting> = fc
  .tuple(
    drawSection,
    fc.oneof(
      ...Object.entries({
        bend: drawBend,
        offset: drawOffset,
        'double-offset': drawDetour,
        path: drawPath
      }).map(([family, draw]) =>
        (draw as fc.Arbitrary<object>).map((params) => ({ family, params: { ...params } }))
      )
    )
  )
  .map(([section, { family, params }]) => ({ family, section, params }));

const drawCase = fc.record({
  said: drawFitting,
  at: fc.nat({ max: 1000 }),
  off: fc.oneof(uniform(-3, -1), uniform(1, 3)),
  before: fc.boolean(),
  turned: fc.option(uniform(-1.5, 1.5), { freq: 3 })
});

type Path = { lengths: number[]; joints: { turn: number; heel: number }[] };

/** A fitting with one piece made wrong, and perhaps the cut at its end; or null where it cannot be built at all. */
function spoil({ said, at, off, before, turned }: typeof drawCase extends fc.Arbitrary<infer T> ? T : never) {
  const model = evaluateOne(said, { board: ENDLESS });
  fc.pre(model.built !== null);
  const [straight] = model.built!.fitting.straights;
  const pieces = straight!.pieces.map((piece) => ({
    ...piece,
    shortest: Math.min(...measureEdges(piece, said.section, BOARD.thickness).map(({ length }) => length))
  }));
  const k = at % pieces.length;
  const shortest = pieces[k]!.shortest + off;
  fc.pre(shortest > 1);
  const made: Made[] = pieces.slice(before ? 0 : k, k).map(({ name }) => ({ kind: 'piece', piece: name }));
  made.push({ kind: 'piece', piece: pieces[k]!.name, shortest });
  const cut = straight!.cuts[k];
  if (cut && turned !== null) made.push({ kind: 'cut', cut: cut.name, turn: 2 * cut.miter + turned });
  const answer = recomputeAsMade(said, { board: BOARD, shop: DEFAULT_SHOP }, made);
  return {
    answer,
    outlet: model.built!.fitting.ports[1]!,
    cuts: straight!.cuts,
    pieces,
    k,
    shortest,
    off,
    before
  };
}

describe('a fitting with a piece that was made wrong', () => {
  it('ends where it should once the rest is computed anew, and the piece is as it was made', () => {
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(drawCase, (drawn) => {
        const { answer, outlet, k, shortest } = spoil(drawn);
        if ('code' in answer) return;
        seen.set(drawn.said.family, (seen.get(drawn.said.family) ?? 0) + 1);
        const { lengths, joints } = answer.fitting.params as Path;
        const stand = walkPath(lengths, joints);
        expect(measureGap(stand.at, outlet.at)).toBeLessThan(0.01);
        expect(measureGap(stand.flow, outlet.flow)).toBeLessThan(1e-5);
        const up = combine([
          Math.sign(stand.up[1] * outlet.up[1] + stand.up[0] * outlet.up[0] + stand.up[2] * outlet.up[2]),
          stand.up
        ]);
        expect(measureGap(up, outlet.up)).toBeLessThan(1e-5);
        const remade = writeSheetOfFitting(answer.fitting, { board: ENDLESS });
        expect(remade.straights[0]!.pieces[k]!.shortest).toBeCloseTo(shortest, 2);
        // What is short now was short before.
        const short = (said: SaidFitting): unknown[] =>
          writeSheetOfFitting(said, { board: ENDLESS })
            .findings.filter(({ code }) => code === 'throat-short' || code === 'gore-short')
            .map(({ message }) => message.slice(0, 2));
        const made = `P${k + 1}`;
        expect(short(drawn.said)).toEqual(
          expect.arrayContaining(short(answer.fitting).filter((piece) => piece !== made))
        );
      }),
      { numRuns: 300, seed: 31 }
    );
    for (const family of ['bend', 'offset', 'double-offset', 'path'])
      expect(seen.get(family), family).toBeGreaterThan(20);
  });

  it('misses its end by as little as the walker does, where nothing meets it', () => {
    const lost = { aside: 0, short: 0 };
    fc.assert(
      fc.property(drawCase, (drawn) => {
        const { answer, outlet, cuts, pieces, k, off, before } = spoil({ ...drawn, turned: null });
        if (!('code' in answer)) return;
        expect(answer.code).toBe('as-made-lost');
        lost[answer.data['cause'] as 'aside']++;
        const joints = cuts.map(({ miter, heel }, i) => ({ turn: 2 * miter, heel: heel - 180 * i }));
        const lengths = pieces.map(({ axis }) => axis);
        const walk = (changes: readonly number[]): Vector =>
          walkPath(
            lengths.map((length, i) => length + changes[i]!),
            joints
          ).at;
        const none = lengths.map((_, i) => (i === k ? off : 0));
        const ways = lengths.map((_, i) =>
          combine([1, walk(none.map((by, j) => by + (i === j ? 1 : 0)))], [-1, walk(none)])
        );
        const lows = pieces.map(({ shortest }, i) =>
          Math.min(0, (i === 0 || i === lengths.length - 1 ? 200 : 150) - shortest)
        );
        // One piece after another goes to where the end is nearest, until none gains any more.
        const changes = [...none];
        for (let gain = 1; gain > 1e-7;) {
          const from = [...changes];
          for (let i = before ? k + 1 : 0; i < lengths.length; i++) {
            if (i === k) continue;
            const miss = combine([1, outlet.at], [-1, walk(changes)]);
            const along = miss[0] * ways[i]![0] + miss[1] * ways[i]![1] + miss[2] * ways[i]![2];
            changes[i] = Math.max(lows[i]!, changes[i]! + along);
          }
          gain = Math.max(...changes.map((by, i) => Math.abs(by - from[i]!)));
        }
        expect(measureGap(walk(changes), outlet.at)).toBeCloseTo(answer.data['place'] as number, 3);
      }),
      { numRuns: 150, seed: 32 }
    );
    expect(lost.aside).toBeGreaterThan(15);
    expect(lost.short).toBeGreaterThan(5);
  });
});
