import { atanDegrees, tanDegrees } from '../geometry/angle.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Setting } from '../fitting/fitting.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { LONGEST } from './limits.ts';
import { FACES, type Face, type Section } from '../straight/section.ts';

export interface ReducerValues {
  readonly outlet: Section;
  readonly alignY: 'top' | 'center' | 'bottom' | number;
  readonly alignZ: 'left' | 'center' | 'right' | number;
  readonly length?: number;
  readonly slope?: number;
  readonly collarIn: number;
  readonly collarOut: number;
  readonly method: 'panels' | 'fold';
  readonly finish: 'strip' | 'trim';
}

/** What the values come to, mm and degrees. */
export interface ReducerMeasures {
  readonly length: number;
  /** Where the outlet's axis lies from the inlet's: up, and to the right. */
  readonly up: number;
  readonly right: number;
  /** How far each wall closes in over the length, in the order of FACES; negative where it opens. */
  readonly drops: readonly number[];
  /** The slope of each wall, closing positive, degrees. */
  readonly slopes: readonly number[];
}

/** Slopes recommended at most, degrees: closing, and opening. */
const STEEPEST = { closing: 20, opening: 22.5 } as const;

/** A wall nearer to upright across the duct than this is none, degrees: it would take more than 57 thicknesses along it. */
export const UPRIGHT = 89;

/** Measures a reducer; a finding where there is nothing to measure. */
export function measureReducer(values: ReducerValues, { section }: Setting): ReducerMeasures | Finding {
  const { outlet } = values;
  const up = findOffset(values.alignY, section.height - outlet.height, 'top', 'bottom');
  const right = findOffset(values.alignZ, section.width - outlet.width, 'right', 'left');
  const narrowing = { y: (section.height - outlet.height) / 2, z: (section.width - outlet.width) / 2 };
  const byFace: Record<Face, number> = {
    top: narrowing.y - up,
    right: narrowing.z - right,
    bottom: narrowing.y + up,
    left: narrowing.z + right
  };
  const drops = FACES.map((face) => byFace[face]);
  const most = Math.max(...drops.map(Math.abs));
  const length = values.length ?? most / tanDegrees(values.slope!);
  if (values.length === undefined && most < SAME_LENGTH) {
    return {
      level: 'error',
      code: 'reducer-level',
      param: 'params.outlet.width',
      data: { width: outlet.width, height: outlet.height },
      source: 'geometry'
    };
  }
  if (length > LONGEST) {
    return {
      level: 'error',
      code: 'taper-long',
      param: 'params.slope',
      would: suggestValue(values.slope!, atanDegrees(most / LONGEST)),
      data: { most: LONGEST },
      source: 'geometry'
    };
  }
  const least = most / tanDegrees(UPRIGHT);
  if (length < least) {
    return {
      level: 'error',
      code: 'taper-short',
      param: values.length === undefined ? 'params.slope' : 'params.length',
      would: values.length === undefined ? UPRIGHT : suggestValue(length, least),
      data: { length, least },
      source: 'geometry'
    };
  }
  return { length, up, right, drops, slopes: drops.map((drop) => atanDegrees(drop / length)) };
}

/** An alignment lines up inside faces; a number is the offset itself. `less` is how much smaller the outlet is. */
function findOffset(align: string | number, less: number, high: string, low: string): number {
  if (typeof align === 'number') return align;
  return align === high ? less / 2 : align === low ? -less / 2 : 0;
}

/** Walls steeper than the usual limits: the air leaves an opening wall, and eddies before a closing one. */
export function adviseSlopes(values: ReducerValues, { length, drops, slopes }: ReducerMeasures): Finding[] {
  const steep = slopes.flatMap((slope, i) => {
    const most = slope > 0 ? STEEPEST.closing : STEEPEST.opening;
    return Math.abs(slope) > most + 1e-9 ? [{ i, most, need: Math.abs(drops[i]!) / tanDegrees(most) }] : [];
  });
  if (steep.length === 0) return [];
  const worst = steep.reduce((a, b) => (b.need > a.need ? b : a));
  const isByLength = values.length !== undefined;
  return [
    {
      level: 'note',
      code: 'slope-steep',
      param: isByLength ? 'params.length' : 'params.slope',
      would: isByLength ? suggestValue(length, worst.need) : worst.most,
      data: { face: FACES[worst.i]!, slope: Math.abs(slopes[worst.i]!), most: worst.most },
      source: slopes[worst.i]! > 0 ? 'closingSlope' : 'openingSlope'
    }
  ];
}
