import type { TableWords } from './tables.ts';

/** English. */
export const EN_TABLES: TableWords = {
  kinds: {
    round: 'cut right round',
    opening: 'edge of an opening',
    circle: 'round opening',
    panel: 'edge of a panel'
  },
  startAcross: 'Start from edge',
  endAcross: 'End from edge',
  radius: 'Radius',
  seam: 'Seam in the fitting',
  volume: 'Volume',
  mass: 'Mass',
  fitting: 'Fitting',
  family: 'Family',
  part: 'Part',
  parts: { straight: 'straight', panel: 'panel', none: 'cannot be built' },
  quantity: 'Quantity',
  length: 'Length',
  lengthInAll: 'Length in all',
  width: 'Inside width',
  height: 'Inside height',
  thickness: 'Thickness',
  lay: 'Laid on the board',
  make: 'Made',
  datumEnd: 'Datum end',
  farEnd: 'Far end',
  blanks: 'Blanks',
  blankWidth: 'Blanks across, flaps included',
  massInAll: 'Mass in all'
};
