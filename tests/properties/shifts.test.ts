// Offsets and double offsets against a walker along their axis who knows nothing of the closed forms, and each driver
// against the turn that it implies.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { SaidFitting } from '../../src/lib/kernel/document/job.ts';
import type { FittingModel } from '../../src/lib/kernel/evaluate.ts';
import { FACES } from '../../src/lib/kernel/straight/section.ts';
import { ENDLESS, evaluateOne, writeSheetOfFitting } from '../duct.ts';
import { uniform } from './documents.ts';
import { measureGap, walkPath, type Stand } from './turtle.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 500;
const RADIANS = Math.PI / 180;

const check = <T>(draw: fc.Arbitrary<T>, property: (drawn: T) => void): void =>
  fc.assert(fc.property(draw, property), { numRuns: RUNS, seed: 13 });

const drawDuct = fc.record({
  width: fc.integer({ min: 60, max: 900 }),
  height: fc.integer({ min: 60, max: 900 }),
  thickness: fc.integer({ min: 10, max: 50 }),
  minGore: fc.integer({ min: 0, max: 200 })
});
type Duct = typeof drawDuct extends fc.Arbitrary<infer T> ? T : never;

const drawShift = fc.record({
  rise: fc.oneof(uniform(-2500, 2500), fc.constant(0)),
  roll: uniform(-2500, 2500),
  piecesPerTurn: fc.integer({ min: 2, max: 4 }),
  throatIn: uniform(1, 900),
  throatOut: uniform(1, 900)
});
const drawTurn = fc.oneof(uniform(3, 90), fc.constantFrom(22.5, 30, 45, 60, 90));

function evaluate(family: string, params: SaidFitting['params'], duct: Duct): FittingModel {
  const { width, height, thickness, minGore } = duct;
  return evaluateOne(
    { family, section: { width, height }, params },
    { board: { ...ENDLESS, thickness }, shop: { minGore } }
  );
}

/** The fitting that is built; one that is too short somewhere, too long for any board or runs into itself is passed over. */
function build(family: string, params: SaidFitting['params'], duct: Duct) {
  const model = evaluate(family, params, duct);
  fc.pre(model.built !== null);
  const { fitting } = model.built!;
  const [straight] = fitting.straights;
  fc.pre(fitting.straights.length === 1);
  return { model, straight: straight!, outlet: fitting.ports[1]!, pieces: straight!.pieces };
}

/** The axis of a fitting's one straight, walked: its legs are its pieces, its joints its cuts rolled back piece by piece. */
function walk(
  { pieces, straight }: Pick<ReturnType<typeof build>, 'pieces' | 'straight'>,
  joints?: number
): Stand {
  const turns = straight.cuts.map(({ miter, heel }, i) => ({ turn: 2 * miter, heel: heel - 180 * i }));
  const count = joints ?? turns.length;
  return walkPath(
    pieces.slice(0, count + 1).map(({ axis }) => axis),
    turns.slice(0, count)
  );
}

