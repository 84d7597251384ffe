import { DOMParser, type Element } from '@xmldom/xmldom';
import DxfParser, { type IDxf, type ILwpolylineEntity, type ITextEntity } from 'dxf-parser';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { EXAMPLES, evaluateJob, PARTED_EXAMPLES } from '../../../tests/paper.ts';
import type { Figure, Point, Stroke, Text } from '../figures/figure.ts';
import type { Side } from '../figures/manner.ts';
import { drawPattern } from '../figures/pattern.ts';
import { findOverlaps } from '../figures/room.ts';
import type { Model } from '../kernel/evaluate.ts';
import type { Fitting } from '../kernel/fitting/fitting.ts';
import { measureEdges } from '../kernel/straight/straight.ts';
import { writeDxf } from './dxf.ts';
import { PATTERNS } from './patterns.ts';
import { writeSvg } from './svg.ts';

const [SVG, DXF] = PATTERNS as [(typeof PATTERNS)[number], (typeof PATTERNS)[number]];
const FITTINGS = Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES });
const NAME = 'F1/ü"<x>&%%d 50 % ^J \\U+0041 风管';

const write = async (of: typeof SVG, model: Model, side: Side = 'outside'): Promise<string> =>
  (await of.write(model, 0, { paper: 'a4', loadFont: () => Promise.reject(), side })) as string;
const readDxf = (text: string): IDxf => new DxfParser().parseSync(text)!;
const listLines = ({ entities }: IDxf): ILwpolylineEntity[] =>
  entities.filter(({ type }) => type === 'LWPOLYLINE') as ILwpolylineEntity[];
const listTexts = ({ entities }: IDxf): ITextEntity[] =>
  entities.filter(({ type }) => type === 'TEXT') as ITextEntity[];
const strokesOf = (figure: Figure, names?: readonly string[]) =>
  figure.layers.flatMap(({ name, items }) =>
    items
      .filter((item): item is Stroke => item.kind === 'stroke' && (names?.includes(name) ?? true))
      .map((stroke) => ({ ...stroke, layer: name }))
  );
const textsOf = (figure: Figure): Text[] =>
  figure.layers.flatMap(({ items }) => items.filter((item): item is Text => item.kind === 'text'));

/** The root of an SVG; whatever the parser finds wrong is thrown. */
function readSvg(text: string): Element {
  const onError = (level: string, message: string): never => {
    throw new Error(`${level}: ${message}`);
  };
  return new DOMParser({ onError }).parseFromString(text, 'image/svg+xml').documentElement!;
}

const folder = mkdtempSync(join(tmpdir(), 'gorewright-dxf-'));
afterAll(() => rmSync(folder, { recursive: true }));
const audited: string[] = [];

