import { z } from 'zod'
import type { LimitKey, SourceKey } from './keys.ts'
import { readTemplate } from './read-template.ts'
import { SHIPPED_LIMITS } from './shipped-limits.ts'

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
/** Limits by key, each with value, unit and origin. */
export type LimitTable<K extends string> = Readonly<Record<K, Limit>>
/** Every limit a verdict depends on. */
export type Limits = LimitTable<LimitKey>
/** Source key -> how it is cited. */
export type Sources = Readonly<Record<SourceKey, string>>

/**
 * Limits from parsed YAML.
 * @param keys  all that have to be there, and no other
 * @throws Error when one is missing, unknown, or lacks its unit or origin
 */
export function parseLimits<K extends string>(yaml: unknown, keys: readonly K[]): LimitTable<K> {
  const limits = limitsSchema.parse(yaml)
  const wrong = [
    ...keys.filter((key) => !limits[key]).map((key) => `${key} is missing`),
    ...Object.keys(limits)
      .filter((key) => !(keys as readonly string[]).includes(key))
      .map((key) => `${key} is no limit of this program`),
  ]
  if (wrong.length > 0) throw new Error(`limits: ${wrong.join(', ')}`)
  return limits as LimitTable<K>
}

/** Reads templates/limits.yaml. @throws Error when a limit is missing or lacks its unit or origin. */
export const loadLimits = (): Limits =>
  parseLimits(readTemplate('limits.yaml'), Object.keys(SHIPPED_LIMITS) as LimitKey[])

/**
 * Limits with some values replaced by a shop's own.
 *
 * @param values  limit key -> value in the limit's own unit
 * @throws RangeError for a key that is no limit
 */
export function withValues<K extends string>(
  limits: LimitTable<K>,
  values: Readonly<Record<string, number>>,
): LimitTable<K> {
  const unknown = Object.keys(values).filter((key) => !Object.hasOwn(limits, key))
  if (unknown.length)
    throw new RangeError(`no such limit: ${unknown.join(', ')}; limits are ${Object.keys(limits).join(', ')}`)
  return Object.fromEntries(
    Object.entries<Limit>(limits).map(([key, l]) => [key, { ...l, value: values[key] ?? l.value }]),
  ) as LimitTable<K>
}

/** Reads templates/sources.yaml. */
export function loadSources(): Sources {
  return z.record(z.string(), z.string()).parse(readTemplate('sources.yaml')) as Sources
}

/** The value of a limit. */
export const limit = <K extends string>(limits: LimitTable<K>, key: NoInfer<K>): number => limits[key].value