describe('an offset', () => {
  it('ends exactly so far up and aside as it is asked to, flowing on, its up unchanged', () => {
    let checked = 0;
    check(fc.tuple(drawShift, drawTurn, drawDuct), ([shift, turn, duct]) => {
      const built = build('offset', { ...shift, turn }, duct);
      const { at, flow, up } = built.outlet;
      expect(Math.abs(at[1] - shift.rise)).toBeLessThan(1e-8);
      expect(Math.abs(at[2] - shift.roll)).toBeLessThan(1e-8);
      expect(measureGap(flow, [1, 0, 0])).toBeLessThan(1e-12);
      expect(measureGap(up, [0, 1, 0])).toBeLessThan(1e-12);
      // The throats are the shortest edges of the end pieces, so their axes reach beyond them by half a cut.
      const { advance } = built.model.resolved.family.derive(
        built.model.resolved.values as never,
        built.model.resolved.setting
      ) as { advance: number };
      const reach = built.pieces[0]!.axis - shift.throatIn;
      expect(Math.abs(at[0] - (shift.throatIn + shift.throatOut + 2 * reach + advance))).toBeLessThan(1e-8);
      checked++;
    });
    expect(checked).toBe(RUNS);
  });

  it('of several cuts a turn has the travel of the formula, and the advance that a walker covers', () => {
    const seen = { 1: 0, 2: 0, 3: 0 };
    check(fc.tuple(drawShift, drawTurn, drawDuct), ([shift, turn, duct]) => {
      const built = build('offset', { ...shift, turn }, duct);
      const { resolved } = built.model;
      const k = (shift.piecesPerTurn - 1) as 1 | 2 | 3;
      // g: the shop's least gore on the throat's edge, and twice what a cut of θ/2k takes from it.
      const heel = Math.atan2(-shift.roll, -shift.rise);
      const A = duct.width + 2 * duct.thickness;
      const B = duct.height + 2 * duct.thickness;
      const c =
        Math.tan((turn / (2 * k)) * RADIANS) *
        ((B / 2) * Math.abs(Math.cos(heel)) + (A / 2) * Math.abs(Math.sin(heel)));
      const g = duct.minGore + 2 * c;
      let sum = 0;
      for (let j = 1; j < k; j++) sum += Math.sin(((j * turn) / k) * RADIANS);
      const offset = Math.hypot(shift.rise, shift.roll);
      const travel = (offset - 2 * g * sum) / Math.sin(turn * RADIANS);
      const axes = built.pieces.map(({ axis }) => axis);
      expect(axes).toHaveLength(2 * k + 1);
      expect(Math.abs(axes[k]! - travel)).toBeLessThan(1e-8);
      axes.slice(1, k).forEach((axis) => expect(Math.abs(axis - g)).toBeLessThan(1e-9));
      axes.slice(k + 1, -1).forEach((axis) => expect(Math.abs(axis - g)).toBeLessThan(1e-9));
      // From the first joint to the last, on foot.
      const derived = resolved.family.derive(resolved.values as never, resolved.setting);
      expect(Math.abs(derived['travel']! - travel)).toBeLessThan(1e-8);
      const last = walk(built, 2 * k);
      const along = last.at[0] - axes[2 * k]! - axes[0]!;
      expect(Math.abs(derived['advance']! - along)).toBeLessThan(1e-8);
      expect(measureGap(last.at, built.outlet.at)).toBeLessThan(1e-8);
      seen[k]++;
    });
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(RUNS / 10);
  });

  it('of k cuts a turn turns away from the heels atan2(−roll, −rise) and opposite, each cut by θ/k', () => {
    check(fc.tuple(drawShift, drawTurn, drawDuct), ([shift, turn, duct]) => {
      const { straight } = build('offset', { ...shift, turn }, duct);
      const k = shift.piecesPerTurn - 1;
      const first = Math.atan2(-shift.roll, -shift.rise) / RADIANS;
      straight.cuts.forEach(({ miter, heel }, i) => {
        expect(Math.abs(miter - turn / (2 * k))).toBeLessThan(1e-12);
        const expected = first + (i < k ? 0 : 180) + 180 * i;
        expect(Math.abs(Math.sin(((heel - expected) / 2) * RADIANS))).toBeLessThan(1e-12);
      });
    });
  });

  const drawn = fc.tuple(drawShift, drawTurn, drawDuct);
  it.each(['advance', 'travel'] as const)(
    'by %s gives the sheet that the turn it implies gives',
    (driver) => {
      let checked = 0;
      check(drawn, ([shift, turn, duct]) => {
        const byTurn = build('offset', { ...shift, turn }, duct);
        const { resolved } = byTurn.model;
        const value = resolved.family.derive(resolved.values as never, resolved.setting)[driver]!;
        // An advance shorter than nothing cannot be said.
        fc.pre(value >= 0);
        const byDriver = build('offset', { ...shift, [driver]: value }, duct);
        const implied = byDriver.model.resolved.family.derive(
          byDriver.model.resolved.values as never,
          byDriver.model.resolved.setting
        )['turn']!;
        // The turn that the driver implies gives the same fitting, figure by figure.
        const again = build('offset', { ...shift, turn: implied }, duct);
        compareStraights(byDriver, again, 1e-9);
        expect(writeSheetOf(shift, { [driver]: value }, duct)).toEqual(
          writeSheetOf(shift, { turn: implied }, duct)
        );
        // And it is the turn it came from, where an advance belongs to one turn only.
        if (driver === 'advance' && shift.piecesPerTurn === 2) {
          expect(Math.abs(implied - turn)).toBeLessThan(1e-9);
        }
        expect(
          Math.abs(
            byDriver.model.resolved.family.derive({ ...shift, turn: implied } as never, resolved.setting)[
              driver
            ]! - value
          )
        ).toBeLessThan(1e-7);
        expect(Math.abs(byDriver.outlet.at[1] - byTurn.outlet.at[1])).toBeLessThan(1e-8);
        expect(Math.abs(byDriver.outlet.at[2] - byTurn.outlet.at[2])).toBeLessThan(1e-8);
        checked++;
      });
      expect(checked).toBe(RUNS);
    }
  );

  function writeSheetOf(shift: object, driver: object, { width, height, thickness, minGore }: Duct) {
    const sheet = writeSheetOfFitting(
      { family: 'offset', section: { width, height }, params: { ...shift, ...driver } },
      { board: { ...ENDLESS, thickness }, shop: { minGore } }
    );
    // Findings name the parameter that drives.
    return { ...sheet, findings: [] };
  }
});