describe.each(FITTINGS)('the flat pattern of %s', (what, fitting) => {
  const model = evaluateJob([fitting], { show: { length: what.length % 2 ? 'in/16' : 'mm' } });
  const side = FITTINGS.findIndex(([name]) => name === what) % 3 === 1 ? 'inside' : 'outside';
  const figure = drawPattern(model, 0, side)!;

  it('has closed outlines apart, bevels as text and attribute, and no text over another', () => {
    const outlines = strokesOf(figure, ['outside-outline', 'inside-outline', 'opening', 'opening-inside']);
    const { straights, bodies } = model.fittings[0]!.built!.fitting;
    const openings = straights.flatMap((straight) => straight.openings);
    expect(outlines).toHaveLength(2 * (bodies.length + openings.length));
    expect(outlines.every(({ closed }) => closed)).toBe(true);
    const cut = strokesOf(figure, ['cut', 'line-mark', 'opening']);
    expect(cut.every(({ bevels }) => bevels!.length > 0)).toBe(true);
    const cuts = straights.flatMap((straight) => straight.cuts);
    expect(strokesOf(figure, ['cut'])).toHaveLength(4 * cuts.length);
    const tilted = outlines.concat(cut).some(({ bevels = [] }) => bevels.some((bevel) => bevel > 0.1));
    const layer = figure.layers.find(({ name }) => name === 'bevel')?.items ?? [];
    expect(layer.some((item) => item.kind === 'text' && item.text.includes('bevel'))).toBe(tilted);
    expect(findOverlaps(figure, 1)).toEqual([]);
  });

  it('is the same lines and texts in DXF, in mm, upright', async () => {
    const text = await write(DXF, model, side);
    audited.push(join(folder, `${audited.length}.dxf`));
    writeFileSync(audited.at(-1)!, text);
    const dxf = readDxf(text);
    expect(dxf.header.$INSUNITS).toBe(4);
    const [lines, strokes] = [listLines(dxf), strokesOf(figure)];
    expect(lines).toHaveLength(strokes.length);
    lines.forEach(({ vertices, shape, layer }, i) => {
      const { points, closed = false, layer: name } = strokes[i]!;
      expect(layer).toBe(name.toUpperCase());
      expect(shape).toBe(closed);
      expect(vertices).toHaveLength(points.length);
      const off = vertices.map(({ x, y }, k) => Math.hypot(x - points[k]![0], y + points[k]![1]));
      expect(Math.max(...off)).toBeLessThan(1e-3);
    });
    const written = listTexts(dxf).map(({ text: said, textHeight }) => [said, textHeight]);
    expect(written).toEqual(textsOf(figure).map(({ text: said, height }) => [said, height]));
    const { layers } = dxf.tables.layer;
    expect(Object.keys(layers).sort()).toEqual(
      ['0', ...figure.layers.map(({ name }) => name.toUpperCase())].sort()
    );
  });

  it('is the same lines in SVG, in mm', async () => {
    const root = readSvg(await write(SVG, model, side));
    const [, , width, height] = root.getAttribute('viewBox')!.split(' ');
    expect([root.getAttribute('width'), root.getAttribute('height')]).toEqual([`${width}mm`, `${height}mm`]);
    const groups = Array.from(root.getElementsByTagName('g'));
    expect(groups.map((group) => group.getAttribute('id'))).toEqual(figure.layers.map(({ name }) => name));
    const [paths, strokes] = [Array.from(root.getElementsByTagName('path')), strokesOf(figure)];
    expect(paths).toHaveLength(strokes.length);
    const read = paths.map((path) =>
      path
        .getAttribute('d')!
        .match(/-?\d+(\.\d+)?/g)!
        .map(Number)
    );
    const [dx, dy] = [read[0]![0]! - strokes[0]!.points[0]![0], read[0]![1]! - strokes[0]!.points[0]![1]];
    paths.forEach((path, i) => {
      const { points, closed, bevels } = strokes[i]!;
      expect(path.getAttribute('d')!.endsWith('Z')).toBe(closed ?? false);
      const off = points.flat().map((at, k) => Math.abs(read[i]![k]! - at - (k % 2 ? dy : dx)));
      expect(Math.max(...off)).toBeLessThan(1.001e-3);
      const said = path.getAttribute('data-bevel')?.split(' ').map(Number) ?? [];
      expect(said).toHaveLength(bevels?.length ?? 0);
      said.forEach((bevel, k) => expect(bevel).toBeCloseTo(bevels![k]!, 2));
    });
  });
});

