import type { Said } from './documents.ts';

/** A way to break a document, or to strain it. */
export interface Break {
  readonly name: string;
  /** Whether the result can never be read; else it may happen to be legal. */
  readonly refused: boolean;
  /** The text of the document once broken. `pick(n)` chooses a whole number below n; it may be asked any number of times. */
  break(job: Said, pick: (n: number) => number): string;
}

type Json = unknown;
export type Path = readonly (string | number)[];

/** Stands for text that JSON.stringify does not write; `write` puts it in its place. */
function raw(text: string): string {
  return `raw:${Buffer.from(text).toString('base64')}`;
}

function write(value: Json): string {
  return JSON.stringify(value).replaceAll(/"raw:([A-Za-z0-9+/=]*)"/g, (_, text: string) =>
    Buffer.from(text, 'base64').toString()
  );
}

/** Every place in a document that a filter lets through. */
export function listPaths(node: Json, keep: (value: Json) => boolean, path: Path = []): Path[] {
  const here = keep(node) ? [path] : [];
  if (typeof node !== 'object' || node === null) return here;
  const entries = Array.isArray(node) ? [...node.entries()] : Object.entries(node);
  return [
    ...here,
    ...entries.flatMap(([key, value]) => listPaths(value, keep, [...path, key as string | number]))
  ];
}

/** The document with the value at a path replaced; undefined takes an entry away. */
export function replace(node: Json, [first, ...rest]: Path, value: (old: Json) => Json): Json {
  if (first === undefined) return value(node);
  if (Array.isArray(node)) {
    return node
      .map((item: Json, i) => (i === first ? replace(item, rest, value) : item))
      .filter((item) => item !== undefined);
  }
  const record = node as Said;
  const changed = replace(record[first], rest, value);
  const entries = Object.entries(record).flatMap(([key, old]) =>
    key !== first ? [[key, old] as const] : changed === undefined ? [] : [[key, changed] as const]
  );
  return Object.fromEntries(entries);
}

/** A coordinate of a site's end: null says there that it is free. */
export function mayBeNull(path: Path): boolean {
  return path.length === 4 && path.slice(0, 3).join('.') === 'site.end.at';
}

function replaceSome(
  job: Said,
  pick: (n: number) => number,
  keep: (value: Json) => boolean,
  value: (old: Json) => Json,
  isPlace: (path: Path) => boolean = () => true
): string {
  const paths = listPaths(job, keep).filter((path) => path.length > 0 && isPlace(path));
  const path = paths[pick(paths.length)];
  return write(path ? replace(job, path, value) : value(job));
}

const isNumber = (value: Json): boolean => typeof value === 'number';
const isText = (value: Json): boolean => typeof value === 'string';
const isObject = (value: Json): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isAnything = (): boolean => true;

/** A document of one fitting, whatever the rest says. */
function withFitting(job: Said, family: string, params: Said, more: Said = {}): string {
  const fitting = { ...more, family, section: { width: 400, height: 250 }, params };
  return write({ ...job, fittings: [fitting] });
}

const BEND = { turn: 90, heel: 'right' };

const BEAM = { name: 'beam', kind: 'beam', min: [1150, -90, -2000], max: [1400, 400, 2000] };
const SITE = {
  section: { width: 400, height: 250 },
  end: { at: [2600, null, 0], flow: [1, 0, 0], up: [0, 1, 0] },
  clearance: 25,
  obstacles: [BEAM]
};

