import { describe, expect, it } from 'vitest';
import { readJob, tellFault } from './read.ts';

const SECTION = { width: 400, height: 250 };

function refuse(document: unknown): string {
  const read = readJob(typeof document === 'string' ? document : JSON.stringify(document));
  if (!('fault' in read)) throw new Error('the document was read');
  return tellFault(read.fault);
}

function accept(document: unknown) {
  const read = readJob(typeof document === 'string' ? document : JSON.stringify(document));
  if ('fault' in read) throw new Error(tellFault(read.fault));
  return read.job;
}

const job = (...fittings: object[]) => ({ format: 'gorewright-job', version: 1, fittings });
const bend = (params: object, more: object = {}) => ({
  family: 'bend',
  section: SECTION,
  params: { turn: 90, heel: 'right', ...params },
  ...more
});
const path = (lengths: unknown, joints: unknown) => ({
  family: 'path',
  section: SECTION,
  params: { lengths, joints }
});

describe('a document that is read', () => {
  it('may be of no fitting, or say nothing but its format', () => {
    expect(accept({ format: 'gorewright-job', version: 1 })).toEqual({
      format: 'gorewright-job',
      version: 1
    });
    expect(accept(job()).fittings).toEqual([]);
  });

  it('may begin with a byte order mark', () => {
    expect(accept(`\uFEFF${JSON.stringify(job(bend({})))}`).fittings).toHaveLength(1);
  });

  it('is kept as it was said, defaults are not written into it', () => {
    const said = job(bend({}));
    expect(accept(said)).toEqual(said);
  });

  it.each([
    ['the least section', { section: { width: 20, height: 20 } }],
    ['the largest section', { section: { width: 5000, height: 5000 } }],
    ['the largest quantity', { quantity: 9999 }],
    ['a tag of one letter', { tag: 'x' }],
    ['ends said for one side only', { ends: { outlet: 'plain' } }]
  ])('may have %s', (_what, more) => {
    expect(accept(job(bend({}, more))).fittings).toHaveLength(1);
  });

  it('may have a heel of any finite angle', () => {
    for (const heel of [-720, 1e20, 0.001]) accept(job(path([500, 500], [{ turn: 1, heel }])));
  });

  it('may have 1000 fittings and 200 joints, and not one more', () => {
    const many = (count: number) => job(...Array.from({ length: count }, () => bend({})));
    accept(many(1000));
    expect(refuse(many(1001))).toContain('fittings is');
    expect(refuse(many(1001))).toContain('expected at most 1000 entries');
    const winding = (count: number) =>
      path(
        Array.from({ length: count + 1 }, () => 300),
        Array.from({ length: count }, () => ({ turn: 5, heel: 90 }))
      );
    accept(job(winding(200)));
    expect(refuse(job(winding(201)))).toContain('expected at most 201 entries');
  });
});

