import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { build, SECTION } from '../../../../tests/duct.ts';
import { EN } from '../../words/en.ts';
import { makeSpeech, tellFinding } from '../../words/words.ts';
import { DEFAULT_SHOW } from '../document/job.ts';
import { readJob } from '../document/read.ts';
import { placePortCorner } from '../fitting/fitting.ts';
import { CORNERS } from '../straight/section.ts';
import { measureClearances } from './clearance.ts';
import { placeFromTape } from './measuring-card.ts';
import type { MeasuringCard } from './tape-places.ts';
import { MEASURES, ONWARD_WAYS, SIGNED_MEASURES, type Measure, type Onward, type Tape } from './tape.ts';

const NAMES = EN.site.next;

/** Outside 450 × 300. Measures as numbers are off by the usual 5 mm at most. */
function writeCard(
  measures: Partial<Record<Measure, number | { value: number; uncertainty: number }>>,
  goesOn: Onward = 'straight'
): MeasuringCard {
  const said = Object.entries(measures).map(([name, one]) => [
    name,
    typeof one === 'number' ? { value: one } : one
  ]);
  const tape: Tape = {
    goesOn,
    obstacle: { name: 'Beam over the reading room', kind: 'beam' },
    measures: Object.fromEntries(said)
  };
  return { tape, section: SECTION, thickness: 25, clearance: 25 };
}

/** A beam that hangs 190 into the way, a ceiling 400 under the duct, the other end 2600 on in the same line. */
const BEAM = {
  toObstacle: 1150,
  obstacleWidth: 250,
  underside: -190,
  freeBelow: 400,
  toOtherEnd: 2600,
  heightDifference: 0,
  sideDifference: 0
} as const;

/** The beam's measures without some of them. */
function leaveOut(...names: (keyof typeof BEAM)[]): Partial<Record<Measure, number>> {
  return Object.fromEntries(
    Object.entries(BEAM).filter(([name]) => !names.includes(name as keyof typeof BEAM))
  );
}

function place(card: MeasuringCard) {
  const { placed, findings } = placeFromTape(card, NAMES);
  if (!placed) throw new Error(JSON.stringify(findings));
  return { ...placed, findings };
}

