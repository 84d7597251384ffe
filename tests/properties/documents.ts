import fc, { type Arbitrary } from 'fast-check';
import { FAMILIES } from '../../src/lib/kernel/families/index.ts';
import type {
  Drivers,
  Family,
  GroupKind,
  ParamKind,
  Params,
  Rule
} from '../../src/lib/kernel/families/family.ts';
import { MEASURES, ONWARD_WAYS } from '../../src/lib/kernel/site/tape.ts';

/** Most entries of a list in a generated document; longer ones are legal and slow. */
const USUAL_LIST = 5;

/** Values of parameters as a document says them. */
export type Said = Record<string, unknown>;

/**
 * Parameters of a family as a document may say them, drawn from the family's own descriptions: what is required always,
 * the rest now and then, at most one driver, and only what the family's rules let through. Two of three are the family's
 * example with its values moved: where parts have to fit into each other, few of the others can be built.
 */
export function drawParams(family: Family): Arbitrary<Said> {
  const isRight = (said: Said): boolean => family.rules.every((rule) => rule.check(said) === null);
  return fc
    .oneof({ arbitrary: drawAny(family), weight: 1 }, { arbitrary: drawNear(family), weight: 2 })
    .filter(isRight);
}

function drawAny({ params, drivers, rules }: Family): Arbitrary<Said> {
  const names = Object.keys(params).filter((name) => !drivers?.names.includes(name));
  // Lists are drawn from one count, so that rules about their lengths are met.
  return fc.integer({ min: 0, max: USUAL_LIST }).chain((count) =>
    fc
      .record({
        said: fc.record(
          Object.fromEntries(names.map((name) => [name, drawParam(name, params[name]!.of, count, rules)])),
          { requiredKeys: names.filter((name) => params[name]!.required) }
        ),
        driven: drawDriver(params, drivers, count)
      })
      .map(({ said, driven }) => ({ ...said, ...driven }))
  );
}

function drawDriver(params: Params, drivers: Drivers | undefined, count: number): Arbitrary<Said> {
  const none = fc.constant<Said>({});
  const driven = drivers?.names.map((name) =>
    drawKind(params[name]!.of, count).map<Said>((value) => ({ [name]: value }))
  );
  return driven ? fc.oneof(none, ...driven) : none;
}

/** A parameter; of groups and entries of lists only those that the family's rules do not refuse by themselves. */
function drawParam(name: string, of: ParamKind, count: number, rules: readonly Rule[]): Arbitrary<unknown> {
  if (of.kind === 'group') {
    return drawKind(of, count).filter((value) =>
      rules.every((rule) => (rule.check({ [name]: value })?.path.length ?? 0) < 2)
    );
  }
  if (of.kind !== 'list' || of.item.kind !== 'group') return drawKind(of, count);
  const entry = drawKind(of.item, count).filter((value) =>
    rules.every((rule) => (rule.check({ [name]: [value] })?.path.length ?? 0) < 3)
  );
  return drawList(of, entry, count);
}

function drawList(
  { minItems, maxItems }: Extract<ParamKind, { kind: 'list' }>,
  item: Arbitrary<unknown>,
  count: number
): Arbitrary<unknown[]> {
  const length = Math.min(maxItems, minItems + count);
  return fc.array(item, { minLength: length, maxLength: length });
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
    case 'place':
      return fc.oneof(
        { arbitrary: fc.constantFrom(...of.of), weight: 2 },
        { arbitrary: drawNumber(of), weight: 1 }
      );
    case 'count':
      return fc.integer({ min: of.min ?? 0, max: of.max ?? 100 });
    case 'choice':
      return fc.constantFrom(...of.of, ...Object.keys(of.also ?? {}));
    case 'list':
      return drawList(of, drawKind(of.item, count), count);
    case 'group': {
      const fields = Object.entries(of.fields);
      return fc.record(Object.fromEntries(fields.map(([name, field]) => [name, drawKind(field.of, count)])), {
        requiredKeys: fields.flatMap(([name, { required }]) => (required ? [name] : []))
      });
    }
  }
}

