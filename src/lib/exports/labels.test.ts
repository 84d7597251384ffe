import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { evaluateJob, EXAMPLES, PARTED_EXAMPLES, printPages } from '../../../tests/paper.ts';
import { measure, type ReadFill, type ReadPage } from '../../../tests/pdf.ts';
import { composeLabels } from '../figures/paper-labels.ts';
import { LABEL } from '../figures/label.ts';
import { measureOnPaper } from '../figures/lettering.ts';
import { findOverlaps } from '../figures/room.ts';
import type { Model } from '../kernel/evaluate.ts';
import { digestJob } from './digest.ts';
import { pickModelled, readLink, writeLink } from './link.ts';
import { evaluate } from '../kernel/evaluate.ts';

const ADDRESS = 'https://ducts.example/gorewright/';
const ALL = Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES });

beforeAll(async () => {
  const wasmBinary = readFileSync(new URL(import.meta.resolve('zxing-wasm/reader/zxing_reader.wasm')));
  await prepareZXingModule({
    overrides: { wasmBinary: new Uint8Array(wasmBinary).buffer },
    fireImmediately: true
  });
});

/** Pixels a millimetre: about 200 to the inch. */
const FINE = 8;

/** What stands between the marks at which a label is cut out; mm from its lower left corner. */
interface Cut {
  readonly texts: readonly string[];
  readonly fills: readonly ReadFill[];
  readonly width: number;
  readonly height: number;
}

/** Cuts the labels of a page out, from mark to mark, row by row from the top. */
function cutOut({ lines, fills, texts }: ReadPage): Cut[] {
  const marks = lines.filter((line) => Math.abs(measure(line) - 3) < 0.01);
  const list = (across: 0 | 1): number[] => {
    const along = across === 0 ? 1 : 0;
    const places = marks.flatMap(({ from, to }) => (from[across] === to[across] ? [from[across]] : []));
    const ends = marks.flatMap(({ from, to }) => (from[along] === to[along] ? [] : [from[across]]));
    expect(ends.length).toBeGreaterThan(0);
    return [...new Set(places.map((place) => Math.round(place * 100) / 100))].sort((a, b) => a - b);
  };
  const [xs, ys] = [list(0), list(1).reverse()];
  return ys.slice(1).flatMap((bottom, row) =>
    xs.slice(1).map((right, column): Cut => {
      const [left, top] = [xs[column]!, ys[row]!];
      const isIn = (x: number, y: number): boolean => x > left && x < right && y > bottom && y < top;
      return {
        texts: texts.filter(({ x, y }) => isIn(x, y)).map(({ text }) => text),
        fills: fills
          .filter(({ points }) => points.every(([x, y]) => isIn(x, y)))
          .map(({ points, colour }) => ({
            colour,
            points: points.map(([x, y]) => [x - left, y - bottom] as const)
          })),
        width: right - left,
        height: top - bottom
      };
    })
  );
}

/** Reads a code off a label as a camera would see it: its fills as pixels. */
async function scan({ fills, width, height }: Cut, fine = FINE): Promise<string | null> {
  const [columns, rows] = [Math.round(width * fine), Math.round(height * fine)];
  const pixels = new Uint8ClampedArray(columns * rows * 4).fill(255);
  for (const { points, colour } of fills) {
    expect(colour).toBe('#000000');
    const [ys, xs] = [points.map(([, y]) => y), points.map(([x]) => x)];
    for (
      let row = Math.ceil((height - Math.max(...ys)) * fine - 0.5);
      row < (height - Math.min(...ys)) * fine - 0.5;
      row++
    ) {
      for (
        let column = Math.ceil(Math.min(...xs) * fine - 0.5);
        column < Math.max(...xs) * fine - 0.5;
        column++
      ) {
        if (isInside(points, (column + 0.5) / fine, height - (row + 0.5) / fine))
          pixels.fill(0, (row * columns + column) * 4, (row * columns + column) * 4 + 3);
      }
    }
  }
  const read = await readBarcodes(
    { data: pixels, width: columns, height: rows, colorSpace: 'srgb' } as ImageData,
    { formats: ['QRCode'] }
  );
  expect(read.length).toBeLessThanOrEqual(1);
  return read[0]?.text ?? null;
}

function isInside(points: ReadFill['points'], x: number, y: number): boolean {
  let inside = false;
  points.forEach(([x1, y1], i) => {
    const [x0, y0] = points[(i || points.length) - 1]!;
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
  });
  return inside;
}