describe('the measures of a beam in the way', () => {
  it('become a box, a box of the next thing below and the other end, each face moved toward the duct', () => {
    const { end, obstacles, findings } = place(writeCard(BEAM));
    // Outside top at 150: underside at 150 − 190 − 5, near side at 1150 − 5, far side at 1150 + 250 + 5 + 5.
    expect(obstacles).toEqual([
      {
        name: 'Beam over the reading room',
        kind: 'beam',
        min: [1145, -45, -2225],
        max: [1410, 2150, 2225]
      },
      {
        name: 'next thing below',
        kind: 'next thing below',
        min: [-2000, -2545, -2225],
        max: [4600, -545, 2225]
      }
    ]);
    expect(end).toEqual({ at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] });
    expect(findings).toEqual([]);
  });

  it('stop a straight duct, and let pass the one that goes under it', () => {
    const { end, obstacles } = place(writeCard(BEAM));
    const site = { section: SECTION, end, obstacles, clearance: 25 };
    const straight = build({ family: 'straight', section: SECTION, params: { length: 1180 } });
    // Its far end is 35 inside the near side of the box, which stands 150 + 45 deep in its way.
    expect(measureClearances(straight.fitting, site, 25)[0]!.value).toBeCloseTo(-35, 9);
    // Lowered by 250: its outside top at −100 is 55 under the box, its bottom at −400 is 145 above the ceiling.
    const under = build({
      family: 'double-offset',
      section: SECTION,
      params: { rise: -250, turn: 45, level: 500, throatIn: 700, throatOut: 205 }
    });
    const [beam, ceiling] = measureClearances(under.fitting, site, 25);
    expect(ceiling!.value).toBeCloseTo(145, 9);
    expect(beam!.value).toBeCloseTo(55, 9);
  });

  it('say which one decides: of the tightest room the one that may be off most', () => {
    // Between underside and ceiling: 300 − 190 + 400 = 510, less the duct's 300 and twice 25.
    expect(place(writeCard(BEAM)).deciding).toEqual({
      measure: 'underside',
      room: 160,
      among: ['underside', 'freeBelow']
    });
    const rough = writeCard({ ...BEAM, freeBelow: { value: 400, uncertainty: 8 } });
    expect(place(rough).deciding.measure).toBe('freeBelow');
    // Close before the beam the length there is less: 450 − 300 − 25.
    expect(place(writeCard({ ...BEAM, toObstacle: 450 })).deciding).toEqual({
      measure: 'toObstacle',
      room: 125,
      among: ['toObstacle']
    });
    // With nothing under the duct and a long way on both sides of the beam it is the length before the beam.
    expect(place(writeCard(leaveOut('freeBelow'))).deciding).toMatchObject({
      measure: 'toObstacle',
      room: 825
    });
  });

  it('leave the closing end long by all that the length may be off', () => {
    expect(place(writeCard(BEAM)).closing).toBe(5);
    const chained = place(
      writeCard({
        ...leaveOut('toOtherEnd'),
        obstacleWidth: { value: 250, uncertainty: 2 },
        farSideToEnd: 1200
      })
    );
    expect(chained.end.at[0]).toBe(2600);
    expect(chained.closing).toBe(12);
    const { heightDifference, sideDifference } = BEAM;
    expect(place(writeCard({ heightDifference, sideDifference })).closing).toBeNull();
  });

  it('check each other where one more is taken', () => {
    expect(place(writeCard(BEAM)).check).toBeNull();
    const agree = place(writeCard({ ...BEAM, farSideToEnd: 1219 }));
    expect(agree.check).toEqual({ differs: 19, allowed: 20, holds: true });
    expect(agree.findings).toEqual([]);
    const apart = place(writeCard({ ...BEAM, farSideToEnd: 1179 }));
    expect(apart.check).toEqual({ differs: -21, allowed: 20, holds: false });
    expect(apart.findings).toMatchObject([
      { level: 'warning', code: 'tape-differs', param: 'tape.measures.toOtherEnd.value', would: 2579 }
    ]);
  });

  it('leave a coordinate of the end free that was not measured', () => {
    expect(place(writeCard(leaveOut('sideDifference'))).end.at).toEqual([2600, 0, null]);
  });

  it('are told when one says nothing of the other end', () => {
    const { findings } = place(writeCard({ ...BEAM, outToEnd: 300 }));
    expect(findings).toMatchObject([{ level: 'note', code: 'tape-idle', data: { measure: 'outToEnd' } }]);
  });

  it('are told when one is missing', () => {
    const half = leaveOut('obstacleWidth', 'underside');
    const { placed, findings } = placeFromTape(writeCard(half), NAMES);
    expect(placed).toBeNull();
    expect(findings.map(({ code, data }) => [code, data['measure']])).toEqual([
      ['tape-missing', 'obstacleWidth'],
      ['tape-missing', 'underside']
    ]);
    expect(placeFromTape(writeCard({}), NAMES).findings.map(({ data }) => data['measure'])).toEqual([
      'toOtherEnd'
    ]);
  });

  it('contradict each other when the other end would stand in the beam or under the ceiling', () => {
    // The beam is deep in the way and ends at 1400: an end at 1300 stands in it, from 1410 + 5 + 25 on it is clear.
    const inBeam = placeFromTape(writeCard({ ...BEAM, toOtherEnd: 1300 }), NAMES);
    expect(inBeam.placed).toBeNull();
    expect(inBeam.findings).toMatchObject([
      { level: 'error', code: 'tape-inside', param: 'tape.measures.toOtherEnd.value', would: 1440 }
    ]);
    // Its bottom 500 lower than here: 400 cannot be free below; 500 + 5 + 5 + 25 would do.
    const below = placeFromTape(writeCard({ ...BEAM, heightDifference: -500 }), NAMES);
    expect(below.findings).toMatchObject([
      { level: 'error', code: 'tape-inside', param: 'tape.measures.freeBelow.value', would: 535 }
    ]);
    // 390 lower it may just be: a warning, and the places are given.
    const tight = place(writeCard({ ...BEAM, heightDifference: -390 }));
    expect(tight.findings).toMatchObject([
      {
        level: 'warning',
        code: 'tape-tight',
        param: 'tape.measures.freeBelow.value',
        would: 425,
        data: { end: 'other', apart: 0 }
      }
    ]);
  });

  it('contradict each other when the faces of the obstacle have changed places', () => {
    // Underside at −40, top at −150 + 100 = −50: 10 the wrong way round, as much as they may be off together; 1 mm is the least obstacle.
    const { placed, findings } = placeFromTape(writeCard({ ...BEAM, topside: -100 }), NAMES);
    expect(placed).toBeNull();
    expect(findings).toMatchObject([
      { level: 'error', code: 'tape-crossed', param: 'tape.measures.topside.value', would: -111 }
    ]);
    const pipes = place(writeCard({ ...BEAM, topside: -180 })).obstacles[0]!;
    expect([pipes.min[1], pipes.max[1]]).toEqual([-45, 35]);
  });

  it('are warned of where there is no way past', () => {
    // 300 − 190 + 240 = 350 between beam and ceiling is just the duct and its clearance, with measures that are off it is not.
    const { findings } = place(writeCard({ ...BEAM, freeBelow: 240 }));
    expect(findings).toMatchObject([
      { code: 'tape-no-way', param: 'tape.measures.freeBelow.value', would: 250, data: { gap: 350 } }
    ]);
    expect(place(writeCard({ ...BEAM, freeBelow: 250 })).findings).toEqual([]);
  });
});

