import type { Vec3 } from '../geometry/vector.ts';
import type { Built } from '../fitting/mitered-path.ts';
import type { Setting } from '../fitting/fitting.ts';
import type { RouteForm, RouteTask } from '../fitting/route.ts';
import type { Shop } from '../straight/board.ts';

/**
 * How one parameter is described. From these descriptions come the types, the schema of the document, the fields on
 * the page, the defaults and the random inputs of the tests. Labels and help are in words/, by family and name.
 */
export type ParamKind =
  | LengthKind
  | AngleKind
  | CountKind
  | ChoiceKind
  | ThroatKind
  | PlaceKind
  | GroupKind
  | ListKind<LengthKind>
  | ListKind<GroupKind>;

/** mm; `above` excludes the limit itself. */
export interface LengthKind extends Limits {
  readonly kind: 'length';
}
/** Degrees. */
export interface AngleKind extends Limits {
  readonly kind: 'angle';
}
/** A whole number. */
export interface CountKind extends Limits {
  readonly kind: 'count';
}
export interface ChoiceKind {
  readonly kind: 'choice';
  readonly of: readonly string[];
  /** Other spellings that a document may use, and what they mean. */
  readonly also?: Readonly<Record<string, string>>;
}
/** A length in mm, or "rest": what is left of the straight up to its moulded end. */
export interface ThroatKind extends Limits {
  readonly kind: 'throat';
}
/** A named place, or a length in mm from the middle. */
export interface PlaceKind extends Limits {
  readonly kind: 'place';
  readonly of: readonly string[];
}
export interface ListKind<Item> {
  readonly kind: 'list';
  readonly item: Item;
  readonly minItems: number;
  readonly maxItems: number;
}
/** Parameters that belong together, each with its own default. */
export interface GroupKind {
  readonly kind: 'group';
  readonly fields: Params;
}

interface Limits {
  readonly min?: number;
  /** The value must be greater than this. */
  readonly above?: number;
  readonly max?: number;
}

/** Where a default comes from: a number or choice, or a minimum of the shop. */
export type Default = number | string | { readonly shop: 'minThroat' | 'minGore' };

export interface Param {
  readonly of: ParamKind;
  /** Must be said in the document; of a field of a group, whenever the group is. */
  readonly required?: true;
  readonly default?: Default;
}

export interface Params {
  readonly [name: string]: Param;
}

type ValueOfKind<K> = K extends ThroatKind
  ? number | 'rest'
  : K extends ChoiceKind
    ? K['of'][number]
    : K extends PlaceKind
      ? K['of'][number] | number
      : K extends ListKind<infer Item>
        ? readonly ValueOfKind<Item>[]
        : K extends GroupKind
          ? ValuesOf<K['fields']>
          : number;

type IsAlwaysThere<P extends Param> = P extends { readonly required: true }
  ? true
  : P extends { readonly default: Default }
    ? true
    : false;

/** The values of a family's parameters once defaults are filled in. Drivers not chosen are absent. */
export type ValuesOf<P extends Params> = {
  readonly [K in keyof P as IsAlwaysThere<P[K]> extends true ? K : never]: ValueOfKind<P[K]['of']>;
} & {
  readonly [K in keyof P as IsAlwaysThere<P[K]> extends true ? never : K]?: ValueOfKind<P[K]['of']>;
};

/** Parameters of which a document says at most one: it drives, the others follow. */
export interface Drivers {
  readonly names: readonly string[];
  /** The one that drives when none is said. */
  readonly usual: string;
  readonly default: Default;
}

/** A rule of a family's parameters that no single description holds; the document is unreadable when it is broken. */
export interface Rule {
  /** The fault in parameters as said (types already right where present), or null. The path is inside `params`. */
  check(said: Readonly<Record<string, unknown>>): { path: (string | number)[]; expected: string } | null;
  /** The same rule for the published JSON Schema of `params`; absent where JSON Schema cannot say it. */
  readonly json?: Readonly<Record<string, unknown>>;
}

