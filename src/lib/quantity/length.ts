/** The units in which lengths are shown and typed; documents keep mm. `in/16` is inches in sixteenths. */
export type LengthUnit = 'mm' | 'in' | 'in/16';

export const MM_PER_INCH = 25.4;
const SIXTEENTHS = 16;

/** Decimals that inches get beyond those of mm: a hundredth of an inch is about a quarter of a millimetre. */
const EXTRA_INCH_DECIMALS = 2;

/** A length in mm as a figure without its unit, rounded for showing. */
export function formatLength(mm: number, unit: LengthUnit, precision: number): string {
  if (unit === 'in/16') return formatSixteenths(mm / MM_PER_INCH);
  const value = unit === 'in' ? mm / MM_PER_INCH : mm;
  return withoutMinusZero(value.toFixed(unit === 'in' ? precision + EXTRA_INCH_DECIMALS : precision));
}

/** What stands behind a figure in this unit. */
export function nameUnit(unit: LengthUnit): string {
  return unit === 'mm' ? 'mm' : 'in';
}

/**
 * Reads a length typed by a person, in the given unit: `3.625`, `3 5/8`, `3-5/8`, `5/8`, `-40`; a unit may follow
 * (`mm`, `in`, `"`) and then decides. A comma counts as a decimal point. Returns mm, or null for anything else.
 */
export function parseLength(text: string, unit: LengthUnit): number | null {
  const match =
    /^\s*([+\-\u2212]?)\s*(?:(\d+)(?:\s+|-)(\d+)\/(\d+)|(\d+)\/(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*(mm|in|"|\u2033)?\s*$/i.exec(
      text
    );
  if (!match) return null;
  const [, sign, whole, over, under, onlyOver, onlyUnder, decimal, said] = match;
  const divisor = Number(under ?? onlyUnder ?? 1);
  if (divisor === 0) return null;
  const value = decimal
    ? Number(decimal.replace(',', '.'))
    : Number(whole ?? 0) + Number(over ?? onlyOver) / divisor;
  const inches = said ? said.toLowerCase() !== 'mm' : unit !== 'mm';
  return (sign && sign !== '+' ? -1 : 1) * value * (inches ? MM_PER_INCH : 1);
}

function formatSixteenths(inches: number): string {
  const all = Math.round(Math.abs(inches) * SIXTEENTHS);
  const whole = Math.floor(all / SIXTEENTHS);
  let over = all % SIXTEENTHS;
  let under = SIXTEENTHS;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const fraction = over > 0 ? `${over}/${under}` : '';
  const figure = [whole > 0 || fraction === '' ? String(whole) : '', fraction]
    .filter((part) => part !== '')
    .join(' ');
  return inches < 0 && all > 0 ? `-${figure}` : figure;
}

function withoutMinusZero(figure: string): string {
  return Number(figure) === 0 ? figure.replace('-', '') : figure;
}
