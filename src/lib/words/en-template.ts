import type { TemplateWords } from './template.ts';

const of = (what: string, straight: string | null): string =>
  straight === null || what === straight ? what : `${what} of ${straight}`;

/** English. */
export const EN_TEMPLATE: TemplateWords = {
  title: (what, straight) => `Template ${of(what, straight)}`,
  whole: (straight) => `${straight}, whole`,
  face: (name) => `${name} face`,
  corner: (name) => `${name} corner`,
  upstream: (piece) => `← ${piece}, upstream, datum end`,
  downstream: (piece) => `${piece}, downstream →`,
  flow: 'flow →',
  datumEnd: 'datum end',
  farEnd: 'far end',
  offcut: 'off-cut',
  up: { outside: 'outside up', inside: 'inside up' },
  headed: { outside: 'OUTSIDE UP', inside: 'INSIDE UP, mirrored' },
  place: (row, column) => `row ${row}, column ${column}`,
  stamp: (digest, revision) =>
    [
      ...(digest === null ? [] : [`job ${digest}`]),
      ...(revision === '' ? [] : [`revision ${revision}`])
    ].join(', '),
  corrected: (printed) => `Corrected for a printer that prints 100 mm as ${printed}.`,
  map: (what, straight, pages) => `${of(what, straight)}: ${pages} ${pages === 1 ? 'page' : 'pages'}`,
  howTo: {
    outside: [
      'OUTSIDE UP: lay it on the facing of the straight, print up, the arrow downstream; stations count from the datum end.',
      'Corner lines on the corners of the straight that they name, station ticks on their stations.'
    ],
    inside: [
      'INSIDE UP, mirrored: lay it on the inside of the flat blank, before it is grooved, print up, the arrow downstream; stations count from the datum end.',
      'Corner lines where the corners that they name will be, station ticks on their stations. Stations are those of the marks on the facing.'
    ]
  },
  howToOutlines: {
    outside: [
      'Panels: OUTSIDE UP, on the facing of a flat board. Openings: on their face, middle lines on the station and the distance they say.',
      'At every edge its length, bevel and set-back.'
    ],
    inside: [
      'Panels: INSIDE UP, mirrored, on the inside of a flat board. Openings: on the inside of their face, middle lines on the station and the distance they say.',
      'At every edge its length on the inside, bevel and set-back.'
    ]
  },
  join: 'Pages of a template overlap: cut along the frame where a page lies on another, crosses on crosses, then tape them together.',
  legend: 'Lines (ISO 128-2:2020)',
  legends: {
    mark: '01.2 continuous wide: what is cut or marked, on the side that lies up',
    through: '02.1 dashed narrow: where the cut comes through on the other side',
    corner: '01.1 continuous narrow: corner of the straight, edge of a face',
    end: '01.2 continuous wide: end of the straight, edge of the blank',
    axis: '04.1 long-dashed dotted narrow: middle line of an opening',
    flap: '05.1 long-dashed double-dotted narrow: flap, on the face that it is stapled to',
    blade:
      'stroke on a base line: the blade, laid over; it leans as the stroke does, seen from the side that lies up',
    tick: 'station tick on a corner line, with its figure',
    cross: 'cross: the same on two pages',
    trim: 'frame of a page, with crop marks'
  },
  bevel: (angle) => `bevel ${angle}`,
  station: (length) => `station ${length}`,
  across: (length, face) => `${length} from the edge to the ${face} face`,
  diameter: (length) => `diameter ${length}`,
  faces: (names) => `${names.length === 1 ? 'face' : 'faces'} ${names.join(', ')}`
};