describe('a document that is refused says where, what is wrong and what was expected', () => {
  it.each([
    ['', 'is not JSON (Unexpected end of JSON input), expected a JSON document'],
    ['[]', 'is [], expected an object'],
    ['null', 'is null, expected an object'],
    ['{}', 'format is missing, expected "gorewright-job"'],
    ['{"format":"gorewright-job"}', 'version is missing, expected 1'],
    ['{"format":"gorewright-job","version":"1"}', 'version is "1", expected 1'],
    ['{"format":"gorewright-job","version":1e999}', 'version is Infinity, expected 1'],
    [
      '{"format":"gorewright-job","version":2,"pipes":[]}',
      'version is 2, written by a newer Gorewright, expected version 1, or a newer Gorewright to open it'
    ]
  ])('%s', (text, line) => {
    expect(refuse(text)).toBe(line);
  });

  it.each<[object, string]>([
    [bend({ turn: 0 }), 'fittings[0].params.turn is 0, expected more than 0'],
    [bend({ turn: 181 }), 'fittings[0].params.turn is 181, expected at most 180'],
    [bend({ turn: '90' }), 'fittings[0].params.turn is "90", expected a finite number'],
    [bend({ pieces: 2.5 }), 'fittings[0].params.pieces is 2.5, expected a whole number'],
    [bend({ pieces: 10 }), 'fittings[0].params.pieces is 10, expected at most 9'],
    [
      bend({ heel: 'up' }),
      'fittings[0].params.heel is "up", expected "top" or "right" or "bottom" or "left"'
    ],
    [bend({ gore: -1 }), 'fittings[0].params.gore is -1, expected at least 0'],
    [bend({ throatIn: 'all' }), 'fittings[0].params.throatIn is "all", expected a finite number or "rest"'],
    [bend({ throatIn: -1 }), 'fittings[0].params.throatIn is -1, expected at least 0'],
    [
      bend({ radius: 500, gore: 1 }),
      'fittings[0].params.gore is 1, expected only one of gore, radius, setback'
    ],
    [
      bend({ throatOut: 'rest', throatIn: 'rest' }),
      'fittings[0].params.throatIn is "rest", expected at most one throat "rest"'
    ],
    [
      bend({ turn: 120, pieces: 2 }),
      'fittings[0].params.turn is 120, expected at most 90 a joint, so with 2 pieces at most 90'
    ],
    [
      bend({}, { section: { width: 19, height: 250 } }),
      'fittings[0].section.width is 19, expected at least 20'
    ],
    [
      bend({}, { section: { width: 400 } }),
      'fittings[0].section.height is missing, expected a finite number'
    ],
    [bend({}, { quantity: 0 }), 'fittings[0].quantity is 0, expected at least 1'],
    [bend({}, { tag: '' }), 'fittings[0].tag is "", expected at least 1 character'],
    [
      bend({}, { colour: 1 }),
      'fittings[0].colour is not a known field, expected only fields of the published schema'
    ],
    [
      bend({ Turn: 9 }),
      'fittings[0].params.Turn is not a known field, expected only fields of the published schema'
    ],
    [path([500, 500], []), 'fittings[0].params.joints is [], expected one joint fewer than lengths (1)'],
    [path([], []), 'fittings[0].params.lengths is [], expected at least 1 entries'],
    [
      path([500, 500], [{ turn: 91, heel: 0 }]),
      'fittings[0].params.joints[0].turn is 91, expected at most 90'
    ],
    [
      path([500, 500], [{ turn: 9 }]),
      'fittings[0].params.joints[0].heel is missing, expected a finite number'
    ],
    [
      { section: SECTION, params: {}, family: 'horn' },
      'fittings[0].family is "horn", expected "straight" or "bend"'
    ]
  ])('%j', (fitting, line) => {
    // The list of families grows; the rest of the line is fixed.
    expect(refuse(job(fitting)).startsWith(line)).toBe(true);
    if (!line.includes('"horn"')) expect(refuse(job(fitting))).toBe(line);
  });

  it('two fittings of one tag, given or by their place', () => {
    expect(refuse(job(bend({}, { tag: 'A' }), bend({}, { tag: 'A' })))).toBe(
      'fittings[1].tag is "A", as fittings[0], expected a tag of its own'
    );
    expect(refuse(job(bend({}, { tag: 'F2' }), bend({})))).toBe(
      'fittings[1].tag is "F2", as fittings[0] (given by its place), expected a tag of its own'
    );
  });
});