/** Two straights with the same cuts. */
function compareStraights(
  { straight: a, outlet: p }: ReturnType<typeof build>,
  { straight: b, outlet: q }: ReturnType<typeof build>,
  within: number
): void {
  expect(Math.abs(a.length - b.length)).toBeLessThan(within);
  a.cuts.forEach((cut, i) => {
    expect(Math.abs(cut.station - b.cuts[i]!.station)).toBeLessThan(within);
    expect(Math.abs(cut.miter - b.cuts[i]!.miter)).toBeLessThan(within);
    expect(Math.abs(cut.heel - b.cuts[i]!.heel)).toBeLessThan(within);
  });
  expect(measureGap(p.at, q.at)).toBeLessThan(within);
}

describe('a bend', () => {
  const drawBend = fc.record({
    turn: uniform(3, 170),
    pieces: fc.integer({ min: 3, max: 9 }),
    heel: fc.constantFrom(...FACES),
    throatIn: uniform(1, 900),
    throatOut: uniform(1, 900)
  });

  it('by the radius or the setback that follow from its gore is the same bend, and the axes cross there', () => {
    let checked = 0;
    check(fc.tuple(drawBend, uniform(1, 600), drawDuct), ([bend, gore, duct]) => {
      const byGore = build('bend', { ...bend, gore }, duct);
      const { resolved } = byGore.model;
      const { radius, setback } = resolved.family.derive(resolved.values as never, resolved.setting);
      // Where the axes of inlet and outlet cross, on foot: back along the outlet's flow to the inlet's axis.
      const { at, flow } = byGore.outlet;
      const aside = Math.hypot(at[1], at[2]);
      const crossing = at[0] - (flow[0] * aside) / Math.hypot(flow[1], flow[2]);
      expect(Math.abs(crossing - setback!) / Math.max(1, setback!)).toBeLessThan(1e-9);
      // All joints lie as far from the centre as the axis of a bend of that radius: R / cos α.
      const joints = bend.pieces - 1;
      const alpha = (bend.turn / (2 * joints)) * RADIANS;
      const chord = byGore.pieces[1]!.axis;
      expect(Math.abs(radius! - chord / (2 * Math.tan(alpha))) / radius!).toBeLessThan(1e-9);
      const scale = Math.max(1, 1 / Math.tan(alpha));
      compareStraights(byGore, build('bend', { ...bend, radius: radius! }, duct), 1e-9 * scale);
      fc.pre(setback! > 0);
      compareStraights(byGore, build('bend', { ...bend, setback: setback! }, duct), 1e-9 * scale * scale);
      checked++;
    });
    expect(checked).toBe(RUNS);
  });
});

describe('a double offset', () => {
  it('returns to its level, upright, after the shift it was asked for', () => {
    let checked = 0;
    check(fc.tuple(drawShift, drawTurn, uniform(1, 1500), drawDuct), ([shift, turn, level, duct]) => {
      const built = build('double-offset', { ...shift, turn, level }, duct);
      const { at, flow, up } = built.outlet;
      expect(Math.abs(at[1])).toBeLessThan(1e-8);
      expect(Math.abs(at[2])).toBeLessThan(1e-8);
      expect(measureGap(flow, [1, 0, 0])).toBeLessThan(1e-12);
      expect(measureGap(up, [0, 1, 0])).toBeLessThan(1e-12);
      const { resolved } = built.model;
      const { run } = resolved.family.derive(resolved.values as never, resolved.setting);
      expect(Math.abs(at[0] - run!)).toBeLessThan(1e-8);
      // Half way, on foot: the level piece lies where it was asked to, its shortest edge as long as was said.
      const k = shift.piecesPerTurn - 1;
      const there = walk(built, 2 * k);
      expect(Math.abs(there.at[1] - shift.rise)).toBeLessThan(1e-8);
      expect(Math.abs(there.at[2] - shift.roll)).toBeLessThan(1e-8);
      expect(measureGap(there.flow, [1, 0, 0])).toBeLessThan(1e-12);
      const body = built.model.built!.fitting.bodies[2 * k]!;
      const edges = body.walls.map(({ outer }) => outer[3]![0] - outer[0]![0]);
      expect(Math.abs(Math.min(...edges) - level)).toBeLessThan(1e-8);
      checked++;
    });
    expect(checked).toBe(RUNS);
  });

  it('has the heels h, opposite, opposite, h, each for all cuts of its turn', () => {
    check(fc.tuple(drawShift, drawTurn, uniform(1, 1500), drawDuct), ([shift, turn, level, duct]) => {
      const { straight } = build('double-offset', { ...shift, turn, level }, duct);
      const k = shift.piecesPerTurn - 1;
      const h = Math.atan2(-shift.roll, -shift.rise) / RADIANS;
      expect(straight.cuts).toHaveLength(4 * k);
      straight.cuts.forEach(({ heel }, i) => {
        const expected = h + [0, 180, 180, 0][Math.floor(i / k)]! + 180 * i;
        expect(Math.abs(Math.sin(((heel - expected) / 2) * RADIANS))).toBeLessThan(1e-12);
      });
    });
  });
});
