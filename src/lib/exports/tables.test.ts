import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, findExport, loadFont, PARTED_EXAMPLES } from '../../../tests/paper.ts';
import type { Model } from '../kernel/evaluate.ts';
import { FACES } from '../kernel/straight/section.ts';
import type { Sheet } from '../sheet/schema.ts';
import { writeSheet } from '../sheet/sheet.ts';
import { writeCsv, type DecimalMark } from './csv.ts';
import type { Export } from './export.ts';

type Corner = [number, number];

const ALL = { ...EXAMPLES, ...PARTED_EXAMPLES };
const IMPOSSIBLE = {
  family: 'path',
  section: { width: 400, height: 250 },
  params: { lengths: [50, 50], joints: [{ turn: 90, heel: 0 }] }
};

/** Reads CSV by the grammar of RFC 4180, section 2, and nothing more lenient; the first record are the heads. */
function readCsv(text: string, separator = ','): Record<string, string>[] {
  let at = 0;
  const take = (expected: string): boolean => {
    const is = text.startsWith(expected, at);
    if (is) at += expected.length;
    return is;
  };
  const readField = (): string => {
    let field = '';
    if (take('"')) {
      for (;;) {
        if (at >= text.length) throw new Error('a quoted field that does not end');
        if (take('""')) field += '"';
        else if (take('"')) return field;
        else field += text[at++]!;
      }
    }
    while (at < text.length && text[at] !== separator && text[at] !== '\r') {
      if (text[at] === '"' || text[at] === '\n') throw new Error(`bare ${text[at]} at ${at}`);
      field += text[at++]!;
    }
    return field;
  };
  const records: string[][] = [];
  if (!take('\uFEFF')) throw new Error('no byte order mark');
  while (at < text.length) {
    const record = [readField()];
    while (take(separator)) record.push(readField());
    if (!take('\r\n')) throw new Error(`no end of line at ${at}`);
    records.push(record);
  }
  const [heads, ...rows] = records;
  return rows.map((row) => {
    expect(row).toHaveLength(heads!.length);
    return Object.fromEntries(row.map((cell, i) => [heads![i]!, cell]));
  });
}

async function write(id: Export['id'], model: Model, index = 0, decimal?: DecimalMark): Promise<string> {
  const options = { paper: 'a4', loadFont, ...(decimal && { decimal }) } as const;
  return (await findExport(id).write(model, index, options)) as string;
}

const UNITS = [
  ['mm', 1],
  ['in', 25.4],
  ['in/16', 25.4]
] as const;
const name = (length: string): string => (length === 'mm' ? 'mm' : 'in');

/** A cell against the sheet's figure in mm: equal in mm, to half a ten-thousandth in inches. */
function expectLength(cell: string | undefined, mm: number, per: number, power = 1): void {
  expect(cell).toMatch(/^-?\d+(\.\d+)?$/);
  if (per === 1) expect(Number(cell)).toBe(mm);
  else expect(Math.abs(Number(cell) - mm / per ** power)).toBeLessThanOrEqual(0.5e-4 * (1 + 1e-9));
}

