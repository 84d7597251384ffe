import type { Finding } from '../fitting/finding.ts';
import { lengthenOnly, referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import type { Leg, Turn } from '../fitting/mitered-path.ts';
import { findHeel } from './bend-handles.ts';
import { measureBend, referGore, type BendValues } from './bend-measures.ts';
import { referThroat } from './rest.ts';

/** The legs and turns of a bend, whose parameters are called by `prefix` and their name; a finding where it has none. */
export function layOutBend(
  values: BendValues,
  setting: Setting,
  prefix = 'params.'
): { readonly legs: Leg[]; readonly turns: Turn[] } | Finding {
  const measured = measureBend(values, setting);
  if ('code' in measured) return nameAfresh(measured, prefix);
  const { joints, reach, throatIn, gore, throatOut } = measured;
  const heel = findHeel(values);
  const refer = (reference: ParamReference): ParamReference => nameAfresh(reference, prefix);
  return {
    legs: [
      { axis: throatIn + reach, sizedBy: refer(referInlet(values)) },
      ...Array.from({ length: joints - 1 }, () => ({
        axis: gore + 2 * reach,
        sizedBy: refer(referGore(values, measured))
      })),
      { axis: throatOut + reach, sizedBy: refer(referThroat('throatOut', values.throatOut)) }
    ],
    turns: Array.from({ length: joints }, () => ({
      turn: values.turn / joints,
      heel,
      turnedBy: refer(referTo('params.turn', values.turn, 2 * joints))
    }))
  };
}

/** The throat at the inlet; where a setback drives, the gores grow by more than a throat is shortened. */
function referInlet({ throatIn, setback }: BendValues): ParamReference {
  const reference = referThroat('throatIn', throatIn);
  return setback === undefined ? reference : lengthenOnly(reference);
}

/** What names a parameter of a bend, said of a bend that is a part of something. */
function nameAfresh<T extends { readonly param?: string }>(named: T, prefix: string): T {
  const { param } = named;
  return param?.startsWith('params.')
    ? { ...named, param: `${prefix}${param.slice('params.'.length)}` }
    : named;
}
