import { IDENTITY, type Motion } from '../geometry/motion.ts';
import { add, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Fitting, type Joint, type Port, type Setting } from '../fitting/fitting.ts';
import { joinAll, mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath, type Built, type Leg, type Turn } from '../fitting/mitered-path.ts';
import { describeStep } from '../fitting/step.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { EndEdges, WallEdge } from '../fitting/wall.ts';
import { FACES, growSection, type Face, type Section } from '../straight/section.ts';
import { dragBend, placeBendHandles } from './bend-handles.ts';
import { layOutBend } from './bend-legs.ts';
import { LARGEST_TURN, measureBend, type BendValues } from './bend-measures.ts';
import type { Handle, Params, Rule } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LEAST_PIECES, LONGEST, MOST_PIECES, SHARPEST_TURN } from './limits.ts';
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

const NARROWEST = 20;
const INSIDE = { of: { kind: 'length', min: NARROWEST, max: 5000 } } as const;

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
interface LaidPart {
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

/** What the steps that bind the parts together do. */
const NOSED = 'nose dividing walls';
const DIVIDING_EDGE: WallEdge = { kind: 'plain', bevel: 0, closing: { by: 'nose', needs: [NOSED] } };

/** Mitered paths side by side; their inlets are one end, in which the dividing walls are cut back plain and nosed. */
export function buildDivided(parts: readonly Part[], divide: Divide, setting: Setting): Built {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return { fitting: null, findings: [laid] };
  const built: Fitting[] = [];
  const findings: Finding[] = [];
  for (const [i, one] of laid.entries()) {
    const made = buildPart(one, i, laid.length, divide, built, setting);
    findings.push(...made.findings);
    if (!made.fitting) return { fitting: null, findings };
    built.push(made.fitting);
  }
  const first = built.map(({ bodies }) => bodies[0]!.name);
  // Their rings are one end only where they are moulded alike.
  const ends = built.map(({ straights }) => straights[0]!.ends[0]);
  const inlet: Port = {
    name: 'inlet',
    body: first[0]!,
    at: [0, 0, 0],
    flow: [1, 0, 0],
    up: [0, 1, 0],
    section: setting.section,
    end: ends.every((end) => end === ends[0]) ? ends[0]! : 'plain',
    others: first.slice(1)
  };
  const ports = mergeParts(built).ports;
  const ordered = [...ports].sort((a, b) => rankPort(a.name) - rankPort(b.name));
  return {
    fitting: { ...mergeParts(built, bindParts(laid, first, divide, setting)), ports: [inlet, ...ordered] },
    findings: [...findings, tellLostArea(laid, setting)]
  };
}

/** Ports in the order in which they are told: straight on before what turns, then from the left or the top. */
function rankPort(name: string): number {
  return ['straight', 'turned', 'first', 'middle', 'second'].indexOf(name);
}

function buildPart(
  { part, section, at }: LaidPart,
  index: number,
  count: number,
  divide: Divide,
  before: readonly Fitting[],
  setting: Setting
): Built {
  const path = layOutPart(part, { ...setting, section });
  if ('code' in path) return { fitting: null, findings: [path] };
  const so = mergeParts(before);
  const [toFirst, toSecond]: readonly Face[] = divide === 'width' ? ['left', 'right'] : ['top', 'bottom'];
  const dividing = FACES.filter(
    (face) => (face === toFirst && index > 0) || (face === toSecond && index < count - 1)
  );
  const edges: EndEdges = Object.fromEntries(dividing.map((face) => [face, DIVIDING_EDGE]));
  const { inlet } = setting.ends;
  return buildMiteredPath(
    path.legs,
    path.turns,
    { ...setting, section, ends: { inlet, outlet: undefined } },
    {
      numbering: {
        straights: so.straights.length,
        cuts: countCuts(so),
        pieces: countPieces(so)
      },
      at: shift(at),
      ports: [null, part.name],
      open: [true, true],
      endEdges: [edges, {}]
    }
  );
}

function layOutPart(
  part: Part,
  setting: Setting
): { readonly legs: Leg[]; readonly turns: Turn[] } | Finding {
  if ('turned' in part) {
    return layOutBend({ ...part.turned, heel: part.heel }, setting, `params.${part.name}.`);
  }
  const { length } = part.straight;
  return { legs: [{ axis: length, sizedBy: referTo(`params.${part.name}.length`, length) }], turns: [] };
}

function shift(t: Vec3): Motion {
  return { ...IDENTITY, t };
}

/** Cuts of the parts before: a cut at a division is on two straights and counts once. */
function countCuts({ straights }: Fitting): number {
  return new Set(straights.flatMap(({ cuts }) => cuts.map(({ name }) => name))).size;
}

/** Pieces of the parts before: those of a divided piece share its number. */
function countPieces({ bodies }: Fitting): number {
  return new Set(bodies.map(({ name }) => name.replace(/[a-z]+$/, ''))).size;
}

function bindParts(
  laid: readonly LaidPart[],
  first: readonly string[],
  divide: Divide,
  { board, section }: Setting
): Joint[] {
  const deep = divide === 'width' ? section.height : section.width;
  const outside = growSection(section, board.thickness);
  const outline = 2 * (outside.width + outside.height);
  const divisions = laid.length - 1;
  const pieces = [...first];
  const steps = [
    describeStep('join', { sentence: 'join-parts', pieces, data: { pieces } }),
    describeStep('tape', {
      sentence: 'tape-parts',
      source: 'closure',
      pieces,
      data: { pieces, outline, divisions }
    }),
    describeStep('nose', { pieces, does: [NOSED], data: { pieces, length: divisions * deep } })
  ];
  const pairs = first.slice(1).map((name, i) => [first[i]!, name] as const);
  return joinAll(pairs, [0, 0, 0], { steps, glue: 0, outline });
}

/** What the dividing walls take from the air way, and how much faster the air goes beside them. */
function tellLostArea(laid: readonly LaidPart[], { section }: Setting): Finding {
  const area = ({ width, height }: Section): number => width * height;
  const left = laid.reduce((sum, part) => sum + area(part.section), 0);
  const whole = area(section);
  return {
    level: 'note',
    code: 'area-lost',
    data: { percent: (100 * (whole - left)) / whole, faster: whole / left },
    source: 'geometry'
  };
}

/** The handles of the parts, by the parts' names; that of a share lies where its wall divides the inlet. */
export function placeDividedHandles(parts: readonly Part[], divide: Divide, setting: Setting): Handle[] {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return [];
  return laid.flatMap((one, i): Handle[] => {
    const { part, section, at, inside } = one;
    const share = placeShare(laid, i, divide, setting);
    const own: Handle[] =
      'turned' in part
        ? placeBendHandles(makeBend(part), { ...setting, section }).map((handle) => ({
            ...handle,
            id: `${part.name}.${handle.id}`,
            at: add(handle.at, at)
          }))
        : [
            {
              id: `${part.name}.length`,
              at: add(at, [part.straight.length, 0, 0]),
              along: [1, 0, 0],
              kind: 'length',
              value: part.straight.length
            }
          ];
    return [
      ...(share ? [{ id: `${part.name}.inside`, ...share, kind: 'length' as const, value: inside }] : []),
      ...own
    ];
  });
}

/** A share is dragged by the wall that ends it; only one of two neighbours that share a wall is. */
function placeShare(
  laid: readonly LaidPart[],
  index: number,
  divide: Divide,
  { board }: Setting
): Pick<Handle, 'at' | 'along'> | null {
  const last = laid.length - 1;
  const isFirst = index === 0;
  if (!isFirst && (index < last || laid.length === 2)) return null;
  const { at, inside } = laid[index]!;
  const reach = inside / 2 + board.thickness;
  // Away from the outside of the duct, toward the middle.
  const inward: Vec3 = divide === 'width' ? [0, 0, isFirst ? 1 : -1] : [0, isFirst ? -1 : 1, 0];
  return { at: add(at, inward.map((part) => part * reach) as unknown as Vec3), along: inward };
}

/** The parameter changes that bring a handle of a part to a point. */
export function dragDivided(
  parts: readonly Part[],
  divide: Divide,
  id: string,
  point: Vec3,
  setting: Setting
): Readonly<Record<string, unknown>> {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return {};
  const [name, field] = id.split('.') as [string, string];
  const index = laid.findIndex(({ part }) => part.name === name);
  const { part, section, at, inside } = laid[index]!;
  const values = 'turned' in part ? part.turned : part.straight;
  const change = (changes: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> => ({
    [name]: { ...values, ...changes }
  });
  if (field === 'inside') {
    const share = placeShare(laid, index, divide, setting)!;
    const moved = subtract(point, share.at);
    const by = moved.reduce((sum, part, k) => sum + part * share.along[k]!, 0);
    return change({ inside: clamp(inside + by, NARROWEST, 5000) });
  }
  if ('turned' in part) {
    return change(dragBend(makeBend(part), field, subtract(point, at), { ...setting, section }));
  }
  const { length } = part.straight;
  return change({ length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, length), LONGEST) });
}