describe.each(UNITS)('tables with lengths in %s', (length, per) => {
  const unit = name(length);
  const model = evaluateJob(
    Object.entries(ALL).map(([tag, fitting], i) => ({ ...fitting, tag, quantity: 1 + (i % 3) })),
    { show: { length } }
  );
  const sheet: Sheet = writeSheet(model);

  it('of marks have every mark of every straight and panel of every family as the sheet has it', async () => {
    let [marks, circles, edgesOfPanels] = [0, 0, 0];
    const { thickness } = model.board;
    const expectBlade = (row: Record<string, string>, bevel: number): void => {
      expect(Number(row['Bevel, °'])).toBe(bevel);
      const tilt = (bevel * Math.PI) / 180;
      // A bevel in the sheet is rounded to 0.001°.
      expect(Math.abs(Number(row[`Set-back, ${unit}`]) * per - thickness * Math.tan(tilt))).toBeLessThan(
        0.003
      );
      expect(Math.abs(Number(row[`Depth, ${unit}`]) * per - thickness / Math.cos(tilt))).toBeLessThan(0.003);
    };
    /** Square to the edge from its middle, mm: how far into the outline that on the inside lies. */
    const measureInset = (outer: Corner[], inner: Corner[], i: number): number => {
      const [a, b] = [outer[i]!, outer[(i + 1) % outer.length]!];
      const [ux, uy] = [b[0] - a[0], b[1] - a[1]].map(
        (d) => d / Math.hypot(b[0] - a[0], b[1] - a[1])
      ) as Corner;
      const middle = [0, 1].map((axis) =>
        outer.reduce((sum, at) => sum + at[axis]! / outer.length, 0)
      ) as Corner;
      const square = (at: Corner): number => (at[0] - a[0]) * -uy + (at[1] - a[1]) * ux;
      return square(inner[i]!) * Math.sign(square(middle));
    };
    const expectLying = (row: Record<string, string>, inset: number): void =>
      expect(row['Line on the inside']).toBe(
        Math.abs(inset) < 0.002 ? '' : inset > 0 ? 'further in' : 'further out'
      );
    for (const [index, { straights, panels }] of sheet.fittings.entries()) {
      if (!findExport('mark-table').applies(model, index)) {
        expect(straights.flatMap(({ cuts, marks, openings }) => [...cuts, ...marks, ...openings])).toEqual(
          []
        );
        expect(panels).toEqual([]);
        continue;
      }
      const rows = readCsv(await write('mark-table', model, index));
      const next = rows[Symbol.iterator]();
      for (const straight of straights) {
        for (const cut of straight.cuts) {
          for (const face of FACES) {
            const row = next.next().value!;
            const mark = cut.faces[face];
            expect([row['Part'], row['Mark'], row['Face']]).toEqual([straight.name, cut.name, face]);
            expect([Number(row['Line, °']), Number(row['Bevel, °'])]).toEqual([mark.line, mark.bevel]);
            expect(row['Blade leans']).toBe(mark.lean ?? 'upright');
            expectLength(row[`Start, ${unit}`], mark.start, per);
            expectLength(row[`End, ${unit}`], mark.end, per);
            expectLength(row[`Set-back, ${unit}`], mark.setback, per);
            expectLength(row[`Depth, ${unit}`], mark.depth, per);
            marks++;
          }
        }
        for (const mark of straight.marks) {
          const row = next.next().value!;
          expect([row['Mark'], row['Kind'], row['Face']]).toEqual([mark.name, mark.kind, mark.face]);
          expectBlade(row, mark.bevel);
          expectLength(row[`Start, ${unit}`], mark.from[0], per);
          expectLength(row[`Start from edge, ${unit}`], mark.from[1], per);
          expectLength(row[`End, ${unit}`], mark.to[0], per);
          expectLength(row[`End from edge, ${unit}`], mark.to[1], per);
          marks++;
        }
        for (const { name: opening, outer, inner, edges, circle } of straight.openings) {
          const ends = circle ? [circle.at] : outer;
          for (const [i, at] of ends.entries()) {
            const row = next.next().value!;
            expect(row['Mark']).toBe(opening);
            expectBlade(row, edges[i]!.bevel);
            expectLying(row, circle ? circle.outer - circle.inner : measureInset(outer, inner, i));
            expectLength(row[`Start, ${unit}`], at[0], per);
            expectLength(row[`Start from edge, ${unit}`], at[1], per);
            if (circle) expectLength(row[`Radius, ${unit}`], circle.outer, per);
            if (circle) circles++;
            marks++;
          }
        }
      }
      for (const { name: panel, face = '', outer, inner, edges } of panels) {
        for (const [i, [across, along]] of outer.entries()) {
          const row = next.next().value!;
          expect([row['Part'], row['Mark'], row['Kind']]).toEqual([panel, String(i + 1), 'edge of a panel']);
          expect(row['Face']).toBe(face);
          expectLength(row[`Start, ${unit}`], along, per);
          expectLength(row[`Start from edge, ${unit}`], across, per);
          expectBlade(row, edges[i]!.bevel);
          expectLying(row, measureInset(outer, inner, i));
          edgesOfPanels++;
        }
      }
      expect(next.next().done).toBe(true);
    }
    expect(edgesOfPanels).toBeGreaterThan(50);
    expect(marks).toBeGreaterThan(100);
    expect(circles).toBeGreaterThan(1);
  });

  it('of pieces have every piece as the sheet has it, and its mass', async () => {
    for (const [index, { straights }] of sheet.fittings.entries()) {
      if (straights.length === 0) continue;
      const rows = readCsv(await write('piece-table', model, index));
      const pieces = straights.flatMap((straight) =>
        straight.pieces.map((piece) => ({ ...piece, of: straight.name }))
      );
      expect(rows.map((row) => [row['Straight'], row['Piece']])).toEqual(
        pieces.map((piece) => [piece.of, piece.name])
      );
      for (const [i, piece] of pieces.entries()) {
        const row = rows[i]!;
        expect(row['In the fitting']).toBe(piece.flipped ? 'rolled over' : 'stays');
        expect(row['Seam in the fitting']).toBe(piece.seam.replace('-', ' '));
        expectLength(row[`On the axis, ${unit}`], piece.axis, per);
        expectLength(row[`Shortest edge, ${unit}`], piece.shortest, per);
        expectLength(row[`Longest edge, ${unit}`], piece.longest, per);
        expectLength(row[`Volume, ${unit}³`], piece.volume, per, 3);
        expect(Math.abs(Number(row['Mass, kg']) - piece.volume * 70e-9)).toBeLessThan(0.00051);
      }
    }
  });

  it('of what is cut have every straight and panel of the job, whose masses add up to the sheet', async () => {
    const rows = readCsv(await write('cut-list', model));
    const parts = sheet.fittings.flatMap(({ tag, straights, panels }) =>
      [...straights, ...panels].map((part) => [tag, part.name])
    );
    expect(rows.map((row) => [row['Fitting'], row['Part']])).toEqual(parts);
    for (const { tag, quantity, straights, panels, quantities } of sheet.fittings) {
      const own = rows.filter((row) => row['Fitting'] === tag);
      expect(own.map((row) => Number(row['Quantity']))).toEqual(own.map(() => quantity));
      const sum = (head: string): number => own.reduce((all, row) => all + Number(row[head]), 0);
      // Each row is rounded to a gram.
      expect(Math.abs(sum('Mass, kg') - quantities.mass)).toBeLessThan(0.0006 * (own.length + 1));
      expect(Math.abs(sum('Mass in all, kg') - quantity * quantities.mass)).toBeLessThan(
        0.0006 * (own.length + quantity)
      );
      for (const straight of straights) {
        const row = own.find((one) => one['Part'] === straight.name)!;
        expectLength(row[`Length, ${unit}`], straight.length, per);
        expectLength(row[`Inside width, ${unit}`], straight.section.width, per);
        expectLength(row[`Inside height, ${unit}`], straight.section.height, per);
        expectLength(row[`Thickness, ${unit}`], 25, per);
        expect([row['Laid on the board'], row['Datum end'], row['Far end']]).toEqual([
          straight.lay,
          ...straight.ends
        ]);
        const blanks = { 'one piece': 1, 'two angles': 2, 'trough and lid': 2, 'four panels': 4 };
        expect(Number(row['Blanks'])).toBe(blanks[straight.make]);
      }
      for (const { name: panel, outer } of panels) {
        const row = own.find((one) => one['Part'] === panel)!;
        const along = outer.map(([, downstream]) => downstream);
        const long = Math.round((Math.max(...along) - Math.min(...along)) * 1000) / 1000;
        expectLength(row[`Length, ${unit}`], long, per);
        expect(row['Made']).toBe('');
      }
    }
  });
});