describe('a turned end', () => {
  const bends: [Onward, string][] = [
    ['up', 'bottom'],
    ['right', 'left'],
    ['down', 'top'],
    ['left', 'right']
  ];
  it.each(bends)(
    'that goes on %s lies where the tape meets a bend with its heel on the %s',
    (goesOn, heel) => {
      const { fitting } = build({ family: 'bend', section: SECTION, params: { turn: 90, heel, gore: 170 } });
      const outlet = fitting.ports[1]!;
      const corners = CORNERS.map((corner) => placePortCorner(outlet, 25, corner));
      const most = (axis: 0 | 1 | 2): number => Math.max(...corners.map((corner) => corner[axis]));
      const least = (axis: 0 | 1 | 2): number => Math.min(...corners.map((corner) => corner[axis]));
      // Outside faces of the duct's end: top at 150, right at 225.
      const out = { up: most(1) - 150, right: most(2) - 225, down: -150 - least(1), left: -225 - least(2) };
      const { end } = place(
        writeCard(
          {
            toOtherEnd: least(0),
            outToEnd: out[goesOn as 'up'],
            ...(goesOn === 'up' || goesOn === 'down'
              ? { sideDifference: most(2) - 225 }
              : { heightDifference: most(1) - 150 })
          },
          goesOn
        )
      );
      end.at.forEach((value, i) => expect(value).toBeCloseTo(outlet.at[i]!, 9));
      end.flow.forEach((value, i) => expect(value).toBeCloseTo(outlet.flow[i]!, 9));
      end.up.forEach((value, i) => expect(value).toBeCloseTo(outlet.up[i]!, 9));
    }
  );
});

const drawCard = fc
  .record({
    goesOn: fc.constantFrom(...ONWARD_WAYS),
    values: fc.tuple(...MEASURES.map(() => fc.option(fc.integer({ min: 0, max: 1500 }), { freq: 4 }))),
    signs: fc.tuple(...MEASURES.map(() => fc.boolean())),
    doubts: fc.tuple(...MEASURES.map(() => fc.integer({ min: 0, max: 15 })))
  })
  .map(({ goesOn, values, signs, doubts }) =>
    writeCard(
      Object.fromEntries(
        MEASURES.flatMap((name, i) => {
          const value = values[i];
          if (value === null || value === undefined) return [];
          const signed = SIGNED_MEASURES.includes(name) && signs[i] ? 0 - value : value;
          return [[name, { value: signed, uncertainty: doubts[i]! }]];
        })
      ),
      goesOn
    )
  );