describe('a site', () => {
  const BEAM = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] };
  const END = { at: [2600, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] };
  const SITE = { section: SECTION, end: END, clearance: 25, obstacles: [BEAM] };
  const within = (more: object, ...fittings: object[]) => ({
    ...job(...fittings),
    site: { ...SITE, ...more }
  });

  it('is read with all that may be said of it, and with nothing that may be left out', () => {
    const all = within(
      {
        fitting: 'F2',
        handRoom: 80,
        obstacles: [{ ...BEAM, clearance: 40, turn: -450 }]
      },
      bend({}),
      bend({})
    );
    expect(accept(all)).toEqual(all);
    expect(accept(within({ obstacles: [] }))).toEqual(within({ obstacles: [] }));
  });

  it('may keep the measures that a tape gave', () => {
    const tape = {
      goesOn: 'straight',
      obstacle: { name: 'beam', kind: 'beam' },
      measures: { toObstacle: { value: 1150 }, underside: { value: -190, uncertainty: 3 } }
    };
    expect(accept(within({ tape }))).toEqual(within({ tape }));
    const say = (measures: object): string => refuse(within({ tape: { ...tape, measures } }));
    expect(say({ toObstacle: { value: -1 } })).toBe(
      'site.tape.measures.toObstacle.value is -1, expected at least 0'
    );
    expect(say({ obstacleWidth: { value: 0 } })).toBe(
      'site.tape.measures.obstacleWidth.value is 0, expected more than 0'
    );
    expect(say({ underside: { value: 0, uncertainty: -5 } })).toBe(
      'site.tape.measures.underside.uncertainty is -5, expected at least 0'
    );
    expect(say({ overThere: { value: 1 } })).toContain('site.tape.measures.overThere is not a known field');
    expect(refuse(within({ tape: { ...tape, goesOn: 'back' } }))).toContain('site.tape.goesOn is "back"');
  });

  it('may leave coordinates of its end free, and say its directions in any length', () => {
    accept(within({ end: { ...END, at: [null, -300, null] } }));
    accept(within({ end: { ...END, flow: [3000, 0, 4000], up: [0, 0.5, 0] } }));
    accept(within({ end: { ...END, up: [0.001, 1, 0] } }));
  });

  it('may have a box that is flat, as a wall is that has no thickness to speak of', () => {
    accept(within({ obstacles: [{ ...BEAM, max: BEAM.min }] }));
  });

  it('may have 200 obstacles and not one more', () => {
    accept(within({ obstacles: Array.from({ length: 200 }, () => BEAM) }));
    expect(refuse(within({ obstacles: Array.from({ length: 201 }, () => BEAM) }))).toContain(
      'expected at most 200 entries'
    );
  });

  it('may hold any fitting of the list, by a tag that is given or by its place', () => {
    accept(within({ fitting: 'F1' }, bend({})));
    accept(within({ fitting: 'riser' }, bend({}), bend({}, { tag: 'riser' })));
    for (const [fitting, ...list] of [['F2', bend({})], ['F1', bend({}, { tag: 'riser' })], ['F1']] as const)
      expect(refuse(within({ fitting }, ...list))).toBe(
        `site.fitting is "${fitting}", expected the tag of a fitting in the list`
      );
  });

  it.each<[object, string]>([
    [{ section: undefined }, 'site.section is missing, expected an object'],
    [{ clearance: undefined }, 'site.clearance is missing, expected a finite number'],
    [{ obstacles: undefined }, 'site.obstacles is missing, expected a list'],
    [{ clearance: -1 }, 'site.clearance is -1, expected at least 0'],
    [{ handRoom: -1 }, 'site.handRoom is -1, expected at least 0'],
    [{ fitting: '' }, 'site.fitting is "", expected at least 1 character'],
    [{ wind: 3 }, 'site.wind is not a known field, expected only fields of the published schema'],
    [{ end: { ...END, at: [0, 0] } }, 'site.end.at is [0,0], expected at least 3 entries'],
    [{ end: { ...END, at: [0, '0', 0] } }, 'site.end.at[1] is "0", expected a finite number or null'],
    [{ end: { ...END, at: [0, 0, 2e6] } }, 'site.end.at[2] is 2000000, expected at most 1000000'],
    [
      { end: { ...END, flow: [0, 0, 0] } },
      'site.end.flow is [0,0,0], expected a direction, at least 0.001 long'
    ],
    [
      { end: { ...END, up: [0, 0.0009, 0] } },
      'site.end.up is [0,0.0009,0], expected a direction, at least 0.001 long'
    ],
    [
      { end: { ...END, up: [0.002, 1, 0] } },
      'site.end.up is [0.002,1,0], expected a direction square to flow'
    ],
    [{ end: { ...END, flow: [0, null, 0] } }, 'site.end.flow[1] is null, expected a finite number'],
    [{ obstacles: [{ ...BEAM, name: '' }] }, 'site.obstacles[0].name is "", expected at least 1 character'],
    [
      { obstacles: [BEAM, { ...BEAM, max: [1400, -91, 2000] }] },
      'site.obstacles[1].max[1] is -91, expected at least min[1], -90'
    ],
    [
      { obstacles: [{ ...BEAM, min: [-1e7, 0, 0] }] },
      'site.obstacles[0].min[0] is -10000000, expected at least -1000000'
    ],
    [{ obstacles: [{ ...BEAM, turn: 'left' }] }, 'site.obstacles[0].turn is "left", expected a finite number']
  ])('with %j is refused', (more, line) => {
    expect(refuse(within(more))).toBe(line);
  });

  it('of a job whose tags are at fault is not blamed for a tag that is none of them', () => {
    const text = JSON.stringify({ site: { ...SITE, fitting: 'riser' }, ...job(bend({}, { tag: 5 })) });
    expect(refuse(text)).toBe('fittings[0].tag is 5, expected a text');
  });
});

