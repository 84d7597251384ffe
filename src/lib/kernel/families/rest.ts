import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { findYield } from '../straight/blank.ts';
import type { ThroatKind } from './family.ts';
import { LONGEST } from './limits.ts';

/** A throat is a length, or the rest of a straight laid across, up to its moulded end. */
export type Throat = number | 'rest';

export interface Throats {
  readonly throatIn: Throat;
  readonly throatOut: Throat;
}

/** How a throat is described in every family that has some. */
export const THROAT: { of: ThroatKind; default: { shop: 'minThroat' } } = {
  of: { kind: 'throat', min: 0, max: LONGEST },
  default: { shop: 'minThroat' }
};

/** The straight that a throat may use up, mm, or why it may not. */
export function findWhole(setting: Setting): number | Finding {
  if (setting.lay !== 'along') return findYield(setting.board, 'across').yield;
  return { level: 'error', code: 'rest-along', param: 'lay', would: 'across', data: {}, source: 'shop' };
}

/** Both throats in mm, where `others` is the straight without them; a finding where nothing is left. */
export function resolveThroats(
  { throatIn, throatOut }: Throats,
  others: number,
  setting: Setting
): { throatIn: number; throatOut: number } | Finding {
  if (throatIn !== 'rest' && throatOut !== 'rest') return { throatIn, throatOut };
  const whole = findWhole(setting);
  if (typeof whole !== 'number') return whole;
  const said = throatIn === 'rest' ? throatOut : throatIn;
  if (said === 'rest') throw new Error('two throats cannot both be the rest of one straight');
  const rest = whole - others - said;
  const rests = throatIn === 'rest' ? 'throatIn' : 'throatOut';
  if (rest < SAME_LENGTH) return describeSpentRest(rests, rest, whole, setting);
  return throatIn === 'rest' ? { throatIn: rest, throatOut: said } : { throatIn: said, throatOut: rest };
}

/** The straight is used up before the throat that rests. */
export function describeSpentRest(
  rests: 'throatIn' | 'throatOut',
  rest: number,
  whole: number,
  setting: Setting
): Finding {
  return {
    level: 'error',
    code: 'rest-spent',
    param: `params.${rests}`,
    would: setting.shop.minThroat,
    data: { missing: Math.max(0, setting.shop.minThroat - rest), whole },
    source: 'shop'
  };
}

/** What sets the length of an end piece. */
export function referThroat(name: 'throatIn' | 'throatOut', said: Throat): ParamReference {
  return referTo(`params.${name}`, said === 'rest' ? null : said);
}
