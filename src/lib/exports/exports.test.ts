import { beforeAll, describe, expect, it, vi } from 'vitest';
import { findCorners, inflateContent, measure, readPdf, type ReadPage } from '../../../tests/pdf.ts';
import { EXAMPLES, evaluateJob, findExport, loadFont } from '../../../tests/paper.ts';
import { measureText } from '../figures/lettering.ts';
import type { Model } from '../kernel/evaluate.ts';
import { markCut } from '../kernel/straight/cut.ts';
import { growSection } from '../kernel/straight/section.ts';
import { nameFile, type Export, type ExportOptions } from './export.ts';
import { EXPORTS } from './index.ts';

const BEND = EXAMPLES.bend;
const COMPOUND = EXAMPLES.path;
const IMPOSSIBLE = {
  family: 'path',
  section: { width: 400, height: 250 },
  params: { lengths: [50, 50], joints: [{ turn: 90, heel: 0 }] }
};

const model = (fitting: object, show: object = {}): Model => evaluateJob([fitting], { show });

async function writePdf(id: Export['id'], of: Model, paper: ExportOptions['paper']): Promise<Uint8Array> {
  return (await findExport(id).write(of, 0, { paper, loadFont })) as Uint8Array;
}

const PAPERS = [
  ['a4', 210, 297],
  ['letter', 215.9, 279.4]
] as const;

describe.each(PAPERS)('printed on %s', (paper, width, height) => {
  const documents: { name: string; bytes: Uint8Array; pages: ReadPage[] }[] = [];
  beforeAll(async () => {
    for (const [name, id, fitting] of [
      ['mark-out of a bend', 'mark-out', BEND],
      ['templates of a bend', 'templates', BEND],
      ['mark-out of compound cuts', 'mark-out', COMPOUND],
      ['mark-out of a fitting that cannot be built', 'mark-out', IMPOSSIBLE]
    ] as const) {
      const bytes = await writePdf(id, model(fitting), paper);
      documents.push({ name, bytes, pages: await readPdf(bytes) });
    }
  });

  it('every page has the size of the paper, upright or across, and its number', () => {
    for (const { name, pages } of documents) {
      pages.forEach((page, i) => {
        const sides = [page.width, page.height].sort((a, b) => a - b);
        expect(Math.abs(sides[0]! - width), name).toBeLessThan(0.01);
        expect(Math.abs(sides[1]! - height), name).toBeLessThan(0.01);
        const number = `${i + 1} of ${pages.length}`;
        expect(page.texts.filter(({ text }) => [number, `Page ${number}`].includes(text))).toHaveLength(1);
      });
    }
    expect(documents).toHaveLength(4);
  });

  it('every page carries bars of 100 mm and of 4 inches, lying and standing', () => {
    for (const { name, pages } of documents) {
      for (const { lines, texts } of pages) {
        for (const [label, length] of [
          ['100 mm', 100],
          ['4 in', 101.6]
        ] as const) {
          const bars = lines.filter((line) => line.width < 0.4 && Math.abs(measure(line) - length) < 0.05);
          expect(bars.filter(({ from, to }) => from[1] === to[1]).length, `${name}: ${label}`).toBe(1);
          expect(bars.filter(({ from, to }) => from[0] === to[0]).length, `${name}: ${label}`).toBe(1);
          expect(texts.filter(({ text }) => text === label)).toHaveLength(2);
        }
      }
    }
  });

  it('lines have the widths of ISO 128 and nothing but finite numbers is in the content', () => {
    for (const { bytes, pages } of documents) {
      const widths = pages.flatMap(({ lines }) => lines.map((line) => line.width.toFixed(2)));
      expect(new Set(widths)).toEqual(new Set(['0.25', '0.50']));
      const content = inflateContent(bytes);
      expect(content.length).toBeGreaterThan(1000);
      expect(content).not.toMatch(/NaN|Infinity|undefined|null/);
    }
  });

  it('the font is embedded, and printing without scaling asked for', () => {
    for (const { bytes } of documents) {
      const raw = Buffer.from(bytes).toString('latin1');
      expect(raw).toContain('/FontFile2');
      expect(raw).toContain('/PrintScaling /None');
    }
  });
});

