import type { Result } from '../result.ts'

/** The job's verdict in a few words for its line: the pattern before, and the repair check. */
export function headline(result: Result): string {
  const stage = result.engine.before ? 'before' : 'after'
  const pattern = result.engine[stage]?.pattern ?? 'none'
  const verdicts = [
    ...new Set(
      result.cylinders
        .filter(
          (c) =>
            c.stage === stage &&
            result.engine[stage]?.cylinders.includes(c.cylinder) &&
            c.verdict !== 'not judged',
        )
        .map((c) => c.verdict),
    ),
  ]
  const pooled = (c: Result['cylinders'][number]): boolean =>
    (result.pools ?? []).some((pool) => pool.files.includes(c.capture))
  const spoken = result.cylinders.filter((c) => !pooled(c))
  const unjudged = spoken.filter((c) => c.stage === stage && c.verdict === 'not judged').length
  const odd = verdicts.length
    ? `${verdicts.join(', ')} (${pattern})`
    : unjudged === spoken.length
      ? 'not judged'
      : 'level'
  return `${odd}; ${result.repair.verdict}`
}
