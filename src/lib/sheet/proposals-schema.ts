import { z } from 'zod';

const proposal = z.strictObject({
  fitting: z
    .strictObject({
      tag: z.string().min(1),
      family: z.string(),
      section: z.strictObject({ width: z.number(), height: z.number() }),
      params: z.record(z.string(), z.unknown())
    })
    .meta({
      description: 'A fitting as the job document says it, every parameter written and none rounded.'
    }),
  joints: z.int().min(0),
  turn: z.number().min(0),
  straight: z.number().min(0),
  clearance: z.strictObject({ value: z.number(), obstacle: z.string() }).optional()
});

const refusal = z.strictObject({
  family: z.string(),
  reason: z.string().min(1),
  limit: z.enum(['end', 'minThroat', 'minGore', 'straight', 'clearance', 'obstacle', 'several']),
  short: z.number().min(0).optional()
});

/** The proposals for a site: lengths in mm, turns in degrees. */
export const proposalsSchema = z
  .strictObject({
    format: z.literal('gorewright-proposals'),
    version: z.literal(1),
    proposals: z.array(proposal),
    refused: z.array(refusal)
  })
  .meta({
    title: 'Gorewright proposals',
    description:
      'Lengths in mm, angles in degrees; best first. A clearance is left out where there is no obstacle.'
  });

export type Proposals = z.infer<typeof proposalsSchema>;
