import fc, { type Arbitrary } from 'fast-check';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import type {
  AngleKind,
  CountKind,
  Family,
  GroupKind,
  LengthKind,
  Param,
  ParamKind,
  ThroatKind
} from '../../src/lib/kernel/families/family.ts';

/** Most entries of a list in a generated document; longer ones are legal and slow. */
const USUAL_LIST = 5;

/** Values of parameters as a document says them. */
export type Said = Record<string, unknown>;

/**
 * Parameters of a family as a document may say them, drawn from the family's own descriptions: what is required always,
 * the rest now and then, at most one driver, and only what the family's rules let through.
 */
export function drawParams(family: Family): Arbitrary<Said> {
  const { params, drivers } = family;
  const names = Object.keys(params).filter((name) => !drivers?.names.includes(name));
  // Lists are drawn from one count, so that rules about their lengths are met.
  return fc
    .integer({ min: 0, max: USUAL_LIST })
    .chain((count) =>
      fc.record({
        said: fc.record(Object.fromEntries(names.map((name) => [name, drawParam(params[name]!, count)])), {
          requiredKeys: names.filter((name) => params[name]!.required)
        }),
        driven: drivers
          ? fc.oneof(
              fc.constant<Said>({}),
              ...drivers.names.map((name) =>
                drawParam(params[name]!, count).map<Said>((value) => ({ [name]: value }))
              )
            )
          : fc.constant<Said>({})
      })
    )
    .map(({ said, driven }) => ({ ...said, ...driven }))
    .filter((said) => family.rules.every((rule) => rule.check(said) === null));
}

function drawParam({ of }: Param, count: number): Arbitrary<unknown> {
  return drawKind(of, count);
}

/** A value of a kind of parameter, inside its limits. */
export function drawKind(of: ParamKind | GroupKind, count: number): Arbitrary<unknown> {
  switch (of.kind) {
    case 'length':
    case 'angle':
      return drawNumber(of);
    case 'throat':
      return fc.oneof(
        { arbitrary: drawNumber(of), weight: 4 },
        { arbitrary: fc.constant('rest'), weight: 1 }
      );
    case 'count':
      return fc.integer({ min: of.min ?? 0, max: of.max ?? 100 });
    case 'choice':
      return fc.constantFrom(...of.of);
    case 'list': {
      const length = Math.min(of.maxItems, of.minItems + count);
      return fc.array(drawKind(of.item, count), { minLength: length, maxLength: length });
    }
    case 'group':
      return fc.record(
        Object.fromEntries(Object.entries(of.fields).map(([name, field]) => [name, drawKind(field, count)]))
      );
  }
}

/** Sizes a duct really has, mm; far larger ones are legal. */
const USUAL_LENGTH = 1500;

/** A number inside limits: mostly of a duct's size, often round, now and then anything that is allowed or a limit itself. */
function drawNumber({
  kind,
  min,
  above,
  max
}: LengthKind | AngleKind | CountKind | ThroatKind): Arbitrary<number> {
  const low = min ?? above ?? -1000;
  const high = max ?? 1000;
  const usual = kind === 'angle' ? high : Math.min(high, USUAL_LENGTH);
  const inside = (top: number): Arbitrary<number> =>
    fc
      .double({ min: low, max: top, noNaN: true, minExcluded: above !== undefined })
      // JSON has no minus zero.
      .map((value) => value + 0);
  const limits = [min, max].filter((limit) => limit !== undefined);
  const least = above === undefined ? Math.ceil(low) : Math.floor(low) + 1;
  return fc.oneof(
    { arbitrary: fc.integer({ min: least, max: Math.floor(usual) }), weight: 8 },
    { arbitrary: uniform(least, usual), weight: 4 },
    { arbitrary: inside(high), weight: 1 },
    ...(limits.length > 0 ? [{ arbitrary: fc.constantFrom(...limits), weight: 1 }] : []),
    ...(kind === 'angle' && high >= 90 ? [{ arbitrary: fc.constantFrom(22.5, 45, 90), weight: 2 }] : []),
    ...(kind === 'angle' && min === undefined && above === undefined
      ? [{ arbitrary: fc.constantFrom(-90, 270, 450, 1e20, -1e-9), weight: 1 }]
      : [])
  );
}