/** The example of a family with its values moved, now and then without some of it and with what it leaves out. */
function drawNear({ params, drivers, example }: Family): Arbitrary<Said> {
  const others = Object.entries(params).filter(
    ([name]) => example[name] !== undefined || !drivers?.names.includes(name)
  );
  return drawGroupNear(Object.fromEntries(others), example);
}

function drawGroupNear(params: Params, said: Readonly<Said>): Arbitrary<Said> {
  const fields = Object.entries(params).map(([name, param]) => {
    const value = drawValueNear(param.of, said[name] ?? param.default);
    if (param.required) return [name, value] as const;
    const weight = said[name] === undefined ? 1 : 10;
    return [
      name,
      fc.oneof({ arbitrary: value, weight }, { arbitrary: fc.constant(undefined), weight: 5 })
    ] as const;
  });
  return fc
    .record(Object.fromEntries(fields))
    .map((values) => Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)));
}

/** How far a value is moved: by this share of itself, and small ones by as much. */
const NEAR = { share: 0.25, least: 10 } as const;

function drawValueNear(of: ParamKind | GroupKind, value: unknown): Arbitrary<unknown> {
  if (of.kind === 'list' && Array.isArray(value))
    return fc.tuple(...value.map((entry) => drawValueNear(of.item, entry)));
  if (of.kind === 'group' && value !== undefined) return drawGroupNear(of.fields, value as Said);
  if (of.kind === 'choice' && value !== undefined)
    return fc.oneof({ arbitrary: fc.constant(value), weight: 4 }, { arbitrary: drawKind(of, 0), weight: 1 });
  if (typeof value !== 'number' || !('min' in of || 'above' in of)) return drawKind(of, 0);
  if (of.kind === 'count') return drawKind(of, 0);
  const { min = -Infinity, above = -Infinity, max = Infinity } = of;
  const by = Math.max(NEAR.share * Math.abs(value), NEAR.least);
  const moved = uniform(Math.max(value - by, min), Math.min(value + by, max));
  const isInside = (number: number): boolean => number >= min && number > above && number <= max;
  return fc.oneof(
    { arbitrary: fc.constant(value), weight: 1 },
    { arbitrary: moved.map((number) => Math.round(number) + 0).filter(isInside), weight: 2 },
    { arbitrary: moved.filter(isInside), weight: 1 }
  );
}

/** Sizes a duct really has, mm; far larger ones are legal. */
const USUAL_LENGTH = 1500;

/** A number inside limits: mostly of a duct's size, often round, now and then anything that is allowed or a limit itself. */
function drawNumber({
  kind,
  min,
  above,
  max
}: Extract<ParamKind, { kind: 'length' | 'angle' | 'throat' | 'place' }>): Arbitrary<number> {
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
    ...(kind === 'angle' && high >= 90
      ? [{ arbitrary: fc.constantFrom(...[22.5, 45, 90].filter((angle) => angle >= low)), weight: 2 }]
      : []),
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

type Point = [number, number, number];

const drawPoint = (most: number): Arbitrary<Point> => {
  const along = fc.oneof(
    { arbitrary: fc.integer({ min: -most, max: most }), weight: 4 },
    { arbitrary: uniform(-most, most), weight: 1 }
  );
  return fc.tuple(along, along, along);
};

const QUARTERS = [0, 90, 180, 270].map((degrees) => (degrees * Math.PI) / 180);

/** Two directions square to each other, of any length: mostly along the axes of the building. */
const drawDirections: Arbitrary<{ flow: Point; up: Point }> = fc
  .record({
    angles: fc.tuple(...[0, 1, 2].map(() => fc.oneof(fc.constantFrom(...QUARTERS), uniform(-4, 4)))),
    lengths: fc.oneof(fc.constant([1, 1] as const), fc.tuple(uniform(0.01, 1000), uniform(0.01, 1000)))
  })
  .map(({ angles: [yaw, pitch, roll], lengths: [flow, up] }) => {
    const [cy, sy, cp, sp] = [Math.cos(yaw!), Math.sin(yaw!), Math.cos(pitch!), Math.sin(pitch!)];
    const [cr, sr] = [Math.cos(roll!), Math.sin(roll!)];
    // JSON has no minus zero.
    const stretch = (by: number, point: Point): Point => point.map((value) => by * value + 0) as Point;
    return {
      flow: stretch(flow, [cy * cp, sp, sy * cp]),
      up: stretch(up, [-cy * sp * cr + sy * sr, cp * cr, -sy * sp * cr - cy * sr])
    };
  });

const drawClearance = fc.oneof(fc.integer({ min: 0, max: 200 }), uniform(0, 500));

/** A box, mostly where a duct may be, now and then flat or far away. */
const drawObstacle = fc
  .record({
    at: fc.oneof(
      { arbitrary: drawPoint(3000), weight: 6 },
      { arbitrary: drawPoint(400_000), weight: 1 },
      { arbitrary: fc.constant<Point>([0, 0, 0]), weight: 1 }
    ),
    size: fc.tuple(...[0, 1, 2].map(() => fc.oneof(fc.integer({ min: 0, max: 900 }), fc.constant(0)))),
    said: fc.record(
      {
        name: fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }),
        kind: fc.constantFrom('beam', 'pipe', 'tray', 'wall'),
        clearance: drawClearance,
        turn: fc.oneof(
          fc.integer({ min: -180, max: 180 }),
          fc.constantFrom(90, 1e20, -1e-9),
          uniform(-90, 90)
        )
      },
      { requiredKeys: ['name', 'kind'] }
    )
  })
  .map(({ at, size, said }) => ({ ...said, min: at, max: at.map((low, axis) => low + size[axis]!) }));