describe('a cut list', () => {
  it('names what cannot be built, and is none where nothing can', async () => {
    const rows = readCsv(await write('cut-list', evaluateJob([EXAMPLES.bend, IMPOSSIBLE])));
    expect(rows.map((row) => [row['Fitting'], row['Part'], row['Kind'], row['Mass, kg']])).toEqual([
      ['F1', 'F1-A', 'straight', '2.261'],
      ['F2', '', 'cannot be built', '']
    ]);
    expect(findExport('cut-list').applies(evaluateJob([IMPOSSIBLE]), 0)).toBe(false);
  });
});

describe('a table for a spreadsheet with a decimal comma', () => {
  it('has the same cells, parted by semicolons', async () => {
    const model = evaluateJob([{ ...EXAMPLES.path, tag: 'a; "b", 1.5' }]);
    const points = readCsv(await write('mark-table', model));
    const commas = readCsv(await write('mark-table', model, 0, 'comma'), ';');
    expect(points[0]!['Start, mm']).toMatch(/^\d+\.\d+$/);
    const isNumber = (cell: string): boolean => /^-?\d+(\.\d+)?$/.test(cell);
    expect(commas).toEqual(
      points.map((row) =>
        Object.fromEntries(
          Object.entries(row).map(([head, cell]) => [head, isNumber(cell) ? cell.replace('.', ',') : cell])
        )
      )
    );
  });
});

