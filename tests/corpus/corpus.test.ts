import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readJob, tellFault } from '../../src/lib/kernel/document/read.ts';
import { evaluate } from '../../src/lib/kernel/evaluate.ts';
import type { SheetFitting } from '../../src/lib/sheet/schema.ts';
import { writeSheet } from '../../src/lib/sheet/sheet.ts';

const folder = new URL('./', import.meta.url);

function open(file: string) {
  return answer(readFileSync(new URL(file, folder), 'utf8'));
}

/** The refusal as one line, or the sheet's fittings. */
function answer(text: string): string | SheetFitting[] {
  const read = readJob(text);
  if ('fault' in read) return tellFault(read.fault);
  const sheet = writeSheet(evaluate(read.job));
  // A number that is none would be written as null.
  expect(JSON.stringify(sheet)).not.toContain('null');
  return sheet.fittings;
}

function first(file: string): SheetFitting {
  const fittings = open(file);
  if (typeof fittings === 'string') throw new Error(fittings);
  return fittings[0]!;
}

function errors({ findings }: SheetFitting) {
  return findings
    .filter(({ level }) => level === 'error')
    .map(({ code, param, would }) => ({ code, param, would }));
}

describe('a document of version 1', () => {
  it('still reads, and every duct of the library is built as it was', () => {
    const fittings = open('version-1.json') as SheetFitting[];
    expect(
      fittings.map(({ tag, quantity, family, buildable }) => ({ tag, quantity, family, buildable }))
    ).toEqual([
      { tag: 'plant room riser', quantity: 2, family: 'bend', buildable: true },
      { tag: 'stack aisle', quantity: 7, family: 'straight', buildable: true },
      { tag: 'F3', quantity: 1, family: 'bend', buildable: true },
      { tag: 'round the gallery beam', quantity: 1, family: 'path', buildable: true }
    ]);
    const [riser, aisle, branch, beam] = fittings;
    // 1180 less the throat of 200, a gore of 160 and four times 175·tan 22.5.
    expect(riser!.straights[0]!.length).toBe(1180);
    expect(riser!.straights[0]!.pieces.map(({ shortest }) => shortest)).toEqual([200, 160, 530.051]);
    expect(riser!.straights[0]!.ends).toEqual(['female', 'male']);
    expect(aisle!.straights[0]!.pieces[0]!.seam).toBe('bottom-right');
    // (500·350 − 450·300)·1180 mm³ at 75 kg/m³.
    expect(aisle!.quantities.mass).toBe(3.54);
    expect(branch!.straights[0]!.pieces.map(({ shortest }) => shortest)).toEqual([180, 180]);
    expect(beam!.straights[0]!.cuts.map(({ heel, miter }) => [heel, miter])).toEqual([
      [215.5, 22.5],
      [215.5, 22.5],
      [270, 15]
    ]);
  });

  it('with a site still reads, and the duct passes under the beam as it did', () => {
    const read = readJob(readFileSync(new URL('site-past-a-beam.json', folder), 'utf8'));
    if ('fault' in read) throw new Error(tellFault(read.fault));
    const { site, fittings } = evaluate(read.job);
    // Its outside is 150 above the axis, which runs 300 below the inlet's; the beam's underside is 90 below that.
    expect(site!.tightest!.obstacle.name).toBe('beam');
    expect(site!.tightest!.value).toBeCloseTo(60, 9);
    expect(site!.tightest!.wanted).toBe(40);
    expect(fittings[0]!.findings.map(({ code }) => code)).toEqual(['end-plain', 'end-plain']);
  });
});