describe('of several faults', () => {
  it('the first as written is told, whatever kind it is', () => {
    const text = (fields: string[]): string => `{${fields.join(',')}}`;
    const head = '"format":"gorewright-job","version":1';
    expect(refuse(text([head, '"nme":1', '"fittings":7']))).toContain('nme is not a known field');
    expect(refuse(text([head, '"fittings":7', '"nme":1']))).toContain('fittings is 7');
    const first = bend({ turn: 200 });
    const second = { tag: 'F1', ...bend({}) };
    expect(refuse(job(first, second))).toContain('fittings[0].params.turn');
    expect(refuse(job(bend({}), { ...second, params: {} }))).toContain('fittings[1].tag');
  });

  it('a field that is missing comes after those that are there', () => {
    expect(refuse(job({ ...bend({}), params: { turn: -1 } }))).toContain('params.turn is -1');
    expect(refuse(job({ ...bend({}), params: { turn: 9 } }, bend({ turn: -1 })))).toContain(
      'fittings[0].params.heel is missing'
    );
  });
});

describe('of very many faults', () => {
  const fields = Array.from({ length: 50_000 }, (_, i): [string, number] => [`k${i}`, i]);

  it('the first is told without looking through the others for every one', () => {
    expect(refuse({ format: 'gorewright-job', version: 1, ...Object.fromEntries(fields) })).toContain(
      'k0 is not a known field'
    );
    expect(refuse(job(Object.fromEntries(fields)))).toContain('fittings[0].k0 is not a known field');
  });

  it('in a list of too many fittings the list is told, and what stands before it', () => {
    const fittings = Array.from({ length: 200_000 }, () => ({}));
    expect(refuse({ format: 'gorewright-job', version: 1, fittings })).toContain('fittings is [{},{},{},');
    expect(refuse({ format: 'gorewright-job', version: 1, nme: 1, fittings })).toContain('nme is not');
  });
});

describe('the line of a refusal', () => {
  it('stays one line and stays short, however long and odd the value', () => {
    const line = refuse(job(bend({ heel: `${'a\n'.repeat(5000)}😀` })));
    expect(line).not.toMatch(/[\n\r]/);
    expect(line.length).toBeLessThan(250);
  });

  it('does not cut a character in half', () => {
    const line = refuse(job(bend({ heel: 'a'.repeat(58) + '😀😀' })));
    expect(line.isWellFormed?.() ?? !/[\uD800-\uDBFF](?![\uDC00-\uDFFF])/.test(line)).toBe(true);
  });

  it('says in which line and column the text stops being JSON', () => {
    expect(refuse('{\n  "format": "gorewright-job",\n  version: 1\n}')).toMatch(/line 3/);
  });

  it('names a field with spaces or quotes so that it can be found', () => {
    expect(refuse({ format: 'gorewright-job', version: 1, 'two words': 1 })).toMatch(
      /^\["two words"\] is not/
    );
  });
});
