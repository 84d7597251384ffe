import type { Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Setting } from '../fitting/fitting.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { growSection, type Face, type Section } from '../straight/section.ts';
import { LARGEST_TURN, type BendValues } from './bend-measures.ts';
import type { Params, Rule } from './family.ts';
import { LEAST_PIECES, LONGEST, MOST_PIECES, SHARPEST_TURN } from './limits.ts';
import { THROAT, type Throat } from './rest.ts';

/** What divides: the width into a left and a right part, or the height into a top and a bottom one. */
export type Divide = 'width' | 'height';

/** A part that turns, as a document says it. */
export interface TurnedValues {
  readonly inside?: number;
  readonly turn: number;
  readonly pieces: number;
  readonly throatIn: Throat;
  readonly gore: number;
  readonly throatOut: Throat;
}

/** A part that goes straight on. */
export interface StraightValues {
  readonly inside?: number;
  readonly length: number;
}

/** The narrowest part, and the widest, mm. */
export const [NARROWEST, WIDEST] = [20, 5000] as const;
const INSIDE = { of: { kind: 'length', min: NARROWEST, max: WIDEST } } as const;

export const DIVIDE = { of: { kind: 'choice', of: ['width', 'height'] }, default: 'width' } as const;

export const TURNED = {
  of: {
    kind: 'group',
    fields: {
      inside: INSIDE,
      turn: { of: { kind: 'angle', above: 0, max: LARGEST_TURN }, required: true },
      pieces: { of: { kind: 'count', min: LEAST_PIECES, max: MOST_PIECES }, default: 3 },
      throatIn: THROAT,
      gore: { of: { kind: 'length', min: 0, max: LONGEST }, default: { shop: 'minGore' } },
      throatOut: THROAT
    } satisfies Params
  },
  required: true
} as const;

export const STRAIGHT_ON = {
  of: {
    kind: 'group',
    fields: {
      inside: INSIDE,
      length: { of: { kind: 'length', above: 0, max: LONGEST }, required: true }
    } satisfies Params
  },
  required: true
} as const;

/** No joint of a turning part turns by more than a right angle, and at most one of its throats takes the rest. */
export function limitTurned(name: string): Rule {
  return {
    check(said) {
      const part = said[name];
      if (typeof part !== 'object' || part === null) return null;
      const { turn, pieces = 3, throatIn, throatOut } = part as Readonly<Record<string, unknown>>;
      if (throatIn === 'rest' && throatOut === 'rest')
        return { path: [name, 'throatOut'], expected: 'at most one throat "rest"' };
      return typeof turn === 'number' && turn > SHARPEST_TURN && pieces === LEAST_PIECES
        ? {
            path: [name, 'turn'],
            expected: `at most ${SHARPEST_TURN} a joint, so with 2 pieces at most ${SHARPEST_TURN}`
          }
        : null;
    },
    json: {
      properties: {
        [name]: {
          allOf: [
            {
              if: { required: ['pieces'], properties: { pieces: { const: LEAST_PIECES } } },
              then: { properties: { turn: { maximum: SHARPEST_TURN } } }
            },
            {
              not: {
                required: ['throatIn', 'throatOut'],
                properties: { throatIn: { const: 'rest' }, throatOut: { const: 'rest' } }
              }
            }
          ]
        }
      }
    }
  };
}

/** A part of a divided duct, in order from the left or the top. */
export type Part = {
  /** Name of its parameters and of its port. */
  readonly name: string;
} & ({ readonly turned: TurnedValues; readonly heel: Face } | { readonly straight: StraightValues });

/** A part with its share and place. */
export interface LaidPart {
  readonly part: Part;
  readonly inside: number;
  readonly section: Section;
  readonly at: Vec3;
}

const sayInside = (part: Part): number | undefined =>
  'turned' in part ? part.turned.inside : part.straight.inside;

/** Shares that must add up may differ by so much, mm: a thousandth, as figures are written. */
const SAME_SHARE = 0.001;

/**
 * Shares of the inside: outer widths add up to the main's, so the insides to what two walls for every division leave.
 * What is left out takes the rest, in equal shares.
 */
export function layParts(parts: readonly Part[], divide: Divide, setting: Setting): LaidPart[] | Finding {
  const { section, board } = setting;
  const t = board.thickness;
  const whole = divide === 'width' ? section.width : section.height;
  const free = whole - 2 * t * (parts.length - 1);
  const said = parts.map(sayInside);
  const taken = said.reduce<number>((sum, inside) => sum + (inside ?? 0), 0);
  const open = said.filter((inside) => inside === undefined).length;
  const data = { free, taken, parts: parts.length };
  const fault = (code: 'shares-differ' | 'share-small', index: number, would: number): Finding => ({
    level: 'error',
    code,
    param: `params.${parts[index]!.name}.inside`,
    ...(would >= NARROWEST ? { would: suggestValue(said[index] ?? 0, would) } : {}),
    data,
    source: 'geometry'
  });
  if (open === 0 && Math.abs(free - taken) > SAME_SHARE) {
    const last = parts.length - 1;
    return fault('shares-differ', last, said[last]! + free - taken);
  }
  const rest = open > 0 ? (free - taken) / open : 0;
  if (open > 0 && rest < NARROWEST - SAME_LENGTH) {
    const largest = said.reduce<number>(
      (best, inside, i) => ((inside ?? 0) > (said[best] ?? 0) ? i : best),
      0
    );
    return fault('share-small', largest, (said[largest] ?? 0) - open * (NARROWEST - rest));
  }
  const outside = growSection(section, t);
  let from = -(divide === 'width' ? outside.width : outside.height) / 2;
  return parts.map((part, i) => {
    const inside = said[i] ?? rest;
    const middle = from + t + inside / 2;
    from += inside + 2 * t;
    return {
      part,
      inside,
      section: divide === 'width' ? { ...section, width: inside } : { ...section, height: inside },
      // From the top the height runs down.
      at: divide === 'width' ? [0, 0, middle] : [0, 0 - middle, 0]
    };
  });
}

/** A turning part as a bend. */
export function makeBend({ turned, heel }: Extract<Part, { turned: TurnedValues }>): BendValues {
  return { ...turned, heel };
}