describe('documents that once broke something', () => {
  it('a heel so large that half a turn is lost in its last digit still cuts the second joint half a turn on', () => {
    // 1e20 is 280 degrees past a whole number of turns.
    const { straights } = first('heel-beyond-digits.json');
    expect(straights[0]!.cuts.map(({ heel }) => heel)).toEqual([280, 100]);
  });

  it('a board so dense that the mass of the duct overflows is refused', () => {
    expect(open('density-overflow.json')).toBe('board.density is 1e+308, expected at most 100000');
  });

  it('a bend that hardly turns has no gore at any radius, and no radius is suggested', () => {
    expect(errors(first('radius-of-a-vanishing-turn.json'))).toEqual([
      { code: 'edge-vanishes', param: 'params.radius', would: undefined }
    ]);
  });

  it('the axes of a bend that hardly turns do not cross, so it has no setback', () => {
    expect(errors(first('setback-of-a-vanishing-turn.json'))).toEqual([
      { code: 'setback-endless', param: 'params.setback', would: undefined }
    ]);
  });

  it('a bend of nine pieces is not told to turn by a whole circle for the sake of a blade', () => {
    const found = first('nine-pieces.json').findings.find(({ code }) => code === 'no-blade')!;
    expect(found.param).toBe('params.turn');
    expect(found.would).toBeUndefined();
  });

  it('a bend of two pieces whose inlet takes the rest of the straight is built when its setback is right', () => {
    // Throats 1180 − 200 − 2·225 and 200: setback 530 + 225.
    const { buildable, straights } = first('two-pieces-by-setback-from-the-rest.json');
    expect(buildable).toBe(true);
    expect(straights[0]!.pieces.map(({ shortest }) => shortest)).toEqual([530, 200]);
  });

  it('a bend whose gores take back what its throat gains has no rest', () => {
    expect(errors(first('rest-independent-of-the-throat.json'))).toEqual([
      { code: 'rest-spent', param: 'params.throatIn', would: 200 }
    ]);
  });

  it('a throat that cannot run out along the board asks for another lay, not for a throat called "across"', () => {
    expect(errors(first('rest-along-the-board.json'))).toEqual([
      { code: 'rest-along', param: 'lay', would: 'across' }
    ]);
  });

  it('a shop without minima still suggests lengths that leave something of a piece', () => {
    expect(errors(first('shop-without-minima.json'))).toEqual([
      { code: 'edge-vanishes', param: 'params.throatIn', would: 1 },
      { code: 'edge-vanishes', param: 'params.gore', would: 1 },
      { code: 'edge-vanishes', param: 'params.throatOut', would: 1 }
    ]);
  });

  it('a shop without an upright blade is not told to turn the duct differently', () => {
    const found = first('shop-without-upright-blade.json').findings.filter(
      ({ code }) => code === 'no-blade'
    );
    expect(found).toHaveLength(1);
    expect(found[0]!.would).toBeUndefined();
  });

  it('the first fault in a fitting of no known family is told, even before its family', () => {
    expect(open('fault-before-an-unknown-family.json')).toBe('fittings[0].tag is 5, expected a text');
  });

  it('a section with more digits than a sheet writes is rounded in the sheet', () => {
    const { straights, ports } = first('digits-of-a-section.json');
    expect(straights[0]!.section).toEqual({ width: 400.123, height: 250 });
    expect(ports[0]!.section).toEqual({ width: 400.123, height: 250 });
  });

  it('an offset of less than any length is none', () => {
    expect(errors(first('offset-of-hardly-anything.json'))).toEqual([
      { code: 'offset-nothing', param: 'params.rise', would: undefined }
    ]);
  });

  it('a travel as long as the shift is a right angle, whatever the last digit of the shift', () => {
    const { buildable, straights } = first('travel-as-long-as-the-shift.json');
    expect(buildable).toBe(true);
    expect(straights[0]!.cuts.map(({ miter }) => miter)).toEqual([45, 45]);
  });

  it('lists nested deeper than JSON can be written are refused in one line', () => {
    const deep = '['.repeat(20_000) + ']'.repeat(20_000);
    expect(answer(`{"format":${deep}}`)).toBe(
      'format is a list nested too deep to show, expected "gorewright-job"'
    );
  });

  it('every document kept here is opened by a test above', () => {
    const source = readFileSync(new URL('corpus.test.ts', folder), 'utf8');
    const kept = readdirSync(folder).filter((name) => name.endsWith('.json'));
    expect(kept.length).toBeGreaterThan(10);
    expect(kept.filter((name) => !source.includes(`'${name}'`))).toEqual([]);
  });
});
