// The smaller half of zod: the page reads a document before anything can be dragged.
import * as z from 'zod/mini';
import { FAMILIES } from '../families/index.ts';
import type { Family, Param, ParamKind } from '../families/family.ts';
import { LONGEST } from '../families/limits.ts';
import { MEASURES, ONWARD_WAYS, SIGNED_MEASURES } from '../site/tape.ts';
import { CORNERS } from '../straight/section.ts';
import { LANGUAGES } from './job.ts';

/** The limits of the document. A value outside them makes it unreadable; what only geometry can know is a finding. */
const positive = limit(z.number(), { above: 0, max: LONGEST });
const length = limit(z.number(), { min: 0, max: LONGEST });
/** Far beyond any material; without a limit a mass could overflow. */
const property = limit(z.number(), { min: 0, max: 100_000 });
const word = z.string().check(z.minLength(1));

/** Fittings of a job. */
export const MOST_FITTINGS = 1000;

const show = z.partial(
  z.strictObject({
    length: z.enum(['mm', 'in', 'in/16']),
    precision: limit(z.int(), { min: 0, max: 6 }),
    language: z.enum(LANGUAGES)
  })
);

const board = z.partial(
  z.strictObject({
    thickness: limit(z.number(), { min: 5, max: 150 }),
    length: positive,
    width: positive,
    profile: z.enum(['long', 'short']),
    spigot: length,
    corner: z.enum(['miter', 'shiplap']),
    flap: length,
    density: property,
    conductivity: property
  })
);

const shop = z.partial(
  z.strictObject({
    minThroat: length,
    minGore: length,
    blades: z.array(z.strictObject({ angle: z.number().check(z.gte(0), z.lt(90)) }))
  })
);

const side = limit(z.number(), { min: 20, max: 5000 });
const section = z.strictObject({ width: side, height: side });

const end = z.enum(['male', 'female', 'plain']);

const common = {
  tag: z.optional(word),
  quantity: z.optional(limit(z.int(), { min: 1, max: 9999 })),
  section,
  lay: z.optional(z.enum(['across', 'along'])),
  seam: z.optional(z.enum(CORNERS as [string, ...string[]])),
  ends: z.optional(z.partial(z.strictObject({ inlet: end, outlet: end })))
};

/** Far beyond any building; mm. */
const coordinate = limit(z.number(), { min: -1_000_000, max: 1_000_000 });
const point = z.tuple([coordinate, coordinate, coordinate]);
const reached = z.union([coordinate, z.null()]);

const measures = MEASURES.map((name) => {
  const signed = limit(z.number(), { min: -LONGEST, max: LONGEST });
  const value = SIGNED_MEASURES.includes(name) ? signed : name === 'obstacleWidth' ? positive : length;
  return [name, z.optional(z.strictObject({ value, uncertainty: z.optional(length) }))] as const;
});

const tape = z.strictObject({
  goesOn: z.enum(ONWARD_WAYS),
  obstacle: z.strictObject({ name: word, kind: word }),
  measures: z.strictObject(Object.fromEntries(measures))
});

const obstacle = z.strictObject({
  name: word,
  kind: word,
  min: point,
  max: point,
  clearance: z.optional(length),
  turn: z.optional(z.number())
});

const site = z.strictObject({
  fitting: z.optional(word),
  section,
  end: z.strictObject({ at: z.tuple([reached, reached, reached]), flow: point, up: point }),
  clearance: length,
  obstacles: z.array(obstacle).check(z.maxLength(200)),
  handRoom: z.optional(length),
  tape: z.optional(tape)
});

const fittings = FAMILIES.map((family) =>
  z.strictObject({ family: z.literal(family.name), ...common, params: describeParams(family) })
);
const fitting = z.discriminatedUnion('family', fittings as [(typeof fittings)[number], ...typeof fittings]);

/** The job document, as the code reads it; rules over several fields are in read.ts, site-rules.ts and the families. */
export const jobSchema = z
  .strictObject({
    format: z.literal('gorewright-job'),
    version: z.literal(1),
    name: z.optional(z.string()),
    show: z.optional(show),
    board: z.optional(board),
    shop: z.optional(shop),
    fittings: z.optional(z.array(fitting).check(z.maxLength(MOST_FITTINGS))),
    site: z.optional(site)
  })
  .register(z.globalRegistry, {
    title: 'Gorewright job',
    description: 'Lengths in mm, angles in degrees.'
  });

/** All that can be said of a fitting whose family is not known. */
export const unknownFamilySchema = z.strictObject({
  family: z.unknown(),
  ...common,
  params: z.unknown()
});

function describeParams(family: Family) {
  const fields = Object.entries(family.params).map(([name, param]) => [name, describeParam(param)] as const);
  const rules = family.rules.flatMap(({ json }) => (json ? [json] : []));
  const params = z.strictObject(Object.fromEntries(fields));
  return rules.length > 0 ? params.register(z.globalRegistry, { allOf: rules }) : params;
}

function describeParam(param: Param): z.ZodMiniType {
  const kind = describeKind(param.of);
  return param.required ? kind : z.optional(kind);
}

function describeKind(of: ParamKind): z.ZodMiniType {
  switch (of.kind) {
    case 'length':
    case 'angle':
      return limit(z.number(), of);
    case 'count':
      return limit(z.int(), of);
    case 'choice':
      return z.enum([...of.of, ...Object.keys(of.also ?? {})] as [string, ...string[]]);
    case 'throat':
      return z.union([limit(z.number(), of), z.literal('rest')]);
    case 'place':
      return z.union([z.enum(of.of as [string, ...string[]]), limit(z.number(), of)]);
    case 'list':
      return z.array(describeKind(of.item)).check(z.minLength(of.minItems), z.maxLength(of.maxItems));
    case 'group':
      return z.strictObject(
        Object.fromEntries(Object.entries(of.fields).map(([name, field]) => [name, describeParam(field)]))
      );
  }
}

function limit(
  number: z.ZodMiniNumber<number>,
  { min, above, max }: { min?: number; above?: number; max?: number }
): z.ZodMiniNumber<number> {
  return number.check(
    ...(min === undefined ? [] : [z.gte(min)]),
    ...(above === undefined ? [] : [z.gt(above)]),
    ...(max === undefined ? [] : [z.lte(max)])
  );
}
