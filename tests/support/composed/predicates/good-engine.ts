import { conclusionOf, ODD, verdictsIn, type Predicate } from './predicate.ts'

/** A good engine reads as one: nothing found, no cause named, nothing to do. */
export const goodEngine: Predicate = {
  id: '8 good engine',
  breaches(seen) {
    const { result, truth } = seen
    if (!truth || truth.found.length > 0 || truth.now.length > 0 || truth.mistaken.length > 0) return []
    const { as_found: found, headline, faults, next } = conclusionOf(seen)
    const odd = [...verdictsIn(result, 'before')].filter(([, v]) => ODD.has(v))
    const named = faults.filter(
      (f) => f.cause !== 'other' && (f.standing === 'clear' || f.standing === 'leading'),
    )
    return [
      ...odd.map(([c, v]) => `cylinder ${c} is ${v}`),
      ...(found.class === 'in order' || found.class === 'not known'
        ? []
        : [`a good engine is ${found.class}`]),
      ...(found.class === 'not known' &&
      [...verdictsIn(result, 'before').values()].every((v) => v === 'level')
        ? ['every cylinder is level, and the engine is not known']
        : []),
      ...named.map((f) => `${f.cause} is ${f.standing}`),
      ...(/level|in order|no fault|nothing/i.test(headline.text) ? [] : [`headline "${headline.text}"`]),
      ...(next.id === null || next.id === 'capture-when-it-shows' ? [] : [`next is ${next.id}`]),
    ]
  },
}