/** A place on the fitting that can be dragged to drive one parameter. */
export interface Handle {
  /** Unique in the fitting: the parameter's path inside `params`, `turn` or `lengths[1]`. */
  readonly id: string;
  /** Where it is in the fitting's frame, mm. */
  readonly at: Vec3;
  /** The unit direction in which dragging raises the parameter, in the fitting's frame, where it stands now. */
  readonly along: Vec3;
  readonly kind: 'length' | 'angle' | 'count';
  /** The value it drives now. */
  readonly value: number;
}

export type FamilyGroup = 'straight' | 'turn' | 'shift' | 'size' | 'divide' | 'close';

/** A fitting family: a value, not a class. Nothing else in the product knows a family by name. */
export interface Family<P extends Params = Params> {
  readonly name: string;
  readonly group: FamilyGroup;
  readonly params: P;
  readonly drivers?: Drivers;
  readonly rules: readonly Rule[];
  /** Parameters for a new fitting of this family. */
  readonly example: Readonly<Record<string, unknown>>;
  /** Pure: from values to a fitting, or to findings that say why there is none. */
  build(values: ValuesOf<P>, setting: Setting): Built;
  handles(values: ValuesOf<P>, setting: Setting): Handle[];
  /** The parameter changes, unsnapped but inside limits, that bring the handle closest to a point (fitting's frame). */
  drag(values: ValuesOf<P>, handle: string, point: Vec3, setting: Setting): Readonly<Record<string, unknown>>;
  /** What follows from the values, for showing: names as in words/, mm or degrees. */
  derive(values: ValuesOf<P>, setting: Setting): Readonly<Record<string, number>>;
  /** The values of an angle parameter at which every bevel is one of the shop's blades, ascending; for snapping. */
  bladeValues(values: ValuesOf<P>, param: string, shop: Shop): number[];
  /**
   * The parameters as said, once one of them is said, named by its path: with what it rules out taken back and what it
   * needs said, so that the family's rules hold.
   */
  settle?(said: Readonly<Record<string, unknown>>, path: string): Readonly<Record<string, unknown>>;
  /**
   * The kinds of route by which the family can lead from the origin to an end, from one straight with one cut a turn;
   * none where its shape never leads there. A family that lays no route does not answer.
   */
  listRoutes?(task: RouteTask): RouteForm[];
  /** The parameter changes that give the mirror image, left for right: the other hand. */
  mirror?(values: ValuesOf<P>): Readonly<Record<string, unknown>>;
  /** The parameter changes that give the same fitting seen from its other end: the outlet becomes the inlet, up stays up. */
  reverse?(values: ValuesOf<P>, setting: Setting): Readonly<Record<string, unknown>>;
}

/** Checks a family's types against its own parameters; the list holds families of all kinds. */
export function defineFamily<const P extends Params>(family: Family<P>): Family {
  return family as unknown as Family;
}

/** At most one of the drivers may be said. */
export function allowOneOf(names: readonly string[]): Rule {
  return {
    check(said) {
      const second = Object.keys(said).filter((name) => names.includes(name))[1];
      return second === undefined ? null : { path: [second], expected: `only one of ${names.join(', ')}` };
    },
    json: {
      allOf: names.flatMap((a, i) => names.slice(i + 1).map((b) => ({ not: { required: [a, b] } })))
    }
  };
}

/** Exactly one of the drivers must be said. */
export function requireOneOf(names: readonly string[]): Rule {
  const most = allowOneOf(names);
  return {
    check(said) {
      const none = names.every((name) => said[name] === undefined);
      return none ? { path: [names[0]!], expected: `one of ${names.join(', ')}` } : most.check(said);
    },
    json: { oneOf: names.map((name) => ({ required: [name] })) }
  };
}

/** At most one of these throats may be "rest". */
export function allowOneRest(names: readonly string[]): Rule {
  return {
    check(said) {
      const second = Object.keys(said).filter((name) => names.includes(name) && said[name] === 'rest')[1];
      return second === undefined ? null : { path: [second], expected: 'at most one throat "rest"' };
    },
    json: {
      not: {
        required: [...names],
        properties: Object.fromEntries(names.map((name) => [name, { const: 'rest' }]))
      }
    }
  };
}