/** All ways to break a document. */
export const BREAKS: readonly Break[] = [
  {
    name: 'a value of another type',
    refused: false,
    break: (job, pick) =>
      replaceSome(job, pick, isAnything, () => [null, true, 'text', {}, [], 12, -1, [[]], { a: 1 }][pick(9)])
  },
  {
    name: 'null in place of a value',
    refused: true,
    break: (job, pick) =>
      replaceSome(
        job,
        pick,
        isAnything,
        () => null,
        (path) => !mayBeNull(path)
      )
  },
  {
    name: 'a text in place of a number',
    refused: true,
    break: (job, pick) => replaceSome(job, pick, isNumber, (old) => String(old))
  },
  {
    name: 'a list in place of an object',
    refused: true,
    break: (job, pick) => replaceSome(job, pick, isObject, (old) => Object.values(old as Said))
  },
  { name: 'a list in place of the whole', refused: true, break: (job) => write([job]) },
  {
    name: 'something else in place of the whole',
    refused: true,
    break: (_job, pick) => ['null', '7', '"gorewright-job"', 'true', '[]', '{}', '-0', '1e999'][pick(8)]!
  },
  {
    name: 'a field left out',
    refused: false,
    break: (job, pick) => replaceSome(job, pick, isAnything, () => undefined)
  },
  {
    name: 'a required field left out',
    refused: true,
    break: (job, pick) => {
      const fitting: Said = { family: 'bend', section: { width: 400, height: 250 }, params: BEND };
      const whole: Json = { ...job, fittings: [fitting], site: SITE };
      const paths: Path[] = [
        ['format'],
        ['version'],
        ['fittings', 0, 'family'],
        ['fittings', 0, 'section'],
        ['fittings', 0, 'section', 'height'],
        ['fittings', 0, 'params'],
        ['fittings', 0, 'params', 'turn'],
        ['fittings', 0, 'params', 'heel'],
        ['site', 'end', 'up'],
        ['site', 'obstacles', 0, 'max', 2]
      ];
      return write(replace(whole, paths[pick(paths.length)]!, () => undefined));
    }
  },
  {
    name: 'an unknown field',
    refused: true,
    break: (job, pick) => {
      const key = ['colour', 'Turn', 'toString', 'constructor', '', '0', 'line\nbreak', 'x'.repeat(3000)][
        pick(8)
      ]!;
      const paths = listPaths(job, isObject);
      return write(replace(job, paths[pick(paths.length)]!, (old) => ({ ...(old as Said), [key]: 1 })));
    }
  },
  {
    name: 'a field called __proto__',
    refused: true,
    break: (job, pick) => {
      const paths = listPaths(job, isObject);
      const mark = '\u0000proto';
      const text = write(
        replace(job, paths[pick(paths.length)]!, (old) => ({ ...(old as Said), [mark]: { turn: 90 } }))
      );
      return text.replace(JSON.stringify(mark), '"__proto__"');
    }
  },
  {
    name: 'a number out of limits or of an odd size',
    refused: false,
    break: (job, pick) => {
      const numbers = [
        -1, 0, 1e6, 1e15, 1e308, -1e308, 5e-324, 1e-12, 0.1, 7.5, 100_000.001, 19.999, 180.0000001
      ];
      return replaceSome(job, pick, isNumber, () => numbers[pick(numbers.length)]);
    }
  },
  {
    name: 'a number too large for any number',
    refused: true,
    break: (job, pick) => replaceSome(job, pick, isNumber, () => raw(['1e999', '-1e999'][pick(2)]!))
  },
  {
    name: 'minus zero',
    refused: false,
    break: (job, pick) => replaceSome(job, pick, isNumber, () => raw('-0'))
  },
  {
    name: 'NaN and other words that are no JSON',
    refused: true,
    break: (job, pick) =>
      replaceSome(job, pick, isNumber, () =>
        raw(['NaN', 'Infinity', 'undefined', '+1', '.5', '0x10'][pick(6)]!)
      )
  },
  {
    name: 'two equal tags',
    refused: true,
    break: (job, pick) => {
      const straight = { family: 'straight', section: { width: 400, height: 250 }, params: { length: 900 } };
      // Given, or given by the place in the list.
      const tags = [
        ['A', 'A'],
        ['F2', undefined],
        [undefined, 'F1']
      ][pick(3)]!;
      const fittings = tags.map((tag) => (tag ? { tag, ...straight } : straight));
      return write({ ...job, fittings });
    }
  },
  {
    name: 'two drivers',
    refused: true,
    break: (job, pick) => {
      const two = [
        { gore: 150, radius: 600 },
        { radius: 600, setback: 700 },
        { gore: 1, radius: 1, setback: 1 }
      ][pick(3)]!;
      return withFitting(job, 'bend', { ...BEND, ...two });
    }
  },
  {
    name: 'two throats that rest',
    refused: true,
    break: (job) => withFitting(job, 'bend', { ...BEND, throatIn: 'rest', throatOut: 'rest' })
  },
  {
    name: 'two pieces for more than a right angle',
    refused: true,
    break: (job, pick) => withFitting(job, 'bend', { ...BEND, turn: [90.001, 135, 180][pick(3)]!, pieces: 2 })
  },
  {
    name: 'a wrong number of joints',
    refused: true,
    break: (job, pick) => {
      const count = [0, 1, 3, 4][pick(4)]!;
      const joints = Array.from({ length: count }, () => ({ turn: 30, heel: 90 }));
      return withFitting(job, 'path', { lengths: [500, 500, 500], joints });
    }
  },
  {
    name: 'more joints than a path may have',
    refused: true,
    break: (job) => {
      const joints = Array.from({ length: 201 }, () => ({ turn: 1, heel: 90 }));
      return withFitting(job, 'path', { lengths: joints.map(() => 500).concat(500), joints });
    }
  },
  {
    name: 'more fittings than a job may have',
    refused: true,
    break: (job) => {
      const straight = { family: 'straight', section: { width: 400, height: 250 }, params: { length: 900 } };
      return write({ ...job, fittings: Array.from({ length: 1001 }, () => straight) });
    }
  },
  {
    name: 'a family that is none',
    refused: true,
    break: (job, pick) =>
      withFitting(job, ['trombone', '', '__proto__', 'Bend', 'constructor'][pick(5)]!, BEND)
  },
  {
    name: 'a site that holds no fitting of the job',
    refused: true,
    break: (job, pick) => {
      const fitting = ['duct 9', 'F0', 'toString', '__proto__'][pick(4)];
      return write({ ...job, site: { ...SITE, fitting } });
    }
  },
  {
    name: 'an end of a site that shows nowhere, or leans',
    refused: true,
    break: (job, pick) => {
      const said = [{ flow: [0, 0, 0] }, { up: [0, 0, 0] }, { up: [1, 1, 0] }, { up: [-2, 0, 0] }][pick(4)]!;
      return write({ ...job, site: { ...SITE, end: { ...SITE.end, ...said } } });
    }
  },
  {
    name: 'an obstacle that ends before it begins',
    refused: true,
    break: (job, pick) => {
      const max = [...BEAM.max];
      max[pick(3)] = -5000;
      return write({ ...job, site: { ...SITE, obstacles: [BEAM, { ...BEAM, max }] } });
    }
  },
  {
    name: 'more obstacles than a site may have',
    refused: true,
    break: (job) => write({ ...job, site: { ...SITE, obstacles: Array.from({ length: 201 }, () => BEAM) } })
  },
  {
    name: 'nested deep',
    refused: true,
    break: (job, pick) => {
      const depth = [10, 1000, 20_000][pick(3)]!;
      const [open, close] = pick(2) === 0 ? ['[', ']'] : ['{"a":', '}'];
      const inmost = open === '[' ? '' : '0';
      return replaceSome(job, pick, isAnything, () => raw(open.repeat(depth) + inmost + close.repeat(depth)));
    }
  },
  {
    name: 'a very long text',
    refused: false,
    break: (job, pick) =>
      replaceSome(job, pick, isText, () => ['x', '😀', '\n', '"'][pick(4)]!.repeat(50_000))
  },
  {
    name: 'an empty file',
    refused: true,
    break: (_job, pick) => ['', ' ', '\n\n', '\uFEFF', '\uFEFF\uFEFF{}'][pick(5)]!
  },
  {
    name: 'no JSON at all',
    refused: true,
    break: (_job, pick) =>
      ['<html>\n<body>', 'turn = 90', "{'format': 1}", '{"a" 1}', '\u0000\u0001\u001b[31m', '%PDF-1.7\n'][
        pick(6)
      ]!
  },
  {
    name: 'cut off',
    refused: true,
    break: (job, pick) => {
      const text = JSON.stringify(job, null, 2);
      return text.slice(0, pick(text.length));
    }
  },
  {
    name: 'a comma too many',
    refused: true,
    break: (job) => JSON.stringify(job, null, 2).replace(/\n\}$/, ',\n}')
  },
  { name: 'a byte order mark', refused: false, break: (job) => `\uFEFF${write(job)}` },
  {
    name: 'a newer version',
    refused: true,
    break: (job, pick) => write({ ...job, version: [2, 3, 1e9][pick(3)] })
  },
  {
    name: 'no version there is',
    refused: true,
    break: (job, pick) => write({ ...job, version: [0, -1, 1.5, '1', null, [1]][pick(6)] })
  },
  {
    name: 'another format',
    refused: true,
    break: (job, pick) => write({ ...job, format: ['gorewright-sheet', 'Gorewright-job', '', 1][pick(4)] })
  }
];