describe('the outlines of a flat pattern', () => {
  const areaOf = (points: readonly Point[]): number =>
    Math.abs(
      points.reduce((sum, [x, y], i) => {
        const [nextX, nextY] = points[(i + 1) % points.length]!;
        return sum + (x * nextY - nextX * y) / 2;
      }, 0)
    );
  const measure = (figure: Figure, name: string): number =>
    strokesOf(figure, [name]).reduce((sum, { points }) => sum + areaOf(points), 0);
  /** By hand, what line marks take out of the facing of a blank: the edges of two cheeks, and the wedge of a sloping wall. */
  const wasted = (slope: number, wall: number): number =>
    2 * ((400 * 100) / 2 + 150 * 100) + wall * 2 * 25 * Math.tan(slope / 2);
  const WASTE: Readonly<Record<string, number>> = {
    'a folded and trimmed reducer that opens': wasted(Math.atan(100 / 400), 300)
  };
  // The board of the strip that fills the gap of a folded reducer is no part of its blank.
  const measured = FITTINGS.filter(([what]) => what !== 'a folded reducer');

  /** A round opening has 360 corners on its circle here, and the area of the circle in the kernel: what that is more. */
  const measureRoundness = ({ straights }: Fitting, side: 'outer' | 'inner'): number =>
    straights
      .flatMap(({ openings }) => openings)
      .reduce((sum, { circle }) => {
        const radius = circle?.[side] ?? 0;
        return sum + radius ** 2 * (Math.PI - 180 * Math.sin(Math.PI / 180));
      }, 0);

  it.each(measured)('have the area of the outside of %s, whichever side is up', (what, fitting) => {
    const model = evaluateJob([fitting]);
    const { fitting: built, quantities } = model.fittings[0]!.built!;
    const round = measureRoundness(built, 'outer');
    for (const side of ['outside', 'inside'] as const) {
      const figure = drawPattern(model, 0, side)!;
      const area = measure(figure, 'outside-outline') - measure(figure, 'opening');
      expect(area - round - (WASTE[what] ?? 0)).toBeCloseTo(quantities.outside, 3);
    }
  });

  it.each(measured)('have the area of the inside of %s, and that of the grooves', (what, fitting) => {
    if (what in WASTE) return;
    const model = evaluateJob([fitting]);
    const { fitting: built, quantities } = model.fittings[0]!.built!;
    // Along each of the three folds of the figure twice the board's thickness lies in the groove.
    const grooves = built.straights.reduce((sum, { pieces, section, thickness }) => {
      const lengths = pieces.flatMap((piece) =>
        measureEdges(
          piece,
          { width: section.width - 2 * thickness, height: section.height - 2 * thickness },
          thickness
        )
          .filter(({ corner }) => corner !== 'top-left')
          .map(({ length }) => length)
      );
      return sum + 2 * thickness * lengths.reduce((all, length) => all + length, 0);
    }, 0);
    const covered = built.bodies.reduce((sum, { covered = 0 }) => sum + covered, 0);
    const round = measureRoundness(built, 'inner');
    const figure = drawPattern(model, 0, 'inside')!;
    const area = measure(figure, 'inside-outline') - measure(figure, 'opening-inside');
    expect(area - round - grooves - covered).toBeCloseTo(quantities.inside, 3);
  });

  it('of a folded reducer that is trimmed leave the sloping wall as long as it has to be', () => {
    const figure = drawPattern(
      evaluateJob([PARTED_EXAMPLES['a folded and trimmed reducer that opens']]),
      0,
      'outside'
    )!;
    const blank = strokesOf(figure, ['straight'])[0]!.points;
    const top = Math.min(...blank.map(([, y]) => y));
    // 500 × 250 inside of board 25; the left wall slopes by 100 over 400: 700 + 400·(1/cos δ − 1) + 50·tan(δ/2) = 718.466.
    const expected = [
      ...[0, 550, 850, 1400, 1700].map((y) => [0, y]),
      ...[[718.4658, 1700], [718.4658, 1400]],
      ...[1400, 850, 550, 0].map((y) => [700, y])
    ]; // prettier-ignore
    const { points } = strokesOf(figure, ['outside-outline'])[0]!;
    expect(points).toHaveLength(expected.length);
    for (const [i, [x, y]] of points.entries()) {
      expect(x).toBeCloseTo(expected[i]![0]!, 3);
      expect(y - top).toBeCloseTo(expected[i]![1]!, 3);
    }
  });
});

