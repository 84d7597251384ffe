import { z } from 'zod';
import { FAMILIES } from '../families/index.ts';
import type { Family, Param, ParamKind } from '../families/family.ts';
import { LONGEST } from '../families/limits.ts';
import { MEASURES, ONWARD_WAYS, SIGNED_MEASURES } from '../site/tape.ts';
import { CORNERS } from '../straight/section.ts';
import { LANGUAGES } from './job.ts';

/** The limits of the document. A value outside them makes it unreadable; what only geometry can know is a finding. */
const positive = z.number().gt(0).max(LONGEST);
const length = z.number().min(0).max(LONGEST);
/** Far beyond any material; without a limit a mass could overflow. */
const property = z.number().min(0).max(100_000);

const show = z.strictObject({
  length: z.enum(['mm', 'in', 'in/16']).optional(),
  precision: z.int().min(0).max(6).optional(),
  language: z.enum(LANGUAGES).optional()
});

const board = z.strictObject({
  thickness: z.number().min(5).max(150).optional(),
  length: positive.optional(),
  width: positive.optional(),
  profile: z.enum(['long', 'short']).optional(),
  spigot: length.optional(),
  corner: z.enum(['miter', 'shiplap']).optional(),
  flap: length.optional(),
  density: property.optional(),
  conductivity: property.optional()
});

const shop = z.strictObject({
  minThroat: length.optional(),
  minGore: length.optional(),
  blades: z.array(z.strictObject({ angle: z.number().min(0).lt(90) })).optional()
});

const section = z.strictObject({ width: z.number().min(20).max(5000), height: z.number().min(20).max(5000) });

const end = z.enum(['male', 'female', 'plain']);

const common = {
  tag: z.string().min(1).optional(),
  quantity: z.int().min(1).max(9999).optional(),
  section,
  lay: z.enum(['across', 'along']).optional(),
  seam: z.enum(CORNERS as [string, ...string[]]).optional(),
  ends: z.strictObject({ inlet: end.optional(), outlet: end.optional() }).optional()
};

/** Far beyond any building; mm. */
const coordinate = z.number().min(-1_000_000).max(1_000_000);
const point = z.tuple([coordinate, coordinate, coordinate]);
const reached = z.union([coordinate, z.null()]);

const measures = MEASURES.map((name) => {
  const value = SIGNED_MEASURES.includes(name) ? z.number().min(-LONGEST).max(LONGEST) : length;
  return [
    name,
    z
      .strictObject({ value: name === 'obstacleWidth' ? positive : value, uncertainty: length.optional() })
      .optional()
  ] as const;
});

const tape = z.strictObject({
  goesOn: z.enum(ONWARD_WAYS),
  obstacle: z.strictObject({ name: z.string().min(1), kind: z.string().min(1) }),
  measures: z.strictObject(Object.fromEntries(measures))
});

const site = z.strictObject({
  fitting: z.string().min(1).optional(),
  section,
  end: z.strictObject({ at: z.tuple([reached, reached, reached]), flow: point, up: point }),
  clearance: length,
  obstacles: z
    .array(
      z.strictObject({
        name: z.string().min(1),
        kind: z.string().min(1),
        min: point,
        max: point,
        clearance: length.optional(),
        turn: z.number().optional()
      })
    )
    .max(200),
  handRoom: length.optional(),
  tape: tape.optional()
});

const fittings = FAMILIES.map((family) =>
  z.strictObject({ family: z.literal(family.name), ...common, params: describeParams(family) })
);

/** The job document, as the code reads it; rules over several fields are in read.ts, site-rules.ts and the families. */
export const jobSchema = z
  .strictObject({
    format: z.literal('gorewright-job'),
    version: z.literal(1),
    name: z.string().optional(),
    show: show.optional(),
    board: board.optional(),
    shop: shop.optional(),
    fittings: z
      .array(z.discriminatedUnion('family', fittings as [(typeof fittings)[number], ...typeof fittings]))
      .max(1000)
      .optional(),
    site: site.optional()
  })
  .meta({ title: 'Gorewright job', description: 'Lengths in mm, angles in degrees.' });

/** All that can be said of a fitting whose family is not known. */
export const unknownFamilySchema = z.strictObject({
  family: z.unknown(),
  ...common,
  params: z.unknown()
});

function describeParams(family: Family) {
  const fields = Object.entries(family.params).map(([name, param]) => [name, describeParam(param)] as const);
  const rules = family.rules.flatMap(({ json }) => (json ? [json] : []));
  return z.strictObject(Object.fromEntries(fields)).meta(rules.length > 0 ? { allOf: rules } : {});
}

function describeParam(param: Param): z.ZodType {
  const kind = describeKind(param.of);
  return param.required ? kind : kind.optional();
}

function describeKind(of: ParamKind): z.ZodType {
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
      return z.array(describeKind(of.item)).min(of.minItems).max(of.maxItems);
    case 'group':
      return z.strictObject(
        Object.fromEntries(Object.entries(of.fields).map(([name, field]) => [name, describeParam(field)]))
      );
  }
}

function limit<T extends z.ZodNumber>(
  number: T,
  limits: { min?: number; above?: number; max?: number }
): z.ZodNumber {
  let limited: z.ZodNumber = number;
  if (limits.min !== undefined) limited = limited.min(limits.min);
  if (limits.above !== undefined) limited = limited.gt(limits.above);
  if (limits.max !== undefined) limited = limited.max(limits.max);
  return limited;
}
