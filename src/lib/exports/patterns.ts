import type { Figure } from '../figures/figure.ts';
import { drawPattern } from '../figures/pattern.ts';
import { writeDxf } from './dxf.ts';
import { describeExport, nameFile, whenFitting, type Export, type ExportOptions } from './export.ts';
import { writeSvg } from './svg.ts';

const hasPattern = whenFitting(({ straights, bodies }) => straights.length + bodies.length > 0);

/** The flat pattern of a fitting at full size. */
export const PATTERNS: readonly Export[] = [
  describeExport('pattern-svg', 'svg', hasPattern, async (model, index, options) =>
    writeSvg(draw(model, index, options), 1, nameFile(model, index))
  ),
  describeExport('pattern-dxf', 'dxf', hasPattern, async (model, index, options) =>
    writeDxf(draw(model, index, options))
  )
];

function draw(model: Parameters<Export['write']>[0], index: number, { side }: ExportOptions): Figure {
  const figure = drawPattern(model, index, side ?? 'outside');
  if (!figure) throw new Error('a fitting that cannot be built has no pattern');
  return figure;
}