describe('the flat pattern of a bend', () => {
  const model = evaluateJob([EXAMPLES.bend]);
  // 400 × 250 inside of board 25 is 450 × 300 outside; heel on the right, 450 tan 22.5° beyond the throat at 200.
  const [throat, heel] = [200, 386.3961];
  const outside = [
    ...[0, -450, -750, -1200, -1500].map((y) => [0, y]),
    ...[
      [throat, -1500],
      [throat, -1200],
      [heel, -750],
      [heel, -450],
      [throat, 0]
    ]
  ];
  const mirrored = outside.map(([x, y]) => [x, -1500 - y!]);

  it.each([
    ['outside', outside, ['OUTSIDE UP', 'Not mirrored']],
    ['inside', mirrored, ['INSIDE UP', 'mirror image']]
  ] as const)('%s up lies as it says, in both files', async (side, expected, said) => {
    const dxf = readDxf(await write(DXF, model, side));
    const piece = listLines(dxf).find(({ layer }) => layer === 'OUTSIDE-OUTLINE')!;
    const blank = listLines(dxf).find(({ layer }) => layer === 'STRAIGHT')!;
    const [left, top] = [
      Math.min(...blank.vertices.map(({ x }) => x)),
      Math.max(...blank.vertices.map(({ y }) => y))
    ];
    piece.vertices.forEach(({ x, y }, i) => {
      expect(x - left).toBeCloseTo(expected[i]![0]!, 3);
      expect(y - top).toBeCloseTo(expected[i]![1]!, 3);
    });
    const notes = listTexts(dxf).map(({ text }) => text);
    for (const part of said)
      expect(
        notes.some((text) => text.includes(part)),
        part
      ).toBe(true);

    const svg = readSvg(await write(SVG, model, side));
    const group = Array.from(svg.getElementsByTagName('g')).find(
      (one) => one.getAttribute('id') === 'outside-outline'
    )!;
    const d = group.getElementsByTagName('path')[0]!.getAttribute('d')!;
    const points = d
      .slice(1, -1)
      .split('L')
      .map((at) => at.split(' ').map(Number));
    const highest = Math.min(...points.map(([, y]) => y!));
    points.forEach(([x, y], i) => {
      expect(x! - points[0]![0]!).toBeCloseTo(expected[i]![0]!, 2);
      expect(highest - y!).toBeCloseTo(expected[i]![1]!, 2);
    });
    expect(svg.textContent).toContain(said[1]);
  });

  it('has line types by their names in ISO 128, and its bevels as data of its lines', async () => {
    const text = await write(DXF, model);
    const dxf = readDxf(text);
    const { lineTypes } = dxf.tables.lineType;
    expect(lineTypes.DASHED_NARROW).toMatchObject({ pattern: [3, -1.5] });
    const kinds = new Set(listLines(dxf).map(({ layer, lineType }) => `${layer} ${lineType}`));
    for (const kind of [
      'CUT CONTINUOUS_WIDE',
      'FOLD CONTINUOUS_NARROW',
      'OUTSIDE-OUTLINE CONTINUOUS_WIDE',
      'INSIDE-OUTLINE DASHED_NARROW',
      'STRAIGHT LONG_DASHED_DOUBLE_DOTTED_NARROW'
    ]) {
      expect(kinds, kind).toContain(kind);
    }
    const data = [
      ...text.matchAll(/1001\r\nGOREWRIGHT_BEVEL\r\n1002\r\n{\r\n1040\r\n([\d.]+)\r\n1002\r\n}/g)
    ];
    // Two cuts on four faces, on the facing; those on right and left on the inside too.
    expect(data.map(([, bevel]) => Number(bevel)).sort()).toEqual([
      ...Array(4).fill(0),
      ...Array(8).fill(22.5)
    ]);
  });

  it('keeps the names of users, whatever they are written in', async () => {
    const named = evaluateJob([{ ...EXAMPLES.bend, tag: NAME }], { name: NAME });
    const text = await write(DXF, named);
    const titles = listTexts(readDxf(text)).map((one) => one.text);
    // What would be read as a code is parted by a joiner that is not seen; a caret is spelled with a space.
    const spelled = 'F1/ü"<x>&%\u2060%d 50 % ^ J \\\u2060U+0041 风管';
    expect(titles).toContain(`Flat pattern of ${spelled}`);
    expect(titles).toContain(`${spelled}-A, unrolled`);
    expect(titles.some((title) => title.includes('22.5°'))).toBe(true);
    audited.push(join(folder, 'named.dxf'));
    writeFileSync(audited.at(-1)!, text);
    expect(readSvg(await write(SVG, named)).textContent).toContain(`Flat pattern of ${NAME}`);
  });

  it('is written in pairs of lines, with at most four decimals and no exponent', async () => {
    const lines = (await write(DXF, model)).split('\r\n');
    expect(lines.pop()).toBe('');
    expect(lines.length % 2).toBe(0);
    expect(lines.slice(-1)).toEqual(['EOF']);
    lines.forEach((line, i) => {
      expect(line).not.toMatch(/[\r\n]/);
      if (i % 2 === 0) expect(line).toMatch(/^\d+$/);
      const code = Number(lines[i - 1]);
      if (i % 2 === 1 && code >= 10 && code < 60) expect(line).toMatch(/^-?\d+(\.\d{1,4})?$/);
    });
  });

  it('has the same bytes whenever it is written, whatever was written before', async () => {
    for (const one of PATTERNS) {
      const first = await write(one, model);
      await write(one, evaluateJob([EXAMPLES.offset]));
      expect(await write(one, evaluateJob([EXAMPLES.bend]))).toBe(first);
    }
  });
});