function makeBend({ turned, heel }: Extract<Part, { turned: TurnedValues }>): BendValues {
  return { ...turned, heel };
}

/** What follows: the shares that are left out, throats that take the rest. */
export function deriveDivided(
  parts: readonly Part[],
  divide: Divide,
  setting: Setting
): Record<string, number> {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return {};
  return Object.fromEntries(
    laid.flatMap(({ part, inside, section }): [string, number][] => {
      const share: [string, number] = [`${part.name}.inside`, inside];
      if (!('turned' in part)) return [share];
      const measured = measureBend(makeBend(part), { ...setting, section });
      if ('code' in measured) return [share];
      return [
        share,
        [`${part.name}.throatIn`, measured.throatIn],
        [`${part.name}.throatOut`, measured.throatOut]
      ];
    })
  );
}

/** The turns of a part at which its bevel is one of the shop's. */
export function listBladeTurns(
  parts: readonly Part[],
  id: string,
  blades: readonly { readonly angle: number }[]
): number[] {
  const part = parts.find(({ name }) => id === `${name}.turn`);
  if (!part || !('turned' in part)) return [];
  const joints = part.turned.pieces - 1;
  return blades
    .map(({ angle }) => 2 * joints * angle)
    .filter((turn) => turn > 0 && turn <= Math.min(LARGEST_TURN, joints * SHARPEST_TURN))
    .sort((a, b) => a - b);
}
