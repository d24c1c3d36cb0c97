import { z } from 'zod'
import { jobSchema } from './schema.ts'
import { shopFileSchema } from './shop-file.ts'

/** The JSON Schema (draft 2020-12) of job.yaml as it is written, before defaults are filled in: for editors. */
export const jobJsonSchema = (): Record<string, unknown> => schemaOf(jobSchema, 'burnline job.yaml')

/** The same of a shop file. */
export const shopJsonSchema = (): Record<string, unknown> => schemaOf(shopFileSchema, 'burnline shop file')

function schemaOf(schema: z.ZodType, title: string): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' }) as Record<
    string,
    unknown
  >
  return { $schema, title, ...rest }
}

/** Text of templates/job.schema.json. */
export const jobJsonSchemaText = (): string => `${JSON.stringify(jobJsonSchema(), null, 2)}\n`

/** Text of templates/shop.schema.json. */
export const shopJsonSchemaText = (): string => `${JSON.stringify(shopJsonSchema(), null, 2)}\n`
