import { z } from 'zod'
import { resultSchema } from './result.ts'

/** Text of templates/result.schema.json: the JSON Schema (draft 2020-12) of result.json, published with the package. */
export function resultJsonSchemaText(): string {
  const { $schema, ...rest } = z.toJSONSchema(resultSchema, { target: 'draft-2020-12' }) as Record<
    string,
    unknown
  >
  return `${JSON.stringify({ $schema, title: 'burnline result.json', ...rest }, null, 2)}\n`
}
