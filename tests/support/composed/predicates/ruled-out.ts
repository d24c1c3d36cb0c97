import type { Predicate } from './predicate.ts'

/** Nothing that is truly the cause is ruled out, unless the technician noted of that very part what is not so. */
export const ruledOut: Predicate = {
  id: '6 ruled out',
  breaches({ result, truth }) {
    const gone = result.ledger.ruled_out
    const unfounded = gone
      .filter((r) => r.by.length > 0 && r.by.every(({ says }) => PATTERNS.test(says.key)))
      .map((r) => `${r.id} by ${r.by.map(({ says }) => says.key).join(', ')}`)
    const founded = unfounded.length === 0 ? [] : [`by what tells of no part: ${unfounded.join('; ')}`]
    if (!truth) return founded
    const faults = [...new Set([...truth.found, ...truth.now])]
    const [words, place] = [(text: string) => text.toLowerCase(), (c: readonly number[]) => c.map(String)]
    const wrong = faults.flatMap((fault) =>
      gone
        .filter((r) => r.id === fault.cause && !truth.mistaken.includes(fault.cause))
        .filter((r) => {
          const named = /(?:cylinder|bank)s? (\d+)/.exec(words(r.name.text))?.[1]
          if (named === undefined) return true
          return words(r.name.text).includes('bank')
            ? truth.engine.banks?.[named]?.includes(fault.cylinders[0]!)
            : place(fault.cylinders).includes(named)
        })
        .map(
          (r) => `${r.name.text} is ruled out, and is so (by ${r.by.map(({ says }) => says.key).join(', ')})`,
        ),
    )
    return [...founded, ...wrong]
  },
}

/** Evidence of what an assumed fault makes unlikely, about no part in particular. */
const PATTERNS = /^evidence\.(burn-|firing-|code-misfire|idle-swings|trim)/
