// From which blanks and which way on the board a fitting's straights are made, and where their ends mate: found again from
// the words of the rules, all ways tried.
import { describe, expect, it, vi } from 'vitest';
import { divideStretches, type Stretch } from '../../src/lib/kernel/straight/divide.ts';
import { listPieceBodies, type Fitting } from '../../src/lib/kernel/fitting/fitting.ts';
import { build, ENDLESS, evaluateOne } from '../duct.ts';
import { generateFitting, GENERATED, type GeneratedFitting } from '../oracle/generated-fittings.ts';
import { makeRandom } from '../oracle/generated-paths.ts';

// Many fittings on a machine that may be busy.
vi.setConfig({ testTimeout: 120_000 });

const RUNS = 1500;

interface Way {
  readonly lay: 'across' | 'along';
  readonly make: string;
  readonly straights: number;
  readonly seams: number;
  readonly board: number;
}

const FLAP = 40;

/** Widths of the blanks of each make for walls clockwise from the seam, flaps included, and the seams they leave. */
function listMakes(walls: readonly number[]): { make: string; widths: number[]; seams: number }[] {
  const [a, b, c, d] = walls as [number, number, number, number];
  return [
    { make: 'one piece', widths: [a + b + c + d + FLAP], seams: 1 },
    { make: 'two angles', widths: [a + b + FLAP, c + d + FLAP], seams: 2 },
    { make: 'trough and lid', widths: [a, b + c + d + 2 * FLAP], seams: 2 },
    { make: 'four panels', widths: walls.map((wall) => wall + FLAP), seams: 4 }
  ];
}

/** The legs of a fitting as it is from an endless board. */
function findLegs({ said, stock }: GeneratedFitting, fitting: Fitting): Stretch[] {
  const { straights } = fitting;
  const bodies = listPieceBodies(fitting);
  const [straight] = straights;
  const { section, thickness } = straight!;
  const radians = Math.PI / 180;
  const reach = (cut: { miter: number; heel: number } | null): number =>
    cut
      ? Math.tan(cut.miter * radians) *
        ((section.height / 2 + thickness) * Math.abs(Math.cos(cut.heel * radians)) +
          (section.width / 2 + thickness) * Math.abs(Math.sin(cut.heel * radians)))
      : 0;
  return bodies.map(({ piece: { from, axis, startCut, endCut } }) => ({
    from,
    to: from + axis,
    axis,
    startReach: reach(startCut),
    endReach: reach(endCut),
    least:
      said.family === 'straight' || bodies.length === 1
        ? 0
        : startCut && endCut
          ? stock.shop!.minGore!
          : stock.shop!.minThroat!
  }));
}

/** Every way in which the board is wide enough and the straights divide. */
function listWays(drawn: GeneratedFitting, whole: Fitting): Way[] {
  const { section, thickness } = whole.straights[0]!;
  const board = drawn.stock.board as Record<'length' | 'width' | 'spigot', number> & { profile: string };
  const [top, side] = [section.width + 2 * thickness, section.height + 2 * thickness];
  // The usual seam is top left: the first wall is the top.
  const makes = listMakes([top, side, top, side]);
  const legs = findLegs(drawn, whole);
  return (['across', 'along'] as const).flatMap((lay) => {
    const room = lay === 'across' ? board.length : board.width;
    const run = lay === 'across' ? board.width : board.length;
    const moulded = (lay === 'across') === (board.profile === 'long');
    const spans = divideStretches(legs, moulded ? run - board.spigot : run);
    if (!spans) return [];
    const length = spans.reduce((sum, { from, to }) => sum + to - from, 0);
    return makes
      .filter(({ widths }) => Math.max(...widths) <= room)
      .map(({ make, widths, seams }) => ({
        lay,
        make,
        straights: spans.length,
        seams,
        board: widths.reduce((sum, width) => sum + width, 0) * length
      }));
  });
}

/** Generated fittings that say no throat "rest", which would depend on the board. */
function* listDrawn(seed: number, runs: number): Generator<GeneratedFitting> {
  const random = makeRandom(seed);
  for (let run = 0; run < runs; run++) {
    const drawn = generateFitting(random, GENERATED[run % GENERATED.length]!);
    if (!Object.values(drawn.said.params).includes('rest')) yield drawn;
  }
}

