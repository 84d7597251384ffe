/** How many mm of 100 a printer may be off, and still be corrected: more is no play but fitting to the page. */
export const PRINTER_PLAY = 3;

/** The bar that is measured, mm. */
const BAR = 100;

/** What the bar of 100 mm says of a printer: how much larger templates are drawn; or why it is not trusted, and by how many mm of 100 it is off. */
export type PrinterCheck =
  | { readonly factor: number }
  | { readonly refused: 'not-a-length' }
  | { readonly refused: 'off'; readonly by: number };

/** Judges a printer by what the check bar of 100 mm measures on its paper, mm. */
export function checkPrinter(printed: number): PrinterCheck {
  if (!Number.isFinite(printed) || printed <= 0) return { refused: 'not-a-length' };
  const by = printed - BAR;
  return Math.abs(by) > PRINTER_PLAY ? { refused: 'off', by } : { factor: BAR / printed };
}

/** Thrown where templates are asked for, for a printer that is refused. */
export class PrinterRefused extends Error {
  readonly code = 'printer-refused';
  readonly printed: number;
  readonly check: PrinterCheck;

  constructor(printed: number, check: PrinterCheck) {
    super(`a printer that prints ${BAR} mm as ${printed} mm is off by more than ${PRINTER_PLAY} mm`);
    this.printed = printed;
    this.check = check;
  }
}
