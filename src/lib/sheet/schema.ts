import { z } from 'zod';
import { CORNERS, FACES } from '../kernel/straight/section.ts';

const count = z.int().min(0);
const vector = z.tuple([z.number(), z.number(), z.number()]);
const point = z.tuple([z.number(), z.number()]);
const face = z.enum(FACES as [string, ...string[]]);
const corner = z.enum(CORNERS as [string, ...string[]]);
const section = z.strictObject({ width: z.number(), height: z.number() });
const end = z.enum(['male', 'female', 'plain', 'miter']);
const lean = z.enum(['downstream', 'upstream']);

const faceMark = z.strictObject({
  start: z.number(),
  end: z.number(),
  line: z.number(),
  bevel: z.number(),
  lean: lean.optional(),
  setback: z.number(),
  depth: z.number()
});

const cut = z.strictObject({
  name: z.string(),
  station: z.number(),
  miter: z.number(),
  heel: z.number().min(0).lt(360),
  faces: z.strictObject({ top: faceMark, right: faceMark, bottom: faceMark, left: faceMark })
});

const edge = z.strictObject({ bevel: z.number() });

/** A round opening's middle, and its radius on the facing and on the inside. */
const circle = z.strictObject({ at: point, outer: z.number(), inner: z.number() });

const straight = z.strictObject({
  name: z.string(),
  section,
  thickness: z.number(),
  length: z.number(),
  lay: z.enum(['across', 'along']),
  make: z.enum(['one piece', 'two angles', 'trough and lid', 'four panels']),
  ends: z.tuple([end, end]),
  cuts: z.array(cut),
  marks: z.array(
    z.strictObject({
      name: z.string(),
      kind: z.enum(['cut', 'slit', 'groove', 'trim']),
      face,
      from: point,
      to: point,
      bevel: z.number(),
      lean: lean.optional()
    })
  ),
  openings: z.array(
    z.strictObject({
      name: z.string(),
      face,
      outer: z.array(point),
      inner: z.array(point),
      edges: z.array(edge),
      circle: circle.optional()
    })
  ),
  pieces: z.array(
    z.strictObject({
      name: z.string(),
      flipped: z.boolean(),
      seam: corner,
      axis: z.number(),
      shortest: z.number(),
      longest: z.number(),
      volume: z.number()
    })
  )
});

const panel = z.strictObject({
  name: z.string(),
  face: face.optional(),
  outer: z.array(point),
  inner: z.array(point),
  edges: z.array(edge.extend({ kind: z.enum(['fold', 'seam', 'cut', 'male', 'female', 'plain']) }))
});

const port = z.strictObject({ name: z.string(), at: vector, flow: vector, up: vector, section, end });

const step = z.strictObject({
  kind: z.enum([
    'check',
    'mark',
    'label',
    'groove',
    'strip',
    'fold',
    'square',
    'staple',
    'tape',
    'turn',
    'support',
    'cut',
    'separate',
    'flip',
    'fit',
    'glue',
    'join',
    'tab',
    'seal',
    'nose',
    'inspect'
  ]),
  text: z.string(),
  straight: z.string().optional(),
  cuts: z.array(z.string()),
  face: face.optional(),
  pieces: z.array(z.string()),
  blade: z.number().optional()
});

const quantities = z.strictObject({
  outside: z.number(),
  inside: z.number(),
  mass: z.number(),
  seam: z.number(),
  joints: count,
  jointOutline: z.number(),
  glue: z.number()
});

const finding = z.strictObject({
  level: z.enum(['error', 'warning', 'note']),
  code: z.string(),
  param: z.string().optional(),
  would: z.union([z.number(), z.string()]).optional(),
  message: z.string(),
  source: z.string()
});

const fitting = z.strictObject({
  tag: z.string(),
  quantity: count,
  family: z.string(),
  buildable: z.boolean(),
  volume: z.number(),
  openEdges: count,
  straights: z.array(straight),
  panels: z.array(panel),
  ports: z.array(port),
  steps: z.array(step),
  quantities,
  findings: z.array(finding)
});

/** The sheet document: lengths in mm, angles in degrees, areas in m², volumes in mm³, mass in kg. */
export const sheetSchema = z
  .strictObject({
    format: z.literal('gorewright-sheet'),
    version: z.literal(1),
    name: z.string(),
    fittings: z.array(fitting)
  })
  .meta({
    title: 'Gorewright sheet',
    description: 'Lengths in mm, angles in degrees, areas in m², volumes in mm³.'
  });

export type Sheet = z.infer<typeof sheetSchema>;
export type SheetFitting = Sheet['fittings'][number];
export type SheetPanel = SheetFitting['panels'][number];
export type SheetStraight = SheetFitting['straights'][number];