describe('the straights of a fitting', () => {
  it('are made across in one piece where one such does, else in the fewest straights, seams and board', () => {
    const seen = new Map<string, number>();
    let checked = 0;
    for (const drawn of listDrawn(8, RUNS)) {
      const { said, stock } = drawn;
      const endless = { ...stock, board: { ...stock.board, ...ENDLESS } };
      if (!evaluateOne(said, endless).built) continue;
      const ways = listWays(drawn, build(said, endless).fitting);
      const { built, findings } = evaluateOne(said, stock);
      if (!built) {
        expect(ways, JSON.stringify(drawn)).toEqual([]);
        expect(findings.some(({ code }) => code === 'board-small' || code === 'straight-undivided')).toBe(
          true
        );
        continue;
      }
      const { makeUp } = built.fitting.straights[0]!;
      const chosen = ways.find(({ lay, make }) => lay === makeUp.lay && make === makeUp.make)!;
      expect(built.fitting.straights).toHaveLength(chosen.straights);
      const usual = ways.find(
        (way) => way.lay === 'across' && way.make === 'one piece' && way.straights === 1
      );
      if (usual) expect(chosen, JSON.stringify(drawn)).toBe(usual);
      else {
        for (const way of ways)
          expect(isBetter(way, chosen), JSON.stringify({ drawn, way, chosen })).toBe(false);
      }
      seen.set(`${chosen.lay}, ${chosen.make}`, (seen.get(`${chosen.lay}, ${chosen.make}`) ?? 0) + 1);
      checked++;
    }
    expect(checked).toBeGreaterThan(RUNS / 2);
    expect([...seen.keys()].length).toBeGreaterThan(4);
  });

  function isBetter(a: Way, b: Way): boolean {
    if (a.straights !== b.straights) return a.straights < b.straights;
    if (a.seams !== b.seams) return a.seams < b.seams;
    return a.board < b.board - 1e-3;
  }
});

describe('the ends of straights', () => {
  it("are moulded where the board's edge is, and said to be apart exactly where they do not mate", () => {
    const counts = { mating: 0, apart: 0, miter: 0 };
    const random = makeRandom(9);
    const said = (): { inlet?: 'male' | 'female' | 'plain'; outlet?: 'male' | 'female' | 'plain' } => {
      const draw = () => ([undefined, 'male', 'female', 'plain'] as const)[Math.floor(random() * 4)];
      const [inlet, outlet] = [draw(), draw()];
      return { ...(inlet ? { inlet } : {}), ...(outlet ? { outlet } : {}) };
    };
    for (const drawn of listDrawn(10, RUNS)) {
      const ends = said();
      const { built, findings } = evaluateOne({ ...drawn.said, ends }, drawn.stock);
      if (!built) continue;
      const what = JSON.stringify({ ...drawn, ends });
      const { straights, joints } = built.fitting;
      const bodies = listPieceBodies(built.fitting);
      const { moulded, yield: most } = straights[0]!.makeUp;
      // What is wanted male at the inlet, or female at the outlet, has the board the other way round.
      const turned = ends.inlet === 'male' || (ends.inlet === undefined && ends.outlet === 'female');
      const [datum, far] = turned ? (['male', 'female'] as const) : (['female', 'male'] as const);
      straights.forEach((straight, i) => {
        const [first, last] = [i === 0, i === straights.length - 1];
        const [startCut, endCut] = [
          straight.pieces[0]!.startCut,
          straight.pieces[straight.pieces.length - 1]!.endCut
        ];
        const wantsPlain = first && ends.inlet === 'plain';
        expect(straight.ends[0], what).toBe(startCut ? 'miter' : moulded && !wantsPlain ? datum : 'plain');
        // The far profile of the board is there only when nothing is cut off, and does only when it is not wanted otherwise.
        const whole = moulded && Math.abs(straight.length - most) < 1e-6;
        const wanted = !last || ends.outlet === undefined || ends.outlet === far;
        expect(straight.ends[1], what).toBe(endCut ? 'miter' : whole && wanted ? far : 'plain');
      });
      const apart = joints.flatMap(({ bodies: [a, b], closing }) => {
        if (closing.kind !== 'ends') {
          counts.miter++;
          return [];
        }
        const [before, after] = [a, b].map((name) => bodies.find((body) => body.name === name)!.straight);
        const i = straights.findIndex(({ name }) => name === before);
        expect(straights[i + 1]!.name).toBe(after);
        const pair = [straights[i]!.ends[1], straights[i + 1]!.ends[0]];
        expect(closing.ends).toEqual(pair);
        const mates = [...pair].sort().join() === 'female,male';
        counts[mates ? 'mating' : 'apart']++;
        return mates ? [] : [`${a} ${b}`];
      });
      const told = findings.filter(({ code }) => code === 'ends-apart');
      expect(
        told.map(({ data }) => `${String(data['first'])} ${String(data['second'])}`),
        what
      ).toEqual(apart);
    }
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(50);
  });
});