async function print(
  model: Model,
  options: Parameters<typeof printPages>[2] = { address: ADDRESS }
): Promise<Cut[]> {
  const pages = await printPages('labels', model, options);
  return pages.flatMap(cutOut).filter(({ texts }) => texts.length > 0);
}

const find = (labels: readonly Cut[], name: string): Cut => labels.find(({ texts }) => texts.includes(name))!;

/** Texts of the labels that are laid on pages, label by label. */
function listTexts(model: Model): string[][] {
  return composeLabels(model, 0, 'a4', { digest: null, revision: 'C2' }, 'address').flatMap(({ parts }) =>
    parts
      .map(({ figure }) => figure.layers.flatMap(({ items }) => items))
      .map((items) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])))
      .filter((texts) => texts.includes('Rev. C2'))
  );
}

it.each([
  ['a bend', EXAMPLES.bend],
  ['a free path', EXAMPLES.path],
  ['a box', PARTED_EXAMPLES['a box']]
])('the code on a label of %s is read by an independent reader: the link to the fitting', async (_, said) => {
  const model = evaluateJob([said]);
  const labels = await print(model, { address: ADDRESS, paper: 'letter' });
  const link = await scan(labels[labels.length - 1]!);
  expect({ link }).toEqual(writeLink(pickModelled(model, 0), ADDRESS));
  const read = readLink(new URL(link!).hash);
  if (!read || !('job' in read)) throw new Error('the link cannot be read');
  expect(await digestJob(evaluate(read.job))).toBe(await digestJob(model));
});

describe.each(ALL)('the labels of %s', (_, said) => {
  const model = evaluateJob([said]);
  const { straights, bodies } = model.fittings[0]!.built!.fitting;

  it('are one for every straight, piece and panel', () => {
    const names = listTexts(model).map((texts) => texts.filter((text) => /^(F1-[A-Z]|[PW]\d+)$/.test(text)));
    expect(names.flat().sort()).toEqual([...straights, ...bodies].map(({ name }) => name).sort());
    expect(names.every((own) => own.length === 1)).toBe(true);
  });

  it('keep to their size and let no text lie over another, in inches and under a long tag as well', () => {
    const long = evaluateJob([{ ...said, tag: 'Reading room riser 12, north', quantity: 120 }], {
      show: { length: 'in/16' }
    });
    for (const one of [model, long]) {
      for (const { parts } of composeLabels(one, 0, 'a4', { digest: null, revision: 'C2' }, 'address')) {
        const figures = parts.filter(({ figure }) => figure.layers.some(({ name }) => name === 'names'));
        expect(figures.length).toBeGreaterThan(0);
        for (const { figure } of figures) {
          const box = measureOnPaper(figure, 1)!;
          expect([box.left, box.top].every((side) => side > 1)).toBe(true);
          expect(box.right).toBeLessThan(LABEL.width - 1);
          expect(box.bottom).toBeLessThan(LABEL.height);
          expect(findOverlaps(figure, 1)).toEqual([]);
        }
      }
    }
  });
});

