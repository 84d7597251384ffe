import type { SetWords } from './set.ts';

/** English. */
export const EN_SET: SetWords = {
  title: 'Set of mark-outs',
  unnamed: 'Job without a name',
  fittings: 'Fittings',
  count: (fittings, pieces) =>
    fittings === pieces ? String(fittings) : `${fittings}, ${pieces} to make in all`,
  pages: 'Pages',
  paper: 'Paper',
  board: 'Board',
  list: 'List of fittings',
  columns: {
    tag: 'Tag',
    family: 'Family',
    inside: 'Inside',
    quantity: 'Quantity',
    straights: 'Straights',
    panels: 'Panels',
    findings: 'Findings',
    page: 'Page'
  },
  notBuildable: 'Fittings that cannot be built',
  since: (revision) =>
    revision === '' ? 'What changed since the last issue' : `What changed since revision ${revision}`,
  changes: 'What changed',
  first: 'There is no earlier issue to compare with.',
  unchanged: 'Nothing.',
  added: (what) => `added: ${what}`,
  removed: 'removed',
  reordered: 'The fittings stand in another order.',
  site: 'The place on site is another one.',
  change: (label, before, now) => `${label}: ${before} → ${now}`,
  entry: (label, place) => `${label} ${place}`,
  unsaid: 'not given',
  none: 'none',
  units: { density: 'kg/m³', conductivity: 'W/(m·K)' },
  of: { job: 'Job', show: 'Figures', board: 'Board', shop: 'Shop' },
  fitting: {
    family: 'family',
    quantity: 'quantity',
    'section.width': 'inside width',
    'section.height': 'inside height',
    lay: 'laid on the board',
    seam: 'seam',
    'ends.inlet': 'end at inlet',
    'ends.outlet': 'end at outlet'
  },
  job: { name: 'name' },
  show: { length: 'unit of lengths', precision: 'decimals', language: 'language' },
  boardFields: {
    thickness: 'thickness',
    length: 'length',
    width: 'width',
    profile: 'joining profile along',
    spigot: 'spigot',
    corner: 'corners',
    flap: 'flap',
    density: 'density',
    conductivity: 'conductivity'
  },
  shop: { minThroat: 'least throat', minGore: 'least gore', blades: 'blades' },
  choices: {
    long: 'its long edges',
    short: 'its short edges',
    miter: 'mitered',
    shiplap: 'shiplapped',
    'in/16': 'in, sixteenths'
  }
};