/** What a spreadsheet makes of a file when it expects this between cells: quotes count only where a cell begins with them. */
function splitLoosely(text: string, separator: string): string[] {
  return text
    .slice(1)
    .split(/\r\n/)
    .flatMap((line) =>
      [
        ...line.matchAll(
          new RegExp(`("(?:[^"]|"")*"[^${separator}]*|[^${separator}]*)(?:${separator}|$)`, 'g')
        )
      ].map(([, cell]) => cell!.replace(/^"/, '').replaceAll('""', '"'))
    );
}

describe('what a user calls a fitting', () => {
  const isFormula = (cell: string): boolean => /^[\s\0]*[=+\-@＝＋－＠]/.test(cell) && !/^-\d/.test(cell);
  const column = { heading: 'Tag', cell: (row: string) => row };

  it.each([
    ['=1+1', "'=1+1"],
    ['+1', "'+1"],
    ['-2+3', "'-2+3"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "' =1"],
    ['\r\n=1', "' =1"],
    ['  =1', "'  =1"],
    ['＝1', "'＝1"],
    ['a;=1', "a;'=1"],
    ['a,"=1"', 'a,"\'=1"'],
    ['F1 - north, 2 + 2', 'F1 - north, 2 + 2']
  ])('%j is the text %j', (said, read) => {
    expect(readCsv(writeCsv([column], [said]))).toEqual([{ Tag: read }]);
  });

  it('never begins a formula, whatever separator is expected, and is read back as it is otherwise', () => {
    const letters = fc.constantFrom(...'=+-@;,"\'\t\r\n a1(|＝');
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: letters, maxLength: 8 }), { minLength: 1, maxLength: 3 }),
        fc.constantFrom<DecimalMark>('point', 'comma'),
        (texts, mark) => {
          const columns = texts.map((_, i) => ({ heading: `h${i}`, cell: (row: string[]) => row[i]! }));
          const csv = writeCsv(columns, [texts], mark);
          for (const separator of [',', ';', '\t']) {
            expect(splitLoosely(csv, separator).filter(isFormula)).toEqual([]);
          }
          const [row] = readCsv(csv, mark === 'point' ? ',' : ';');
          texts.forEach((text, i) => {
            const cell = row![`h${i}`]!;
            // eslint-disable-next-line no-control-regex -- it is what a name loses
            expect(cell.replaceAll("'", '')).toBe(text.replace(/[\x00-\x1f\x7f]+/g, ' ').replaceAll("'", ''));
            expect(cell.length - text.replace(/[\r\n\t]+/g, ' ').length).toBeGreaterThanOrEqual(0);
          });
        }
      ),
      { numRuns: 500 }
    );
  });

  it('leaves figures below nothing figures', () => {
    expect(readCsv(writeCsv([{ heading: 'Rise', cell: (row: number) => row }], [-300, -0.5]))).toEqual([
      { Rise: '-300' },
      { Rise: '-0.5' }
    ]);
  });

  it('reaches the tables through the tag', async () => {
    const model = evaluateJob([{ ...EXAMPLES.bend, tag: '=HYPERLINK("http://a.example","F1")' }]);
    for (const id of ['mark-table', 'piece-table', 'cut-list'] as const) {
      for (const mark of ['point', 'comma'] as const) {
        const csv = await write(id, model, 0, mark);
        for (const separator of [',', ';', '\t'])
          expect(splitLoosely(csv, separator).filter(isFormula)).toEqual([]);
        expect(csv).toContain("'=HYPERLINK");
      }
    }
  });
});
