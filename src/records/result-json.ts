import type { Result } from './result.ts'

/** result.json: two-space indent, one line end at the end, keys in the schema's order. */
export const resultJson = (result: Result): string => `${JSON.stringify(result, null, 2)}\n`