describe('a figure that no file can hold', () => {
  const figureOf = (name: string, x: number): Figure => ({
    layers: [{ name, items: [{ kind: 'stroke', line: 'cut', points: [[0, 0], [x, 1]] }] }] // prettier-ignore
  });

  it.each([NaN, Infinity, -Infinity, 1e21])('is refused with the coordinate %s', (x) => {
    expect(() => writeDxf(figureOf('cut', x))).toThrow(`cannot hold the number ${x}`);
    if (!Number.isFinite(x)) expect(() => writeSvg(figureOf('cut', x), 1, 'x')).toThrow();
  });

  it.each(['F1/ü', 'a b', '', 'x|y'])('is refused with a layer called "%s"', (name) => {
    expect(() => writeDxf(figureOf(name, 1))).toThrow('is no name for a layer');
  });

  it('is not drawn where the fitting cannot be built', () => {
    const params = { lengths: [50, 50], joints: [{ turn: 90, heel: 0 }] };
    const model = evaluateJob([{ family: 'path', section: { width: 400, height: 250 }, params }]);
    expect(drawPattern(model, 0, 'outside')).toBeNull();
    expect(PATTERNS.some((one) => one.applies(model, 0))).toBe(false);
  });
});

/** Debian's interpreter, which alone has ezdxf from apt. */
const PYTHON = '/usr/bin/python3';
const AUDIT = `
import sys, json, ezdxf
out = []
for path in sys.argv[1:]:
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    texts = [e.plain_text() for e in doc.modelspace().query('TEXT')]
    bevels = sum(e.has_xdata('GOREWRIGHT_BEVEL') for e in doc.modelspace())
    out.append([len(audit.errors) + len(audit.fixes), doc.units, texts, bevels])
print(json.dumps(out))`;
const hasEzdxf = spawnSync(PYTHON, ['-c', 'import ezdxf']).status === 0;

describe('every DXF drawing above', () => {
  it.skipIf(!hasEzdxf)(`passes the audit of ezdxf${hasEzdxf ? '' : `, which ${PYTHON} has not`}`, () => {
    const { stdout, stderr } = spawnSync(PYTHON, ['-c', AUDIT, ...audited], { encoding: 'utf8' });
    expect(stdout, stderr).not.toBe('');
    const read = JSON.parse(stdout) as [number, number, string[], number][];
    expect(read).toHaveLength(FITTINGS.length + 1);
    for (const [wrong, units] of read) expect([wrong, units]).toEqual([0, 4]);
    const [, , texts, bevels] = read.at(-1)!;
    expect(texts.map((text) => text.replaceAll('\u2060', ''))).toContain(`Flat pattern of ${NAME}`);
    expect(bevels).toBe(12);
  });
});