describe('the mark-out of a bend', () => {
  it('can be searched for its cuts, angles, title, scale and cautions', async () => {
    const pages = await readPdf(await writePdf('mark-out', model(BEND), 'a4'));
    const texts = pages.flatMap((page) => page.texts.map(({ text }) => text));
    for (const wanted of ['C1', 'C2', '22.5°', '386', '1:10', 'F1 bend · Reading room supply']) {
      expect(texts, wanted).toContain(wanted);
    }
    const all = texts.join(' ');
    for (const wanted of [
      'Knives',
      'Glass-fibre dust',
      'Adhesive and tape',
      'height',
      'licensed practitioner'
    ]) {
      expect(all).toContain(wanted);
    }
    expect(all).toContain('computed geometry and nothing else');
  });

  it('shows its marks at the scale it names: stations and line angle measured off the page', async () => {
    const of = model(BEND);
    const straight = of.fittings[0]!.built!.fitting.straights[0]!;
    const [first] = await readPdf(await writePdf('mark-out', of, 'a4'));
    const [top] = markCut(straight.cuts[0]!, growSection(straight.section, straight.thickness), 25);
    // The mark of C1 on the top face: 450 mm across, from station 200 to 386.4, at 1:10.
    const marks = first!.lines.filter(
      (line) => line.width > 0.4 && Math.abs(Math.abs(line.from[1] - line.to[1]) - 45) < 0.02
    );
    const leaning = marks.filter(({ from, to }) => Math.abs(from[0] - to[0]) > 1);
    expect(leaning).toHaveLength(4);
    const [dx, dy] = [leaning[0]!.to[0] - leaning[0]!.from[0], leaning[0]!.to[1] - leaning[0]!.from[1]];
    expect(Math.abs(dx)).toBeCloseTo((top!.end - top!.start) / 10, 2);
    expect((Math.atan(Math.abs(dx / dy)) * 180) / Math.PI).toBeCloseTo(top!.line, 2);
  });

  it('of a fitting that cannot be built says why and that it cannot', async () => {
    const pages = await readPdf(await writePdf('mark-out', model(IMPOSSIBLE), 'a4'));
    const all = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
    expect(all).toContain('cannot be built');
    expect(all).toContain('Cannot be built: ');
  });

  it('speaks inches where inches are shown', async () => {
    const pages = await readPdf(await writePdf('mark-out', model(BEND, { length: 'in/16' }), 'letter'));
    expect(pages[0]!.texts.map(({ text }) => text)).toContain('7 7/8');
  });
});

describe('the templates', () => {
  it.each([
    ['a bend', BEND],
    ['compound cuts', COMPOUND]
  ])('of %s have every mark at its station, at full size', async (_, fitting) => {
    const of = model(fitting);
    const straight = of.fittings[0]!.built!.fitting.straights[0]!;
    const outside = growSection(straight.section, straight.thickness);
    const pages = await readPdf(await writePdf('templates', of, 'a4'));
    let measured = 0;
    for (const cut of straight.cuts) {
      const stations = markCut(cut, outside, straight.thickness).flatMap(({ start, end }) => [start, end]);
      for (const page of pages.filter(({ texts }) =>
        texts.some(({ text }) => text.startsWith(`${cut.name} `))
      )) {
        for (const { at, station } of findCorners(page)) {
          const nearest = stations.reduce((a, b) => (Math.abs(b - station) < Math.abs(a - station) ? b : a));
          expect(Math.abs(station - nearest), `${cut.name} at ${at}`).toBeLessThan(0.2);
          measured++;
        }
      }
    }
    // Five corner lines for each cut, some of them on two pages.
    expect(measured).toBeGreaterThanOrEqual(5 * straight.cuts.length);
  });

  it('say how to lay them and on which face', async () => {
    const pages = await readPdf(await writePdf('templates', model(BEND), 'a4'));
    const [map, first] = pages.map(({ texts }) => texts.map(({ text }) => text).join(' '));
    expect(map).toContain('C1 of F1-A: 7 pages');
    expect(first).toContain('C1 1/7');
    expect(first).toContain('top face, outside up');
    expect(first).toContain('upstream, datum end');
  });
});

describe('every export', () => {
  it.each(EXPORTS.map(({ id }) => id))(
    '%s of the same job has the same bytes whenever it is written',
    async (id) => {
      const writeOn = async (day: string) => {
        vi.useFakeTimers({ now: new Date(day), toFake: ['Date'] });
        try {
          return await findExport(id).write(model(COMPOUND), 0, { paper: 'a4', loadFont });
        } finally {
          vi.useRealTimers();
        }
      };
      const [first, second] = [await writeOn('2001-02-03'), await writeOn('2031-12-11')];
      expect(first.length).toBeGreaterThan(100);
      expect(Buffer.from(second as Uint8Array).equals(Buffer.from(first as Uint8Array))).toBe(true);
    }
  );

  it('is offered only where there is something to write', () => {
    const offered = (fitting: object): string[] =>
      EXPORTS.filter((one) => one.applies(model(fitting), 0)).map(({ id }) => id);
    const uncut = { family: 'straight', section: { width: 400, height: 250 }, params: { length: 1180 } };
    const all = EXPORTS.map(({ id }) => id);
    const ofCuts = ['templates', 'gauges', 'card-model', 'mark-table'];
    expect(offered(BEND)).toEqual(all);
    expect(offered(uncut)).toEqual(all.filter((id) => !ofCuts.includes(id)));
    expect(offered(IMPOSSIBLE)).toEqual(['set', 'mark-out']);
  });

  it('has a name that every file system takes', () => {
    expect(nameFile(model({ ...BEND, tag: 'F1/b: north' }), 0)).toBe('Reading-room-supply-F1-b-north');
  });
});

describe('the room kept for texts', () => {
  it('is never less than the printed letters take', async () => {
    const { jsPDF } = await import('jspdf');
    const pdf = new jsPDF({ unit: 'mm' });
    pdf.addFileToVFS('body.ttf', Buffer.from(await loadFont()).toString('latin1'));
    pdf.addFont('body.ttf', 'body', 'normal');
    pdf.setFont('body');
    for (const text of [
      'C1',
      '1286',
      '3 5/8',
      'line 22.5°',
      'top face, outside up',
      '← P1, upstream, datum end',
      'WWW',
      '€'
    ]) {
      pdf.setFontSize(((2.5 / 0.7) * 72) / 25.4);
      const taken = pdf.getTextWidth(text);
      expect(measureText(text, 2.5), text).toBeGreaterThanOrEqual(taken);
    }
  });
});