describe('any card', () => {
  it('gives boxes that hold the real thing, however the measures are off', () => {
    let boxes = 0;
    fc.assert(
      fc.property(
        drawCard,
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 15, maxLength: 15 }),
        (card, off) => {
          const { placed } = placeFromTape(card, NAMES);
          fc.pre(placed !== null);
          const truly = (name: Measure): number | null => {
            const one = card.tape.measures[name];
            return one ? one.value + off[MEASURES.indexOf(name)]! * one.uncertainty! : null;
          };
          const holds = (i: number, side: 'min' | 'max', axis: 0 | 1 | 2, real: number | null): void => {
            if (real === null) return;
            boxes++;
            const face = placed!.obstacles[i]![side][axis];
            if (side === 'min') expect(face).toBeLessThanOrEqual(real + 1e-9);
            else expect(face).toBeGreaterThanOrEqual(real - 1e-9);
          };
          const shift = (measure: Measure, by: number, sign: 1 | -1): number | null => {
            const value = truly(measure);
            return value === null ? null : sign * (by + value);
          };
          const near = truly('toObstacle');
          const width = truly('obstacleWidth');
          if (near !== null && width !== null) {
            holds(0, 'min', 0, near);
            holds(0, 'max', 0, near + width);
            holds(0, 'min', 1, shift('underside', 150, 1));
            holds(0, 'max', 1, shift('topside', 150, -1));
            holds(0, 'min', 2, shift('leftSide', 225, 1));
            holds(0, 'max', 2, shift('rightSide', 225, -1));
          }
          placed!.obstacles.forEach(({ name }, i) => {
            if (name === NAMES.freeAbove) holds(i, 'min', 1, shift('freeAbove', 150, 1));
            if (name === NAMES.freeBelow) holds(i, 'max', 1, shift('freeBelow', 150, -1));
            if (name === NAMES.freeRight) holds(i, 'min', 2, shift('freeRight', 225, 1));
            if (name === NAMES.freeLeft) holds(i, 'max', 2, shift('freeLeft', 225, -1));
          });
        }
      ),
      { numRuns: 500, seed: 5 }
    );
    expect(boxes).toBeGreaterThan(500);
  });

  it('gives a site that a job may say, and the job keeps the card', () => {
    fc.assert(
      fc.property(drawCard, (card) => {
        const { placed } = placeFromTape(card, NAMES);
        fc.pre(placed !== null && card.tape.measures.obstacleWidth?.value !== 0);
        const { end, obstacles } = placed!;
        const site = { section: SECTION, end, clearance: 25, obstacles, tape: card.tape };
        const job = { format: 'gorewright-job', version: 1, site };
        expect(readJob(JSON.stringify(job))).toEqual({ job: JSON.parse(JSON.stringify(job)) });
      }),
      { numRuns: 200, seed: 6 }
    );
  });

  it('has a sentence for every finding, and the value that would do does', () => {
    let tried = 0;
    const say = makeSpeech(DEFAULT_SHOW);
    fc.assert(
      fc.property(drawCard, (card) => {
        const { placed, findings } = placeFromTape(card, NAMES);
        expect(placed === null).toBe(findings.some(({ level }) => level === 'error'));
        for (const finding of findings) {
          expect(tellFinding(finding, EN, say)).not.toMatch(/undefined|NaN|Infinity/);
          const { would, code, data } = finding;
          if (code === 'tape-missing' || code === 'tape-idle') continue;
          tried++;
          const measure = data['measure'] as Measure;
          const measures = {
            ...card.tape.measures,
            [measure]: { ...card.tape.measures[measure], value: would as number }
          };
          const mended = placeFromTape({ ...card, tape: { ...card.tape, measures } }, NAMES);
          const again = mended.findings.filter(
            (other) =>
              other.code === code && other.data['measure'] === measure && other.data['end'] === data['end']
          );
          expect(again).toEqual([]);
        }
      }),
      { numRuns: 1000, seed: 7 }
    );
    expect(tried).toBeGreaterThan(500);
  });
});