/** Evenly over a range, to a millionth of it: doubles drawn by their bits crowd round zero. */
export function uniform(low: number, high: number): Arbitrary<number> {
  return fc.integer({ min: 0, max: 1_000_000 }).map((step) => low + ((high - low) * step) / 1_000_000);
}

/** The inside of a duct. */
export const drawSection = fc.record({
  width: fc.oneof(
    { arbitrary: fc.integer({ min: 60, max: 1200 }), weight: 6 },
    { arbitrary: uniform(20, 5000), weight: 1 },
    { arbitrary: fc.constantFrom(20, 5000), weight: 1 }
  ),
  height: fc.oneof(
    { arbitrary: fc.integer({ min: 60, max: 1200 }), weight: 6 },
    { arbitrary: uniform(20, 5000), weight: 1 },
    { arbitrary: fc.constantFrom(20, 5000), weight: 1 }
  )
});

const drawEnd = fc.constantFrom('male', 'female', 'plain');

/** A fitting of a family as a document says it. */
export function drawFitting(family: Family): Arbitrary<Said> {
  return fc.record(
    {
      family: fc.constant(family.name),
      section: drawSection,
      params: drawParams(family),
      quantity: fc.integer({ min: 1, max: 9999 }),
      lay: fc.constantFrom('across', 'along'),
      seam: fc.constantFrom('top-left', 'top-right', 'bottom-right', 'bottom-left'),
      ends: fc.record({ inlet: drawEnd, outlet: drawEnd }, { requiredKeys: [] })
    },
    { requiredKeys: ['family', 'section', 'params'] }
  );
}

const drawBoard = fc.record(
  {
    thickness: fc.oneof(fc.integer({ min: 10, max: 60 }), uniform(5, 150)),
    length: fc.integer({ min: 1000, max: 4000 }),
    width: fc.integer({ min: 600, max: 2000 }),
    profile: fc.constantFrom('long', 'short'),
    spigot: fc.integer({ min: 0, max: 40 }),
    corner: fc.constantFrom('miter', 'shiplap'),
    flap: fc.integer({ min: 0, max: 60 }),
    density: fc.integer({ min: 0, max: 200 }),
    conductivity: uniform(0.02, 0.05)
  },
  { requiredKeys: [] }
);

const drawShop = fc.record(
  {
    minThroat: fc.integer({ min: 0, max: 300 }),
    minGore: fc.integer({ min: 0, max: 300 }),
    blades: fc.array(fc.record({ angle: fc.oneof(fc.constantFrom(0, 22.5, 45), uniform(0, 89)) }), {
      maxLength: 4
    })
  },
  { requiredKeys: [] }
);

const drawShow = fc.record(
  {
    length: fc.constantFrom('mm', 'in', 'in/16'),
    precision: fc.integer({ min: 0, max: 6 }),
    language: fc.constant('en')
  },
  { requiredKeys: [] }
);

/** A legal job document of up to three fittings; their tags differ. */
export const drawJob: Arbitrary<Said> = fc
  .record(
    {
      name: fc.string({ unit: 'grapheme', maxLength: 30 }),
      show: drawShow,
      board: drawBoard,
      shop: drawShop,
      fittings: fc.array(
        fc.record({
          tagged: fc.boolean(),
          fitting: fc.constantFrom(...FAMILIES).chain(drawFitting)
        }),
        { maxLength: 3 }
      )
    },
    { requiredKeys: ['fittings'] }
  )
  .map(({ fittings, ...rest }) => ({
    format: 'gorewright-job',
    version: 1,
    ...rest,
    fittings: fittings.map(({ tagged, fitting }, i) => ({
      ...(tagged ? { tag: `duct ${i + 1}` } : {}),
      ...fitting
    }))
  }));
