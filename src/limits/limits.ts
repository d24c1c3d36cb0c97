import { z } from 'zod'
import { readTemplate } from './read-template.ts'

const limitSchema = z.strictObject({
  value: z.number(),
  unit: z.string(),
  /** Key of templates/sources.yaml; `shop-practice` is common practice without a published source. */
  origin: z.string(),
  /** What it is for, one line. */
  meaning: z.string(),
})
const limitsSchema = z.record(z.string().regex(/^[a-z][A-Za-z0-9]*$/), limitSchema)

type Limit = z.infer<typeof limitSchema>
/** Every limit a verdict hangs on, by key, with value, unit and origin. */
export type Limits = Readonly<Record<string, Limit>>
/** Source key -> how it is cited. */
export type Sources = Readonly<Record<string, string>>

/** Limits from parsed YAML. @throws ZodError when one lacks its unit or origin. */
export const parseLimits = (yaml: unknown): Limits => limitsSchema.parse(yaml)

/** Reads templates/limits.yaml. @throws ZodError when a limit lacks its unit or origin. */
export function loadLimits(): Limits {
  return parseLimits(readTemplate('limits.yaml'))
}

/**
 * Limits with some values replaced by a shop's own.
 *
 * @param values  limit key -> value in the limit's own unit
 * @throws RangeError for a key that is no limit
 */
export function withValues(limits: Limits, values: Readonly<Record<string, number>>): Limits {
  const unknown = Object.keys(values).filter((key) => !limits[key])
  if (unknown.length)
    throw new RangeError(`no such limit: ${unknown.join(', ')}; limits are ${Object.keys(limits).join(', ')}`)
  return Object.fromEntries(
    Object.entries(limits).map(([key, l]) => [key, { ...l, value: values[key] ?? l.value }]),
  )
}

/** Reads templates/sources.yaml. */
export function loadSources(): Sources {
  return z.record(z.string(), z.string()).parse(readTemplate('sources.yaml'))
}

/** The value of a limit. @throws Error for a key that is not there. */
export function limit(limits: Limits, key: string): number {
  const found = limits[key]
  if (!found) throw new Error(`no limit '${key}' in templates/limits.yaml`)
  return found.value
}
