import { mkdirSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { jobSchema } from '../lib/kernel/document/schema.ts';
import { proposalsSchema } from '../lib/sheet/proposals-schema.ts';
import { sheetSchema } from '../lib/sheet/schema.ts';

/** Writes the published JSON Schemas, made from the schemas the code itself uses. */
const folder = new URL('../../static/schema/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [name, schema] of [
  ['gorewright-job', jobSchema],
  ['gorewright-sheet', sheetSchema],
  ['gorewright-proposals', proposalsSchema]
] as const) {
  writeFileSync(
    new URL(`${name}.schema.json`, folder),
    `${JSON.stringify(z.toJSONSchema(schema), null, 2)}\n`
  );
}
