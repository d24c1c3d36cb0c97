import { z } from 'zod'
import { jobSchema } from './schema.ts'

/** The JSON Schema (draft 2020-12) of job.yaml as it is written, before defaults are filled in: for editors. */
export function jobJsonSchema(): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(jobSchema, { target: 'draft-2020-12', io: 'input' }) as Record<string, unknown>
  return { $schema, title: 'burnline job.yaml', ...rest }
}

/** Text of templates/job.schema.json. */
export const jobJsonSchemaText = (): string => `${JSON.stringify(jobJsonSchema(), null, 2)}\n`
