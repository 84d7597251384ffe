import type { ExportingWords } from './exporting.ts';

/** English. */
export const EN_EXPORTING: ExportingWords = {
  groups: { paper: 'On paper', flat: 'Flat, for machines', solid: 'Solids', table: 'Tables' },
  paper: 'Paper',
  papers: {
    a4: 'A4',
    a3: 'A3',
    a2: 'A2',
    a1: 'A1',
    a0: 'A0',
    letter: 'Letter, 8½ × 11 in',
    tabloid: 'Tabloid, 11 × 17 in',
    'ansi-c': 'C, 17 × 22 in',
    'ansi-d': 'D, 22 × 34 in',
    'ansi-e': 'E, 34 × 44 in'
  },
  roll: (width) => `Roll, ${width}`,
  side: 'Templates and flat patterns',
  sides: { outside: 'outside up', inside: 'inside up (mirrored)' },
  decimal: 'Figures, as your spreadsheet reads them',
  decimals: { point: '1.5, commas between', comma: '1,5, semicolons between' },
  titleBlock: 'Title block',
  printer: {
    heading: 'Printer check',
    bar: (length) => `The bar of ${length} measures`,
    help: 'Print any page at actual size, measure its check bar with a rule and type what you read: templates are then drawn so much larger or smaller. A printer that is off by more than 3 % is not trusted.',
    corrected: (percent) => `Templates are scaled to ${percent}.`,
    refused: (percent) =>
      `That is off by ${percent}: more than 3 % is no printer's play. Turn off fitting to the page, and measure again.`
  },
  making: (name) => `${name}: making …`,
  pages: (done, of) => `page ${done} of ${of}`,
  cancel: 'Cancel',
  cancelled: 'Cancelled, nothing was saved.',
  failed: 'This could not be made.',
  again: 'Try again',
  cannotPrint:
    'This fitting cannot be built as it is, so there are no marks to print; the mark-out lists the findings.',
  caution:
    'Print at actual size, without fitting to the page, and measure the check bars before you trust a template.'
};
