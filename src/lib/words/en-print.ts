import { EN_PATTERN } from './en-pattern.ts';
import { EN_TEMPLATE } from './en-template.ts';
import type { PrintWords } from './print.ts';

/** English, on paper. */
export const EN_PRINT: PrintWords = {
  exports: {
    set: 'Set of all fittings (PDF)',
    'mark-out': 'Mark-out (PDF)',
    templates: 'Templates 1:1 in strips (PDF)',
    whole: 'Templates 1:1 of whole straights (PDF)',
    gauges: 'Gauges of the job (PDF)',
    'card-model': 'Card model (PDF)',
    labels: 'Labels (PDF)',
    'mark-table': 'Mark table (CSV)',
    'piece-table': 'Pieces (CSV)',
    'cut-list': 'Cut list of the job (CSV)',
    'marks-figure': 'Marks, reduced (SVG)',
    'pattern-svg': 'Flat pattern 1:1 (SVG)',
    'pattern-dxf': 'Flat pattern 1:1 (DXF)',
    'solid-glb': 'Solid (GLB)',
    'pieces-glb': 'Solids of the pieces (GLB, zipped)',
    'solid-stl': 'Solid (STL)',
    'pieces-stl': 'Solids of the pieces (STL, zipped)'
  },
  page: {
    markOut: 'Mark-out',
    templates: 'Templates 1:1',
    markTable: 'Mark table',
    pieces: 'Pieces',
    steps: 'Order of work',
    findings: 'Findings',
    noFindings: 'None.',
    cautions: 'Cautions',
    notBuildable: 'This fitting cannot be built; the findings say why.',
    noCuts: 'This straight has no cuts, so there is nothing to lay a template on.',
    quantity: (count) => `${count} off`,
    inside: (size) => `${size} inside`,
    board: (thickness) => `board ${thickness}`,
    scale: (over) => `Scale 1:${over}`,
    over: (over) => `1:${over}`,
    number: (page, pages) => `Page ${page} of ${pages}`,
    check: 'Print at 100 %, without scaling; check the bars both ways first.',
    geometryOnly:
      'This sheet is computed geometry and nothing else: it does not judge strength, fire, air tightness or fitness for use.',
    cautionList: [
      'Knives: sharp blades, guarded when not in use; cut away from the body and keep the other hand behind the blade.',
      'Glass-fibre dust: gloves, long sleeves and eye protection; a respirator where dust is made. Wipe dust off, do not blow it.',
      "Adhesive and tape: follow their makers' instructions, curing time and ventilation included.",
      'Handling at height: two people and a safe stand for long or wide pieces; nothing loose overhead.',
      "Local codes, the board maker's instructions and a licensed practitioner decide."
    ],
    straight: ({ name, length, lay, make, datumEnd, farEnd }) =>
      `${name}: ${length} long, laid ${lay} the board, ${make}; datum end ${datumEnd}, far end ${farEnd}`
  },
  titleBlock: {
    owner: 'Owner',
    title: 'Title',
    type: 'Document type',
    number: 'Document number',
    date: 'Date of issue',
    revision: 'Revision',
    digest: 'Digest of the job',
    scale: 'Scale',
    page: 'Page',
    of: (page, pages) => `${page} of ${pages}`
  },
  card: {
    title: 'Card model',
    flap: 'glue flap',
    smaller: (usual, over) => `At 1:${usual} this model does not fit the paper, so it is 1:${over}.`,
    leftOut: 'Labels that find no room are left out: write them on the pieces by hand.',
    howTo: 'Fold, cut, roll over',
    print: 'Print on card at 100 %, or paste the print on card; check the bars.',
    outline: 'Cut out along the wide outline, glue flap included.',
    fold: 'Score the narrow lines and fold them back, print outside. Glue the flap under the top face: that is the straight.',
    cut: (cuts) =>
      `Cut right round along the wide lines inside (${cuts}), flap included: the pieces come free.`,
    offcuts: 'Hatched parts are off-cuts.',
    openings: (names) => `Cut the openings out (${names}).`,
    roll: (pieces) =>
      `Roll ${pieces} over: half a turn about the length of the piece, its two ends stay where they are. Do not turn it end for end.`,
    assemble: (pieces) =>
      `Put ${pieces} together as the drawing shows, the edges of every cut on each other, a branch over its opening, parts side by side; tape them: every TOP up, every arrow downstream.`,
    noPanels: (names) => `Panels (${names}) are not in this model: their templates are on paper.`,
    noMarks: (names) => `Marks that are no cut right round (${names}) are not in this model.`,
    join: (pieces) =>
      `Join ${pieces} in this order, the edges of every cut on each other, and tape them: every TOP up, every arrow downstream.`
  },
  gauges: {
    title: 'Gauges',
    howTo:
      'Set a sliding bevel to the wide lines, or cut a card along them; turned over it serves the other hand.',
    line: (angle) => `Line ${angle} from square`,
    bevel: (angle) => `Bevel ${angle} from upright`,
    use: (tag, cuts, faces) => `${tag} ${cuts}${faces === '' ? '' : `: ${faces}`}`,
    more: (count) => `and ${count} more`,
    distances: (setback, depth) => `Set-back ${setback}, depth ${depth}`,
    setback: (figure) => `set-back ${figure}`,
    depth: (figure) => `depth ${figure}`,
    edge: 'edge of the face',
    mark: 'mark',
    facing: 'facing',
    blade: 'blade'
  },
  template: EN_TEMPLATE,
  pattern: EN_PATTERN
};