/** A measuring card of which some is measured; what a tape gives may be legal and wrong. */
const drawTape = fc.record({
  goesOn: fc.constantFrom(...ONWARD_WAYS),
  obstacle: fc.record({ name: fc.constantFrom('beam', 'main tray'), kind: fc.constantFrom('beam', 'tray') }),
  measures: fc.record(
    Object.fromEntries(
      MEASURES.map((name) => [
        name,
        fc.record(
          { value: fc.integer({ min: 1, max: 4000 }), uncertainty: fc.integer({ min: 0, max: 20 }) },
          { requiredKeys: ['value'] }
        )
      ])
    ),
    { requiredKeys: [] }
  )
});

/** A legal site; `stands` is the place of the fitting that stands there among those of the job, where there are any. */
const drawSite: Arbitrary<{ said: Said; stands: number | null }> = fc.record({
  said: fc.record(
    {
      section: drawSection,
      end: fc
        .record({
          at: drawPoint(5000),
          free: fc.tuple(...[0, 1, 2].map(() => fc.nat(4).map((n) => n === 0))),
          directions: drawDirections
        })
        .map(({ at, free, directions }) => ({
          at: at.map((along, axis) => (free[axis] ? null : along)),
          ...directions
        })),
      clearance: drawClearance,
      obstacles: fc.array(drawObstacle, { maxLength: 4 }),
      handRoom: drawClearance,
      tape: drawTape
    },
    { requiredKeys: ['section', 'end', 'clearance', 'obstacles'] }
  ),
  stands: fc.option(fc.nat(), { freq: 3 })
});

/** A legal job document of up to three fittings, now and then with a site; their tags differ. */
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
      ),
      site: drawSite
    },
    { requiredKeys: ['fittings'] }
  )
  .map(({ fittings, site, ...rest }) => ({
    format: 'gorewright-job',
    version: 1,
    ...rest,
    fittings: fittings.map(({ tagged, fitting }, i) => ({
      ...(tagged ? { tag: `duct ${i + 1}` } : {}),
      ...fitting
    })),
    ...(site && {
      site: {
        ...(site.stands !== null &&
          fittings.length > 0 && { fitting: nameFitting(fittings, site.stands % fittings.length) }),
        ...site.said
      }
    })
  }));

function nameFitting(fittings: readonly { tagged: boolean }[], at: number): string {
  return fittings[at]!.tagged ? `duct ${at + 1}` : `F${at + 1}`;
}
