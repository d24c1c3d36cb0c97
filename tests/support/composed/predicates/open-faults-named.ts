import { names } from '../faults.ts'
import { conclusionOf, shownIn, type Predicate } from './predicate.ts'

/**
 * Every fault that is open and shown stands with its kind and place in the headline and on page one. A code
 * alone is said as that code.
 */
export const openFaultsNamed: Predicate = {
  id: '3 open faults named',
  breaches(seen) {
    const { truth, page } = seen
    const { headline, faults, findings } = conclusionOf(seen)
    const unnamed = faults
      .filter((f) => f.status !== 'shown mended' && f.cylinders.length === 1 && f.standing !== 'open')
      .filter((f) =>
        f.explains.some((id) =>
          findings.some((x) => x.id === id && x.kind !== 'code' && x.order === 'out of order'),
        ),
      )
      .filter((f) => !new RegExp(`\\b${f.cylinders[0]}\\b`).test(headline.text))
      .map((f) => `headline does not name cylinder ${f.cylinders[0]} of ${f.cause}: "${headline.text}"`)
    if (!truth) return unnamed
    const stages = truth.work === 'none' ? (['before'] as const) : (['before', 'after'] as const)
    const due = new Set(
      stages
        .flatMap((stage) => shownIn(seen, stage))
        .filter((s) => CARRIES.has(s.by))
        .map((s) => s.fault),
    )
    const missing = (text: string, where: string) =>
      [...due]
        .filter((fault) => !names(text, fault, truth.engine))
        .map(
          (fault) =>
            `${where} does not name the ${fault.kind} of ${fault.cylinders.join(', ')}: "${text.slice(0, 300)}"`,
        )
    return [
      ...unnamed,
      ...missing(headline.text, 'headline'),
      ...(page === undefined ? [] : missing(page, 'page one')),
    ]
  },
}

/** What shows the kind and place of a fault by itself; a trim says that there is one, and no more. */
const CARRIES: ReadonlySet<string> = new Set(['capture', 'compression', 'fuel-pressure'])
