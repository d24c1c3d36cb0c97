import type { JobParts } from '../parts.ts'
import type { ReviewEntry } from '../schema.ts'
import { duplicate, inconsistent, missingKey, type Check } from './check.ts'

/**
 * A review names what it overrules: a cylinder of the engine for a verdict, a place of the engine for a cause, each once.
 * Whether its word is one of the report's is looked at where these are known (chain/review-words.ts).
 */
export const review: Check = function* ({ reviews, engine, opened }, yaml) {
  const seen = new Set<string>()
  for (const { path, entry } of reviews) {
    const isVerdict = entry.of === 'verdict'
    const strange = isVerdict ? (['place'] as const) : (['cylinder', 'stage'] as const)
    for (const key of strange)
      if (entry[key] !== undefined)
        yield inconsistent(yaml, [...path, key], { expected: isVerdict ? 'of: cause' : 'of: verdict' })
    if (isVerdict && entry.cylinder === undefined) yield missingKey(yaml, [...path, 'cylinder'])
    if (opened && entry.at < opened) yield inconsistent(yaml, [...path, 'at'], { expected: `≥ ${opened}` })
    const where = isVerdict ? 'cylinder' : 'place'
    const expected = engine && notThere(entry, engine)
    if (expected !== undefined) yield inconsistent(yaml, [...path, where], { expected })
    const what = isVerdict
      ? `${entry.cylinder} ${entry.stage ?? 'before'}`
      : `cause ${(entry.place ?? '').toLowerCase()}`
    if (seen.has(what)) yield duplicate(yaml, [...path, isVerdict ? 'cylinder' : 'of'], what)
    seen.add(what)
  }
}

/** What the engine has in place of a cylinder or bank that it has not; undefined where it has it. */
function notThere(
  { of, cylinder, place }: ReviewEntry,
  engine: NonNullable<JobParts['engine']>,
): string | undefined {
  const [, part, number] = /^(cylinder|bank) (\w+)$/i.exec(of === 'cause' ? (place ?? '') : '') ?? []
  const asked = of === 'verdict' ? cylinder : part?.toLowerCase() === 'cylinder' ? Number(number) : undefined
  if (asked !== undefined && !(asked <= engine.cylinders)) return `1 … ${engine.cylinders}`
  const banks = Object.keys(engine.banks ?? {})
  return part?.toLowerCase() === 'bank' && !banks.includes(number!)
    ? banks.map((bank) => `bank ${bank}`).join(' | ') || '–'
    : undefined
}