describe('labels', () => {
  const bend = evaluateJob([{ ...EXAMPLES.bend, quantity: 3 }]);

  it('have TOP on the face that is up in the fitting: of a piece that is rolled over on its bottom', async () => {
    const labels = await print(bend, { title: { revision: 'B' } });
    const arrows = ({ fills }: Cut): number => fills.filter(({ points }) => points.length === 7).length;
    const rolls = ({ fills }: Cut): number => fills.filter(({ points }) => points.length > 20).length;
    for (const [name, face, rolled] of [
      ['P1', 'top', 0],
      ['P2', 'bottom', 1],
      ['P3', 'top', 0]
    ] as const) {
      const label = find(labels, name);
      for (const text of ['TOP', 'F1', '3 off', 'Rev. B', '400 × 250 mm inside', 'Reading room supply'])
        expect(label.texts).toContain(text);
      expect(label.texts.join(' ')).toContain(`On the ${face} face, the arrow downstream.`);
      expect([arrows(label), rolls(label)]).toEqual([1, rolled]);
    }
    // Stuck on the top face of a straight whose second piece has its bottom up, TOP would be wrong.
    const straight = find(labels, 'F1-A');
    expect(straight.texts).not.toContain('TOP');
    expect(straight.texts.join(' ')).toContain(
      'On the top face at the datum end, the arrow downstream. Becomes P1, P2, P3.'
    );
  });

  it('of panels say which face of the duct they are, and have an arrow where there is a flow along them', async () => {
    const labels = await print(evaluateJob([PARTED_EXAMPLES['a reducer of panels']]));
    expect(find(labels, 'W1').texts).toContain('TOP');
    expect(find(labels, 'W2').texts).toContain('right face');
    expect(find(labels, 'W2').texts).not.toContain('TOP');
    const [cover] = (await print(evaluateJob([PARTED_EXAMPLES['a cap set on']]))).filter(
      ({ texts }) => texts[0] === 'W1'
    );
    expect(cover!.texts).toContain('On the facing.');
    expect(cover!.fills.filter(({ points }) => points.length === 7)).toEqual([]);
  });

  it('are read from 1 m: name, tag and TOP no lower than 4.7 mm, which is 16 minutes of arc', () => {
    const [page] = composeLabels(bend, 0, 'a4', { digest: null }, 'address');
    const least = 2000 * Math.tan(((16 / 60 / 2) * Math.PI) / 180);
    const items = page!.parts.flatMap(({ figure }) => figure.layers.flatMap((layer) => layer.items));
    const read = items.filter(
      (item) => item.kind === 'text' && /^(F1(-A)?|P\d|TOP|Straight|3 off|400 ×.*)$/.test(item.text)
    );
    expect(read).toHaveLength(4 * 5);
    for (const item of read) expect(item.kind === 'text' && item.height).toBeGreaterThan(least);
  });

  it('have the code at a module of a third of a millimetre or more, its quiet zone of four modules white', async () => {
    for (const address of [ADDRESS, `https://ducts.example/${'long/'.repeat(180)}`]) {
      const [label] = await print(bend, { address });
      const modules = label!.fills.filter(({ points }) => points.length === 4);
      const tall = modules.map(
        ({ points }) => Math.max(...points.map(([, y]) => y)) - Math.min(...points.map(([, y]) => y))
      );
      expect(Math.min(...tall)).toBeGreaterThan(0.33);
      const left = Math.min(...modules.flatMap(({ points }) => points.map(([x]) => x)));
      expect(
        label!.width - Math.max(...modules.flatMap(({ points }) => points.map(([x]) => x)))
      ).toBeGreaterThan(4 * tall[0]!);
      expect(left).toBeGreaterThan(LABEL.width / 2 - 4);
    }
  });

  it('have a code that is read from the smallest size to the largest', { timeout: 60_000 }, async () => {
    const uncut = evaluateJob([EXAMPLES.straight]);
    const sizes = new Set<number>();
    for (let length = 0; length <= 900; length += 75) {
      const address = `https://ducts.example/${'x'.repeat(length)}`;
      const [label] = await print(uncut, { address });
      const xs = label!.fills
        .filter(({ points }) => points.length === 4)
        .flatMap(({ points }) => points.map(([x]) => x));
      const module = Math.min(...label!.fills.map(({ points }) => Math.abs(points[2]![1] - points[0]![1])));
      const size = Math.round((Math.max(...xs) - Math.min(...xs)) / module);
      // ISO/IEC 18004, 6.3.1: 21 modules, and 4 more for every version.
      sizes.add((size - 17) / 4);
      expect(await scan(label!, 10), `${length}`).toContain(`${address}#job=`);
    }
    expect([...sizes]).toEqual(expect.arrayContaining([12, 23, 24]));
    expect(sizes.size).toBeGreaterThan(10);
  });

  it('say why they have no code: no address, or a link that is too long', async () => {
    const [without] = await print(bend, {});
    expect(without!.texts.join(' ')).toContain(
      'No code: it would be the link to this fitting, and the address'
    );
    expect(await scan(without!)).toBeNull();
    const [long] = await print(bend, { address: `https://ducts.example/${'long/'.repeat(200)}` });
    expect(long!.texts.join(' ')).toContain('No code: the link to this fitting is too long for one.');
    expect(await scan(long!)).toBeNull();
  });

  it('are six on a sheet of A4 or letter, more on larger ones, cut at marks beyond the labels', async () => {
    const many = evaluateJob([PARTED_EXAMPLES['three ways']]);
    for (const [paper, first] of [
      ['a4', 6],
      ['letter', 6],
      ['a3', 10],
      ['roll-914', 6]
    ] as const) {
      const pages = await printPages('labels', many, { paper });
      const labels = pages.map((page) => cutOut(page).filter(({ texts }) => texts.length > 0));
      expect(labels[0]).toHaveLength(first);
      expect(labels.flat()).toHaveLength(10);
      for (const { width, height } of labels.flat()) {
        expect(Math.abs(width - LABEL.width)).toBeLessThan(0.02);
        expect(Math.abs(height - LABEL.height)).toBeLessThan(0.02);
      }
    }
  });
});
